import type { Mesh } from '../solid/kernel.js';
import type { Vec3 } from '../solid/vector.js';
import { type HalfEdges, nextOf, triangleOf } from './half-edges.js';
import type { Nodes, SurfacePoint } from './nodes.js';

/** A straight line over unfolded triangles: which half-edges it leaves them by, and how long it is (mm). */
export interface Straight {
  readonly length: number;
  readonly crossed: readonly number[];
}

/** Windows that one unfolding may open: on the finest of threads some hundred are, on needles of triangles thousands. */
const MOST = 20_000;
/** All unfoldings take turns with these: a window’s edge and the window before it. */
const EDGE = new Int32Array(MOST);
const PARENT = new Int32Array(MOST);
/** Of each window its edge’s ends, right and left as seen from the place, and the rays that bound it. */
const PLANE = new Float64Array(8 * MOST);
/** How much longer than through space a line over the surface is first looked for, and by how much that is widened. */
const NEARLY = 1.05;
const WIDER = 2;
/** mm; by less a way around a corner is not shorter: on a plane many are as long. */
const NEARER = 1e-6;
/** mm; a corner so close to the line’s side counts as passed. */
const TOUCH = 1e-9;

/** How far corners of a mesh are from a place, as far as straight lines lead to them, in mm. */
class CornersReached {
  private readonly distances: Float64Array;
  /** Of which start a distance is. */
  private readonly since: Int32Array;
  private now = 0;

  constructor(count: number) {
    this.distances = new Float64Array(count);
    this.since = new Int32Array(count);
  }

  start(): void {
    this.now++;
  }

  come(corner: number, distance: number): void {
    if (this.since[corner] === this.now && this.distances[corner]! <= distance) return;
    this.since[corner] = this.now;
    this.distances[corner] = distance;
  }

  /**
   * Whether a point is nearer by a corner that lies at (cx, cy). By the far end of what is seen through an edge’s window this
   * is so for all that lies beyond: Xin and Wang, Improving Chen and Han’s algorithm on the discrete geodesic problem, 2009.
   */
  isNearer(corner: number, cx: number, cy: number, x: number, y: number): boolean {
    if (this.since[corner] !== this.now) return false;
    const by = this.distances[corner]! + Math.sqrt((x - cx) ** 2 + (y - cy) ** 2);
    return by < Math.sqrt(x * x + y * y) - NEARER;
  }
}

/**
 * Unfolds the triangles around a place into a plane, strip by strip, as long as a straight line from the place runs
 * through all of a strip’s edges. What lies in the last triangle is seen from there: its distance along the surface is
 * that of the straight line, exactly.
 */
export class Unfolding {
  private readonly corners: CornersReached;

  constructor(
    private readonly mesh: Mesh,
    private readonly edges: HalfEdges,
  ) {
    this.corners = new CornersReached(mesh.positions.length / 3);
  }

  /**
   * Calls `visit` for nodes that a straight line of at most `radius` mm leads to; some more than once, over other strips.
   * Lines that a way around a corner of the mesh is shorter than are left out where that is known.
   */
  reach(
    from: SurfacePoint,
    radius: number,
    nodes: Nodes,
    visit: (node: number, distance: number) => void,
  ): void {
    const { positions } = nodes;
    const holds = (triangle: number) => nodes.first(triangle) >= 0;
    this.corners.start();
    this.unfold(from, radius, holds, this.corners, (_, triangle, place) => {
      for (let node = nodes.first(triangle); node >= 0; node = nodes.after(node)) {
        const i = 3 * node;
        const distance = place(positions[i]!, positions[i + 1]!, positions[i + 2]!);
        if (distance <= radius) visit(node, distance);
      }
    });
  }

