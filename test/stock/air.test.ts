import { describe, expect, it } from 'vitest';
import { COLUMN_GRADIENT, pressureAt, relativeDensity, STREAMER_GRADIENT } from '../../parts/stock/air.js';

describe('air', () => {
  it.each([
    [0, 20],
    [-1, 20],
    [Number.NaN, 20],
    [Number.POSITIVE_INFINITY, 20],
    [101.3, -273],
    [101.3, Number.NaN],
  ])('refuses %d kPa at %d C', (pressure, temperature) => {
    expect(() => relativeDensity(pressure, temperature)).toThrow(RangeError);
  });

  it.each([-501, 11001, Number.NaN])('has no standard pressure at %d m', (altitude) => {
    expect(() => pressureAt(altitude)).toThrow(/-500 to 11000 m/);
  });

  it('has its gradients in order', () => {
    const { low, likely, high } = COLUMN_GRADIENT;
    expect(low.value).toBeLessThan(likely.value);
    expect(likely.value).toBeLessThan(high.value);
    const { positive, negative } = STREAMER_GRADIENT;
    expect(positive.low.value).toBeLessThan(positive.high.value);
    expect(positive.high.value).toBeLessThan(negative.low.value);
    expect(negative.low.value).toBeLessThan(negative.high.value);
  });
});
