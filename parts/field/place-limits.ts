import type { Machine } from '../machine/machine.js';
import { airOf } from './air/atmosphere.js';
import type { Peak } from './boundary/solution.js';
import { inceptionAlong, type LineField, lineFrom } from './inception.js';
import { type BoundField, boundField, type PlaceName, worstPlace } from './machine-field.js';
import { type Bound, RING_RADIUS } from './machine-problem.js';
import { likelyUnknowns, type Unknowns, unknownsOf } from './unknowns.js';

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

type InceptionOf = (bound: Bound, lineCharge: number, lnN: number) => number;

/** Inception voltages between which others are interpolated: of belts from bare to full, of avalanches from small to large. */
const TABLES = new WeakMap<LineField, Map<string, readonly (readonly number[])[]>>();

function inceptionOf(machine: Machine, name: PlaceName): InceptionOf | undefined {
  const lines = {
    polarised: worstLine(machine, boundField(machine, 'polarised'), name),
    graded: worstLine(machine, boundField(machine, 'graded'), name),
  };
  if (!lines.polarised || !lines.graded) return undefined;
  const air = airOf(machine.site);
  const { current, lnN: avalanche } = unknownsOf(machine);
  const charges = [0, current.range.likely, current.range.high].map(
    (amperes) => amperes / machine.belt.speed,
  );
  const sizes = [avalanche.range.low, avalanche.range.likely, avalanche.range.high];
  const key = JSON.stringify([air, charges, sizes]);
  const tableOf = ({ line }: WorstLine) => {
    const tables = TABLES.get(line) ?? new Map<string, readonly (readonly number[])[]>();
    TABLES.set(line, tables);
    const known = tables.get(key);
    if (known) return known;
    const made = sizes.map((lnN) =>
      charges.map((charge) => Math.log(inceptionAlong(line, air, lnN, charge))),
    );
    tables.set(key, made);
    return made;
  };
  return (bound, lineCharge, lnN) => {
    const rows = tableOf(lines[bound]!).map((row) => through(charges, row, lineCharge));
    return Math.exp(through(sizes, rows, lnN));
  };
}

/** The parabola through three points; the middle one alone where all are one. */
function through(xs: readonly number[], ys: readonly number[], x: number): number {
  const [a, b, c] = xs as [number, number, number];
  const [p, q, r] = ys as [number, number, number];
  if (a === b || b === c)
    return a === c ? q : a === b ? q + ((r - q) * (x - b)) / (c - b) : p + ((q - p) * (x - a)) / (b - a);
  return (
    (p * (x - b) * (x - c)) / ((a - b) * (a - c)) +
    (q * (x - a) * (x - c)) / ((b - a) * (b - c)) +
    (r * (x - a) * (x - b)) / ((c - a) * (c - b))
  );
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
