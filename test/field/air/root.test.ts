import fc from 'fast-check';
import { expect, it } from 'vitest';
import { rootBetween } from '../../../parts/field/air/root.js';

it('finds roots of rising functions', () => {
  fc.assert(
    fc.property(fc.double({ min: 0.01, max: 9.9, noNaN: true }), (root) => {
      expect(rootBetween((x) => x ** 3 - root ** 3, 0, 10) / root).toBeCloseTo(1, 11);
      expect(rootBetween((x) => Math.exp(3 * x) - Math.exp(3 * root), 0, 10) / root).toBeCloseTo(1, 10);
    }),
    { seed: 3 },
  );
});

it('finds the place of a jump over 0, on the side that is not below', () => {
  const jump = (x: number) => (x < Math.PI ? -1e-9 : 40);
  const place = rootBetween(jump, 1, 100);
  expect(place).toBeCloseTo(Math.PI, 9);
  expect(jump(place)).toBe(40);
});

it('takes the end where the function is just 0', () => expect(rootBetween((x) => x - 2, 1, 2)).toBe(2));

it.each([
  [2, 1],
  [0, 0],
  [3, 4],
  [0, Number.NaN],
])('refuses ends without a root between: %d and %d', (low, high) => {
  expect(() => rootBetween((x) => x - 1.5, low, high)).toThrow(RangeError);
});
