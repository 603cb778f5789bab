import type { Machine } from '../machine/machine.js';
import { outerColumn } from './columns.js';

/** Potential along the outside of the column, from grounded metal at its foot to the terminal. */
export interface ColumnPotential {
  /** Height (mm) and potential (kV), lowest first. */
  readonly points: readonly { readonly z: number; readonly kilovolts: number }[];
  readonly basis: string;
}

/**
 * Potential along the column when the terminal is at a voltage. Even from end to end, because the field is not solved.
 * @param voltage V
 */
export function columnPotential(machine: Machine, voltage: number): ColumnPotential {
  const { path } = outerColumn(machine);
  const ground = path.at(-1)![2];
  const { lipZ } = machine.terminal;
  return {
    points: [
      { z: ground, kilovolts: 0 },
      { z: lipZ, kilovolts: voltage / 1000 },
    ],
    basis: 'taken as even along the column: the field is not solved yet',
  };
}
