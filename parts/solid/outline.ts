import { rectangle, sidesFor } from './facets.js';
import type { Loop, Vec2 } from './vector.js';

/** A corner with the radius (mm) of its rounding, 0 for a sharp one. */
export interface Corner {
  readonly at: Vec2;
  readonly radius: number;
  /** Take as many facets as a rounding of this radius has, so that two outlines can be lofted. */
  readonly facetedAs?: number;
}

/**
 * A polygon with some of its corners rounded.
 * @param corners counter-clockwise
 * @throws RangeError when two roundings do not fit on the edge between them
 */
export function filleted(corners: readonly Corner[]): Loop {
  const result: Vec2[] = [];
  const count = corners.length;
  const used = new Array<number>(count).fill(0);
  for (let i = 0; i < count; i++) {
    const { at, radius, facetedAs = radius } = corners[i]!;
    if (radius === 0) {
      result.push(at);
      continue;
    }
    const before = corners[(i + count - 1) % count]!.at;
    const after = corners[(i + 1) % count]!.at;
    const [inX, inY, inLength] = unit(before, at);
    const [outX, outY, outLength] = unit(at, after);
    const turn = Math.atan2(inX * outY - inY * outX, inX * outX + inY * outY);
    const setback = radius * Math.tan(Math.abs(turn) / 2);
    used[(i + count - 1) % count]! += setback / inLength;
    used[i]! += setback / outLength;
    const side = Math.sign(turn);
    const start: Vec2 = [at[0] - inX * setback, at[1] - inY * setback];
    const centre: Vec2 = [start[0] - side * inY * radius, start[1] + side * inX * radius];
    const from = Math.atan2(start[1] - centre[1], start[0] - centre[0]);
    const steps = Math.max(2, Math.ceil((sidesFor(facetedAs) * Math.abs(turn)) / (2 * Math.PI)));
    for (let k = 0; k <= steps; k++) {
      const angle = from + (turn * k) / steps;
      result.push([centre[0] + radius * Math.cos(angle), centre[1] + radius * Math.sin(angle)]);
    }
  }
  if (used.some((share) => share > 1 + 1e-9)) throw new RangeError('two roundings overlap on one edge');
  return result;
}

function unit(from: Vec2, to: Vec2): readonly [number, number, number] {
  const [x, y] = [to[0] - from[0], to[1] - from[1]];
  const length = Math.hypot(x, y);
  if (!(length > 0)) throw new RangeError('two corners stand in one place');
  return [x / length, y / length, length];
}

/** A hole that lies flat in the print, with a 45 degree roof instead of an arch. In its own plane, roof towards +y. */
export function teardrop(radius: number, centre: Vec2): Loop {
  const sides = sidesFor(radius);
  const outer = radius / Math.cos(Math.PI / sides);
  const steps = Math.ceil((sides * 3) / 4);
  const arc = Array.from({ length: steps + 1 }, (_, i): Vec2 => {
    const angle = (3 / 4) * Math.PI + (1.5 * Math.PI * i) / steps;
    return [centre[0] + outer * Math.cos(angle), centre[1] + outer * Math.sin(angle)];
  });
  return [[centre[0], centre[1] + outer * Math.SQRT2], ...arc];
}

/** An axis-aligned rectangle with its corners rounded. */
export function roundedRectangle(
  xMin: number,
  yMin: number,
  xMax: number,
  yMax: number,
  radius: number,
): Loop {
  return filleted(rectangle(xMin, yMin, xMax, yMax).map((at) => ({ at, radius })));
}
