import { bySize } from './by-size.js';
import type { FastenerSize } from './fasteners.js';
import type { Constant, Sourced } from './row.js';

export type InsertSize = Exclude<FastenerSize, 'M8'>;

/** A threaded brass insert that is pressed in hot. Lengths in mm; makers differ, so the larger outside is kept. */
export interface InsertRow extends Sourced {
  readonly size: InsertSize;
  readonly outerDiameter: number;
  /** Hole to print; up to 0.1 mm larger still holds, smaller does not let the insert in. */
  readonly hole: number;
  readonly length: Constant;
}

const row = (
  size: InsertSize,
  outerDiameter: number,
  hole: number,
  length: number,
  source: string,
): InsertRow => ({
  size,
  outerDiameter,
  hole,
  length: {
    value: length,
    unit: 'mm',
    meaning: `usual length of the long ${size} insert`,
    source: 'common practice, no source',
    status: 'common-practice',
  },
  source,
  status: 'verified',
});

const INSERT_TABLE = 'open insert table; another chart gives other sizes, makers differ';
const BOTH = "fastener dealer's chart and open insert table";

export const INSERTS: readonly InsertRow[] = [
  row('M2', 3.73, 3.2, 4, INSERT_TABLE),
  row('M2.5', 4.55, 4, 5.7, INSERT_TABLE),
  row('M3', 4.4, 4, 5.7, BOTH),
  row('M4', 6.1, 5.6, 8.1, BOTH),
  row('M5', 7.1, 6.4, 9.5, BOTH),
  row('M6', 8.5, 8, 12.7, BOTH),
];

/** Outside diameter of the boss around an insert over that of the insert. */
export const INSERT_BOSS: Constant = {
  value: 2,
  unit: '1',
  meaning: 'outside of the boss over outside of the insert',
  source: 'common practice, no source',
  status: 'common-practice',
};

export interface Insert extends InsertRow {
  /** Outside diameter of the boss around it, mm. */
  readonly boss: number;
}

/** @throws RangeError for a size that is not held, naming those that are */
export function insert(size: InsertSize): Insert {
  const found = bySize(INSERTS, size);
  return { ...found, boss: INSERT_BOSS.value * found.outerDiameter };
}
