import type { Machine } from '../machine/machine.js';
import { rootBetween } from './air/root.js';
import { arc, line, type Segment } from './boundary/curve.js';

/** A hollow terminal with a bead around its opening; lengths in m. */
export interface ShellShape {
  /** Outside, from the axis outwards and from the widest section up: equal for a sphere. */
  readonly equatorial: number;
  readonly polar: number;
  /** Height of the widest section. */
  readonly centre: number;
  /** Thickness of the sheet. */
  readonly sheet: number;
  /** Radius of the circle that the bead's middle runs on, and of the bead. */
  readonly rim: number;
  readonly bead: number;
  /** Radius of the sheet's cut edge where it lies on a ring that is the bead; undefined where the sheet goes around its bead. */
  readonly cut?: number;
}

/** Angle on the ellipse (0 at the widest section, below it negative) where the bead touches it from inside, or where it is cut. */
export function beadAngle({ equatorial, polar, rim, bead, cut }: Omit<ShellShape, 'centre'>): number {
  if (cut !== undefined) return -Math.acos(Math.min(1, cut / equatorial));
  const radiusOf = (angle: number) =>
    equatorial * Math.cos(angle) - bead * normalAt(equatorial, polar, angle)[0] - rim;
  return rootBetween(radiusOf, -Math.PI / 2, 0);
}

function normalAt(equatorial: number, polar: number, angle: number): readonly [number, number] {
  const [nr, nz] = [Math.cos(angle) / equatorial, Math.sin(angle) / polar];
  const size = Math.hypot(nr, nz);
  return [nr / size, nz / size];
}

/** Height of the bead's middle. */
export function beadHeight(shape: ShellShape): number {
  const angle = beadAngle(shape);
  if (shape.cut !== undefined) {
    const down = Math.sqrt(Math.max(0, shape.bead ** 2 - (shape.cut - shape.rim) ** 2));
    return shape.centre + shape.polar * Math.sin(angle) - down;
  }
  return (
    shape.centre +
    shape.polar * Math.sin(angle) -
    shape.bead * normalAt(shape.equatorial, shape.polar, angle)[1]
  );
}

/** Of the bead’s radius: how thick the sheet is at most, so that its inside always meets the bead. */
const THICKEST = 1.6;

/** The angle between two at which a distance is least, found among steps. */
function deepest(off: (angle: number) => number, from: number, to: number): number {
  const STEPS = 64;
  let best = from;
  for (let i = -STEPS / 4; i <= STEPS; i++) {
    const angle = from + ((to - from) * i) / STEPS;
    if (off(angle) < off(best)) best = angle;
  }
  return best;
}

/** Height (m) of the inside of the dome over a radius (m); of the widest section where the radius is not within. */
export function roofAt({ equatorial, polar, centre, sheet }: ShellShape, radius: number): number {
  const share = radius / (equatorial - sheet);
  return centre + (polar - sheet) * Math.sqrt(Math.max(0, 1 - share * share));
}

/**
 * Profile of a spun or spherical shell, body on its left: inside from the top down, around the bead, outside up again.
 * The bead touches the outside from within. A sheet thicker than the bead is taken as thick as the bead: its inside is
 * shielded.
 * @throws RangeError where the bead does not fit
 */
export function shellProfile(shape: ShellShape): Segment[] {
  const { equatorial, polar, centre, rim, bead } = shape;
  const sheet = Math.min(shape.sheet, THICKEST * bead);
  if (!(bead > 0 && rim > bead && rim < equatorial - bead && sheet > 0))
    throw new RangeError(`no bead of ${bead} m on a circle of ${rim} m in a terminal of ${equatorial} m`);
  if (shape.cut !== undefined) return ringedProfile(shape, shape.cut);
  const touch = beadAngle(shape);
  const [nr, nz] = normalAt(equatorial, polar, touch);
  const height = centre + polar * Math.sin(touch) - bead * nz;
  const [innerR, innerZ] = [equatorial - sheet, polar - sheet];
  // Where the inside of the sheet meets the bead, above the place where the bead touches the outside.
  const off = (angle: number) =>
    Math.hypot(innerR * Math.cos(angle) - rim, centre + innerZ * Math.sin(angle) - height) - bead;
  const beyond = Math.min(0, touch + (4 * bead) / Math.min(innerR, innerZ));
  const meet = rootBetween(off, deepest(off, touch, beyond), beyond);
  const from = Math.atan2(centre + innerZ * Math.sin(meet) - height, innerR * Math.cos(meet) - rim);
  let to = Math.atan2(nz, nr);
  while (to <= from) to += 2 * Math.PI;
  return [
    arc([0, centre], [innerR, innerZ], Math.PI / 2, meet),
    arc([rim, height], bead, from, to),
    ...outsideFrom(touch).map(([start, end]) => arc([0, centre], [equatorial, polar], start, end)),
  ];
}

