import { polygonFactor } from './facets.js';
import type { Loop } from './vector.js';

/**
 * Areas and volumes in closed form or by integrating section areas, so that a part can say how much plastic it holds
 * without its mesh. Lengths in mm.
 */

/**
 * Volume of a profile of [radius, z] points turned once about z as a polygon of `sides`: Green's theorem for the solid of
 * revolution, times the area of the polygon over that of its circle. Exact.
 */
export function revolvedVolume(profile: Loop, sides: number): number {
  let sum = 0;
  for (let i = 0; i < profile.length; i++) {
    const [r0, z0] = profile[i]!;
    const [r1, z1] = profile[(i + 1) % profile.length]!;
    sum += (z1 - z0) * (r0 * r0 + r0 * r1 + r1 * r1);
  }
  return (Math.PI / 3) * sum * polygonFactor(sides);
}

/** Area of a plane polygon; negative when it runs clockwise. */
export function loopArea(loop: Loop): number {
  let sum = 0;
  for (let i = 0; i < loop.length; i++) {
    const [x0, y0] = loop[i]!;
    const [x1, y1] = loop[(i + 1) % loop.length]!;
    sum += x0 * y1 - x1 * y0;
  }
  return sum / 2;
}

/** Area of the strip |y| < half of a circle, for 0 < x. Limits clip to the circle. */
function halfStrip(radius: number, half: number): number {
  const y = Math.min(half, radius);
  return y * Math.sqrt(Math.max(0, radius * radius - y * y)) + radius * radius * Math.asin(y / radius);
}

/** Area that a straight radial slot of the given width takes out of the ring between two radii, on one side of the axis. */
export function slotThroughRing(inner: number, outer: number, width: number): number {
  return outer > inner ? halfStrip(outer, width / 2) - (inner > 0 ? halfStrip(inner, width / 2) : 0) : 0;
}

/** Area of a straight slot of the given width from the plane x = `from` outward to a circle. */
export function slotFromFlat(from: number, outer: number, width: number): number {
  const half = width / 2;
  if (outer <= from) return 0;
  const reach = Math.min(half, Math.sqrt(outer * outer - from * from));
  return halfStrip(outer, reach) - 2 * reach * from;
}

/** Area of a circle of `radius` beyond a chord at distance `from` of its centre. */
export function segmentArea(radius: number, from: number): number {
  if (from >= radius) return 0;
  return radius * radius * Math.acos(from / radius) - from * Math.sqrt(radius * radius - from * from);
}

/** Area common to two circles whose centres are `distance` apart. */
export function lensArea(a: number, b: number, distance: number): number {
  if (distance >= a + b) return 0;
  if (distance <= Math.abs(a - b)) return Math.PI * Math.min(a, b) ** 2;
  const da = (distance * distance + a * a - b * b) / (2 * distance);
  return segmentAreaSigned(a, da) + segmentAreaSigned(b, distance - da);
}

function segmentAreaSigned(radius: number, from: number): number {
  return from >= 0 ? segmentArea(radius, from) : Math.PI * radius * radius - segmentArea(radius, -from);
}

/** Five-point Gauss-Legendre nodes and weights on [-1, 1]; textbook values. */
const GAUSS: readonly (readonly [number, number])[] = [
  [0, 128 / 225],
  [Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3, (322 + 13 * Math.sqrt(70)) / 900],
  [-Math.sqrt(5 - 2 * Math.sqrt(10 / 7)) / 3, (322 + 13 * Math.sqrt(70)) / 900],
  [Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3, (322 - 13 * Math.sqrt(70)) / 900],
  [-Math.sqrt(5 + 2 * Math.sqrt(10 / 7)) / 3, (322 - 13 * Math.sqrt(70)) / 900],
];
const SLICES = 16;

/** Integral of a section area from one height to another. Smooth in each of 16 slices: split at kinks yourself. */
export function integrate(area: (z: number) => number, from: number, to: number): number {
  if (to <= from) return 0;
  const step = (to - from) / SLICES;
  let sum = 0;
  for (let i = 0; i < SLICES; i++) {
    const middle = from + (i + 0.5) * step;
    for (const [node, weight] of GAUSS) sum += weight * area(middle + (node * step) / 2);
  }
  return (sum * step) / 2;
}

/**
 * Volume taken off a bar along y whose four upright edges are rounded.
 * @param heightAt height of the bar’s section at a distance along x, between `from` and `to`
 */
export function roundedEndsVolume(
  from: number,
  to: number,
  radius: number,
  heightAt: (x: number) => number,
): number {
  const inset = (x: number) => {
    const off = radius - Math.min(x - from, to - x);
    return off > 0 ? radius - Math.sqrt(radius ** 2 - off ** 2) : 0;
  };
  const area = (x: number) => 2 * inset(x) * heightAt(x);
  return integrate(area, from, from + radius) + integrate(area, to - radius, to);
}

/** Volume of a round hole drawn as a circumscribed polygon. */
export function holeVolume(radius: number, sides: number, depth: number): number {
  return sides * radius * radius * Math.tan(Math.PI / sides) * depth;
}
