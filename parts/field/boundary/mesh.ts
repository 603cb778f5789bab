import { type Boundary, boundariesOf } from './boundaries.js';
import { closestT, endOf, lengthOf, placeOn, startOf } from './curve.js';
import { Panel } from './panel.js';
import type { Problem } from './problem.js';

export type Meshed = readonly [Panel, Boundary];

/** rad of an arc on one panel at most. */
const MOST_TURN = Math.PI / 3;
/** Halvings towards a corner to begin with. */
const CORNER_LEVELS = 2;
/** A panel is at most this much longer than its distance from other surfaces, and than a neighbour's length plus their distance. */
const OVER_DISTANCE = 3;
const GROWTH = 4.5;
/** Middles of neighbours are this much farther apart than half of both at most. */
const NEIGHBOUR = 1.1;
/** Share of its segment below which no panel is cut to begin with. */
const SHORTEST = 1 / 64;
/** Share of its segment that an end of a panel may be off without being elsewhere. */
const ROUNDING = 1e-9;

/** A mesh to begin with: fine at corners, on bends, and where surfaces come close to each other. */
export function firstMesh(problem: Problem, order: number): Meshed[] {
  const boundaries = boundariesOf(problem);
  let mesh = boundaries.flatMap((boundary) =>
    begin(boundary).map(([from, to]): Meshed => [new Panel(boundary, from, to, order), boundary]),
  );
  for (let round = 0; round < 12; round++) {
    const tooLong = mesh.map((one) => isTooLong(one, mesh, boundaries, problem.floor));
    if (!tooLong.includes(true)) break;
    mesh = mesh.flatMap((one, i) => (tooLong[i] ? halved(one) : [one]));
  }
  return mesh;
}

export function halved([panel, boundary]: Meshed): Meshed[] {
  return panel.halves().map((half): Meshed => [half, boundary]);
}

function begin(boundary: Boundary): [number, number][] {
  const { segment, cornerStart, cornerEnd } = boundary;
  const turn = segment.kind === 'arc' ? Math.abs(segment.end - segment.start) : 0;
  const equal = Math.max(1, Math.ceil(turn / MOST_TURN - ROUNDING));
  const stops = Array.from({ length: equal + 1 }, (_, i) => i / equal);
  const fine: number[] = [];
  for (let level = 1; level <= CORNER_LEVELS; level++) {
    const share = 1 / (equal * 2 ** level);
    if (cornerStart) fine.push(share);
    if (cornerEnd) fine.push(1 - share);
  }
  const all = [...new Set([...stops, ...fine])]
    .sort((a, b) => a - b)
    .filter((t, i, sorted) => i === 0 || t - sorted[i - 1]! > ROUNDING);
  return all.slice(1).map((to, i) => [all[i]!, to]);
}

function isTooLong(
  [panel, own]: Meshed,
  mesh: readonly Meshed[],
  boundaries: readonly Boundary[],
  floor: number | undefined,
): boolean {
  if (panel.to - panel.from < SHORTEST) return false;
  const { length } = panel;
  if (floor !== undefined) {
    const over = panel.z - floor;
    if (over > 0 && length > OVER_DISTANCE * 2 * over) return true;
  }
  for (const boundary of boundaries) {
    // Walls of one body may be thin: charge on them changes as slowly as what is around the body.
    if (
      boundary.body === own.body ||
      (boundary.kind === 'dielectric' && own.kind === 'dielectric') ||
      touches(own, boundary)
    )
      continue;
    const { segment } = boundary;
    const t = closestT(segment, panel.r, panel.z);
    const [r, z] = placeOn(segment, t);
    // From the closest place on the panel, not from its middle.
    const spot = panel.trace(panel.closest(r, z));
    const distance = Math.hypot(spot.r - r, spot.z - z);
    if (length > OVER_DISTANCE * distance && length > 1e-3 * lengthOf(own.segment)) return true;
  }
  return mesh.some(([other, boundary]) => {
    if (boundary.body !== own.body || length <= GROWTH * other.length) return false;
    return Math.hypot(other.r - panel.r, other.z - panel.z) < (other.reach + panel.reach) * NEIGHBOUR;
  });
}

function touches(a: Boundary, b: Boundary): boolean {
  const ends = (one: Boundary) => [startOf(one.segment), endOf(one.segment)];
  const near = 1e-7 * Math.max(lengthOf(a.segment), lengthOf(b.segment));
  return ends(a).some(([r, z]) => ends(b).some(([s, w]) => Math.hypot(r - s, z - w) < near));
}
