import type { Vec3 } from '../solid/vector.js';

/** Where places are wanted: whether any point of a ball may be. Radius 0 asks for one point. */
export type Wanted = (x: number, y: number, z: number, radius: number) => boolean;

/** Stretches of a line that are looked at together. */
const GROUP = 8;

interface Group {
  readonly middle: Vec3;
  readonly radius: number;
  /** Numbers of its first and last point. */
  readonly from: number;
  readonly to: number;
}

/** What lies no further than `within` mm from a line through points. */
export function corridor(points: readonly Vec3[], within: number): Wanted {
  const groups: Group[] = [];
  for (let from = 0; from < points.length; from += GROUP) {
    const to = Math.min(from + GROUP, points.length - 1);
    const held = points.slice(from, to + 1);
    const middle = [0, 1, 2].map((axis) => {
      const values = held.map((point) => point[axis]!);
      return (Math.min(...values) + Math.max(...values)) / 2;
    }) as unknown as Vec3;
    groups.push({ middle, radius: Math.max(...held.map((point) => apart(point, middle))), from, to });
  }
  return (x, y, z, radius) => {
    const at: Vec3 = [x, y, z];
    const reach = within + radius;
    return groups.some(({ middle, radius: around, from, to }) => {
      if (apart(middle, at) > around + reach) return false;
      if (from === to) return apart(points[from]!, at) <= reach;
      for (let i = from; i < to; i++) if (toStretch(points[i]!, points[i + 1]!, at) <= reach) return true;
      return false;
    });
  };
}

const apart = (a: Vec3, b: Vec3) => Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2);

/** Distance of a point from a straight stretch. */
function toStretch(a: Vec3, b: Vec3, [x, y, z]: Vec3): number {
  const [ux, uy, uz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const square = ux * ux + uy * uy + uz * uz;
  const along = (x - a[0]) * ux + (y - a[1]) * uy + (z - a[2]) * uz;
  const share = square > 0 ? Math.min(1, Math.max(0, along / square)) : 0;
  return Math.sqrt(
    (a[0] + share * ux - x) ** 2 + (a[1] + share * uy - y) ** 2 + (a[2] + share * uz - z) ** 2,
  );
}
