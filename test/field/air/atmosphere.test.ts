import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  airOf,
  inceptionHumidityFactor,
  REFERENCE_AIR,
  saturationPressure,
  streamerHumidityFactor,
  vapourIn,
} from '../../../parts/field/air/atmosphere.js';

describe('vapour', () => {
  // Steam tables (from memory), where the formula is good to half a percent: 611.2 Pa at 0 C, 2339 Pa at 20 C, 4247 Pa at 30 C.
  it.each([
    [0, 611.2],
    [20, 2339],
    [30, 4247],
  ])('saturates at %d C with %d Pa', (temperature, pressure) =>
    expect(Math.abs(saturationPressure(temperature) / pressure - 1)).toBeLessThan(0.005),
  );

  // A table of an instrument maker's handbook (from memory): 17.3 g/m3 at 20 C, 4.85 at 0 C, 30.4 at 30 C when saturated.
  it.each([
    [20, 100, 17.3],
    [0, 100, 4.85],
    [30, 100, 30.4],
    [20, 50, 8.65],
    [20, 0, 0],
  ])('at %d C and %d percent: %d g/m3', (temperature, humidity, vapour) =>
    expect(Math.abs(vapourIn(temperature, humidity) - vapour)).toBeLessThanOrEqual(0.005 * vapour),
  );

  it('rises with temperature and humidity', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -45, max: 59, noNaN: true }),
        fc.double({ min: 0, max: 99, noNaN: true }),
        (temperature, humidity) => {
          expect(vapourIn(temperature, humidity + 1)).toBeGreaterThan(vapourIn(temperature, humidity));
          expect(vapourIn(temperature + 1, humidity + 1)).toBeGreaterThan(
            vapourIn(temperature, humidity + 1),
          );
        },
      ),
      { seed: 31 },
    );
  });

  it.each([-46, 61, Number.NaN])('is not known at %d C', (temperature) =>
    expect(() => vapourIn(temperature, 50)).toThrow(/-45 to 60 C/),
  );
  it.each([-1, 101, Number.NaN])('refuses %d percent', (humidity) =>
    expect(() => vapourIn(20, humidity)).toThrow(/relative humidity/),
  );
});

describe('air of a site', () => {
  it('has the site’s density and vapour', () => {
    const air = airOf({ relativeDensity: 0.9, temperature: 25, humidity: 40 });
    expect(air).toEqual({ relativeDensity: 0.9, vapour: vapourIn(25, 40) });
  });
  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('refuses a density of %d', (relativeDensity) =>
    expect(() => airOf({ relativeDensity, temperature: 20, humidity: 45 })).toThrow(/relative air density/),
  );
});

describe('humidity factors', () => {
  // IEC 60060-1, d.c. (from memory), values computed.
  it.each([
    [2, 0.85618],
    [5, 0.90808],
    [8.5, 0.96362],
    [11, 1],
    [15, 1.05248],
  ])('streamers at h/d %d: %d', (vapour, factor) => {
    expect(streamerHumidityFactor({ relativeDensity: 1, vapour })).toBeCloseTo(factor, 4);
    expect(streamerHumidityFactor({ relativeDensity: 0.8, vapour: 0.8 * vapour })).toBeCloseTo(factor, 4);
  });

  // IEC 60052:2002 (from memory): 0.2 % for each g/m3 from 8.5.
  it.each([
    [1, 0.985],
    [8.5, 1],
    [13.5, 1.01],
    [15, 1.013],
  ])('inception at h/d %d: %d', (vapour, factor) =>
    expect(inceptionHumidityFactor({ relativeDensity: 1, vapour })).toBeCloseTo(factor, 12),
  );

  it('is 1 in the reference air', () => expect(inceptionHumidityFactor(REFERENCE_AIR)).toBe(1));

  it('holds the ends outside 1 to 15', () => {
    for (const factor of [inceptionHumidityFactor, streamerHumidityFactor]) {
      expect(factor({ relativeDensity: 1, vapour: 0 })).toBe(factor({ relativeDensity: 1, vapour: 1 }));
      expect(factor({ relativeDensity: 1, vapour: 40 })).toBe(factor({ relativeDensity: 1, vapour: 15 }));
    }
  });

  it.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('refuse %d g/m3', (vapour) => {
    expect(() => inceptionHumidityFactor({ relativeDensity: 1, vapour })).toThrow(/water vapour/);
    expect(() => streamerHumidityFactor({ relativeDensity: 1, vapour })).toThrow(/water vapour/);
  });
});
