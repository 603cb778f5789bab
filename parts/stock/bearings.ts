import { ABUTMENTS, type Abutment } from './abutments.js';
import { LOAD_RATINGS, type LoadRatings } from './bearing-ratings.js';
import type { Sourced, Status } from './row.js';

/** One deep-groove ball bearing. Lengths in mm. */
export interface BearingRow extends Sourced {
  readonly designation: string;
  readonly bore: number;
  readonly outer: number;
  /** Width of the open bearing; undefined where only shielded ones are made. */
  readonly widthOpen: number | undefined;
  /** Width with two shields; often larger than the open one. */
  readonly widthShielded: number;
  /** Smallest chamfer that makers print (r_s min): what a fillet beside the bearing has to stay under. */
  readonly chamfer: number;
  /** Largest r_s min that makers print, where they differ: what a shoulder's height follows. */
  readonly chamferLargest?: number;
  /** Status of the chamfer where it differs from that of the row. */
  readonly chamferStatus?: Status;
  /** Inch sizes as printed: bore, outside, open width, shielded width. */
  readonly inches?: readonly [bore: string, outer: string, widthOpen: string, widthShielded: string];
  readonly abutment?: Abutment;
  readonly ratings?: LoadRatings;
}

const NSK = 'NSK rolling bearings general catalogue, bearing tables';
const IBB = 'IBB bearing catalogue';
const ZEN = 'ZEN bearing catalogue';
const FBJ = 'FBJ bearing catalogue';
const NTN = 'NTN catalogue page';
const JIS = 'open copy of a JIS bearing table';
const OPEN = "open bearing table with the columns of a maker's catalogue";

type Chamfers = Pick<BearingRow, 'chamferLargest' | 'chamferStatus'>;

function known(designation: string): Pick<BearingRow, 'abutment' | 'ratings'> {
  const abutment = ABUTMENTS[designation];
  const ratings = LOAD_RATINGS[designation];
  return { ...(abutment && { abutment }), ...(ratings && { ratings }) };
}

function metric(
  designation: string,
  bore: number,
  outer: number,
  widthOpen: number | undefined,
  widthShielded: number,
  chamfer: number,
  sources: readonly string[],
  chamfers: Chamfers = {},
): BearingRow {
  const sizes = { designation, bore, outer, widthOpen, widthShielded, chamfer, ...chamfers };
  return { ...sizes, source: sources.join('; '), status: 'verified', ...known(designation) };
}

/** Millimetres as the catalogue rounds them; the chamfers are believed to be those of ABMA 12.2, not confirmed. */
function inch(
  designation: string,
  [bore, outer, widthOpen, widthShielded]: readonly [number, number, number, number],
  inches: readonly [string, string, string, string],
  chamfer: number,
  sources: readonly string[],
): BearingRow {
  const sizes = { designation, bore, outer, widthOpen, widthShielded, chamfer, inches };
  return {
    ...sizes,
    chamferStatus: 'from-memory',
    source: sources.join('; '),
    status: 'verified',
    ...known(designation),
  };
}

