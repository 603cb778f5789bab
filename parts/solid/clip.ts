import { loopArea } from './sections.js';
import { type Loop, radians, type Vec2 } from './vector.js';

/** Area common to two convex polygons, both counter-clockwise: the first clipped by each edge of the second. mm2 */
export function convexOverlap(subject: Loop, clip: Loop): number {
  let rest: Vec2[] = [...subject];
  for (let i = 0; i < clip.length && rest.length > 0; i++) {
    const a = clip[i]!;
    const b = clip[(i + 1) % clip.length]!;
    const side = (p: Vec2) => (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
    const kept: Vec2[] = [];
    for (let k = 0; k < rest.length; k++) {
      const from = rest[k]!;
      const to = rest[(k + 1) % rest.length]!;
      const [d0, d1] = [side(from), side(to)];
      if (d0 >= 0) kept.push(from);
      if (d0 * d1 < 0) {
        const t = d0 / (d0 - d1);
        kept.push([from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])]);
      }
    }
    rest = kept;
  }
  return rest.length < 3 ? 0 : loopArea(rest);
}

/** What is left of a convex loop up to a straight line at a distance (mm) from the origin in a direction (degrees). */
export function cutBeyond(loop: Loop, direction: number, distance: number): Loop {
  const [cos, sin] = [Math.cos(radians(direction)), Math.sin(radians(direction))];
  const over = ([x, y]: Vec2) => x * cos + y * sin - distance;
  return loop.flatMap((point, i) => {
    const next = loop[(i + 1) % loop.length]!;
    const [d0, d1] = [over(point), over(next)];
    const kept = d0 <= 0 ? [point] : [];
    if (d0 * d1 >= 0) return kept;
    const t = d0 / (d0 - d1);
    return [...kept, [point[0] + t * (next[0] - point[0]), point[1] + t * (next[1] - point[1])] as const];
  });
}

/** Length (mm) of the part of such a line that lies within the convex loop. */
export function chordOf(loop: Loop, direction: number, distance: number): number {
  const [cos, sin] = [Math.cos(radians(direction)), Math.sin(radians(direction))];
  const ends = loop.flatMap((point, i) => {
    const next = loop[(i + 1) % loop.length]!;
    const [d0, d1] = [point, next].map(([x, y]) => x * cos + y * sin - distance) as [number, number];
    if (d0 > 0 === d1 > 0) return [];
    const t = d0 / (d0 - d1);
    const [x, y] = [point[0] + t * (next[0] - point[0]), point[1] + t * (next[1] - point[1])];
    return [y * cos - x * sin];
  });
  return ends.length < 2 ? 0 : Math.max(...ends) - Math.min(...ends);
}
