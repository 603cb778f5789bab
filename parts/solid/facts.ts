import type { Bounds } from './vector.js';
import { PointIndex } from './weld.js';

/** Two vertex numbers below this make one exact number. */
const EDGE_BASE = 2 ** 26;

/**
 * What can be said of a triangle mesh by counting, without trusting whoever made it.
 *
 * `genus` counts tunnels through all pieces together; it means something only for a closed mesh. Vertices are the same
 * when their coordinates are the same; a vertex where two fans of triangles merely touch counts once for each fan.
 */
export interface MeshFacts {
  readonly triangles: number;
  /** Triangles with two corners in one place. */
  readonly degenerate: number;
  /** Edges that are not run exactly once in each direction. */
  readonly openEdges: number;
  readonly closed: boolean;
  readonly pieces: number;
  readonly genus: number;
  /** mm3, positive when the surface faces outward */
  readonly volume: number;
  /** mm2 */
  readonly area: number;
  readonly bounds: Bounds;
}

class Groups {
  private readonly parent: number[];
  constructor(size: number) {
    this.parent = Array.from({ length: size }, (_, i) => i);
  }
  root(item: number): number {
    let at = item;
    while (this.parent[at] !== at) {
      this.parent[at] = this.parent[this.parent[at]!]!;
      at = this.parent[at]!;
    }
    return at;
  }
  merge(a: number, b: number): void {
    this.parent[this.root(a)] = this.root(b);
  }
}

/**
 * Counts and measures a triangle soup.
 * @param soup nine numbers a triangle (three corners of x, y, z in mm), corners counter-clockwise from outside
 */
export function meshFacts(soup: ArrayLike<number>): MeshFacts {
  const count = Math.floor(soup.length / 9);
  const corners = weld(soup, count);
  const whole: number[] = [];
  for (let t = 0; t < count; t++) {
    const [a, b, c] = [corners[3 * t]!, corners[3 * t + 1]!, corners[3 * t + 2]!];
    if (a !== b && b !== c && c !== a) whole.push(t);
  }

  // A directed edge may be run once only, and its opposite must be run too.
  const edges = new Map<number, number>();
  const doubled = new Set<number>();
  const edge = (from: number, to: number): number => from * EDGE_BASE + to;
  for (const t of whole) {
    for (let i = 0; i < 3; i++) {
      const key = edge(corners[3 * t + i]!, corners[3 * t + ((i + 1) % 3)]!);
      if (edges.has(key)) doubled.add(key);
      else edges.set(key, 3 * t + i);
    }
  }
  let openEdges = 0;
  const pieces = new Groups(count);
  const fans = new Groups(3 * count);
  const next = (corner: number): number => corner - (corner % 3) + ((corner + 1) % 3);
  for (const [key, here] of edges) {
    const reverse = edge(key % EDGE_BASE, Math.floor(key / EDGE_BASE));
    const there = edges.get(reverse);
    if (there === undefined || doubled.has(key) || doubled.has(reverse)) {
      openEdges++;
      continue;
    }
    // The two triangles at an edge belong to one piece, and share the fan at each of its ends.
    pieces.merge(Math.floor(here / 3), Math.floor(there / 3));
    fans.merge(here, next(there));
    fans.merge(next(here), there);
  }

  const degenerate = count - whole.length;
  const pieceRoots = new Set(whole.map((t) => pieces.root(t)));
  const fanRoots = new Set(whole.flatMap((t) => [0, 1, 2].map((i) => fans.root(3 * t + i))));
  const edgeCount = (3 * whole.length) / 2;
  const euler = fanRoots.size - edgeCount + whole.length;
  return {
    triangles: count,
    degenerate,
    openEdges,
    closed: count > 0 && openEdges === 0,
    pieces: pieceRoots.size,
    genus: pieceRoots.size - euler / 2,
    ...measures(soup, count),
  };
}

function weld(soup: ArrayLike<number>, count: number): Int32Array {
  const index = new PointIndex(count);
  const corners = new Int32Array(3 * count);
  for (let i = 0; i < 3 * count; i++) corners[i] = index.of(soup[3 * i]!, soup[3 * i + 1]!, soup[3 * i + 2]!);
  return corners;
}

function measures(soup: ArrayLike<number>, count: number): { volume: number; area: number; bounds: Bounds } {
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  let volume = 0;
  let area = 0;
  for (let t = 0; t < count; t++) {
    const at = (corner: number, axis: number): number => soup[9 * t + 3 * corner + axis]!;
    for (let axis = 0; axis < 3; axis++) {
      for (let corner = 0; corner < 3; corner++) {
        min[axis] = Math.min(min[axis]!, at(corner, axis));
        max[axis] = Math.max(max[axis]!, at(corner, axis));
      }
    }
    const [ax, ay, az] = [at(0, 0), at(0, 1), at(0, 2)];
    const [bx, by, bz] = [at(1, 0), at(1, 1), at(1, 2)];
    const [cx, cy, cz] = [at(2, 0), at(2, 1), at(2, 2)];
    volume += (ax * (by * cz - bz * cy) + ay * (bz * cx - bx * cz) + az * (bx * cy - by * cx)) / 6;
    const ux = (by - ay) * (cz - az) - (bz - az) * (cy - ay);
    const uy = (bz - az) * (cx - ax) - (bx - ax) * (cz - az);
    const uz = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
    area += Math.hypot(ux, uy, uz) / 2;
  }
  return { volume, area, bounds: { min, max } };
}

/** The corners of an indexed mesh written out triangle by triangle. */
export function soupOf(positions: ArrayLike<number>, triangles: ArrayLike<number>): Float32Array {
  const soup = new Float32Array(triangles.length * 3);
  for (let i = 0; i < triangles.length; i++) {
    for (let axis = 0; axis < 3; axis++) soup[3 * i + axis] = positions[triangles[i]! * 3 + axis]!;
  }
  return soup;
}
