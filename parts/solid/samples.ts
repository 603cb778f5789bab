import type { RayIndex } from './rays.js';
import type { Vec3 } from './vector.js';

/** A point on a surface that speaks for the surface around it. */
export interface SurfacePoint {
  readonly at: Vec3;
  /** Outward, length 1. */
  readonly normal: Vec3;
  readonly triangle: number;
  /** mm2 that it speaks for */
  readonly area: number;
}

/** mm2; a triangle below this is a sliver that a boolean left, and nothing is measured there. */
const SLIVER = 1e-3;

/** Steps of an evenly spread sequence of pairs: powers of the root of x^3 = x + 1 (Roberts 2018). */
const PLASTIC_NUMBER = 1.324717957244746;
const [STEP_U, STEP_V] = [1 / PLASTIC_NUMBER, 1 / PLASTIC_NUMBER ** 2];

/**
 * Points evenly spread over the triangles that `wanted` picks, the same every time: at least one on each, and one for
 * `each` mm2.
 * @param most no more than about this many on the larger triangles together
 */
export function* surfacePoints(
  { mesh, areas, normals }: RayIndex,
  wanted: (triangle: number) => boolean,
  each: number,
  most: number,
): Generator<SurfacePoint> {
  const picked: number[] = [];
  let total = 0;
  for (let t = 0; t < areas.length; t++) {
    if (areas[t]! < SLIVER || !wanted(t)) continue;
    picked.push(t);
    total += areas[t]!;
  }
  const share = Math.max(each, total / most);
  let [u, v] = [0.5, 0.5];
  for (const triangle of picked) {
    const count = Math.max(1, Math.round(areas[triangle]! / share));
    const normal: Vec3 = [normals[3 * triangle]!, normals[3 * triangle + 1]!, normals[3 * triangle + 2]!];
    const corner = (i: number, axis: number) => mesh.positions[3 * mesh.triangles[3 * triangle + i]! + axis]!;
    for (let i = 0; i < count; i++) {
      u = (u + STEP_U) % 1;
      v = (v + STEP_V) % 1;
      // Folded into the triangle; a lone point is put in its middle.
      const [b, c] = count === 1 ? [1 / 3, 1 / 3] : u + v > 1 ? [1 - u, 1 - v] : [u, v];
      const along = (axis: number) =>
        corner(0, axis) * (1 - b - c) + corner(1, axis) * b + corner(2, axis) * c;
      yield { at: [along(0), along(1), along(2)], normal, triangle, area: areas[triangle]! / count };
    }
  }
}
