import type { Vec3 } from '../solid/vector.js';
import { nextOf, triangleOf } from './half-edges.js';
import type { SurfacePoint } from './nodes.js';
import type { Shape } from './shape.js';

/** A way over one surface: the half-edges that it leaves its triangles by. */
export interface Strip {
  readonly from: SurfacePoint;
  readonly to: SurfacePoint;
  readonly crossed: readonly number[];
}

/** The shortest way within a strip or around one: mm and points in the mesh’s own frame. */
export interface SurfaceLine extends Strip {
  readonly length: number;
  readonly points: readonly Vec3[];
}

/** A place where the shortest way within a strip touches a corner of the mesh. */
interface Bend {
  readonly side: 'left' | 'right';
  /** Edges of the strip that meet at this corner, from the first to the last. */
  readonly first: number;
  readonly last: number;
}

/** mm; what is gained by less is rounding. */
const GAIN = 1e-9;
/** Corners that a way may be led around the other side of. */
const MOST_TURNS = 2000;

/**
 * The geodesic that a way can be pulled to: the shortest line in its strip, and where that bends at a corner of the mesh, the
 * strip on the other side of this corner as long as that is shorter.
 */
export function pulledTight(shape: Shape, strip: Strip): SurfaceLine {
  let crossed = withoutReturns(shape, strip.crossed);
  let best = tightIn(shape, { ...strip, crossed });
  let turns = 0;
  for (let at = 0; at < best.bends.length && turns < MOST_TURNS; ) {
    const around = otherSide(shape, crossed, best.bends[at]!);
    const tried = around && withoutReturns(shape, around);
    const found = tried && tightIn(shape, { ...strip, crossed: tried });
    turns++;
    if (found && found.length < best.length - GAIN) {
      crossed = tried;
      best = found;
      at = 0;
    } else at++;
  }
  return { from: strip.from, to: strip.to, crossed, length: best.length, points: best.points };
}

/** Takes out edges that are crossed and at once crossed back. */
function withoutReturns({ edges }: Shape, crossed: readonly number[]): number[] {
  const kept: number[] = [];
  for (const edge of crossed) {
    if (kept.length > 0 && edges.twins[kept.at(-1)!] === edge) kept.pop();
    else kept.push(edge);
  }
  return kept;
}

/** The strip led around the other side of the corner at which it bends; undefined when there is no way around. */
function otherSide({ mesh, edges }: Shape, crossed: readonly number[], bend: Bend): number[] | undefined {
  const { twins } = edges;
  const first = crossed[bend.first]!;
  const corner = mesh.triangles[bend.side === 'right' ? first : nextOf(first)]!;
  const target = triangleOf(twins[crossed[bend.last]!]!);
  let triangle = triangleOf(first);
  const around: number[] = [];
  while (triangle !== target) {
    if (around.length > crossed.length + 4 * (bend.last - bend.first + 1) + 400) return undefined;
    let out = 3 * triangle;
    while (mesh.triangles[out] !== corner) {
      if (++out === 3 * triangle + 3) return undefined;
    }
    // With the corner on the left the edges that lead to it are crossed, with it on the right those that come from it.
    const edge = bend.side === 'right' ? nextOf(nextOf(out)) : out;
    around.push(edge);
    triangle = triangleOf(twins[edge]!);
  }
  return [...crossed.slice(0, bend.first), ...around, ...crossed.slice(bend.last + 1)];
}

type Flat = readonly [number, number];

