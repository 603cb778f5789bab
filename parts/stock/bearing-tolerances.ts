import type { Limits } from './iso286.js';

/**
 * Deviations of a rolling bearing's mean bore and outside diameter, Normal class of ISO 492 (NSK catalogue, Tables
 * 8.2.1 and 8.2.2; verified). Both lie below nominal. Nominal sizes in mm above `over` up to `upTo`; deviation in um.
 */
const BORE = [
  { over: 0.6, upTo: 18, lower: -8 },
  { over: 18, upTo: 30, lower: -10 },
  { over: 30, upTo: 50, lower: -12 },
  { over: 50, upTo: 80, lower: -15 },
];
const OUTSIDE = [
  { over: 2.5, upTo: 18, lower: -8 },
  { over: 18, upTo: 30, lower: -9 },
  { over: 30, upTo: 50, lower: -11 },
  { over: 50, upTo: 80, lower: -13 },
  { over: 80, upTo: 120, lower: -15 },
];

/**
 * @param bore nominal, mm, 0.6 to 80
 * @returns mm
 * @throws RangeError outside the table
 */
export function bearingBoreTolerance(bore: number): Limits {
  return limitsFrom(BORE, bore, 'bore');
}

/**
 * @param outside nominal, mm, 2.5 to 120
 * @returns mm
 * @throws RangeError outside the table
 */
export function bearingOutsideTolerance(outside: number): Limits {
  return limitsFrom(OUTSIDE, outside, 'outside diameter');
}

function limitsFrom(rows: typeof BORE, size: number, of: string): Limits {
  const row = rows.find((each) => size > each.over && size <= each.upTo);
  if (!row) {
    const ends = `above ${rows[0]!.over} up to ${rows.at(-1)!.upTo}`;
    throw new RangeError(`no tolerance for a bearing ${of} of ${size} mm: the table holds ${ends} mm`);
  }
  return { lower: row.lower / 1000, upper: 0 };
}