  /** The shortest straight line between two places; undefined when none of at most `radius` mm leads there. */
  straight(from: SurfacePoint, to: SurfacePoint, radius: number): Straight | undefined {
    const [a, b] = [from.at, to.at];
    const apart = Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2);
    const { twins } = this.edges;
    // Most lines are hardly longer than through space, and what is unfolded grows with the square of the radius.
    for (let within = NEARLY * apart + TOUCH; ; within *= WIDER) {
      const most = Math.min(within, radius);
      const there = this.oneWay(from, to, most);
      if (there) return there;
      // A line through a corner of the mesh may be seen from one of its ends only.
      const back = this.oneWay(to, from, most);
      if (back) return { length: back.length, crossed: back.crossed.map((edge) => twins[edge]!).reverse() };
      if (most === radius) return undefined;
    }
  }

  private oneWay(from: SurfacePoint, to: SurfacePoint, radius: number): Straight | undefined {
    let best = radius;
    let last = -2;
    const isThere = (triangle: number) => triangle === to.triangle;
    this.unfold(from, radius, isThere, undefined, (window, _, place) => {
      const distance = place(...to.at);
      if (distance <= best) {
        best = distance;
        last = window;
      }
    });
    if (last === -2) return undefined;
    const crossed: number[] = [];
    for (let window = last; window >= 0; window = PARENT[window]!) crossed.push(EDGE[window]!);
    return { length: best, crossed: crossed.reverse() };
  }

  /**
   * @param wanted which triangles are asked for
   * @param reached windows that one of these is nearer to are not opened
   * @param each called for these with a window (-1: the place’s own triangle), the triangle seen through it, and a function that
   * gives the straight distance of a point of this triangle, or infinity when it is hidden
   */
  private unfold(
    from: SurfacePoint,
    radius: number,
    wanted: (triangle: number) => boolean,
    reached: CornersReached | undefined,
    each: (window: number, triangle: number, place: (x: number, y: number, z: number) => number) => void,
  ): void {
    const { positions: p, triangles } = this.mesh;
    const { twins, lengths } = this.edges;
    const [edge, parent, plane] = [EDGE, PARENT, PLANE];
    const [x0, y0, z0] = from.at;
    const own = from.triangle;
    if (wanted(own)) each(-1, own, (x, y, z) => Math.sqrt((x - x0) ** 2 + (y - y0) ** 2 + (z - z0) ** 2));

    let count = 0;
    const reach = radius * radius;
    const open = (
      through: number,
      by: number,
      ax: number,
      ay: number,
      bx: number,
      by2: number,
      rx: number,
      ry: number,
      lx: number,
      ly: number,
    ): void => {
      if (count >= MOST) return;
      // Nothing beyond an edge is nearer than what of it is seen.
      seenOf(ax, ay, bx, by2, rx, ry, lx, ly);
      if (SEEN[0]! > reach) return;
      if (reached) {
        const [v, w] = [triangles[through]!, triangles[nextOf(through)]!];
        if (
          reached.isNearer(v, ax, ay, SEEN[3]!, SEEN[4]!) ||
          reached.isNearer(w, bx, by2, SEEN[1]!, SEEN[2]!)
        )
          return;
      }
      edge[count] = through;
      parent[count] = by;
      const at = 8 * count++;
      plane[at] = ax;
      plane[at + 1] = ay;
      plane[at + 2] = bx;
      plane[at + 3] = by2;
      plane[at + 4] = rx;
      plane[at + 5] = ry;
      plane[at + 6] = lx;
      plane[at + 7] = ly;
    };

    // The own triangle in a plane of its own, the place at its origin.
    const corners = [0, 1, 2].map((corner): Vec3 => {
      const v = 3 * triangles[3 * own + corner]!;
      return [p[v]! - x0, p[v + 1]! - y0, p[v + 2]! - z0];
    }) as [Vec3, Vec3, Vec3];
    const [e1, e2] = axesOf(corners);
    const flat = corners.map((corner) => [dot(corner, e1), dot(corner, e2)] as const);
    for (let corner = 0; corner < 3; corner++) {
      const [ax, ay] = flat[corner]!;
      reached?.come(triangles[3 * own + corner]!, Math.sqrt(ax * ax + ay * ay));
      const [bx, by] = flat[(corner + 1) % 3]!;
      open(3 * own + corner, -1, ax, ay, bx, by, ax, ay, bx, by);
    }

    for (let window = 0; window < count; window++) {
      const at = 8 * window;
      const [ax, ay, bx, by] = [plane[at]!, plane[at + 1]!, plane[at + 2]!, plane[at + 3]!];
      const [rx, ry, lx, ly] = [plane[at + 4]!, plane[at + 5]!, plane[at + 6]!, plane[at + 7]!];
      const twin = twins[edge[window]!]!;
      const triangle = triangleOf(twin);
      const length = lengths[twin]!;
      if (!(length > 0)) continue;
      const [onward, back] = [nextOf(twin), nextOf(nextOf(twin))];
      // The apex beyond, on the right of the way from a to b.
      const along = (lengths[onward]! ** 2 - lengths[back]! ** 2 + length * length) / (2 * length);
      const height = Math.sqrt(Math.max(0, lengths[onward]! ** 2 - along * along));
      const [ux, uy] = [(bx - ax) / length, (by - ay) / length];
      const cx = ax + along * ux + height * uy;
      const cy = ay + along * uy - height * ux;

      if (wanted(triangle)) {
        const v = 3 * triangles[twin]!;
        const w = 3 * triangles[onward]!;
        const a = 3 * triangles[back]!;
        // `twin` runs from b to a.
        each(window, triangle, (x, y, z) => {
          const weights = weightsOf(p, w, v, a, x, y, z);
          const px = ax + weights[0] * (bx - ax) + weights[1] * (cx - ax);
          const py = ay + weights[0] * (by - ay) + weights[1] * (cy - ay);
          if (rx * py - ry * px < -TOUCH || px * ly - py * lx < -TOUCH) return Number.POSITIVE_INFINITY;
          return Math.sqrt(px * px + py * py);
        });
      }

      // Which of both sides beyond is seen through this window.
      const rightOfLeft = cx * ly - cy * lx;
      const leftOfRight = rx * cy - ry * cx;
      if (reached && leftOfRight >= 0 && rightOfLeft >= 0)
        reached.come(triangles[back]!, Math.sqrt(cx * cx + cy * cy));
      if (leftOfRight > 0) {
        const inside = rightOfLeft > 0;
        open(onward, window, ax, ay, cx, cy, rx, ry, inside ? cx : lx, inside ? cy : ly);
      }
      if (rightOfLeft > 0) {
        const inside = leftOfRight > 0;
        open(back, window, cx, cy, bx, by, inside ? cx : rx, inside ? cy : ry, lx, ly);
      }
    }
  }
}

