import { describe, expect, it } from 'vitest';
import { bySize } from '../../parts/stock/by-size.js';
import { FASTENER_SIZES, fastener, nextScrewLength, SCREW_LENGTHS } from '../../parts/stock/fasteners.js';
import { INSERTS } from '../../parts/stock/inserts.js';

describe('screw lengths', () => {
  it.each([
    [0.1, 5],
    [5, 5],
    [5.001, 6],
    [12.4, 16],
    [58, 60],
    [100, 100],
  ])('%d mm at least takes a screw of %d mm', (minimum, length) => {
    expect(nextScrewLength(minimum)).toBe(length);
  });

  it('takes a length that arithmetic left a hair above the screw’s', () => {
    expect(nextScrewLength(0.1 + 0.2 + 5.7)).toBe(6);
  });

  it.each([100.1, 0, -3, Number.NaN, Number.POSITIVE_INFINITY])('has none for %d mm', (minimum) => {
    expect(() => nextScrewLength(minimum)).toThrow(/lengths are 5, 6, 8/);
  });

  it('lists them in order', () => {
    expect(SCREW_LENGTHS.lengths).toEqual(SCREW_LENGTHS.lengths.toSorted((a, b) => a - b));
  });
});

describe('fastener sizes', () => {
  it('grow from each size to the next in everything a seat depends on', () => {
    for (const [i, size] of FASTENER_SIZES.entries()) {
      if (i === 0) continue;
      const [small, large] = [fastener(FASTENER_SIZES[i - 1]!), fastener(size)];
      for (const key of [
        'pitch',
        'headDiameter',
        'headHeight',
        'key',
        'nutFlats',
        'nutHeight',
        'nutCorners',
      ] as const) {
        expect(large[key], `${size} ${key}`).toBeGreaterThan(small[key]);
      }
      expect(large.clearance.fine).toBeGreaterThan(small.clearance.coarse);
    }
  });

  it.each(FASTENER_SIZES)('%s: hole fine < medium < coarse < head and washer', (size) => {
    const { clearance, headDiameter, washer } = fastener(size);
    expect(clearance.fine).toBeGreaterThan(Number(size.slice(1)));
    expect(clearance.medium).toBeGreaterThan(clearance.fine);
    expect(clearance.coarse).toBeGreaterThan(clearance.medium);
    expect(headDiameter).toBeGreaterThan(clearance.coarse);
    expect(washer.outer).toBeGreaterThan(headDiameter);
  });

  it('refuses a size that is not held and names those that are', () => {
    expect(() => bySize(INSERTS, 'M8')).toThrow('no size M8 in stock: there are M2, M2.5, M3, M4, M5, M6');
  });
});
