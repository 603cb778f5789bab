import type { Machine } from '../machine/machine.js';
import { airOf } from './air/atmosphere.js';
import type { Peak } from './boundary/solution.js';
import { inceptionAlong, type LineField, lineFrom } from './inception.js';
import { type BoundField, boundField, type PlaceName, worstPlace } from './machine-field.js';
import { RING_RADIUS } from './machine-problem.js';
import { likelyUnknowns, type Unknowns } from './unknowns.js';

// SI throughout.

/** A place of greatest field and the line from it, in one bound of the column. */
export interface WorstLine {
  readonly peak: Peak;
  readonly line: LineField;
}

const LINES = new WeakMap<BoundField, Map<PlaceName, WorstLine | undefined>>();

/** The worst place of a part of the machine and its field line; undefined where the machine has no such part. */
export function worstLine(machine: Machine, field: BoundField, name: PlaceName): WorstLine | undefined {
  const lines = LINES.get(field) ?? new Map<PlaceName, WorstLine | undefined>();
  LINES.set(field, lines);
  if (!lines.has(name)) {
    const peak = worstPlace(machine, field, name);
    lines.set(name, peak && { peak, line: lineFrom(field, peak, curvatureAt(machine, name)) });
  }
  return lines.get(name);
}

/** m, smallest radius of curvature of a part's surface. */
function curvatureAt({ terminal, plate }: Machine, name: PlaceName): number {
  switch (name) {
    case 'body':
      return terminal.diameter.mean / 2000;
    case 'lip':
      return terminal.lipRadius / 1000;
    case 'baseEdge':
      return plate.thickness / 2000;
    default:
      return RING_RADIUS.value / 1000;
  }
}

/** V of the terminal at which streamers start from a perfect surface. */
export interface Ideal {
  readonly polarised: number;
  readonly graded: number;
}

/** Inception voltages (V) of a part at likely values, without charge on the belt. */
export function idealInception(machine: Machine, name: PlaceName): Ideal | undefined {
  const of = inceptionOf(machine, name);
  const { lnN } = likelyUnknowns(machine);
  return of && { polarised: of('polarised', 0, lnN), graded: of('graded', 0, lnN) };
}

type InceptionOf = (bound: 'polarised' | 'graded', lineCharge: number, lnN: number) => number;

function inceptionOf(machine: Machine, name: PlaceName): InceptionOf | undefined {
  const air = airOf(machine.site);
  const lines = {
    polarised: worstLine(machine, boundField(machine, 'polarised'), name),
    graded: worstLine(machine, boundField(machine, 'graded'), name),
  };
  if (!lines.polarised || !lines.graded) return undefined;
  const known = new Map<string, number>();
  return (bound, lineCharge, lnN) => {
    const key = `${bound} ${lineCharge} ${lnN}`;
    const voltage = known.get(key) ?? inceptionAlong(lines[bound]!.line, air, lnN, lineCharge);
    known.set(key, voltage);
    return voltage;
  };
}

/**
 * Voltage (V) of the terminal at which corona starts from a part of the machine as it really is, for one choice of what is
 * not known; undefined where the machine has no such part. Likely lies in the geometric middle of both bounds of the column.
 */
export function onsetOf(machine: Machine, name: PlaceName): ((values: Unknowns) => number) | undefined {
  const inception = inceptionOf(machine, name);
  const { speed } = machine.belt;
  return (
    inception &&
    (({ column, current, net, lnN, surface }) => {
      const lineCharge = (net * current) / speed;
      return (
        surface *
        Math.exp(
          (1 - column) * Math.log(inception('polarised', lineCharge, lnN)) +
            column * Math.log(inception('graded', lineCharge, lnN)),
        )
      );
    })
  );
}
