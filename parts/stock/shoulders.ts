import type { BearingRow } from './bearings.js';
import type { Constant, Sourced, Status } from './row.js';

/** What a bearing's chamfer asks of the corner and the shoulder beside it. Lengths in mm. */
export interface ShoulderRow extends Sourced {
  /** Smallest chamfer of the bearing, r_s min. */
  readonly chamfer: number;
  /** Largest chamfer, radially and axially, for bores up to 40 mm (50 and 120 mm from r_s 1.0 and 1.1 up). */
  readonly chamferMaxRadial: number;
  readonly chamferMaxAxial: number;
  /** Largest corner radius of shaft or housing, r_a max. */
  readonly filletMax: number;
  /** Least height of the shoulder beside a deep-groove bearing, h. */
  readonly height: number;
  /** The same beside angular contact and taper bearings, where the table has it. */
  readonly heightAngular?: number;
}

const SOURCE = 'NSK rolling bearings general catalogue, Tables 8.9.1 and 11.2';

function shoulder(
  chamfer: number,
  chamferMaxRadial: number,
  chamferMaxAxial: number,
  filletMax: number,
  height: number,
  heightAngular?: number,
): ShoulderRow {
  const row = { chamfer, chamferMaxRadial, chamferMaxAxial, filletMax, height };
  return {
    ...row,
    ...(heightAngular !== undefined && { heightAngular }),
    source: SOURCE,
    status: 'verified',
  };
}

/** r_s min, r max radial, r max axial, r_a max, h, h angular. */
export const SHOULDERS: readonly ShoulderRow[] = [
  shoulder(0.05, 0.1, 0.2, 0.05, 0.2),
  shoulder(0.08, 0.16, 0.3, 0.08, 0.3),
  shoulder(0.1, 0.2, 0.4, 0.1, 0.4),
  shoulder(0.15, 0.3, 0.6, 0.15, 0.6),
  shoulder(0.2, 0.5, 0.8, 0.2, 0.8),
  shoulder(0.3, 0.6, 1.0, 0.3, 1.0, 1.25),
  shoulder(0.6, 1.0, 2.0, 0.6, 2.0, 2.5),
  shoulder(1.0, 1.5, 3.0, 1.0, 2.5, 3.0),
  shoulder(1.1, 2.0, 3.5, 1.0, 3.25, 3.5),
  shoulder(1.5, 2.3, 4.0, 1.5, 4.0, 4.5),
];

/** How far a shoulder stays from the ring that it must not touch, on the radius. */
export const OTHER_RING_CLEARANCE: Constant = {
  value: 0.25,
  unit: 'mm',
  meaning: 'from a shoulder to the land of the other ring',
  source: "miniature-bearing maker's design page: more than 0.010 in",
  status: 'verified',
};

/**
 * Land of a ring whose own diameter no table gives, as a share of (outside - bore): the inner ring reaches at most
 * this far out, the outer ring at most this far in. Of the twelve bearings with a published abutment the largest
 * shares are 0.392 (626, inner) and 0.317 (6900, outer).
 */
export const RING_SHARE: Constant = {
  value: 0.4,
  unit: '1',
  meaning: 'largest part of the section that one ring takes, measured on the diameter',
  source: 'common practice, no source; above every bearing in the abutment table',
  status: 'common-practice',
};

/** Diameters (mm) between which a shoulder holds one ring and stays clear of the other. */
export interface Shoulder {
  /** Shaft side: outside diameter of a collar that touches only the inner ring. */
  readonly innerShoulderMin: number;
  readonly innerShoulderMax: number;
  /** Housing side: bore of a shoulder that touches only the outer ring. */
  readonly outerShoulderBoreMin: number;
  readonly outerShoulderBoreMax: number;
  /** Largest corner radius of shaft or housing. */
  readonly filletMax: number;
  /** Where the four diameters are from; says which rows are missing. */
  readonly basis: string;
  readonly status: Status;
}

/**
 * Where the shoulders beside a bearing may stand.
 *
 * The published abutment is used where there is one. Otherwise the shoulder has the height h of the chamfer's row (the
 * next larger row where the table lacks that chamfer, as the higher shoulder holds either), and the other ring's land
 * is estimated by `RING_SHARE`.
 *
 * @throws RangeError when the chamfer is larger than the table goes
 */
export function shoulderFor(bearing: BearingRow): Shoulder {
  const { bore, outer, abutment } = bearing;
  const clear = 2 * OTHER_RING_CLEARANCE.value;
  if (abutment) {
    return {
      innerShoulderMin: abutment.innerMin,
      innerShoulderMax: round(abutment.outerRecess - clear),
      outerShoulderBoreMin: round(abutment.innerShoulder + clear),
      outerShoulderBoreMax: abutment.outerMax,
      filletMax: abutment.filletMax,
      basis: `published abutment of ${bearing.designation}: ${abutment.source}`,
      status: abutment.status,
    };
  }
  const chamfer = bearing.chamferLargest ?? bearing.chamfer;
  const row = SHOULDERS.find((each) => each.chamfer >= chamfer - 1e-9);
  const corner = SHOULDERS.findLast((each) => each.filletMax <= bearing.chamfer + 1e-9);
  if (!row || !corner) {
    const last = SHOULDERS.at(-1)!.chamfer;
    throw new RangeError(`no shoulder for a chamfer of ${chamfer} mm: the table holds 0.05 to ${last} mm`);
  }
  const land = RING_SHARE.value * (outer - bore);
  const taken =
    Math.abs(row.chamfer - chamfer) < 1e-9 ? '' : `, taken from the next larger row ${row.chamfer} mm`;
  return {
    innerShoulderMin: round(bore + 2 * row.height),
    innerShoulderMax: round(outer - land - clear),
    outerShoulderBoreMin: round(bore + land + clear),
    outerShoulderBoreMax: round(outer - 2 * row.height),
    filletMax: corner.filletMax,
    basis:
      `no published abutment of ${bearing.designation} in stock: shoulder height ${row.height} mm for chamfer ` +
      `${chamfer} mm${taken} (${row.source}); land of the other ring estimated, common practice, no source`,
    status: 'common-practice',
  };
}

function round(millimetres: number): number {
  return Math.round(millimetres * 1000) / 1000;
}
