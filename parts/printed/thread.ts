import type { Section } from '../solid/kernel.js';
import { integrate, loopArea } from '../solid/sections.js';
import { degrees, type Loop, radians, type Vec2 } from '../solid/vector.js';

/**
 * A multi-start trapezoid thread with 45 degree flanks as a turned section: the section of such a thread is the same at
 * every height, only turned. All lengths in mm.
 */
export interface ThreadShape {
  readonly starts: number;
  readonly pitch: number;
  readonly depth: number;
  readonly crest: number;
}

/** Degrees between points of the section and between sections: facets stand 0.07 mm off the true helix at 50 mm radius. */
const STEP = 6;

/** Breakpoints of the section so that no corner of the thread is cut: [angle in degrees, height over the root]. */
function corners(shape: ThreadShape): [number, number][] {
  const perStart = 360 / shape.starts;
  const share = (length: number): number => (length / shape.pitch) * perStart;
  const root = shape.pitch - shape.crest - 2 * shape.depth;
  if (root <= 0) throw new RangeError('the ridges of this thread run into each other');
  const pieces = [
    { length: share(shape.crest), from: shape.depth, to: shape.depth },
    { length: share(shape.depth), from: shape.depth, to: 0 },
    { length: share(root), from: 0, to: 0 },
    { length: share(shape.depth), from: 0, to: shape.depth },
  ];
  const result: [number, number][] = [];
  for (let start = 0; start < shape.starts; start++) {
    let at = start * perStart - pieces[0]!.length / 2;
    for (const { length, from, to } of pieces) {
      const count = Math.max(1, Math.ceil(length / STEP - 1e-9));
      for (let i = 0; i < count; i++)
        result.push([at + (length * i) / count, from + ((to - from) * i) / count]);
      at += length;
    }
  }
  return result;
}

/**
 * A section turned by `turn` degrees, its ridges cut off at `clip` mm. Side 1: out of a shaft, vertices on the true radius;
 * -1: into a bore, flats on it, so that a shaft which clears the radius clears the facets too.
 */
function sectionAt(
  shape: ThreadShape,
  rootRadius: number,
  side: 1 | -1,
  turn: number,
  clip = shape.depth,
): Loop {
  const facet = side < 0 ? Math.cos(radians(STEP / 2)) : 1;
  return corners(shape).map(([angle, height]): Vec2 => {
    const radius = (rootRadius + side * Math.min(height, clip)) / facet;
    return [radius * Math.cos(radians(angle + turn)), radius * Math.sin(radians(angle + turn))];
  });
}

/** How far a thread's solid reaches on at both ends, drawn in, so that it overlaps what it is joined to. mm */
const OVERLAP = 0.5;

/**
 * Sections of a right-hand thread between two heights, ridges chamfered at 45 degrees at both ends. For `side` 1 the solid
 * shaft with its ridges, for -1 the room inside a threaded bore.
 */
export function threadSections(
  shape: ThreadShape,
  rootRadius: number,
  side: 1 | -1,
  bottom: number,
  top: number,
): Section[] {
  const { turn, steps } = threadTwist(shape, top - bottom);
  const within = Array.from({ length: steps + 1 }, (_, i): Section => {
    const z = bottom + ((top - bottom) * i) / steps;
    const clip = Math.min(z - bottom, top - z);
    return { z, loop: startingAt(sectionAt(shape, rootRadius, side, (turn * i) / steps, clip), -i) };
  });
  const end = (z: number, i: number): Section => ({
    z,
    loop: startingAt(sectionAt(shape, rootRadius - OVERLAP, side, (turn * i) / steps, 0), -i),
  });
  return [end(bottom - OVERLAP, 0), ...within, end(top + OVERLAP, steps)];
}

/**
 * The same section, counted from another of its points. Each section is turned by one point against the one below: counted
 * on by one, a loft joins points that stand over each other, and its diagonals follow the helix. Counted from the same
 * point, its diagonals would cut across two points, and four times as deep into what they round.
 */
function startingAt(loop: Loop, first: number): Loop {
  const start = ((first % loop.length) + loop.length) % loop.length;
  return [...loop.slice(start), ...loop.slice(0, start)];
}

/** Turn (degrees) and number of sections of a thread of the given length. */
function threadTwist(shape: ThreadShape, length: number): { turn: number; steps: number } {
  const turn = (length / (shape.starts * shape.pitch)) * 360;
  return { turn, steps: Math.ceil(turn / STEP) };
}

/**
 * Section area (mm2) by which a thread and a round surface differ, as meshed: what ridges add to a shaft (`side` 1) or take
 * from a bore (`side` -1). Each face between two sections is split along one diagonal and the area is quadratic in between,
 * so that the prismatoid rule is exact.
 * @param surfaceArea of the shaft or bore without its thread, mm2
 */
export function ridgeArea(shape: ThreadShape, rootRadius: number, side: 1 | -1, surfaceArea: number): number {
  const { turn, steps } = threadTwist(shape, shape.pitch);
  const section = sectionAt(shape, rootRadius, side, 0);
  const above = sectionAt(shape, rootRadius, side, turn / steps);
  const middle = (a: Vec2, b: Vec2): Vec2 => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const halfway = section.flatMap((point, i) => [
    middle(point, above[(i + section.length - 1) % section.length]!),
    middle(point, above[i]!),
  ]);
  return side * ((2 * loopArea(section) + 4 * loopArea(halfway)) / 6 - surfaceArea);
}

/** Share of a ridge’s section that lies within `clip` mm of its root: what a 45 degree chamfer leaves at that height. */
export function ridgeShare(shape: ThreadShape, clip: number): number {
  const under = (depth: number) => depth * (shape.crest + 2 * shape.depth - depth);
  return under(Math.min(clip, shape.depth)) / under(shape.depth);
}

/** Volume (mm3) of ridges of the given length whose ends are chamfered at 45 degrees. */
export function threadVolume(shape: ThreadShape, area: number, length: number): number {
  const end = integrate((z) => area * ridgeShare(shape, z), 0, shape.depth);
  return 2 * end + area * (length - 2 * shape.depth);
}

/** Lead angle at a radius, degrees. */
export function leadAngle(lead: number, radius: number): number {
  return degrees(Math.atan(lead / (2 * Math.PI * radius)));
}
