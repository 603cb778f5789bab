import type { Machine } from '../machine/machine.js';
import { beltCharge } from './charge/belt.js';
import { boundField } from './machine-field.js';
import type { Bound } from './machine-problem.js';

/** Potential along the outside of the column, from the plate to the terminal. */
export interface ColumnPotential {
  /** Height (mm) and potential (kV), lowest first. */
  readonly points: readonly { readonly z: number; readonly kilovolts: number }[];
  readonly basis: string;
}

const POINTS = 49;

/**
 * Potential along the outside of the column, and up to the rim, when the terminal is at a voltage: of the column as the
 * field alone polarises it, with the charge that the belt likely carries; or with an even gradient.
 * @param voltage V
 */
export function columnPotential(
  machine: Machine,
  voltage: number,
  bound: Bound = 'polarised',
): ColumnPotential {
  const { terminal, belt } = boundField(machine, bound);
  const { tube } = machine;
  const lineCharge = beltCharge(machine).lineCharge.likely;
  const r = tube.outer.mean / 2000;
  const points = Array.from({ length: POINTS }, (_, i) => {
    const z = (tube.rimZ * i) / (POINTS - 1);
    const at = (solution: typeof terminal) => solution.potentialAt(r, Math.max(z, 0.01) / 1000);
    return { z, kilovolts: (voltage * at(terminal) + lineCharge * at(belt)) / 1000 };
  });
  return {
    points,
    basis:
      bound === 'polarised'
        ? 'solved: the column polarised by the field, without charge on its surface; the belt with its likely charge'
        : 'an even gradient from plate to lip, as of a column that leaks or has been charged',
  };
}
