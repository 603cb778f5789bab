import { describe, expect, it } from 'vitest';
import { bearingBoreTolerance, bearingOutsideTolerance } from '../../parts/stock/bearing-tolerances.js';
import { type Limits, limits, toleranceGrade } from '../../parts/stock/iso286.js';

const micrometres = ({ lower, upper }: Limits) => [
  Math.round(lower * 1e4) / 10,
  Math.round(upper * 1e4) / 10,
];
const clearance = (hole: Limits, shaft: Limits) => [
  Math.round((hole.lower - shaft.upper) * 1000),
  Math.round((hole.upper - shaft.lower) * 1000),
];

describe('tolerance grades against ISO 286-1', () => {
  // ISO 286-1 Table 1 (NSK catalogue, appendix table 11, and open tables): verified. um.
  it.each([
    [2, 'IT7', 10],
    [2, 'IT9', 25],
    [6, 'IT7', 12],
    [10, 'IT14', 360],
    [18, 'IT11', 110],
    [25, 'IT6', 13],
    [25, 'IT7', 21],
    [25, 'IT12', 210],
    [50, 'IT8', 39],
    [80, 'IT7', 30],
    [100, 'IT14', 870],
    [180, 'IT5', 18],
    [250, 'IT13', 720],
  ])('%d mm %s is %d um', (size, grade, width) => {
    expect(toleranceGrade(size, grade)).toBeCloseTo(width / 1000, 9);
  });

  // i = 0.45 D^(1/3) + 0.001 D with the multipliers of ISO 286-1 (from memory). The table is normative; the formula only
  // approximates it, within 11 % above 3 mm.
  it('follows the tolerance unit, which it does not have to equal', () => {
    const bands = [
      [3, 6],
      [6, 10],
      [10, 18],
      [18, 30],
      [30, 50],
      [50, 80],
      [80, 120],
      [120, 180],
      [180, 250],
    ] as const;
    const multiples = {
      IT5: 7,
      IT6: 10,
      IT7: 16,
      IT8: 25,
      IT9: 40,
      IT10: 64,
      IT11: 100,
      IT12: 160,
      IT13: 250,
      IT14: 400,
    };
    for (const [over, upTo] of bands) {
      const mean = Math.sqrt(over * upTo);
      const unit = 0.45 * Math.cbrt(mean) + 0.001 * mean;
      for (const [grade, multiple] of Object.entries(multiples)) {
        const table = toleranceGrade(upTo, grade) * 1000;
        expect(Math.abs(table / (multiple * unit) - 1), `${grade} up to ${upTo} mm`).toBeLessThan(0.11);
      }
    }
  });
});

describe('tolerance zones against the NSK catalogue', () => {
  // Appendix tables 9 and 10: verified. um: upper/lower.
  it.each([
    [15, 'G7', 24, 6],
    [15, 'F7', 34, 16],
    [15, 'F8', 43, 16],
    [15, 'J7', 10, -8],
    [15, 'K7', 6, -12],
    [15, 'M7', 0, -18],
    [15, 'N7', -5, -23],
    [15, 'P7', -11, -29],
    [22, 'G7', 28, 7],
    [22, 'F8', 53, 20],
    [22, 'J7', 12, -9],
    [22, 'K7', 6, -15],
    [22, 'M7', 0, -21],
    [22, 'N7', -7, -28],
    [22, 'P7', -14, -35],
    [40, 'G7', 34, 9],
    [40, 'J7', 14, -11],
    [40, 'K7', 7, -18],
    [40, 'N7', -8, -33],
    [40, 'P7', -17, -42],
    [65, 'F8', 76, 30],
    [65, 'J7', 18, -12],
    [65, 'K7', 9, -21],
    [65, 'M7', 0, -30],
    [65, 'P7', -21, -51],
    [100, 'F7', 71, 36],
    [100, 'J7', 22, -13],
    [100, 'K7', 10, -25],
    [100, 'N7', -10, -45],
    [100, 'P7', -24, -59],
    [22, 'JS7', 10.5, -10.5],
    [22, 'js6', 6.5, -6.5],
    [22, 'k6', 15, 2],
    [22, 'm5', 17, 8],
    [22, 'n6', 28, 15],
    [22, 'p6', 35, 22],
    [22, 'g6', -7, -20],
    [22, 'f7', -20, -41],
    [2, 'k6', 6, 0],
    [200, 'k6', 33, 4],
    [200, 'g6', -15, -44],
  ])('%d mm %s: +%d/%d', (size, zone, upper, lower) => {
    expect(micrometres(limits(size, zone))).toEqual([lower, upper]);
  });
});

describe('worked fits', () => {
  // A web fit tool shows +7/+41; NSK tables: verified.
  it('25 H7/g6 clears by 7 to 41 um', () => {
    expect(clearance(limits(25, 'H7'), limits(25, 'g6'))).toEqual([7, 41]);
  });
  // Metric fit page: verified.
  it('25 H7/h6 clears by 0 to 34 um', () => {
    expect(clearance(limits(25, 'H7'), limits(25, 'h6'))).toEqual([0, 34]);
  });
  // Encyclopedia article on engineering fits: H8/f7 verified; H7/k6 from memory, computed from the tables.
  it('50 H8/f7 clears by 25 to 89 um; 50 H7/k6 lies between 18 of interference and 23 of clearance', () => {
    expect(clearance(limits(50, 'H8'), limits(50, 'f7'))).toEqual([25, 89]);
    expect(clearance(limits(50, 'H7'), limits(50, 'k6'))).toEqual([-18, 23]);
  });
  // Computed from verified tables.
  it('50 H7/p6 interferes by 1 to 42 um', () => {
    expect(clearance(limits(50, 'H7'), limits(50, 'p6'))).toEqual([-42, -1]);
  });
  // NSK fits table, row 18-30 H7: 0/30 (verified); N7 computed.
  it('a bearing of 22 mm clears H7 by 0 to 30 um and lies in N7 between 28 of interference and 2 of clearance', () => {
    expect(clearance(limits(22, 'H7'), bearingOutsideTolerance(22))).toEqual([0, 30]);
    expect(clearance(limits(22, 'N7'), bearingOutsideTolerance(22))).toEqual([-28, 2]);
  });
  // Computed.
  it('an 8 g6 shaft lies in a bearing’s bore between 3 of interference and 14 of clearance', () => {
    expect(clearance(bearingBoreTolerance(8), limits(8, 'g6'))).toEqual([-3, 14]);
  });
});
