import type { Machine } from '../machine/machine.js';
import type { Place } from './boundary/curve.js';
import { isWithin, traceLine } from './boundary/lines.js';
import { boundField, type PlaceName, worstPlace } from './machine-field.js';
import type { PathPoint } from './way.js';

// SI within, mm outside.

/** A field line from a place of greatest field to where it ends. */
export interface FieldLine {
  /** mm in the machine’s frame, in the plane y = 0. */
  readonly path: readonly PathPoint[];
  /** Whether it ends on bench or floor, and not on a body. */
  readonly onFloor: boolean;
}

/** m, first step: small against any bead or wire’s surroundings that matter for its length. */
const FIRST = 0.0005;
/** Steps grow with the way gone; the line’s length is within 1 % of that with half of it. */
const GROWTH = 0.05;
const STEPS = 600;
/** m; a line that is not at an end by then leads out into the room. */
const FURTHEST = 4;

/**
 * The field line from the worst place of a part, with the column only polarised, to the conductor or floor that it ends on;
 * undefined where the machine has no such part or the line leads out into the room.
 */
export function lineToEnd(machine: Machine, name: PlaceName): FieldLine | undefined {
  const field = boundField(machine, 'polarised');
  const peak = worstPlace(machine, field, name);
  if (!peak) return undefined;
  const conductors = field.problem.bodies.filter(({ kind }) => kind === 'conductor');
  const floor = field.problem.floor ?? Number.NEGATIVE_INFINITY;
  let end: 'body' | 'floor' | undefined;
  let last: Place | undefined;
  const { places } = traceLine([peak.r, peak.z], peak.normal, {
    first: FIRST,
    growth: GROWTH,
    steps: STEPS,
    field: (r, z) => field.terminal.fieldAt(r, z),
    ends: (place, way) => {
      last = place;
      if (place[1] <= floor) end = 'floor';
      // The first step may still touch the surface that the line starts from.
      else if (
        way > 2 * FIRST &&
        conductors.some((body) => 'profile' in body && isWithin(body.profile, place))
      )
        end = 'body';
      return end !== undefined || way > FURTHEST;
    },
  });
  if (!end || !last) return undefined;
  return {
    path: [...places, last].map(([r, z]): PathPoint => [1000 * r, 0, 1000 * z]),
    onFloor: end === 'floor',
  };
}
