import { describe, expect, it } from 'vitest';
import { bearingBoreTolerance, bearingOutsideTolerance } from '../../parts/stock/bearing-tolerances.js';
import { findBearing } from '../../parts/stock/bearings.js';

/**
 * Boundary dimensions (bore, outside, width) as printed in makers' catalogues (NSK rolling bearings general catalogue;
 * IBB, ZEN, FBJ bearing catalogues), read there: verified.
 */
const OPEN = `
  623 3 10 4      624 4 13 5      625 5 16 5      626 6 19 6      627 7 22 7     628 8 24 8     629 9 26 8
  604 4 12 4      605 5 14 5      606 6 17 6      607 7 19 6      608 8 22 7     609 9 24 7
  634 4 16 5      635 5 19 6
  683 3 7 2       684 4 9 2.5     685 5 11 3      686 6 13 3.5    687 7 14 3.5   688 8 16 4     689 9 17 4
  693 3 8 3       694 4 11 4      695 5 13 4      696 6 15 5      697 7 17 5     698 8 19 6     699 9 20 6
  MR63 3 6 2      MR74 4 7 2      MR84 4 8 2      MR104 4 10 3    MR85 5 8 2     MR95 5 9 2.5   MR105 5 10 3
  MR106 6 10 2.5  MR126 6 12 3    MR117 7 11 2.5  MR137 7 13 3    MR128 8 12 2.5 MR148 8 14 3.5
  6000 10 26 8    6001 12 28 8    6002 15 32 9    6003 17 35 10   6004 20 42 12  6005 25 47 12  6006 30 55 13
  6200 10 30 9    6201 12 32 10   6202 15 35 11   6203 17 40 12   6204 20 47 14  6205 25 52 15  6206 30 62 16
  6800 10 19 5    6801 12 21 5    6802 15 24 5    6803 17 26 5    6804 20 32 7   6805 25 37 7   6806 30 42 7
  6900 10 22 6    6901 12 24 6    6902 15 28 7    6903 17 30 7    6904 20 37 9   6905 25 42 9   6906 30 47 9
  R2 3.175 9.525 3.967    R3 4.763 12.7 3.967      R4 6.35 15.875 4.978     R4A 6.35 19.05 5.558
  R6 9.525 22.225 5.558   R8 12.7 28.575 6.35      R10 15.875 34.925 7.142  R12 19.05 41.275 7.938`;

/** Widths with two shields where they differ from the open one (ZEN catalogue): verified. */
const SHIELDED = `
  683 3  684 4  685 5  686 5  687 5  688 5  689 5  693 4
  MR63 2.5  MR74 2.5  MR84 3  MR104 4  MR85 2.5  MR95 3  MR105 4  MR115 4
  MR106 3  MR126 4  MR117 3  MR137 4  MR128 3.5  MR148 4
  R3 4.978  R4A 7.142  R6 7.142  R8 7.938  R10 8.733  R12 11.113`;

function rows(table: string, columns: number): [string, ...number[]][] {
  const words = table.trim().split(/\s+/);
  return Array.from({ length: words.length / columns }, (_, i) => {
    const [name, ...numbers] = words.slice(i * columns, (i + 1) * columns);
    return [name!, ...numbers.map(Number)];
  });
}

describe('bearing sizes against makers’ catalogues', () => {
  it.each(rows(OPEN, 4))('%s is %d x %d x %d open', (name, bore, outer, width) => {
    const found = findBearing(name);
    expect(found).toMatchObject({
      shielded: false,
      width,
      row: { designation: name, bore, outer, widthOpen: width },
    });
  });

  it('has the shields’ width where it differs, and the open one’s everywhere else', () => {
    const wider = new Map(rows(SHIELDED, 2).map(([name, width]) => [name, width]));
    for (const [name, , , open] of rows(OPEN, 4)) {
      expect([name, findBearing(`${name}ZZ`)?.width]).toEqual([name, wider.get(name) ?? open]);
    }
    expect(findBearing('MR115')).toMatchObject({ shielded: true, width: 4, row: { bore: 5, outer: 11 } });
  });

  it('rounds the inch sizes as the catalogue does: within 4 um of the fraction', () => {
    const fraction = (text: string) =>
      text.split('-').reduce((sum, part) => {
        const [over, under = '1'] = part.split('/');
        return sum + Number(over) / Number(under);
      }, 0);
    for (const name of ['R2', 'R3', 'R4', 'R4A', 'R6', 'R8', 'R10', 'R12']) {
      const { bore, outer, widthOpen, widthShielded, inches } = findBearing(name)!.row;
      const printed = [bore, outer, widthOpen!, widthShielded];
      inches!.forEach((inch, i) => {
        expect(Math.abs(fraction(inch) * 25.4 - printed[i]!), `${name} ${inch}`).toBeLessThan(0.004);
      });
    }
  });
});

describe('bearing tolerances, ISO 492 Normal class', () => {
  // NSK catalogue, Tables 8.2.1 and 8.2.2: verified. um below nominal.
  it.each([
    [6, -8],
    [18, -8],
    [20, -10],
    [30, -10],
    [50, -12],
    [80, -15],
  ])('bore %d mm: 0/%d', (bore, lower) => {
    expect(bearingBoreTolerance(bore)).toEqual({ lower: lower / 1000, upper: 0 });
  });

  it.each([
    [15, -8],
    [22, -9],
    [30, -9],
    [47, -11],
    [62, -13],
    [100, -15],
  ])('outside %d mm: 0/%d', (outside, lower) => {
    expect(bearingOutsideTolerance(outside)).toEqual({ lower: lower / 1000, upper: 0 });
  });

  it('refuses what the tables do not hold', () => {
    expect(() => bearingBoreTolerance(81)).toThrow(/above 0.6 up to 80 mm/);
    expect(() => bearingOutsideTolerance(Number.NaN)).toThrow(RangeError);
  });
});

describe('load ratings', () => {
  // Makers print different ratings; stock keeps the lowest. kN: verified.
  it.each([
    ['608', [3.45, 3.3, 3.293], [1.37, 1.37, 1.379]],
    ['625', [1.14, 1.729], [0.38, 0.675]],
    ['688', [1.61, 1.252], [0.71, 0.592]],
    ['6000', [4.55, 4.75], [1.97, 1.96]],
    ['6200', [5.1, 5.4], [2.39, 2.36]],
    ['MR128', [0.545], [0.274]],
  ])('%s has the lowest of those printed', (name, dynamic, static_) => {
    const { ratings } = findBearing(name)!.row;
    expect(ratings?.dynamic).toBe(Math.min(...dynamic));
    expect(ratings?.static).toBe(Math.min(...static_));
  });
});