/** Designation, bore, outside, open width, shielded width, chamfer. */
export const BEARINGS: readonly BearingRow[] = [
  metric('623', 3, 10, 4, 4, 0.15, [NSK, IBB, ZEN, OPEN]),
  metric('624', 4, 13, 5, 5, 0.2, [NSK, IBB, ZEN, OPEN]),
  metric('625', 5, 16, 5, 5, 0.3, [IBB, ZEN, OPEN]),
  metric('626', 6, 19, 6, 6, 0.3, [IBB, ZEN, OPEN]),
  metric('627', 7, 22, 7, 7, 0.3, [IBB, ZEN, OPEN]),
  metric('628', 8, 24, 8, 8, 0.3, [IBB, ZEN, OPEN]),
  metric('629', 9, 26, 8, 8, 0.3, [OPEN, IBB, ZEN]),
  metric('604', 4, 12, 4, 4, 0.2, [NSK, IBB, OPEN]),
  metric('605', 5, 14, 5, 5, 0.2, [IBB, ZEN]),
  metric('606', 6, 17, 6, 6, 0.3, [IBB, ZEN]),
  metric('607', 7, 19, 6, 6, 0.3, [NSK, IBB, OPEN]),
  metric('608', 8, 22, 7, 7, 0.3, [NSK, IBB, ZEN, OPEN]),
  metric('609', 9, 24, 7, 7, 0.3, [IBB, ZEN, OPEN]),
  metric('634', 4, 16, 5, 5, 0.3, [NSK, IBB, OPEN]),
  metric('635', 5, 19, 6, 6, 0.3, [IBB, ZEN, OPEN]),
  metric('683', 3, 7, 2, 3, 0.1, [NSK, IBB, ZEN]),
  metric('684', 4, 9, 2.5, 4, 0.1, [NSK, IBB, ZEN], { chamferLargest: 0.15 }),
  metric('685', 5, 11, 3, 5, 0.15, [IBB, ZEN]),
  metric('686', 6, 13, 3.5, 5, 0.15, [IBB, ZEN]),
  metric('687', 7, 14, 3.5, 5, 0.15, [NSK, IBB, ZEN]),
  metric('688', 8, 16, 4, 5, 0.2, [NSK, IBB, ZEN]),
  metric('689', 9, 17, 4, 5, 0.2, [NSK, IBB, ZEN]),
  metric('693', 3, 8, 3, 4, 0.15, [NSK, IBB, ZEN]),
  metric('694', 4, 11, 4, 4, 0.15, [NSK, IBB, ZEN]),
  metric('695', 5, 13, 4, 4, 0.2, [IBB, ZEN]),
  metric('696', 6, 15, 5, 5, 0.2, [NSK, IBB, ZEN]),
  metric('697', 7, 17, 5, 5, 0.3, [NSK, IBB, ZEN]),
  metric('698', 8, 19, 6, 6, 0.3, [NSK, IBB, ZEN]),
  metric('699', 9, 20, 6, 6, 0.3, [NSK, IBB, ZEN]),
  metric('MR63', 3, 6, 2, 2.5, 0.08, [NSK, IBB, ZEN, FBJ], { chamferLargest: 0.1 }),
  metric('MR74', 4, 7, 2, 2.5, 0.1, [NSK, IBB, ZEN, FBJ]),
  metric('MR84', 4, 8, 2, 3, 0.1, [NSK, IBB, ZEN], { chamferLargest: 0.15 }),
  metric('MR104', 4, 10, 3, 4, 0.15, [NSK, IBB, ZEN], { chamferLargest: 0.2 }),
  metric('MR85', 5, 8, 2, 2.5, 0.08, [IBB, ZEN, FBJ], { chamferLargest: 0.1 }),
  metric('MR95', 5, 9, 2.5, 3, 0.1, [IBB, ZEN, FBJ], { chamferLargest: 0.15 }),
  metric('MR105', 5, 10, 3, 4, 0.1, [IBB, ZEN, FBJ], { chamferLargest: 0.15 }),
  metric('MR115', 5, 11, undefined, 4, 0.15, [ZEN, IBB]),
  metric('MR106', 6, 10, 2.5, 3, 0.1, [IBB, ZEN]),
  metric('MR126', 6, 12, 3, 4, 0.15, [NSK, IBB, ZEN, FBJ], { chamferLargest: 0.2 }),
  metric('MR117', 7, 11, 2.5, 3, 0.1, [NSK, IBB, ZEN, FBJ], { chamferLargest: 0.15 }),
  metric('MR137', 7, 13, 3, 4, 0.15, [NSK, IBB, ZEN, FBJ], { chamferLargest: 0.2 }),
  metric('MR128', 8, 12, 2.5, 3.5, 0.1, [NSK, IBB, ZEN, FBJ], { chamferLargest: 0.15 }),
  metric('MR148', 8, 14, 3.5, 4, 0.15, [NSK, IBB, ZEN], { chamferLargest: 0.2 }),
  metric('6000', 10, 26, 8, 8, 0.3, [NSK, ZEN, OPEN]),
  metric('6001', 12, 28, 8, 8, 0.3, [NSK, ZEN]),
  metric('6002', 15, 32, 9, 9, 0.3, [NSK, ZEN]),
  metric('6003', 17, 35, 10, 10, 0.3, [NSK, ZEN]),
  metric('6004', 20, 42, 12, 12, 0.6, [NSK, ZEN]),
  metric('6005', 25, 47, 12, 12, 0.6, [ZEN, JIS]),
  metric('6006', 30, 55, 13, 13, 1, [ZEN, JIS]),
  metric('6200', 10, 30, 9, 9, 0.6, [NSK, ZEN, OPEN]),
  metric('6201', 12, 32, 10, 10, 0.6, [NSK, ZEN]),
  metric('6202', 15, 35, 11, 11, 0.6, [NSK, ZEN]),
  metric('6203', 17, 40, 12, 12, 0.6, [NSK, ZEN]),
  metric('6204', 20, 47, 14, 14, 1, [NSK, ZEN]),
  metric('6205', 25, 52, 15, 15, 1, [ZEN], { chamferStatus: 'from-memory' }),
  metric('6206', 30, 62, 16, 16, 1, [ZEN], { chamferStatus: 'from-memory' }),
  metric('6800', 10, 19, 5, 5, 0.3, [NSK, NTN, ZEN]),
  metric('6801', 12, 21, 5, 5, 0.3, [NSK, NTN, ZEN]),
  metric('6802', 15, 24, 5, 5, 0.3, [NSK, ZEN]),
  metric('6803', 17, 26, 5, 5, 0.3, [NSK, ZEN]),
  metric('6804', 20, 32, 7, 7, 0.3, [NSK, ZEN]),
  metric('6805', 25, 37, 7, 7, 0.3, [NSK, ZEN]),
  metric('6806', 30, 42, 7, 7, 0.3, [NSK, ZEN]),
  metric('6900', 10, 22, 6, 6, 0.3, [NSK, NTN, ZEN]),
  metric('6901', 12, 24, 6, 6, 0.3, [NSK, ZEN]),
  metric('6902', 15, 28, 7, 7, 0.3, [NSK, ZEN]),
  metric('6903', 17, 30, 7, 7, 0.3, [NSK, ZEN]),
  metric('6904', 20, 37, 9, 9, 0.3, [NSK, ZEN]),
  metric('6905', 25, 42, 9, 9, 0.3, [ZEN], { chamferStatus: 'from-memory' }),
  metric('6906', 30, 47, 9, 9, 0.3, [ZEN], { chamferStatus: 'from-memory' }),
  metric('16002', 15, 32, 8, 8, 0.3, [NSK], { chamferStatus: 'from-memory' }),
  inch('R2', [3.175, 9.525, 3.967, 3.967], ['1/8', '3/8', '5/32', '5/32'], 0.3, [ZEN, FBJ]),
  inch('R3', [4.763, 12.7, 3.967, 4.978], ['3/16', '1/2', '5/32', '0.196'], 0.3, [ZEN]),
  inch('R4', [6.35, 15.875, 4.978, 4.978], ['1/4', '5/8', '0.196', '0.196'], 0.3, [ZEN]),
  inch('R4A', [6.35, 19.05, 5.558, 7.142], ['1/4', '3/4', '7/32', '9/32'], 0.4, [ZEN]),
  inch('R6', [9.525, 22.225, 5.558, 7.142], ['3/8', '7/8', '7/32', '9/32'], 0.4, [ZEN]),
  inch('R8', [12.7, 28.575, 6.35, 7.938], ['1/2', '1-1/8', '1/4', '5/16'], 0.4, [ZEN]),
  inch('R10', [15.875, 34.925, 7.142, 8.733], ['5/8', '1-3/8', '9/32', '11/32'], 0.8, [ZEN]),
  inch('R12', [19.05, 41.275, 7.938, 11.113], ['3/4', '1-5/8', '5/16', '7/16'], 0.8, [ZEN]),
];

