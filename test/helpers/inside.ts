import type { Mesh } from '../../parts/solid/kernel.js';
import { type Bounds, type Placement, placementMatrix, type Vec3 } from '../../parts/solid/vector.js';

/** Cells of the grid over the mesh, along its longer side. */
const CELLS = 96;

/**
 * Whether points lie inside a closed mesh, by counting what a line straight up crosses: no boolean, no tree, nothing of the
 * library. A triangle is taken to hold its border on one side only, so that a line through an edge counts it once.
 */
export function insideOf(mesh: Mesh, placement: Placement): { holds(point: Vec3): boolean; bounds: Bounds } {
  const m = placementMatrix(placement);
  const count = mesh.positions.length / 3;
  const p = new Float64Array(3 * count);
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let v = 0; v < count; v++) {
    for (let axis = 0; axis < 3; axis++) {
      let value = m[4 * axis + 3]!;
      for (let from = 0; from < 3; from++) value += m[4 * axis + from]! * mesh.positions[3 * v + from]!;
      p[3 * v + axis] = value;
      min[axis] = Math.min(min[axis]!, value);
      max[axis] = Math.max(max[axis]!, value);
    }
  }
  const cell = Math.max(max[0] - min[0], max[1] - min[1]) / CELLS;
  const of = (value: number, axis: 0 | 1) =>
    Math.min(CELLS - 1, Math.max(0, Math.floor((value - min[axis]) / cell)));
  const columns = Array.from({ length: CELLS * CELLS }, (): number[] => []);
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const at = [0, 1, 2].map((i) => 3 * mesh.triangles[t + i]!);
    const [xs, ys] = [at.map((i) => p[i]!), at.map((i) => p[i + 1]!)];
    for (let i = of(Math.min(...xs), 0); i <= of(Math.max(...xs), 0); i++) {
      for (let j = of(Math.min(...ys), 1); j <= of(Math.max(...ys), 1); j++) columns[i * CELLS + j]!.push(t);
    }
  }
  const holds = ([x, y, z]: Vec3): boolean => {
    if (x < min[0] || x > max[0] || y < min[1] || y > max[1] || z < min[2] || z > max[2]) return false;
    let inside = false;
    for (const t of columns[of(x, 0) * CELLS + of(y, 1)]!) {
      const [a, b, c] = [0, 1, 2].map((i) => 3 * mesh.triangles[t + i]!) as [number, number, number];
      // Above the plane of the triangle, where the line passes through it.
      let crossed = false;
      for (const [from, to] of [
        [a, b],
        [b, c],
        [c, a],
      ] as const) {
        const [y0, y1] = [p[from + 1]!, p[to + 1]!];
        if (y0 > y === y1 > y) continue;
        if (x < p[from]! + ((y - y0) / (y1 - y0)) * (p[to]! - p[from]!)) crossed = !crossed;
      }
      if (crossed && heightOver(p, a, b, c, x, y) > z) inside = !inside;
    }
    return inside;
  };
  return { holds, bounds: { min, max } };
}

/** Height of the plane through three corners over a point. */
function heightOver(p: Float64Array, a: number, b: number, c: number, x: number, y: number): number {
  const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
  const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
  const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
  return p[a + 2]! - (nx * (x - p[a]!) + ny * (y - p[a + 1]!)) / nz;
}

/** Where points in a box fall evenly, the same every time: multiples of powers of the root of x^4 = x + 1 (Roberts 2018), from a seed. */
export function* pointsIn({ min, max }: Bounds, count: number, seed: number): Generator<Vec3> {
  const root = 1.2207440846057596;
  for (let i = 1; i <= count; i++) {
    const at = [1, 2, 3].map((power, axis) => {
      const share = ((((seed % 997) / 997 + i / root ** power) % 1) + 1) % 1;
      return min[axis]! + share * (max[axis]! - min[axis]!);
    });
    yield at as unknown as Vec3;
  }
}

/** The box that two boxes share; undefined when they are apart. */
export function shared(a: Bounds, b: Bounds): Bounds | undefined {
  const min = a.min.map((value, i) => Math.max(value, b.min[i]!)) as unknown as Vec3;
  const max = a.max.map((value, i) => Math.min(value, b.max[i]!)) as unknown as Vec3;
  return min.every((value, i) => value < max[i]!) ? { min, max } : undefined;
}
