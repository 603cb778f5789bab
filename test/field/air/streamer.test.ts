import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { REFERENCE_AIR } from '../../../parts/field/air/atmosphere.js';
import type { AvalanchePath } from '../../../parts/field/air/avalanche.js';
import { DEFAULT_FIT, IONISATION_FITS } from '../../../parts/field/air/ionisation.js';
import {
  type FieldProfile,
  inceptionRange,
  inceptionVoltage,
  streamerIntegral,
} from '../../../parts/field/air/streamer.js';
import { LN_N } from '../../../parts/stock/air.js';
import { gapProfile, plateProfile, sphereProfile } from '../../helpers/two-spheres.js';

const within = (measured: number, expected: number, share: number) =>
  expect(Math.abs(measured / expected - 1), `${measured} against ${expected}`).toBeLessThanOrEqual(share);

const PATHS: readonly AvalanchePath[] = ['from-electrode', 'anywhere-on-line'];
const LIKELY = LN_N.likely.value;
const radius = fc.double({ min: 0.002, max: 0.3, noNaN: true });
const density = fc.double({ min: 0.5, max: 1.2, noNaN: true });

/** The integral for a sphere alone, summed in very small steps of the exact field. */
function exactSphere(r: number, voltage: number): number {
  const steps = 200_000;
  const reach = r * (Math.sqrt(voltage / r / DEFAULT_FIT.criticalField) - 1);
  const alpha = (s: number) => DEFAULT_FIT.alpha((voltage * r) / (r + s) ** 2, 1);
  let sum = 0;
  for (let step = 0; step < steps; step++) sum += alpha(((step + 0.5) * reach) / steps);
  return (sum * reach) / steps;
}

describe('the integral', () => {
  it.each([
    [0.005, 30e3],
    [0.05, 175e3],
    [0.15, 480e3],
  ])('is right to 1e-4 on few points: sphere of %d m at %d V', (r, voltage) => {
    const exact = exactSphere(r, voltage);
    for (const points of [21, 41, 161]) {
      within(streamerIntegral(sphereProfile(r, 2 * r, points), voltage, REFERENCE_AIR), exact, 1e-4);
    }
  });

  it.each(PATHS)('is the coefficient times the gap between plates (%s)', (path) => {
    const exact = DEFAULT_FIT.alpha(3.2e6, 1) * 0.02;
    for (const points of [2, 3, 4, 5, 30]) {
      within(
        streamerIntegral(plateProfile(0.02, points), 64e3, REFERENCE_AIR, DEFAULT_FIT, path),
        exact,
        1e-12,
      );
    }
  });

  it.each(PATHS)('is 0 while attachment wins everywhere (%s)', (path) => {
    expect(streamerIntegral(sphereProfile(0.1), 260e3, REFERENCE_AIR, DEFAULT_FIT, path)).toBe(0);
    expect(streamerIntegral(sphereProfile(0.1), 0, REFERENCE_AIR, DEFAULT_FIT, path)).toBe(0);
  });

  it('does not depend on points that are close here and far apart there', () => {
    const s: number[] = [0];
    for (let step = 1e-4; s[s.length - 1]! < 0.1; step *= 1.25) s.push(s[s.length - 1]! + step);
    const uneven = { s, perVolt: s.map((place) => 0.05 / (0.05 + place) ** 2) };
    within(streamerIntegral(uneven, 175e3, REFERENCE_AIR), exactSphere(0.05, 175e3), 1e-4);
  });

  it('takes typed arrays as it takes lists', () => {
    const { s, perVolt } = sphereProfile(0.05);
    const typed = { s: Float64Array.from(s), perVolt: Float64Array.from(perVolt) };
    expect(streamerIntegral(typed, 175e3, REFERENCE_AIR)).toBe(
      streamerIntegral({ s, perVolt }, 175e3, REFERENCE_AIR),
    );
  });
});

