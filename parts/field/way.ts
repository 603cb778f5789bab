import type { Machine } from '../machine/machine.js';
import type { Status } from '../stock/row.js';
import type { Range } from './range.js';
import { rangeFrom, type Unknowns } from './unknowns.js';

export type PathPoint = readonly [number, number, number];

/** One way in which voltage is lost, with the voltage at which it gives way. */
export interface LimitWay {
  /** Stable, as `way/column-outer`. */
  readonly id: string;
  readonly title: string;
  /**
   * `spark`: breaks down at once; `puncture`: breaks through a wall; `corona`: current is lost and the voltage stays
   * where it is; `terminal`: the discharge that the machine is built for.
   */
  readonly kind: 'spark' | 'puncture' | 'corona' | 'terminal';
  /** V at which it gives way, for one choice of what is not known. */
  at(values: Unknowns): number;
  /** V */
  readonly voltage: Range;
  /** The assumption that widens the range most. */
  readonly dominatedBy: string;
  /** mm, through air, along surfaces or through the wall. */
  readonly length: number;
  /** mm in the machine's frame, on the side where the rising run is. */
  readonly path: readonly PathPoint[];
  readonly surfaces: readonly string[];
  readonly basis: string;
  readonly status: Status;
}

/** A way from everything but its range, which follows from `at`. */
export function wayOf(machine: Machine, draft: Omit<LimitWay, 'voltage' | 'dominatedBy'>): LimitWay {
  const { dominatedBy, ...voltage } = rangeFrom(machine, draft.at);
  return { ...draft, voltage, dominatedBy };
}
