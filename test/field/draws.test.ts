import { describe, expect, it } from 'vitest';
import { drawFrom, rangeOfDraws } from '../../parts/field/draws.js';
import { NOTHING_VARIES } from '../../parts/field/range.js';

const input = (low: number, likely: number, high: number, what = 'it') => ({
  range: { low, likely, high },
  what,
});

describe('draws', () => {
  it('stay within their ranges, half of them on either side of likely, and are always the same', () => {
    const inputs = { a: input(1, 2, 8), b: input(0, 0.5, 1), c: input(-3, -1, 0) };
    const { values } = drawFrom(inputs, 400);
    for (const [name, { range }] of Object.entries(inputs)) {
      const all = values.map((value) => value[name as 'a']);
      expect(Math.min(...all)).toBeGreaterThanOrEqual(range.low);
      expect(Math.max(...all)).toBeLessThanOrEqual(range.high);
      const below = all.filter((value) => value < range.likely).length / all.length;
      expect(below).toBeCloseTo(0.5, 1.5);
    }
    expect(drawFrom(inputs, 400).values).toEqual(values);
  });

  it('of independent inputs do not go along with each other', () => {
    const names = Array.from({ length: 14 }, (_, i) => `x${i}`);
    const { places } = drawFrom(Object.fromEntries(names.map((name) => [name, input(0, 0.5, 1)])), 256);
    for (const [i, a] of names.entries()) {
      for (const b of names.slice(i + 1)) {
        const r =
          (12 * places[a]!.reduce((sum, u, k) => sum + (u - 0.5) * (places[b]![k]! - 0.5), 0)) /
          places[a]!.length;
        expect(Math.abs(r), `${a} ${b}`).toBeLessThan(0.25);
      }
    }
  });
});

describe('what follows from them', () => {
  it('is the input’s own range, less the tails, for one input', () => {
    const draws = drawFrom({ a: input(10, 20, 40, 'a') }, 1000);
    const { low, likely, high, dominatedBy } = rangeOfDraws(
      draws,
      draws.values.map(({ a }) => a),
    );
    // 2.5 of 100 lie below: 20 (1/2)^0.95, above: 20 2^0.95.
    expect(low).toBeCloseTo(20 * 0.5 ** 0.95, 1);
    expect(likely).toBeCloseTo(20, 0.5);
    expect(high).toBeCloseTo(20 * 2 ** 0.95, 0.5);
    expect(dominatedBy).toBe('a');
  });

  // The least of n independent even draws from 0 to 1 lies below x with 1 - (1 - x)^n: its middle is 1 - 0.5^(1/n).
  it('is lower for the least of several than for each', () => {
    const names = ['a', 'b', 'c', 'd'] as const;
    const inputs = Object.fromEntries(names.map((name) => [name, input(0, 0.5, 1)]));
    const draws = drawFrom(inputs, 2000);
    const { likely } = rangeOfDraws(
      draws,
      draws.values.map((value) => Math.min(...names.map((name) => value[name]!))),
    );
    expect(likely).toBeCloseTo(1 - 0.5 ** (1 / 4), 1.5);
  });

  it('says when nothing varies, and refuses what is no number', () => {
    const draws = drawFrom({ a: input(3, 3, 3) }, 10);
    expect(
      rangeOfDraws(
        draws,
        draws.values.map(({ a }) => a),
      ).dominatedBy,
    ).toBe(NOTHING_VARIES);
    expect(() =>
      rangeOfDraws(
        draws,
        draws.values.map(() => Number.NaN),
      ),
    ).toThrow(RangeError);
  });
});
