import { polarOver } from './lip-ring.js';
import type { Terminal } from './machine.js';

/**
 * The outside of the terminal around the pole that its opening is cut at, as an ellipsoid of revolution; lengths in mm,
 * heights from the pole into the terminal.
 */
export interface CapShape {
  /** Half of the widest section. */
  readonly equatorial: number;
  /** From the widest section to the pole; equal to it for a sphere. */
  readonly polar: number;
}

/**
 * A spun shell's profile is not measured: it is taken as the ellipsoid whose top is the shell's and that has the opening's
 * circle in the lip's plane: height = b (1 + sqrt(1 - (r/a)^2)).
 */
export function capShape({
  shape,
  diameter,
  height,
  openingDiameter,
  lipRadius,
  ring,
}: Pick<Terminal, 'shape' | 'diameter' | 'height' | 'openingDiameter' | 'lipRadius' | 'ring'>): CapShape {
  const equatorial = diameter.mean / 2;
  if (shape === 'sphere') return { equatorial, polar: equatorial };
  if (ring) return { equatorial, polar: polarOver(ring, equatorial, height) };
  const share = (openingDiameter.mean / 2 + lipRadius) / equatorial;
  return { equatorial, polar: height / (1 + Math.sqrt(Math.max(0, 1 - share * share))) };
}

/** How far (mm) the shell has fallen away from the plane on its pole at a chord radius (mm) up to the widest section. */
export function sagitta({ equatorial, polar }: CapShape, radius: number): number {
  return polar * (1 - Math.sqrt(Math.max(0, 1 - (radius / equatorial) ** 2)));
}

/** Angle (radians) between the shell's normal at a chord radius and the axis. */
export function capNormal({ equatorial, polar }: CapShape, radius: number): number {
  const up = Math.sqrt(Math.max(0, equatorial ** 2 - radius ** 2));
  return Math.atan2(radius * polar, up * equatorial);
}

/** Steps of Simpson's rule along a quarter of an ellipse: exact to micrometres. */
const STEPS = 128;

/** Length (mm) along the shell from its pole to a chord radius (mm): R asin(a/R) on a sphere. */
export function arcTo({ equatorial, polar }: CapShape, radius: number): number {
  const end = Math.asin(Math.min(1, radius / equatorial));
  const speed = (u: number) => Math.hypot(equatorial * Math.cos(u), polar * Math.sin(u));
  const step = end / STEPS;
  let sum = speed(0) + speed(end);
  for (let i = 1; i < STEPS; i++) sum += (i % 2 === 1 ? 4 : 2) * speed(i * step);
  return (sum * step) / 3;
}

/** Chord radius (mm) at a length (mm) along the shell from its pole; the other way round than `arcTo`. */
export function radiusAtArc(cap: CapShape, arc: number): number {
  let [low, high] = [0, cap.equatorial];
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (arcTo(cap, middle) < arc) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** mm; an edge thinner than a bead of this radius is the sheet's own. */
export const RAW_EDGE = 1;

/** mm along the shell: between the pole's punched mark and a cut, for pin and scriber. */
export const LEAST_CUT = 12;

/** Chord radius (mm) at which a bead of the lip's radius touches the shell from inside. */
function touchRadius(cap: CapShape, openingRadius: number, bead: number): number {
  let radius = openingRadius + bead;
  // The normal leans out less than the radius grows: this settles at once.
  for (let i = 0; i < 40; i++)
    radius = Math.min(cap.equatorial, openingRadius + bead + bead * Math.sin(capNormal(cap, radius)));
  return radius;
}

type Opening = Pick<
  Terminal,
  'shape' | 'diameter' | 'height' | 'openingDiameter' | 'lipRadius' | 'shell' | 'ring'
>;

/**
 * Length (mm) along the shell from its pole to the cut from whose edge a bead can be rolled: to where the bead touches the
 * shell, less a full turn around the bead at the sheet's middle, 2 pi (bead - sheet/2). An estimate: sheet is stretched and
 * thinned as it is rolled. Below 0 where there is no sheet left for it.
 */
export function rolledCut(terminal: Opening): number {
  const { openingDiameter, lipRadius, shell } = terminal;
  const cap = capShape(terminal);
  const touch = arcTo(cap, touchRadius(cap, openingDiameter.mean / 2, lipRadius));
  return touch - 2 * Math.PI * (lipRadius - Math.min(shell, lipRadius) / 2);
}

/** How the opening's edge comes about from the circle that is cut: as the cut leaves it, rolled from the sheet, or with a bead of its own. */
export type OpeningEdge = 'raw' | 'rolled' | 'ring';

export function openingEdge(terminal: Opening): OpeningEdge {
  if (terminal.ring) return 'ring';
  if (terminal.lipRadius < RAW_EDGE) return 'raw';
  return rolledCut(terminal) >= LEAST_CUT ? 'rolled' : 'ring';
}

/**
 * Chord radius (mm) of the circle that the opening is cut at: the free opening's where its edge stays raw; smaller where a
 * bead is rolled from the sheet; with a ring, to where its edge lies on it, and where the sheet is not enough for rolling, out to
 * where a ring that is put in touches the shell.
 */
export function cutRadius({ terminal }: { readonly terminal: Opening }): number {
  const free = terminal.openingDiameter.mean / 2;
  switch (openingEdge(terminal)) {
    case 'raw':
      return free;
    case 'rolled':
      return radiusAtArc(capShape(terminal), rolledCut(terminal));
    case 'ring':
      return terminal.ring?.holeRadius ?? touchRadius(capShape(terminal), free, terminal.lipRadius);
  }
}
