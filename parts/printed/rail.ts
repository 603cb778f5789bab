import { RAIL } from '../machine/carrier.js';
import { loopArea } from '../solid/sections.js';
import type { Loop, Vec2 } from '../solid/vector.js';

// What slides in the rails of the upper carrier's cheeks: the axle's blocks, and the legs of the terminal's seat.

/** mm */
const EDGE = 0.4;

/**
 * Section across the rails, [x, y]: a body with its four edges broken and a tongue on either side.
 * @param inset mm, drawn in all round: the chamfer at the bed
 */
export function slidingSection(
  d: { readonly left: number; readonly right: number; readonly thickness: number },
  inset = 0,
): Loop {
  const half = d.thickness / 2 - inset;
  const [left, right] = [d.left + inset, d.right - inset];
  // So that every face, the broken edges too, is drawn in by as much.
  const edge = Math.max(0, EDGE - inset * (2 - Math.SQRT2));
  const root = RAIL.tongueHalf - inset * (Math.SQRT2 - 1);
  const tip = root - RAIL.tongueDepth;
  const side = (x: number, out: -1 | 1): Vec2[] => {
    const lower: Vec2[] = [
      [x, -half + edge],
      [x, -root],
      [x + out * RAIL.tongueDepth, -tip],
    ];
    const upper = lower.map(([px, py]): Vec2 => [px, -py]).reverse();
    return [...lower, ...upper];
  };
  return [
    [left + edge, -half],
    [right - edge, -half],
    ...side(right, 1),
    [right - edge, half],
    [left + edge, half],
    ...side(left, -1).reverse(),
  ];
}

/** The groove that such a tongue slides in, in a wall whose face stands at x; `out` points into the wall. */
export function groove(x: number, out: -1 | 1): Vec2[] {
  const tip = RAIL.half - RAIL.depth;
  const points: Vec2[] = [
    [x, -RAIL.half],
    [x + out * RAIL.depth, -tip],
    [x + out * RAIL.depth, tip],
    [x, RAIL.half],
  ];
  return points;
}

/** How far a sliding body with its tongues reaches beyond its sides. mm */
export const TONGUE = RAIL.tongueDepth;

/** Area of the sliding section, mm2. */
export const slidingArea = (d: Parameters<typeof slidingSection>[0], inset = 0) =>
  loopArea(slidingSection(d, inset));
