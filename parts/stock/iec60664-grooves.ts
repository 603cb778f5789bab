import type { Pollution } from './iec60664-clearances.js';
import type { Sourced } from './row.js';

/** mm by pollution degree: X, the width up to which a groove or gap is counted straight across. */
const WIDTHS: Readonly<Record<Pollution, number>> = { 1: 0.25, 2: 1, 3: 1.5 };
/** mm; where less clearance than this is asked, X may be a third of what is asked. */
const SMALL_CLEARANCE = 3;
const THIRD = 1 / 3;

export const GROOVE_SOURCE: Sourced = {
  source:
    'IEC 60664-1:2020, 6.8, from memory: X 0.25, 1.0, 1.5 mm at pollution degrees 1, 2, 3; a third of a clearance below 3 mm',
  status: 'from-memory',
};

/**
 * Width X (mm) from which on creepage follows the walls of a groove: what is narrower is counted straight across.
 * @param clearance mm, asked between the two conductors, above 0; undefined where none is asked by the standard
 * @throws RangeError for a clearance that is no length
 */
export function grooveWidth(pollution: Pollution, clearance?: number): number {
  const width = WIDTHS[pollution];
  if (clearance === undefined) return width;
  if (!(clearance > 0 && Number.isFinite(clearance)))
    throw new RangeError(`not a clearance: ${clearance} mm`);
  return clearance < SMALL_CLEARANCE ? Math.min(width, THIRD * clearance) : width;
}
