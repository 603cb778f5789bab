import type { RayIndex } from './rays.js';
import type { Vec3 } from './vector.js';

/** The place on a mesh that lies nearest to a point. */
export interface Nearest {
  /** mm */
  readonly distance: number;
  readonly at: Vec3;
  readonly triangle: number;
}

/** The place on a mesh nearest to a point, no further than `within` mm; undefined where there is none. */
export function nearestOn(index: RayIndex, point: Vec3, within: number): Nearest | undefined {
  const { order, boxes, links, counts, mesh } = index;
  if (counts.length === 0) return undefined;
  const { positions: p, triangles } = mesh;
  let best = within * within;
  let triangle = -1;
  let at: Vec3 = point;
  const waiting = [0];
  while (waiting.length > 0) {
    const box = waiting.pop()!;
    if (toBox(boxes, 6 * box, point) > best) continue;
    const held = counts[box]!;
    if (held === 0) {
      // The nearer half is looked at first: it leaves less of the other.
      const [a, b] = [box + 1, links[box]!];
      const aFirst = toBox(boxes, 6 * a, point) < toBox(boxes, 6 * b, point);
      waiting.push(aFirst ? b : a, aFirst ? a : b);
      continue;
    }
    for (let i = links[box]!; i < links[box]! + held; i++) {
      const t = order[i]!;
      const found = nearestInTriangle(
        p,
        3 * triangles[3 * t]!,
        3 * triangles[3 * t + 1]!,
        3 * triangles[3 * t + 2]!,
        point,
      );
      const square = (found[0] - point[0]) ** 2 + (found[1] - point[1]) ** 2 + (found[2] - point[2]) ** 2;
      if (square > best || (square === best && triangle >= 0)) continue;
      best = square;
      triangle = t;
      at = found;
    }
  }
  return triangle < 0 ? undefined : { distance: Math.sqrt(best), at, triangle };
}

/** Square of the distance from a point to a box. */
function toBox(boxes: Float64Array, at: number, [x, y, z]: Vec3): number {
  const dx = Math.max(boxes[at]! - x, 0, x - boxes[at + 3]!);
  const dy = Math.max(boxes[at + 1]! - y, 0, y - boxes[at + 4]!);
  const dz = Math.max(boxes[at + 2]! - z, 0, z - boxes[at + 5]!);
  return dx * dx + dy * dy + dz * dz;
}

/** By which of its corners, edges or inside a triangle is nearest; a, b, c are offsets of its corners. */
function nearestInTriangle(p: Float32Array, a: number, b: number, c: number, [x, y, z]: Vec3): Vec3 {
  const [ax, ay, az] = [p[a]!, p[a + 1]!, p[a + 2]!];
  const [ux, uy, uz] = [p[b]! - ax, p[b + 1]! - ay, p[b + 2]! - az];
  const [vx, vy, vz] = [p[c]! - ax, p[c + 1]! - ay, p[c + 2]! - az];
  const [wx, wy, wz] = [x - ax, y - ay, z - az];
  const d1 = ux * wx + uy * wy + uz * wz;
  const d2 = vx * wx + vy * wy + vz * wz;
  if (d1 <= 0 && d2 <= 0) return [ax, ay, az];
  const uu = ux * ux + uy * uy + uz * uz;
  const uv = ux * vx + uy * vy + uz * vz;
  const vv = vx * vx + vy * vy + vz * vz;
  const [d3, d4] = [d1 - uu, d2 - uv];
  if (d3 >= 0 && d4 <= d3) return [ax + ux, ay + uy, az + uz];
  const [d5, d6] = [d1 - uv, d2 - vv];
  if (d6 >= 0 && d5 <= d6) return [ax + vx, ay + vy, az + vz];
  const onU = d1 * d4 - d3 * d2;
  if (onU <= 0 && d1 >= 0 && d3 <= 0) {
    const s = d1 / (d1 - d3);
    return [ax + s * ux, ay + s * uy, az + s * uz];
  }
  const onV = d5 * d2 - d1 * d6;
  if (onV <= 0 && d2 >= 0 && d6 <= 0) {
    const s = d2 / (d2 - d6);
    return [ax + s * vx, ay + s * vy, az + s * vz];
  }
  const onW = d3 * d6 - d5 * d4;
  if (onW <= 0 && d4 - d3 >= 0 && d5 - d6 >= 0) {
    const s = (d4 - d3) / (d4 - d3 + (d5 - d6));
    return [ax + ux + s * (vx - ux), ay + uy + s * (vy - uy), az + uz + s * (vz - uz)];
  }
  const whole = onU + onV + onW;
  // A triangle without area: its corner is as good as any of its points.
  if (!(Math.abs(whole) > 0)) return [ax, ay, az];
  const [s, t] = [onV / whole, onU / whole];
  return [ax + s * ux + t * vx, ay + s * uy + t * vy, az + s * uz + t * vz];
}
