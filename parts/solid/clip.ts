import { loopArea } from './sections.js';
import type { Loop, Vec2 } from './vector.js';

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