const dot = (a: Vec3, b: Vec3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

/** Two directions in a triangle’s plane, the second to the left of the first seen from outside. */
function axesOf([a, b, c]: readonly [Vec3, Vec3, Vec3]): [Vec3, Vec3] {
  const sides = [minus(b, a), minus(c, b), minus(a, c)];
  const longest = sides.reduce((best, side) => (dot(side, side) > dot(best, best) ? side : best));
  const size = Math.sqrt(dot(longest, longest)) || 1;
  const e1: Vec3 = [longest[0] / size, longest[1] / size, longest[2] / size];
  const normal = cross(minus(b, a), minus(c, a));
  const second = cross(normal, e1);
  const wide = Math.sqrt(dot(second, second)) || 1;
  return [e1, [second[0] / wide, second[1] / wide, second[2] / wide]];
}

/** What `seenOf` found: the square of its distance from the origin, and its right and left end. */
const SEEN = new Float64Array(5);

/** What lies of the segment from a to b between the rays r and l. */
function seenOf(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  rx: number,
  ry: number,
  lx: number,
  ly: number,
): void {
  const [ux, uy] = [bx - ax, by - ay];
  const size = ux * ux + uy * uy;
  // Shares of the segment at which the rays cross it; a ray along it crosses all of it.
  const [acrossRight, acrossLeft] = [rx * uy - ry * ux, lx * uy - ly * ux];
  const right = acrossRight > 0 ? Math.min(1, Math.max(0, (ry * ax - rx * ay) / acrossRight)) : 0;
  const left = acrossLeft > 0 ? Math.max(0, Math.min(1, (ly * ax - lx * ay) / acrossLeft)) : 1;
  const nearest = size > 0 ? -(ax * ux + ay * uy) / size : 0;
  const share = Math.min(Math.max(nearest, right), left);
  const [x, y] = [ax + share * ux, ay + share * uy];
  SEEN[0] = x * x + y * y;
  SEEN[1] = ax + right * ux;
  SEEN[2] = ay + right * uy;
  SEEN[3] = ax + left * ux;
  SEEN[4] = ay + left * uy;
}

/** Shares of corners b and c in a point of the triangle abc, given by offsets: [of `b`, of `c`]. */
function weightsOf(
  p: Float32Array,
  a: number,
  b: number,
  c: number,
  x: number,
  y: number,
  z: number,
): readonly [number, number] {
  const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
  const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
  const [wx, wy, wz] = [x - p[a]!, y - p[a + 1]!, z - p[a + 2]!];
  const uu = ux * ux + uy * uy + uz * uz;
  const uv = ux * vx + uy * vy + uz * vz;
  const vv = vx * vx + vy * vy + vz * vz;
  const uw = ux * wx + uy * wy + uz * wz;
  const vw = vx * wx + vy * wy + vz * wz;
  const whole = uu * vv - uv * uv;
  if (!(whole > 0)) return [uu > 0 ? uw / uu : 0, 0];
  return [(uw * vv - vw * uv) / whole, (vw * uu - uw * uv) / whole];
}
