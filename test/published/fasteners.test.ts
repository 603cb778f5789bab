import { describe, expect, it } from 'vitest';
import { CLEARANCE_HOLES, COUNTERSUNK, fastener, NUTS, SOCKET_CAPS } from '../../parts/stock/fasteners.js';
import { INSERTS, insert } from '../../parts/stock/inserts.js';

describe('fasteners against the standards’ tables', () => {
  // ISO 4762 in two open fastener tables that agree: P, dk plain, dk knurled, k, s: verified. mm.
  it.each([
    ['M2', 0.4, 3.8, 3.98, 2, 1.5],
    ['M2.5', 0.45, 4.5, 4.68, 2.5, 2],
    ['M3', 0.5, 5.5, 5.68, 3, 2.5],
    ['M4', 0.7, 7, 7.22, 4, 3],
    ['M5', 0.8, 8.5, 8.72, 5, 4],
    ['M6', 1, 10, 10.22, 6, 5],
    ['M8', 1.25, 13, 13.27, 8, 6],
  ])('%s cap screw', (size, pitch, headPlain, headKnurled, headHeight, key) => {
    const row = SOCKET_CAPS.find((each) => each.size === size);
    expect(row).toMatchObject({ pitch, headPlain, headKnurled, headHeight, key });
  });

  // ISO 4032, 4035, 7089 in the same tables: s, m, thin m, washer: verified. Ideal corners s / cos 30: computed.
  it.each([
    ['M2', 4, 1.6, 1.2, 2.2, 5, 0.35, 4.619],
    ['M2.5', 5, 2, 1.6, 2.7, 6, 0.55, 5.774],
    ['M3', 5.5, 2.4, 1.8, 3.2, 7, 0.55, 6.351],
    ['M4', 7, 3.2, 2.2, 4.3, 9, 0.9, 8.083],
    ['M5', 8, 4.7, 2.7, 5.3, 10, 1.1, 9.238],
    ['M6', 10, 5.2, 3.2, 6.4, 12, 1.8, 11.547],
    ['M8', 13, 6.8, 4, 8.4, 16, 1.8, 15.011],
  ] as const)('%s nut and washer', (size, flats, height, thin, inner, outer, thickness, corners) => {
    const seat = fastener(size);
    expect(seat).toMatchObject({ nutFlats: flats, nutHeight: height, thinNutHeight: thin });
    expect(seat.washer).toEqual({ inner, outer, thickness });
    expect(seat.nutCorners).toBeCloseTo(corners, 3);
  });

  // ISO 4032 e min: 4.32 5.45 6.01 7.66 8.79 11.05 14.38, from memory; the open tables round them up.
  it('has nuts whose corners are rounded: smaller than the ideal hexagon, not below the standard', () => {
    const least = [4.32, 5.45, 6.01, 7.66, 8.79, 11.05, 14.38];
    NUTS.forEach((nut, i) => {
      expect(nut.cornersMin).toBeGreaterThanOrEqual(least[i]!);
      expect(nut.cornersMin).toBeLessThan(fastener(nut.size).nutCorners);
    });
  });

  // ISO 10642 dk theoretical, countersink, k max, s; ISO 7046-1 dk theoretical, k max. Open fastener table: verified.
  it.each([
    ['M3', 6.72, 6, 1.86, 2, 6.3, 1.65],
    ['M4', 8.96, 8, 2.48, 2.5, 9.4, 2.7],
    ['M5', 11.2, 10, 3.1, 3, 10.4, 2.7],
    ['M6', 13.44, 12, 3.72, 4, 12.6, 3.3],
    ['M8', 17.92, 16, 4.96, 5, 17.3, 4.65],
  ])('%s countersunk', (size, head, countersink, headHeight, key, crossHead, crossHeadHeight) => {
    const row = COUNTERSUNK.find((each) => each.size === size);
    expect(row).toMatchObject({ head, countersink, headHeight, key, crossHead, crossHeadHeight });
  });

  // ISO 273, fine / medium / coarse, open fastener table: verified.
  it('has the clearance holes of ISO 273', () => {
    const printed = CLEARANCE_HOLES.map((row) => `${row.size} ${row.fine}/${row.medium}/${row.coarse}`).join(
      ' - ',
    );
    expect(printed).toBe(
      'M2 2.2/2.4/2.6 - M2.5 2.7/2.9/3.1 - M3 3.2/3.4/3.6 - M4 4.3/4.5/4.8 - M5 5.3/5.5/5.8 - M6 6.4/6.6/7 - ' +
        'M8 8.4/9/10 - M10 10.5/11/12',
    );
  });

  // Fastener dealer's chart and open insert table: outside, hole: verified.
  it.each([
    ['M3', 4.4, 4],
    ['M4', 6.1, 5.6],
    ['M5', 7.1, 6.4],
    ['M6', 8.5, 8],
  ] as const)('%s insert: %d outside, %d hole, boss twice the outside', (size, outer, hole) => {
    expect(insert(size)).toMatchObject({ outerDiameter: outer, hole, boss: 2 * outer });
  });

  it('never asks for a hole as large as the insert', () => {
    for (const row of INSERTS) expect(row.hole).toBeLessThan(row.outerDiameter);
  });
});
