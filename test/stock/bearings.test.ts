import { describe, expect, it } from 'vitest';
import { BEARING_NAMES, BEARINGS, findBearing } from '../../parts/stock/bearings.js';
import { SHOULDERS, shoulderFor } from '../../parts/stock/shoulders.js';

describe('finding a bearing by the name on its box', () => {
  it.each([
    ['696', '696', false, 5],
    ['696zz', '696', true, 5],
    ['696-2Z', '696', true, 5],
    ['696 2RS', '696', true, 5],
    ['619/6', '696', false, 5],
    ['61800-2Z', '6800', true, 5],
    ['61900', '6900', false, 6],
    ['688', '688', false, 4],
    ['688ZZ', '688', true, 5],
    ['R4A', 'R4A', false, 5.558],
    ['r4azz', 'R4A', true, 7.142],
    ['R4A shielded', 'R4A', true, 7.142],
    ['R4', 'R4', false, 4.978],
    ['608 open', '608', false, 7],
    ['mr115', 'MR115', true, 4],
    ['MR115ZZ', 'MR115', true, 4],
  ])('%s is %s, shielded %s, %d wide', (name, designation, shielded, width) => {
    expect(findBearing(name)).toMatchObject({ shielded, width, row: { designation } });
  });

  it.each(['', 'ZZ', '696X', '69', '6966', 'R5', 'MR115 open', '608ZZZ'])('does not know %j', (name) => {
    expect(findBearing(name)).toBeUndefined();
  });
});

describe('every bearing in stock', () => {
  it('stands once in the table', () => {
    expect(new Set(BEARING_NAMES).size).toBe(BEARING_NAMES.length);
  });

  it.each(BEARINGS.map((row) => [row.designation, row] as const))('%s is a possible bearing', (_, row) => {
    expect(row.bore).toBeGreaterThan(0);
    expect(row.outer).toBeGreaterThan(row.bore + 4 * row.chamfer);
    expect(row.widthShielded).toBeGreaterThanOrEqual(row.widthOpen ?? 0);
    expect(row.chamferLargest ?? row.chamfer).toBeGreaterThanOrEqual(row.chamfer);
    expect(row.source).not.toBe('');
  });

  it.each(BEARINGS.map((row) => [row.designation, row] as const))(
    '%s has room for both shoulders',
    (_, row) => {
      const shoulder = shoulderFor(row);
      expect(shoulder.innerShoulderMin).toBeGreaterThan(row.bore);
      expect(shoulder.innerShoulderMax).toBeGreaterThan(shoulder.innerShoulderMin);
      expect(shoulder.outerShoulderBoreMax).toBeGreaterThan(shoulder.outerShoulderBoreMin);
      expect(shoulder.outerShoulderBoreMax).toBeLessThan(row.outer);
      expect(shoulder.filletMax).toBeLessThanOrEqual(row.chamfer);
    },
  );
});

describe('shoulders without a published abutment', () => {
  it('takes the height of the largest chamfer that makers print, and the fillet of the smallest', () => {
    // MR104: chamfers of 0.15 and 0.2 are printed.
    const shoulder = shoulderFor(findBearing('MR104')!.row);
    expect(shoulder.outerShoulderBoreMax).toBeCloseTo(10 - 2 * 0.8, 9);
    expect(shoulder.filletMax).toBe(0.15);
    expect(shoulder.status).toBe('common-practice');
    expect(shoulder.basis).toMatch(/no published abutment of MR104/);
  });

  it('takes the next larger row for a chamfer that the table lacks, and says so', () => {
    const shoulder = shoulderFor(findBearing('R4A')!.row);
    expect(shoulder.outerShoulderBoreMax).toBeCloseTo(19.05 - 2 * 2, 9);
    expect(shoulder.filletMax).toBe(0.3);
    expect(shoulder.basis).toMatch(/chamfer 0.4 mm, taken from the next larger row 0.6 mm/);
  });

  it('estimates a land that no published one reaches', () => {
    for (const row of BEARINGS) {
      if (!row.abutment) continue;
      const { abutment, ...estimated } = row;
      const guess = shoulderFor(estimated);
      const published = shoulderFor(row);
      expect(guess.outerShoulderBoreMin, row.designation).toBeGreaterThanOrEqual(
        published.outerShoulderBoreMin,
      );
      expect(guess.innerShoulderMax, row.designation).toBeLessThanOrEqual(published.innerShoulderMax);
    }
  });

  it('refuses a chamfer beyond the table', () => {
    const { abutment, ...row } = findBearing('608')!.row;
    expect(() => shoulderFor({ ...row, chamfer: 2 })).toThrow(/0.05 to 1.5 mm/);
  });

  it('asks for higher shoulders the larger the chamfer', () => {
    const heights = SHOULDERS.map((row) => row.height);
    expect(heights).toEqual(heights.toSorted((a, b) => a - b));
    for (const row of SHOULDERS) expect(row.height).toBeGreaterThan(row.chamferMaxRadial);
  });
});
