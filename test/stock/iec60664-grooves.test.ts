import { describe, expect, it } from 'vitest';
import { grooveWidth } from '../../parts/stock/iec60664-grooves.js';

// IEC 60664-1:2020, 6.8, from memory: X by pollution degree, and a third of a clearance below 3 mm.

describe('the width from which on creepage follows a groove', () => {
  it('is 0.25, 1.0 and 1.5 mm at pollution degrees 1, 2 and 3', () => {
    expect(([1, 2, 3] as const).map((degree) => grooveWidth(degree))).toEqual([0.25, 1, 1.5]);
  });
  it('is a third of the clearance where less than 3 mm is asked, and never more than without', () => {
    expect(grooveWidth(2, 1.5)).toBeCloseTo(0.5, 12);
    expect(grooveWidth(3, 2.4)).toBeCloseTo(0.8, 12);
    expect(grooveWidth(1, 2.4)).toBe(0.25);
    expect(grooveWidth(2, 3)).toBe(1);
    for (const degree of [1, 2, 3] as const)
      for (let asked = 0.05; asked < 6; asked += 0.05)
        expect(grooveWidth(degree, asked + 0.05)).toBeGreaterThanOrEqual(grooveWidth(degree, asked));
  });
  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('refuses a clearance of %s', (asked) => {
    expect(() => grooveWidth(2, asked)).toThrow(RangeError);
  });
});
