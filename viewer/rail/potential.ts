import type { MachineView } from '../worker/messages.js';

// What the line of the potential says, as numbers: no page.

/** Heights (mm) and potentials (kV), lowest first. */
export type PotentialPoints = MachineView['potential']['points'];

/** mm over which a gradient is taken: shorter steps of the solution belong to one edge of metal. */
const OVER = 10;

/** The potential at a height, kV: between two points it changes evenly, beyond the ends not at all. */
export function potentialAt(points: PotentialPoints, z: number): number {
  const above = points.findIndex((point) => point.z >= z);
  if (above < 0) return points.at(-1)?.kilovolts ?? 0;
  const [a, b] = [points[Math.max(0, above - 1)]!, points[above]!];
  return b.z === a.z ? b.kilovolts : a.kilovolts + ((b.kilovolts - a.kilovolts) * (z - a.z)) / (b.z - a.z);
}

/** Where the potential first reaches a value from below, mm; undefined where it never does. */
export function heightOf(points: PotentialPoints, kilovolts: number): number | undefined {
  const at = points.findIndex((point) => point.kilovolts >= kilovolts);
  if (at < 0) return undefined;
  const [a, b] = [points[Math.max(0, at - 1)]!, points[at]!];
  const rise = b.kilovolts - a.kilovolts;
  return rise <= 0 ? b.z : a.z + ((b.z - a.z) * (kilovolts - a.kilovolts)) / rise;
}

/** Where the potential rises most. */
export interface Steepest {
  /** mm, the middle of the stretch */
  readonly z: number;
  /** kV/cm */
  readonly gradient: number;
}

/** The steepest stretch of a line of potential; undefined where it is no longer than such a stretch. */
export function steepest(points: PotentialPoints): Steepest | undefined {
  const [first, last] = [points[0], points.at(-1)];
  if (!first || !last || last.z - first.z < OVER) return undefined;
  // A line of straight pieces is steepest over a stretch that begins or ends at one of its points.
  const middles = points
    .flatMap(({ z }) => [z + OVER / 2, z - OVER / 2])
    .filter((z) => z - OVER / 2 >= first.z && z + OVER / 2 <= last.z);
  const gradientAt = (z: number) =>
    (10 * (potentialAt(points, z + OVER / 2) - potentialAt(points, z - OVER / 2))) / OVER;
  const best = middles.reduce((most, z) => (gradientAt(z) > gradientAt(most) ? z : most));
  return { z: best, gradient: gradientAt(best) };
}

/**
 * Those of some places (pixels) that can bear a label, in the order given: none nearer than `room` to one before it.
 */
export function legible<Place extends { readonly y: number }>(
  places: readonly Place[],
  room: number,
): Place[] {
  const kept: Place[] = [];
  for (const place of places) if (kept.every(({ y }) => Math.abs(y - place.y) >= room)) kept.push(place);
  return kept;
}