export const BEARING_NAMES: readonly string[] = BEARINGS.map((row) => row.designation);

export interface BearingMatch {
  readonly row: BearingRow;
  readonly shielded: boolean;
  /** mm, of the bearing as named: open or shielded. */
  readonly width: number;
}

/** Marks of bearings closed on both sides. Seals take the shields' width: common practice. */
const CLOSED = ['ZZ', '2Z', '2RS', '2RS1', '2RSH', 'LLU', 'LLB', 'DDU', 'SHIELDED', 'SEALED'];
const OPEN_MARKS = ['', 'OPEN'];

/**
 * Finds a bearing by the name on its box: `696`, `696ZZ`, `696-2Z`, `619/6`, `R4A shielded`, `608 open`. Case, blanks
 * and hyphens do not matter. Without a mark the open bearing is meant, unless it is only made shielded.
 *
 * @returns undefined for a name that is not in stock, for an unknown mark, and for an open bearing that is not made
 */
export function findBearing(name: string): BearingMatch | undefined {
  const plain = commonSeries(name.toUpperCase().replace(/[\s-]/g, ''));
  for (const row of BEARINGS) {
    if (!plain.startsWith(row.designation)) continue;
    const mark = plain.slice(row.designation.length);
    if (CLOSED.includes(mark) || (mark === '' && row.widthOpen === undefined)) {
      return { row, shielded: true, width: row.widthShielded };
    }
    if (OPEN_MARKS.includes(mark) && row.widthOpen !== undefined) {
      return { row, shielded: false, width: row.widthOpen };
    }
  }
  return undefined;
}

/** The same thin bearings under their ISO 15 series: 61800 is 6800, 619/6 is 696. */
function commonSeries(name: string): string {
  return name.replace(/^6(1[89])(?:\/(\d)|(0\d))/, (_, series: string, small?: string, large?: string) => {
    return `6${series.slice(1)}${small ?? large}`;
  });
}
