import type { Vec3 } from '../../parts/solid/vector.js';

/** A box by its least and greatest corner, mm. */
export interface Box {
  readonly min: Vec3;
  readonly max: Vec3;
}

/** Numbers from 0 to 1 that follow from a seed: mulberry32, public domain. */
export function random(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

/** Least distance between two boxes. */
export const between = (a: Box, b: Box): number =>
  Math.hypot(...a.min.map((low, axis) => Math.max(0, low - b.max[axis]!, b.min[axis]! - a.max[axis]!)));

/** mm between boxes of an assembly: more than any gap that is bridged. */
const APART = 3;

/** Two conductors with insulating boxes between and around them, none closer than 3 mm to another. */
export function randomBoxes(seed: number): { readonly a: Box; readonly b: Box; readonly insulators: Box[] } {
  const next = random(seed);
  const within = (low: number, high: number) => low + (high - low) * next();
  const at = (min: Vec3, size: Vec3): Box => ({
    min,
    max: [min[0] + size[0], min[1] + size[1], min[2] + size[2]],
  });
  const a = at([0, within(10, 20), within(10, 20)], [4, 4, 4]);
  const b = at([56, within(10, 20), within(10, 20)], [4, 4, 4]);
  const insulators: Box[] = [];
  for (let tries = 0; tries < 200 && insulators.length < 4; tries++) {
    const box = at(
      [within(8, 46), within(0, 20), within(0, 20)],
      [within(3, 8), within(8, 30), within(8, 30)],
    );
    if ([a, b, ...insulators].every((other) => between(box, other) >= APART)) insulators.push(box);
  }
  return { a, b, insulators };
}