/** Radians around the ring, to either side of the sheet’s edge, that are filled up to the sheet: no field reaches in there. */
const FILLED = Math.PI / 6;

/** The same around a ring that the cut edge lies on, its corners to either side filled. */
function ringedProfile(shape: ShellShape, cut: number): Segment[] {
  const { equatorial, polar, centre, rim, bead } = shape;
  const sheet = Math.min(shape.sheet, bead);
  const angle = beadAngle(shape);
  const height = beadHeight(shape);
  const contact = Math.acos((cut - rim) / bead);
  const on = (turn: number): readonly [number, number] => [
    rim + bead * Math.cos(turn),
    height + bead * Math.sin(turn),
  ];
  const ellipse = (a: number, b: number, at: number): readonly [number, number] => [
    a * Math.cos(at),
    centre + b * Math.sin(at),
  ];
  // As far out along the sheet as the filled corner is deep at the ring.
  const from = angle + (2 * bead * Math.sin(FILLED / 2)) / Math.min(equatorial, polar);
  const [innerR, innerZ] = [equatorial - sheet, polar - sheet];
  const [inside, outside] = [on(contact + FILLED), on(contact + 2 * Math.PI - FILLED)];
  return [
    arc([0, centre], [innerR, innerZ], Math.PI / 2, angle),
    line(ellipse(innerR, innerZ, angle), inside),
    arc([rim, height], bead, contact + FILLED, contact + 2 * Math.PI - FILLED),
    line(outside, ellipse(equatorial, polar, from)),
    ...outsideFrom(from).map(([start, end]) => arc([0, centre], [equatorial, polar], start, end)),
  ];
}

/** Where the outside is cut towards its top, radians from the widest section: sparks are drawn from there. */
const TOP = [Math.PI / 3, (4 * Math.PI) / 9, Math.PI / 2];

function outsideFrom(touch: number): (readonly [number, number])[] {
  return TOP.map((end, i) => [i === 0 ? touch : TOP[i - 1]!, end] as const);
}

/**
 * The machine's terminal. A spun shell's profile is not measured: it is taken as the ellipsoid of revolution of its
 * diameter whose top is the shell's top and whose bead ends at the lip's plane.
 */
export function terminalShape({ terminal }: Machine): ShellShape {
  const m = (mm: number) => mm / 1000;
  const bead = m(terminal.lipRadius);
  const shape = {
    equatorial: m(terminal.diameter.mean) / 2,
    sheet: m(terminal.shell),
    rim: m(terminal.openingDiameter.mean) / 2 + bead,
    bead,
  };
  const top = m(terminal.topZ);
  const { ring } = terminal;
  if (ring) {
    const polar = m(terminal.topZ - terminal.centreZ);
    return { ...shape, polar, centre: m(terminal.centreZ), cut: m(ring.holeRadius) };
  }
  if (terminal.shape === 'sphere')
    return { ...shape, polar: shape.equatorial, centre: top - shape.equatorial };
  const lip = m(terminal.lipZ);
  const reaching = (polar: number): ShellShape => ({ ...shape, polar, centre: top - polar });
  const below = (polar: number) => lip - (beadHeight(reaching(polar)) - bead);
  return reaching(rootBetween(below, (top - lip) / 2, top - lip));
}
