import type { Mesh } from './kernel.js';
import type { Vec2, Vec3 } from './vector.js';

/** How a mesh stands on the bed (z = 0), mm and mm2. */
export interface Stance {
  /** mm2 of faces that lie on the bed */
  readonly contact: number;
  /** mm3 */
  readonly volume: number;
  /** Of mass, the same plastic everywhere. */
  readonly centre: Vec3;
  readonly height: number;
  /** mm from below the centre of mass to the nearest edge of what it stands on; negative when it lies outside. */
  readonly margin: number;
}

/** mm; a face no higher than this lies on the bed */
const ON_BED = 0.01;

/** Contact, centre of mass and how far that is from tipping over an edge of the convex outline of the contact. Exact for the mesh. */
export function stanceOf({ positions: p, triangles }: Mesh): Stance {
  let [contact, volume, height] = [0, 0, 0];
  const sum = [0, 0, 0];
  const feet: Vec2[] = [];
  for (let t = 0; t < triangles.length; t += 3) {
    const corners = [0, 1, 2].map((i): Vec3 => {
      const at = 3 * triangles[t + i]!;
      return [p[at]!, p[at + 1]!, p[at + 2]!];
    }) as [Vec3, Vec3, Vec3];
    const [a, b, c] = corners;
    // Six times the volume between the triangle and the origin.
    const sixfold =
      a[0] * (b[1] * c[2] - b[2] * c[1]) +
      a[1] * (b[2] * c[0] - b[0] * c[2]) +
      a[2] * (b[0] * c[1] - b[1] * c[0]);
    volume += sixfold / 6;
    for (let axis = 0; axis < 3; axis++)
      sum[axis] = sum[axis]! + (sixfold * (a[axis]! + b[axis]! + c[axis]!)) / 24;
    height = Math.max(height, a[2], b[2], c[2]);
    if (corners.some(([, , z]) => z > ON_BED)) continue;
    contact += Math.abs((b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])) / 2;
    feet.push(...corners.map(([x, y]): Vec2 => [x, y]));
  }
  const centre: Vec3 = [sum[0]! / volume, sum[1]! / volume, sum[2]! / volume];
  return { contact, volume, centre, height, margin: insideBy(convexOutline(feet), [centre[0], centre[1]]) };
}

/** The convex outline of points, counter-clockwise (Andrew's monotone chain). */
export function convexOutline(points: readonly Vec2[]): Vec2[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (from: readonly Vec2[]): Vec2[] => {
    const chain: Vec2[] = [];
    for (const point of from) {
      while (chain.length > 1 && side(chain.at(-2)!, chain.at(-1)!, point) <= 0) chain.pop();
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half(sorted.reverse())];
}

/** Twice the area of a triangle; above 0 when `c` lies left of the way from `a` to `b`. */
const side = (a: Vec2, b: Vec2, c: Vec2): number =>
  (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** mm from a point to the nearest line along a side of a convex outline, below 0 outside; 0 on a line or a point, which hold nothing. */
function insideBy(outline: readonly Vec2[], point: Vec2): number {
  if (outline.length < 3) return 0;
  return Math.min(
    ...outline.map((from, i) => {
      const to = outline[(i + 1) % outline.length]!;
      return side(from, to, point) / Math.hypot(to[0] - from[0], to[1] - from[1]);
    }),
  );
}
