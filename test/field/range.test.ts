import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  measuredOr,
  NOTHING_VARIES,
  propagated,
  type Range,
  rangeOf,
  type Uncertain,
} from '../../parts/field/range.js';

const SEED = 20_261_125;
const input = (low: number, likely: number, high: number, what = 'input'): Uncertain => ({
  range: { low, likely, high },
  what,
});
const three = fc
  .tuple(...[1, 2, 3].map(() => fc.double({ min: 1e-6, max: 1e6, noNaN: true })))
  .map((values) => [...values].sort((a, b) => a - b) as [number, number, number]);

describe('what was measured', () => {
  const table: Range = { low: 1, likely: 2, high: 4 };
  it('replaces the table’s range by a point, inside it or outside', () => {
    expect(measuredOr(table, undefined)).toBe(table);
    expect(measuredOr(table, 3)).toEqual({ low: 3, likely: 3, high: 3 });
    expect(measuredOr(table, 9)).toEqual({ low: 9, likely: 9, high: 9 });
    expect(measuredOr(table, 0)).toEqual({ low: 0, likely: 0, high: 0 });
  });
  it('takes a range from three constants', () =>
    expect(rangeOf({ low: { value: 1 }, likely: { value: 2 }, high: { value: 4 } })).toEqual(table));
});

describe('propagated', () => {
  it('gives one input’s own range', () => {
    const { low, likely, high, dominatedBy } = propagated(
      { x: input(2, 3, 7, 'the only one') },
      ({ x }) => x,
    );
    expect([low, likely, high].map((value) => Number(value.toPrecision(12)))).toEqual([2, 3, 7]);
    expect(dominatedBy).toBe('the only one');
  });

  it('gives a falling function’s range the right way round', () => {
    const { low, likely, high } = propagated({ x: input(2, 4, 5) }, ({ x }) => 20 / x);
    expect(low).toBeCloseTo(4, 12);
    expect(likely).toBe(5);
    expect(high).toBeCloseTo(10, 12);
  });

  // y = x^p z^q: the relative spans (logarithms) add as squares, weighted by the powers.
  it(`is exact for products of powers, seed ${SEED}`, () => {
    const power = fc.double({ min: -3, max: 3, noNaN: true });
    fc.assert(
      fc.property(three, three, power, power, (x, z, p, q) => {
        const result = propagated({ x: input(...x), z: input(...z) }, (at) => at.x ** p * at.z ** q);
        const log = ([low, likely, high]: readonly number[], exponent: number) => {
          const ends = [Math.log(low! / likely!) * exponent, Math.log(high! / likely!) * exponent];
          return { up: Math.max(0, ...ends), down: Math.min(0, ...ends) };
        };
        const [a, b] = [log(x, p), log(z, q)];
        expect(Math.log(result.high / result.likely)).toBeCloseTo(Math.hypot(a.up, b.up), 6);
        expect(Math.log(result.low / result.likely)).toBeCloseTo(-Math.hypot(a.down, b.down), 6);
      }),
      { seed: SEED, numRuns: 200 },
    );
  });

  it('adds differences where a value is not above 0', () => {
    const { low, likely, high } = propagated({ x: input(-3, 0, 4), z: input(-4, 0, 3) }, ({ x, z }) => x + z);
    expect([low, likely, high]).toEqual([-5, 0, 5]);
  });

  it('counts both ends of an input that moves the result one way', () => {
    const { low, likely, high } = propagated({ x: input(-1, 0, 3) }, ({ x }) => 1 + x * x);
    expect(low).toBe(1);
    expect(likely).toBe(1);
    expect(high).toBeCloseTo(10, 12);
  });

  it('names the input with the largest span', () => {
    const dominated = (narrow: number) =>
      propagated(
        { x: input(1, 2, 4, 'wide'), z: input(2 / narrow, 2, 2 * narrow, 'other') },
        ({ x, z }) => x * z,
      ).dominatedBy;
    expect(dominated(1.5)).toBe('wide');
    expect(dominated(2.5)).toBe('other');
    expect(propagated({ x: input(2, 2, 2) }, ({ x }) => x).dominatedBy).toBe(NOTHING_VARIES);
  });

  it(`keeps low <= likely <= high, for any function, seed ${SEED}`, () => {
    const functions = [
      (x: number, z: number) => x + z,
      (x: number, z: number) => x - z,
      (x: number, z: number) => Math.min(x, z),
      (x: number, z: number) => (x * z) / (x + z),
      (x: number, z: number) => Math.sin(x) * z,
      (x: number, z: number) => Math.abs(x - z),
    ];
    fc.assert(
      fc.property(three, three, fc.constantFrom(...functions), (x, z, of) => {
        const { low, likely, high } = propagated({ x: input(...x), z: input(...z) }, (at) => of(at.x, at.z));
        expect(likely).toBe(of(x[1], z[1]));
        expect(low).toBeLessThanOrEqual(likely);
        expect(high).toBeGreaterThanOrEqual(likely);
        expect(Number.isFinite(low) && Number.isFinite(high)).toBe(true);
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  it.each([
    ['not ordered', input(3, 2, 4)],
    ['not a number', input(Number.NaN, 2, 4)],
    ['endless', input(1, 2, Number.POSITIVE_INFINITY)],
  ])('refuses an input that is %s', (_, x) =>
    expect(() => propagated({ x }, (at) => at.x)).toThrow(/x is no range/),
  );

  it('refuses a result that is not finite', () =>
    expect(() => propagated({ x: input(0, 1, 2) }, ({ x }) => 1 / x)).toThrow(/no finite result/));
});
