import type { Machine } from '../machine/machine.js';
import { airOf } from './air/atmosphere.js';
import { DEFAULT_FIT } from './air/ionisation.js';
import type { Place } from './boundary/curve.js';
import { fillGrid } from './boundary/grid.js';
import { isWithin, traceLine } from './boundary/lines.js';
import { beltCharge } from './charge/belt.js';
import { type BoundField, boundField, fieldWith, IDEALISED } from './machine-field.js';
import { BODY, type Bound } from './machine-problem.js';
import { terminalShape } from './terminal-shape.js';
import { likelyUnknowns } from './unknowns.js';
import { limitWays } from './ways.js';

/** The solved field of a machine for drawing, in the meridian plane: mm, r to either side is alike. */
export interface FieldPicture {
  /** V of the terminal that it is drawn for. */
  readonly voltage: number;
  readonly bound: Bound;
  /** V/m at which air of this density ionises. */
  readonly critical: number;
  /** Rows from low z to high z, columns from the axis outwards, values at the middles of cells; field over `critical`, NaN inside metal. */
  readonly grid: {
    readonly radius: number;
    readonly bottom: number;
    readonly top: number;
    readonly columns: number;
    readonly rows: number;
    readonly share: Float32Array;
  };
  /** Field lines from the terminal's surface, r and z in turn (mm). */
  readonly lines: readonly Float32Array[];
  /** The weakest place: where the way that gives way first begins. */
  readonly weakest: {
    readonly id: string;
    readonly title: string;
    readonly at: readonly [r: number, z: number];
  };
  readonly idealised: readonly string[];
}

const COLUMNS = 100;
const ROWS = 200;
/** Of the larger of plate and terminal: how far the picture reaches beyond them. */
const AROUND = 1.35;
const LINES = 22;
const LINE_STEPS = 120;
/** Growth of a line’s steps that looks smooth. */
const SMOOTH = 0.05;

/** The field for drawing. @param options.voltage V */
export function fieldPicture(
  machine: Machine,
  { voltage, bound }: { readonly voltage: number; readonly bound: Bound },
): FieldPicture {
  const field = boundField(machine, bound);
  const lineCharge = beltCharge(machine).lineCharge.likely;
  const critical = DEFAULT_FIT.criticalField * airOf(machine.site).relativeDensity;
  const { plate, terminal } = machine;
  const radius = (AROUND * Math.max(plate.diameter, terminal.diameter.mean)) / 2;
  const bottom = -plate.thickness - plate.feet;
  const top = terminal.topZ + (AROUND - 1) * terminal.diameter.mean;
  const solution = fieldWith(field, voltage, lineCharge);
  const at = (r: number, z: number): Place => solution.fieldAt(r, z);
  const metal = field.problem.bodies.filter(({ kind }) => kind === 'conductor');
  const { values: share } = fillGrid(COLUMNS, ROWS, (column, row) => {
    const r = ((column + 0.5) * radius) / COLUMNS / 1000;
    const z = (bottom + ((row + 0.5) * (top - bottom)) / ROWS) / 1000;
    const inMetal = metal.some((body) => body.kind === 'conductor' && isWithin(body.profile, [r, z]));
    return inMetal ? Number.NaN : Math.hypot(...at(r, z)) / critical;
  });
  return {
    voltage,
    bound,
    critical,
    grid: { radius, bottom, top, columns: COLUMNS, rows: ROWS, share },
    lines: fieldLines(machine, field, at, { radius: radius / 1000, top: top / 1000 }),
    weakest: weakestPlace(machine),
    idealised: IDEALISED,
  };
}

/** From places spread over the outside of the terminal, down to ground or out of the picture. */
function fieldLines(
  machine: Machine,
  field: BoundField,
  at: (r: number, z: number) => Place,
  limits: { readonly radius: number; readonly top: number },
): Float32Array[] {
  const { equatorial, polar, centre, bead, rim } = terminalShape(machine);
  const lowest = -Math.acos(Math.min(1, (rim + bead) / equatorial));
  const solid = field.problem.bodies.filter(({ kind }) => kind === 'conductor');
  const floor = field.problem.floor!;
  return Array.from({ length: LINES }, (_, i) => {
    const angle = lowest + ((i + 0.5) * (Math.PI / 2 - lowest)) / LINES;
    const normal = unit([Math.cos(angle) / equatorial, Math.sin(angle) / polar]);
    const off = 1e-3 * equatorial;
    const start: Place = [
      equatorial * Math.cos(angle) + off * normal[0],
      centre + polar * Math.sin(angle) + off * normal[1],
    ];
    const { places } = traceLine(start, normal, {
      first: 0.02 * equatorial,
      growth: SMOOTH,
      steps: LINE_STEPS,
      field: at,
      ends: ([r, z]) =>
        z <= floor ||
        r > limits.radius ||
        z > limits.top ||
        solid.some(
          (body) =>
            body.kind === 'conductor' && body.name !== BODY.terminal && isWithin(body.profile, [r, z]),
        ),
    });
    return Float32Array.from(places.flatMap(([r, z]) => [r * 1000, z * 1000]));
  });
}

const unit = ([r, z]: Place): Place => [r / Math.hypot(r, z), z / Math.hypot(r, z)];

function weakestPlace(machine: Machine): FieldPicture['weakest'] {
  const likely = likelyUnknowns(machine);
  const { id, title, path } = limitWays(machine).reduce((so, way) =>
    way.at(likely) < so.at(likely) ? way : so,
  );
  const [r, , z] = path[0]!;
  return { id, title, at: [r, z] };
}