describe('a gap whose middle does not ionise', () => {
  // 10 cm spheres 4.78 cm apart.
  const gap = gapProfile(0.05, 0.0478);
  const near = streamerIntegral(gap, 125e3, REFERENCE_AIR, DEFAULT_FIT, 'from-electrode');
  const whole = streamerIntegral(gap, 125e3, REFERENCE_AIR, DEFAULT_FIT, 'anywhere-on-line');

  it('counts one side from the electrode, and both less the loss between on the line', () => {
    expect(near).toBeGreaterThan(3);
    expect(whole).toBeGreaterThan(near);
    expect(whole).toBeLessThan(2 * near);
    // Losses between: the same field in very small steps.
    const fine = gapProfile(0.05, 0.0478, 20_001);
    const [s, perVolt] = [Array.from(fine.s), Array.from(fine.perVolt)];
    let [sum, best] = [0, 0];
    for (let index = 1; index < s.length; index++) {
      const alpha = DEFAULT_FIT.alpha((125e3 * (perVolt[index]! + perVolt[index - 1]!)) / 2, 1);
      sum = Math.max(0, sum + alpha * (s[index]! - s[index - 1]!));
      best = Math.max(best, sum);
    }
    within(whole, best, 1e-3);
  });

  it('does not let a distant stretch make up for a loss that is greater', () => {
    // Two equal peaks with a valley so long that nothing crosses it.
    const s = Array.from({ length: 401 }, (_, index) => index * 0.005);
    const perVolt = s.map((place) => 10 * (Math.exp(-place / 0.01) + Math.exp((place - 2) / 0.01)) + 0.1);
    const profile = { s, perVolt };
    const one = streamerIntegral(profile, 4e5, REFERENCE_AIR);
    expect(one).toBeGreaterThan(1);
    within(streamerIntegral(profile, 4e5, REFERENCE_AIR, DEFAULT_FIT, 'anywhere-on-line'), one, 1e-6);
  });
});

it('is 0 from an electrode whose own field is too low, but finds the avalanche elsewhere on the line', () => {
  const { s, perVolt } = gapProfile(0.05, 0.1, 161, [1, 0]);
  const length = s[s.length - 1]!;
  const turned: FieldProfile = {
    s: Array.from(s, (place) => length - place).reverse(),
    perVolt: Array.from(perVolt).reverse(),
  };
  const voltage = inceptionVoltage({ s, perVolt }, REFERENCE_AIR, LIKELY, DEFAULT_FIT, 'anywhere-on-line');
  expect(streamerIntegral(turned, 0.9 * voltage, REFERENCE_AIR, DEFAULT_FIT, 'from-electrode')).toBe(0);
  within(inceptionVoltage(turned, REFERENCE_AIR, LIKELY, DEFAULT_FIT, 'anywhere-on-line'), voltage, 1e-6);
});

describe('the inception voltage', () => {
  it.each(IONISATION_FITS.map((fit) => [fit.id, fit] as const))(
    'is where the integral reaches ln N: %s',
    (_, fit) => {
      fc.assert(
        fc.property(
          radius,
          density,
          fc.double({ min: 5, max: 20, noNaN: true }),
          (r, relativeDensity, lnN) => {
            const air = { relativeDensity, vapour: 6 };
            const profile = sphereProfile(r);
            const voltage = inceptionVoltage(profile, air, lnN, fit);
            within(streamerIntegral(profile, voltage, air, fit), lnN, 1e-6);
          },
        ),
        { seed: 21, numRuns: 60 },
      );
    },
  );

  it.each(PATHS)('rises with density, with ln N and with humidity (%s)', (path) => {
    fc.assert(
      fc.property(
        radius,
        density,
        fc.double({ min: 0.1, max: 1.9, noNaN: true }),
        (r, relativeDensity, gap) => {
          const profile = gapProfile(r, gap * r);
          const at = (air: typeof REFERENCE_AIR, lnN = LIKELY) =>
            inceptionVoltage(profile, air, lnN, DEFAULT_FIT, path);
          const air = { relativeDensity, vapour: 2 * relativeDensity };
          const voltage = at(air);
          const denser = relativeDensity * 1.02;
          expect(at({ relativeDensity: denser, vapour: 2 * denser })).toBeGreaterThan(voltage);
          expect(at(air, LIKELY + 1)).toBeGreaterThanOrEqual(voltage * (1 - 1e-9));
          within(at({ ...air, vapour: 12 * relativeDensity }), voltage * (1.007 / 0.987), 1e-9);
        },
      ),
      { seed: 22, numRuns: 60 },
    );
  });

  it.each(PATHS)('the integral never falls as the voltage rises (%s)', (path) => {
    fc.assert(
      fc.property(radius, fc.double({ min: 0.1, max: 4, noNaN: true }), (r, gap) => {
        const profile = gapProfile(r, gap * r);
        const start = 2.2e6 / profile.perVolt[0]!;
        let last = 0;
        for (let voltage = start; voltage < 3 * start; voltage *= 1.02) {
          const sum = streamerIntegral(profile, voltage, REFERENCE_AIR, DEFAULT_FIT, path);
          expect(sum).toBeGreaterThanOrEqual(last);
          last = sum;
        }
      }),
      { seed: 23, numRuns: 30 },
    );
  });

  // Thin air between large electrodes is dense air between small ones.
  it.each(PATHS)('is the same for the same product of density and size (%s)', (path) => {
    fc.assert(
      fc.property(radius, density, (r, relativeDensity) => {
        const air = { relativeDensity, vapour: REFERENCE_AIR.vapour * relativeDensity };
        const size = r / relativeDensity;
        const thin = inceptionVoltage(gapProfile(size, size), air, LIKELY, DEFAULT_FIT, path);
        within(thin, inceptionVoltage(gapProfile(r, r), REFERENCE_AIR, LIKELY, DEFAULT_FIT, path), 1e-9);
      }),
      { seed: 24, numRuns: 40 },
    );
  });

  it('does not change when the profile is refined', () => {
    fc.assert(
      fc.property(radius, (r) => {
        within(
          inceptionVoltage(sphereProfile(r, 2 * r, 21), REFERENCE_AIR),
          inceptionVoltage(sphereProfile(r, 2 * r, 201), REFERENCE_AIR),
          1e-4,
        );
      }),
      { seed: 25, numRuns: 40 },
    );
  });

  it('has the same line from a sphere alone by either path', () => {
    for (const r of [0.005, 0.05, 0.3]) {
      within(
        inceptionVoltage(sphereProfile(r), REFERENCE_AIR, LIKELY, DEFAULT_FIT, 'anywhere-on-line'),
        inceptionVoltage(sphereProfile(r), REFERENCE_AIR),
        1e-10,
      );
    }
  });

  it('gives its range over ln N in order', () => {
    const range = inceptionRange(sphereProfile(0.1), REFERENCE_AIR);
    expect(range.low).toBeLessThan(range.likely);
    expect(range.likely).toBeLessThan(range.high);
    expect(range.low).toBe(inceptionVoltage(sphereProfile(0.1), REFERENCE_AIR, LN_N.low.value));
  });

  it('says when a fit that levels off cannot bring it about', () => {
    const sarma = IONISATION_FITS.find(({ id }) => id === 'sarma-janischewskyj')!;
    expect(() => inceptionVoltage(plateProfile(1e-6), REFERENCE_AIR, LIKELY, sarma)).toThrow(
      /no voltage brings/,
    );
    expect(inceptionVoltage(plateProfile(1e-6), REFERENCE_AIR)).toBeGreaterThan(100);
  });
});

