import { describe, expect, it } from 'vitest';
import { fullScale, ranked } from '../../viewer/panels/ways-scale.js';

const limit = (id: string, low: number, likely: number, high: number) => ({
  id,
  way: id,
  voltage: { low, likely, high },
  dominated_by: '',
});

describe('the ways’ scale', () => {
  it('ranks by the likely voltage, then by the low one', () => {
    const ways = [limit('c', 1, 300, 900), limit('b', 200, 250, 260), limit('a', 100, 250, 400)];
    expect(ranked(ways).map(({ id }) => id)).toEqual(['a', 'b', 'c']);
    expect(ways.map(({ id }) => id)).toEqual(['c', 'b', 'a']);
  });

  it('reaches to the highest, but never so far that the voltage aimed for is lost at one end', () => {
    expect(fullScale([limit('a', 100, 200, 300)], 170)).toBe(300);
    expect(fullScale([limit('a', 100, 120, 140)], 200)).toBe(250);
    expect(fullScale([limit('a', 100, 200, Number.POSITIVE_INFINITY)], 200)).toBe(500);
    expect(fullScale([], 200)).toBe(250);
  });
});
