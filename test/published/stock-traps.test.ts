import { describe, expect, it } from 'vitest';
import { findBearing } from '../../parts/stock/bearings.js';
import { COUNTERSUNK, fastener, SOCKET_CAPS } from '../../parts/stock/fasteners.js';
import { limits, toleranceGrade } from '../../parts/stock/iso286.js';
import { youngsFromShore } from '../../parts/stock/shore.js';

/** Wrong values that circulate in open data, beside the right ones. */
describe('values that are wrong elsewhere', () => {
  // NSK catalogue 15 x 32 x 8; one open library prints 22 mm outside.
  it('16002 is 32 mm outside, not 22', () => {
    expect(findBearing('16002')?.row).toMatchObject({ bore: 15, outer: 32, widthOpen: 8 });
  });
  // NSK, ZEN, IBB; one data sheet page prints 16.
  it('626 is 19 mm outside, not 16', () => {
    expect(findBearing('626')?.row.outer).toBe(19);
  });
  // IBB 6 x 15 x 5; a special 696A is 6 x 16 x 5 and is not in stock under any name.
  it('696 is 15 mm outside, not 16', () => {
    expect(findBearing('696')?.row.outer).toBe(15);
    expect(findBearing('696A')).toBeUndefined();
  });
  // ZEN, IBB, FBJ; an open library gives 4 mm to the 5 x 8.
  it('MR85 is 2 and 2.5 mm wide, MR105 3 and 4', () => {
    expect([findBearing('MR85')?.width, findBearing('MR85ZZ')?.width]).toEqual([2, 2.5]);
    expect([findBearing('MR105')?.width, findBearing('MR105ZZ')?.width]).toEqual([3, 4]);
  });
  // ZEN: 7/32, 1/4, 9/32, 5/16 open and 9/32, 5/16, 11/32, 7/16 in shielded; some print one width for both.
  it('R6, R8, R10, R12 are wider with shields', () => {
    const widths = ['R6', 'R8', 'R10', 'R12'].map((name) => [
      findBearing(name)?.row.inches?.[2],
      findBearing(name)?.row.inches?.[3],
    ]);
    expect(widths).toEqual([
      ['7/32', '9/32'],
      ['1/4', '5/16'],
      ['9/32', '11/32'],
      ['5/16', '7/16'],
    ]);
  });
  // All catalogues; bore code times five starts at code 04.
  it('608 is 8 x 22 x 7, not 40 x 90 x 23', () => {
    expect(findBearing('608')).toMatchObject({ width: 7, row: { bore: 8, outer: 22 } });
  });
  // NSK appendix table 9; one open table prints +37/+24.
  it('p6 at 18 to 30 mm is +35/+22', () => {
    expect(limits(25, 'p6')).toEqual({ lower: 0.022, upper: 0.035 });
  });
  // NSK appendix table 9; some store the upper deviation as the lower.
  it('k6 starts at 0 +1 +1 +1 +2 +2 +2 +3 +3 +4', () => {
    const lowers = [2, 5, 8, 15, 25, 40, 60, 100, 150, 200].map((size) => limits(size, 'k6').lower * 1000);
    expect(lowers).toEqual([0, 1, 1, 1, 2, 2, 2, 3, 3, 4]);
  });
  // NSK; one file prints -9.
  it('g at 18 to 30 mm is -7', () => {
    expect(limits(25, 'g6').upper).toBe(-0.007);
  });
  // NSK appendix table 11; the formula gives 8.7 and 21.7.
  it('IT7 and IT9 up to 3 mm are 10 and 25 um', () => {
    expect([toleranceGrade(3, 'IT7'), toleranceGrade(3, 'IT9')]).toEqual([0.01, 0.025]);
  });
  // ISO 10642; DIN 7991's 1.7 2.3 2.8 3.3 4.4 circulate under its name.
  it('ISO 10642 heads M3 to M8 are 1.86 2.48 3.1 3.72 4.96 high', () => {
    expect(COUNTERSUNK.slice(2).map((row) => row.headHeight)).toEqual([1.86, 2.48, 3.1, 3.72, 4.96]);
  });
  // ISO 7046-1; DIN 965's 7.5 9.2 11 14.5 circulate under its name.
  it('ISO 7046-1 heads M4 to M8 are 9.4 10.4 12.6 17.3 in theory', () => {
    expect(COUNTERSUNK.slice(3).map((row) => row.crossHead)).toEqual([9.4, 10.4, 12.6, 17.3]);
  });
  // ISO 4762: 5.5 plain and 5.68 knurled are both printed as dk max.
  it('a counterbore for M3 clears the knurled head', () => {
    expect(fastener('M3').headDiameter).toBe(5.68);
    expect(SOCKET_CAPS.find((row) => row.size === 'M3')?.headPlain).toBe(5.5);
  });
  // Ruess's relation is base 10; with e it would give 0.97 MPa at 26 Shore A and 1.7 at 50, below Gent.
  it('a 50 Shore A rubber is softer than 3.43 MPa and stiffer than the wrong base would have it', () => {
    const wrong = Math.exp(0.0235 * 50 - 0.6403);
    expect(wrong).toBeLessThan(youngsFromShore(50));
    expect(youngsFromShore(50)).toBeLessThan(10 ** (0.0235 * 50 - 0.6403));
  });
});