describe('bad input', () => {
  const BAD: readonly [string, FieldProfile, RegExp][] = [
    ['too few points', { s: [0], perVolt: [1] }, /1 points/],
    ['different lengths', { s: [0, 1, 2], perVolt: [1, 1] }, /3 distances and 2 fields/],
    ['a start off the electrode', { s: [0.1, 1], perVolt: [1, 1] }, /starts at 0.1 m/],
    ['a start that is no number', { s: [Number.NaN, 1], perVolt: [1, 1] }, /starts at NaN m/],
    ['distances that do not ascend', { s: [0, 2, 1], perVolt: [1, 1, 1] }, /point 2 .* 1 m/],
    ['a distance twice', { s: [0, 1, 1], perVolt: [1, 1, 1] }, /point 2/],
    ['a distance that is no number', { s: [0, Number.NaN], perVolt: [1, 1] }, /point 1 .* NaN m/],
    ['an endless distance', { s: [0, Number.POSITIVE_INFINITY], perVolt: [1, 1] }, /point 1/],
    ['a field of 0', { s: [0, 1], perVolt: [1, 0] }, /point 1 .* field 0/],
    ['a field below 0', { s: [0, 1], perVolt: [-1, 1] }, /point 0 .* field -1/],
    ['a field that is no number', { s: [0, 1], perVolt: [1, Number.NaN] }, /field NaN/],
    ['an endless field', { s: [0, 1], perVolt: [Number.POSITIVE_INFINITY, 1] }, /field Infinity/],
  ];
  it.each(BAD)('%s', (_, profile, message) => {
    expect(() => inceptionVoltage(profile, REFERENCE_AIR)).toThrow(message);
    expect(() => streamerIntegral(profile, 1e5, REFERENCE_AIR)).toThrow(RangeError);
  });

  const profile = sphereProfile(0.1);
  it.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('a voltage of %d V', (voltage) =>
    expect(() => streamerIntegral(profile, voltage, REFERENCE_AIR)).toThrow(/not a voltage/),
  );
  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('ln N %d', (lnN) =>
    expect(() => inceptionVoltage(profile, REFERENCE_AIR, lnN)).toThrow(/not ln N/),
  );
  it.each([
    [0, 5],
    [Number.NaN, 5],
    [1, -1],
    [1, Number.NaN],
  ])('air of density %d and %d g/m3', (relativeDensity, vapour) =>
    expect(() => inceptionRange(profile, { relativeDensity, vapour })).toThrow(RangeError),
  );
});
