import type { Vec3 } from '../../parts/solid/vector.js';
import type { Box } from './random-boxes.js';

// A second way to the shortest way through air around boxes: it shares nothing with the one it is to test.

/**
 * Bounds of the shortest way between two boxes around others. Shortest ways bend at edges alone. Upper: over points on all
 * edges, `step` mm apart, every stretch tested against every box. Lower: the same after every bend was moved to the nearest
 * of these points, by half a step at most, so that each stretch between two bends may be a step longer, and touch boxes that are half a step
 * smaller on each side.
 */
export function boundsOfClearance(
  a: Box,
  b: Box,
  insulators: readonly Box[],
  step: number,
): { readonly lower: number; readonly upper: number } {
  const points = insulators
    .flatMap(edgesOf)
    .flatMap(([from, to], edge) => along(from, to, step).map((at): Bend => ({ at, edge })));
  return {
    upper: shortest(a, b, insulators, points, 0),
    lower: shortest(
      a,
      b,
      insulators.map((box) => shrunk(box, step / 2)),
      points,
      step,
    ),
  };
}

/** Where a way may bend. Two bends after one another never lie on one edge: between them it would be straight. */
interface Bend {
  readonly at: Vec3;
  readonly edge: number;
}

const shrunk = ({ min, max }: Box, by: number): Box => ({
  min: min.map((value) => value + by) as unknown as Vec3,
  max: max.map((value) => value - by) as unknown as Vec3,
});

function edgesOf({ min, max }: Box): [Vec3, Vec3][] {
  const ends = [min, max];
  return [0, 1, 2].flatMap((axis) =>
    [0, 1].flatMap((i) =>
      [0, 1].map((j): [Vec3, Vec3] => {
        const [u, v] = [(axis + 1) % 3, (axis + 2) % 3];
        const corner = (end: number): Vec3 => {
          const at: [number, number, number] = [0, 0, 0];
          at[axis] = ends[end]![axis]!;
          at[u] = ends[i]![u]!;
          at[v] = ends[j]![v]!;
          return at;
        };
        return [corner(0), corner(1)];
      }),
    ),
  );
}

function along(from: Vec3, to: Vec3, step: number): Vec3[] {
  const length = distance(from, to);
  const count = Math.ceil(length / step);
  return Array.from({ length: count + 1 }, (_, i): Vec3 => {
    const share = i / count;
    return [0, 1, 2].map((axis) => from[axis]! + share * (to[axis]! - from[axis]!)) as unknown as Vec3;
  });
}

const distance = (p: Vec3, q: Vec3) =>
  Math.sqrt((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2 + (p[2] - q[2]) ** 2);

/** Dijkstra over all points; each stretch between bends counts as `less` mm shorter than it is, one to a conductor as half of that. */
function shortest(a: Box, b: Box, boxes: readonly Box[], points: readonly Bend[], less: number): number {
  const count = points.length;
  const reached = points.map(({ at: point }) => {
    const from = nearestOn(a, point);
    return isFree(from, point, boxes)
      ? Math.max(0, distance(from, point) - less / 2)
      : Number.POSITIVE_INFINITY;
  });
  const toEnd = points.map(({ at: point }) => {
    const to = nearestOn(b, point);
    return isFree(point, to, boxes) ? Math.max(0, distance(point, to) - less / 2) : Number.POSITIVE_INFINITY;
  });
  const done = new Uint8Array(count);
  const [start, end] = closest(a, b);
  let best = isFree(start, end, boxes) ? distance(start, end) : Number.POSITIVE_INFINITY;
  for (;;) {
    let next = -1;
    for (let i = 0; i < count; i++)
      if (!done[i] && reached[i]! < best && (next < 0 || reached[i]! < reached[next]!)) next = i;
    if (next < 0) return best;
    done[next] = 1;
    best = Math.min(best, reached[next]! + toEnd[next]!);
    for (let i = 0; i < count; i++) {
      const [here, there] = [points[next]!, points[i]!];
      if (done[i] || here.edge === there.edge) continue;
      const way = reached[next]! + Math.max(0, distance(here.at, there.at) - less);
      if (way < reached[i]! && way < best && isFree(here.at, there.at, boxes)) reached[i] = way;
    }
  }
}

const nearestOn = ({ min, max }: Box, at: Vec3): Vec3 =>
  at.map((value, axis) => Math.min(max[axis]!, Math.max(min[axis]!, value))) as unknown as Vec3;

/** Nearest points of two boxes; where they face each other, in the middle of what they share. */
function closest(a: Box, b: Box): [Vec3, Vec3] {
  const pair = [0, 1, 2].map((axis) => {
    const low = Math.max(a.min[axis]!, b.min[axis]!);
    const high = Math.min(a.max[axis]!, b.max[axis]!);
    if (low <= high) return [(low + high) / 2, (low + high) / 2];
    return a.max[axis]! < b.min[axis]! ? [a.max[axis]!, b.min[axis]!] : [a.min[axis]!, b.max[axis]!];
  });
  return [pair.map(([p]) => p) as unknown as Vec3, pair.map(([, q]) => q) as unknown as Vec3];
}

const INSIDE = 1e-9;

/** Whether a stretch passes through the inside of no box. */
function isFree(p: Vec3, q: Vec3, boxes: readonly Box[]): boolean {
  return boxes.every(({ min, max }) => {
    let [from, to] = [0, 1];
    for (let axis = 0; axis < 3; axis++) {
      const [start, way] = [p[axis]!, q[axis]! - p[axis]!];
      if (Math.abs(way) < INSIDE) {
        if (start <= min[axis]! + INSIDE || start >= max[axis]! - INSIDE) return true;
        continue;
      }
      const s = (min[axis]! - start) / way;
      const t = (max[axis]! - start) / way;
      from = Math.max(from, Math.min(s, t));
      to = Math.min(to, Math.max(s, t));
    }
    return to - from < INSIDE;
  });
}