/** The shortest line within a strip, by pulling a string through its unfolded edges. */
function tightIn(
  shape: Shape,
  strip: Strip,
): { readonly length: number; readonly points: readonly Vec3[]; readonly bends: readonly Bend[] } {
  const { crossed } = strip;
  const { rights, lefts, start, end } = unfolded(shape, strip);
  const count = crossed.length;
  const corners: { at: Flat; portal: number; side?: 'left' | 'right' }[] = [{ at: start, portal: -1 }];
  let apex = start;
  let [left, right] = [0, 0];
  let leftAt: Flat = start;
  let rightAt: Flat = start;
  const turn = (a: Flat, b: Flat, c: Flat) =>
    (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
  const same = (a: Flat, b: Flat) => Math.abs(a[0] - b[0]) < 1e-12 && Math.abs(a[1] - b[1]) < 1e-12;
  const restart = (at: Flat, portal: number, side: 'left' | 'right'): void => {
    corners.push({ at, portal, side });
    apex = at;
    leftAt = at;
    rightAt = at;
    left = portal;
    right = portal;
  };
  for (let i = 0; i <= count; i++) {
    const nextLeft = i < count ? lefts[i]! : end;
    const nextRight = i < count ? rights[i]! : end;
    if (turn(apex, rightAt, nextRight) >= 0) {
      if (same(apex, rightAt) || turn(apex, leftAt, nextRight) < 0) {
        rightAt = nextRight;
        right = i;
      } else {
        restart(leftAt, left, 'left');
        i = left;
        continue;
      }
    }
    if (turn(apex, leftAt, nextLeft) <= 0) {
      if (same(apex, leftAt) || turn(apex, rightAt, nextLeft) > 0) {
        leftAt = nextLeft;
        left = i;
      } else {
        restart(rightAt, right, 'right');
        i = right;
      }
    }
  }
  corners.push({ at: end, portal: count });
  return {
    length: corners.slice(1).reduce((sum, { at }, i) => sum + away(corners[i]!.at, at), 0),
    points: pointsOn(shape, strip, corners, lefts, rights),
    bends: corners
      .slice(1, -1)
      .flatMap(({ portal, side }) => (side && portal < count ? bendAt(shape, crossed, portal, side) : [])),
  };
}

const away = (a: Flat, b: Flat) => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** The run of crossed edges around a portal that meet at its corner. */
function bendAt({ mesh }: Shape, crossed: readonly number[], portal: number, side: 'left' | 'right'): Bend {
  const cornerOf = (i: number) => mesh.triangles[side === 'right' ? crossed[i]! : nextOf(crossed[i]!)]!;
  const corner = cornerOf(portal);
  let [first, last] = [portal, portal];
  while (first > 0 && cornerOf(first - 1) === corner) first--;
  while (last < crossed.length - 1 && cornerOf(last + 1) === corner) last++;
  return { side, first, last };
}

/** Ends of the crossed edges, right and left of the way, in the plane of the first triangle. */
function unfolded(
  shape: Shape,
  { from, to, crossed }: Strip,
): { rights: Flat[]; lefts: Flat[]; start: Flat; end: Flat } {
  const { mesh, edges } = shape;
  const { lengths, twins } = edges;
  const rights: Flat[] = [];
  const lefts: Flat[] = [];
  if (crossed.length === 0) {
    return { rights, lefts, start: [0, 0], end: [apart(from.at, to.at), 0] };
  }
  /** A point of a triangle, whose first edge lies between two places of the plane with the triangle on its left. */
  const inPlane = (edge: number, a: Flat, b: Flat, point: Vec3): Flat => {
    const [toA, toB] = [
      apart(point, vertex(mesh.positions, mesh.triangles[edge]!)),
      apart(point, vertex(mesh.positions, mesh.triangles[nextOf(edge)]!)),
    ];
    return third(a, b, lengths[edge]!, toA, toB);
  };
  let edge = crossed[0]!;
  let a: Flat = [0, 0];
  let b: Flat = [lengths[edge]!, 0];
  const start = inPlane(edge, a, b, from.at);
  for (let i = 0; i < crossed.length; i++) {
    edge = crossed[i]!;
    if (i > 0) {
      const twin = twins[crossed[i - 1]!]!;
      // The triangle lies right of a to b, so left of b to a.
      const apex = third(b, a, lengths[twin]!, lengths[nextOf(nextOf(twin))]!, lengths[nextOf(twin)]!);
      if (edge === nextOf(twin)) b = apex;
      else if (edge === nextOf(nextOf(twin))) a = apex;
      else throw new RangeError('edges of a strip that do not follow one another');
    }
    rights.push(a);
    lefts.push(b);
  }
  return { rights, lefts, start, end: inPlane(twins[edge]!, b, a, to.at) };
}

/** A point left of the way from a to b (that are `length` apart), by its distances from both. */
function third(a: Flat, b: Flat, length: number, toA: number, toB: number): Flat {
  if (!(length > 0)) return a;
  const along = (toA * toA - toB * toB + length * length) / (2 * length);
  const height = Math.sqrt(Math.max(0, toA * toA - along * along));
  const [ux, uy] = [(b[0] - a[0]) / length, (b[1] - a[1]) / length];
  return [a[0] + along * ux - height * uy, a[1] + along * uy + height * ux];
}

const vertex = (p: Float32Array, i: number): Vec3 => [p[3 * i]!, p[3 * i + 1]!, p[3 * i + 2]!];
const apart = (a: Vec3, b: Vec3) =>
  Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2);

/** Where the pulled line crosses each edge, in space. */
function pointsOn(
  { mesh }: Shape,
  { from, to, crossed }: Strip,
  corners: readonly { at: Flat; portal: number }[],
  lefts: readonly Flat[],
  rights: readonly Flat[],
): Vec3[] {
  const points: Vec3[] = [from.at];
  let leg = 0;
  for (const [i, edge] of crossed.entries()) {
    while (leg + 2 < corners.length && corners[leg + 1]!.portal < i) leg++;
    const [p, q] = [corners[leg]!.at, corners[leg + 1]!.at];
    const [a, b] = [rights[i]!, lefts[i]!];
    const [ux, uy] = [b[0] - a[0], b[1] - a[1]];
    const [vx, vy] = [q[0] - p[0], q[1] - p[1]];
    const whole = ux * vy - uy * vx;
    const share =
      Math.abs(whole) > 1e-15
        ? Math.min(1, Math.max(0, ((p[0] - a[0]) * vy - (p[1] - a[1]) * vx) / whole))
        : 0.5;
    const [va, vb] = [
      vertex(mesh.positions, mesh.triangles[edge]!),
      vertex(mesh.positions, mesh.triangles[nextOf(edge)]!),
    ];
    points.push([
      va[0] + share * (vb[0] - va[0]),
      va[1] + share * (vb[1] - va[1]),
      va[2] + share * (vb[2] - va[2]),
    ]);
  }
  points.push(to.at);
  return points;
}
