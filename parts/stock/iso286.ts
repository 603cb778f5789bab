/**
 * Limits and fits after ISO 286-1, as far as the tables here go: 0 to 250 mm, IT5 to IT14. Values in the tables are in
 * micrometres: IT grades from the NSK catalogue's appendix table 11, deviations from its appendix tables 9 and 10, both
 * checked against several open tables (verified); results are in mm.
 */

/** mm; deviations of a tolerance zone from the nominal size. */
export interface Limits {
  readonly lower: number;
  readonly upper: number;
}

/** Upper ends (included) of the bands of nominal sizes, mm. */
const BANDS = [3, 6, 10, 18, 30, 50, 80, 120, 180, 250] as const;

/** One column a band. */
const GRADES: Readonly<Record<string, readonly number[]>> = {
  IT5: [4, 5, 6, 8, 9, 11, 13, 15, 18, 20],
  IT6: [6, 8, 9, 11, 13, 16, 19, 22, 25, 29],
  IT7: [10, 12, 15, 18, 21, 25, 30, 35, 40, 46],
  IT8: [14, 18, 22, 27, 33, 39, 46, 54, 63, 72],
  IT9: [25, 30, 36, 43, 52, 62, 74, 87, 100, 115],
  IT10: [40, 48, 58, 70, 84, 100, 120, 140, 160, 185],
  IT11: [60, 75, 90, 110, 130, 160, 190, 220, 250, 290],
  IT12: [100, 120, 150, 180, 210, 250, 300, 350, 400, 460],
  IT13: [140, 180, 220, 270, 330, 390, 460, 540, 630, 720],
  IT14: [250, 300, 360, 430, 520, 620, 740, 870, 1000, 1150],
};

/** Fundamental deviation of shafts: the upper one (es) of f, g, h; the lower one (ei) of k, m, n, p. */
const SHAFTS: Readonly<Record<string, readonly number[]>> = {
  f: [-6, -10, -13, -16, -20, -25, -30, -36, -43, -50],
  g: [-2, -4, -5, -6, -7, -9, -10, -12, -14, -15],
  h: [0, 0, 0, 0, 0, 0, 0, 0, 0, 0],
  k: [0, 1, 1, 1, 2, 2, 2, 3, 3, 4],
  m: [2, 4, 6, 7, 8, 9, 11, 13, 15, 17],
  n: [4, 8, 10, 12, 15, 17, 20, 23, 27, 31],
  p: [6, 12, 15, 18, 22, 26, 32, 37, 43, 50],
};

/** Upper deviation of J7, held from 10 to 120 mm. */
const J7_UPPER: readonly (number | undefined)[] = [
  undefined,
  undefined,
  undefined,
  10,
  12,
  14,
  18,
  22,
  undefined,
  undefined,
];

/** Finest and coarsest grade for which a letter's deviation, or the delta rule for a hole's, is held. */
const GRADE_RANGE: Readonly<Record<string, readonly [number, number]>> = {
  f: [5, 14],
  g: [5, 14],
  h: [5, 14],
  js: [5, 14],
  k: [5, 7],
  m: [5, 14],
  n: [5, 14],
  p: [5, 14],
  F: [5, 14],
  G: [5, 14],
  H: [5, 14],
  JS: [5, 14],
  J: [7, 7],
  K: [6, 8],
  M: [6, 8],
  N: [6, 8],
  P: [6, 7],
};

/**
 * Width of a tolerance grade, mm.
 *
 * @param size nominal size in mm, above 0 up to 250
 * @param grade `IT5` to `IT14`
 * @throws RangeError naming what is held
 */
export function toleranceGrade(size: number, grade: string): number {
  return gradeMicrons(bandOf(size), grade) / 1000;
}

/**
 * Limits of a tolerance zone such as `H7` or `g6`, in mm from the nominal size.
 *
 * Shafts f g h js k m n p; holes F G H JS J K M N P. K, M and N are held to grade 8 and P to grade 7, above 3 mm, by the
 * delta rule; J only as J7 from 10 to 120 mm; k to grade 7.
 *
 * @throws RangeError for what the tables do not hold, naming what they do
 */
export function limits(size: number, zone: string): Limits {
  const band = bandOf(size);
  const [, letter = '', digits = ''] = /^([A-Za-z]{1,2})(\d{1,2})$/.exec(zone) ?? [];
  const range = GRADE_RANGE[letter];
  const grade = Number(digits);
  if (!range || grade < range[0] || grade > range[1]) {
    const held = Object.entries(GRADE_RANGE).map(
      ([name, [from, to]]) => `${name}${from}${from === to ? '' : `-${to}`}`,
    );
    throw new RangeError(`no tolerance zone ${zone}: the tables hold ${held.join(', ')}`);
  }
  const width = gradeMicrons(band, `IT${grade}`);
  return letter === letter.toLowerCase()
    ? shaft(letter, band, width)
    : hole(letter, band, grade, width, size);
}

function shaft(letter: string, band: number, width: number): Limits {
  if (letter === 'js') return zoneFrom(-width / 2, width);
  const deviation = SHAFTS[letter]![band]!;
  return 'fgh'.includes(letter) ? zoneFrom(deviation - width, width) : zoneFrom(deviation, width);
}

function hole(letter: string, band: number, grade: number, width: number, size: number): Limits {
  if (letter === 'JS') return zoneFrom(-width / 2, width);
  if (letter === 'J') {
    const upper = J7_UPPER[band];
    if (upper === undefined)
      throw new RangeError(`no J7 at ${size} mm: the table holds J7 above 10 up to 120 mm`);
    return zoneFrom(upper - width, width);
  }
  // Subtracted, not negated: the hole's deviation mirrors the shaft's, and 0 must not turn into -0.
  const mirrored = 0 - SHAFTS[letter.toLowerCase()]![band]!;
  if ('FGH'.includes(letter)) return zoneFrom(mirrored, width);
  if (band === 0) throw new RangeError(`no ${letter} at ${size} mm: the delta rule holds above 3 mm`);
  const delta = width - gradeMicrons(band, `IT${grade - 1}`);
  return zoneFrom(mirrored + delta - width, width);
}

/** From micrometres to mm. */
function zoneFrom(lower: number, width: number): Limits {
  return { lower: lower / 1000, upper: (lower + width) / 1000 };
}

function gradeMicrons(band: number, grade: string): number {
  const column = GRADES[grade];
  if (!column)
    throw new RangeError(`no tolerance grade ${grade}: the table holds ${Object.keys(GRADES).join(', ')}`);
  return column[band]!;
}

function bandOf(size: number): number {
  const band = size > 0 ? BANDS.findIndex((end) => size <= end) : -1;
  if (band < 0)
    throw new RangeError(`no tolerances at ${size} mm: the tables hold sizes above 0 up to 250 mm`);
  return band;
}
