import { describe, expect, it } from 'vitest';
import { findBearing } from '../../parts/stock/bearings.js';
import { SHOULDERS, shoulderFor } from '../../parts/stock/shoulders.js';

describe('shoulders against catalogues', () => {
  // NSK rolling bearings general catalogue, Tables 8.9.1 and 11.2: r_s min, r max radial, axial, r_a max, h: verified.
  it.each([
    [0.1, 0.2, 0.4, 0.1, 0.4],
    [0.15, 0.3, 0.6, 0.15, 0.6],
    [0.2, 0.5, 0.8, 0.2, 0.8],
    [0.3, 0.6, 1.0, 0.3, 1.0],
    [0.6, 1.0, 2.0, 0.6, 2.0],
    [1.0, 1.5, 3.0, 1.0, 2.5],
    [1.1, 2.0, 3.5, 1.0, 3.25],
  ])(
    'chamfer %d: up to %d radially and %d axially, fillet %d, height %d',
    (chamfer, radial, axial, fillet, height) => {
      const row = SHOULDERS.find((each) => each.chamfer === chamfer);
      expect(row).toMatchObject({
        chamferMaxRadial: radial,
        chamferMaxAxial: axial,
        filletMax: fillet,
        height,
      });
    },
  );

  // Open bearing table with a maker's columns (da min, Da max): verified.
  it.each([
    ['623', 4.2, 8.8],
    ['624', 5.8, 11.2],
    ['625', 7.4, 13.6],
    ['626', 8.4, 16.6],
    ['607', 9, 17],
    ['608', 10, 20],
    ['609', 11, 22],
    ['629', 11.4, 23.6],
    ['6800', 12, 17],
    ['6900', 12, 20],
    ['6000', 12, 24],
    ['6200', 14.2, 25.8],
  ])('%s: shaft shoulder from %d, housing shoulder up to %d mm', (name, inner, outer) => {
    const shoulder = shoulderFor(findBearing(name)!.row);
    expect([shoulder.innerShoulderMin, shoulder.outerShoulderBoreMax]).toEqual([inner, outer]);
    expect(shoulder.status).toBe('verified');
  });

  it('makes both shoulders of a 608 the 1.0 mm high that the table asks for a chamfer of 0.3', () => {
    const { row } = findBearing('608')!;
    const shoulder = shoulderFor(row);
    expect((shoulder.innerShoulderMin - row.bore) / 2).toBeCloseTo(1.0, 9);
    expect((row.outer - shoulder.outerShoulderBoreMax) / 2).toBeCloseTo(1.0, 9);
  });

  // Miniature-bearing maker's design page: more than 0.25 mm to the other ring's land (608: inner land 12.1 mm): verified.
  it('keeps a housing shoulder for a 608 0.25 mm off the inner ring', () => {
    expect(shoulderFor(findBearing('608')!.row).outerShoulderBoreMin).toBeCloseTo(12.6, 9);
  });
});
