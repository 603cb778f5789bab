import type { Loop, Vec2 } from './vector.js';

/** The convex outline around points, counter-clockwise, without points on its edges. */
export function convexOutline(points: readonly Vec2[]): Loop {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (from: readonly Vec2[]): Vec2[] => {
    const chain: Vec2[] = [];
    for (const point of from) {
      while (chain.length >= 2 && !turnsLeft(chain.at(-2)!, chain.at(-1)!, point)) chain.pop();
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half([...sorted].reverse())];
}

/** Twice the area below which three points count as on a line, mm2. */
const FLAT = 1e-9;

function turnsLeft(a: Vec2, b: Vec2, c: Vec2): boolean {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]) > FLAT;
}
