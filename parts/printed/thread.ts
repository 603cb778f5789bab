import { polygon, reversed } from '../solid/facets.js';
import { integrate, loopArea } from '../solid/sections.js';
import { degrees, type Loop, type Vec2 } from '../solid/vector.js';

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

/** Degrees between points of the section and between slices: 0.07 mm off the true helix at 50 mm radius. */
const STEP = 6;

/** Radius of the ridge at an axial phase (mm from the middle of a crest), between 0 at the root and `depth`. */
function ridge(shape: ThreadShape, phase: number): number {
  const from = Math.abs(phase - shape.pitch * Math.round(phase / shape.pitch));
  return Math.min(shape.depth, Math.max(0, shape.depth - (from - shape.crest / 2)));
}

/** Breakpoints of the section so that no corner of the thread is cut: crests, flanks and roots divided evenly. */
function angles(shape: ThreadShape): number[] {
  const perStart = 360 / shape.starts;
  const share = (length: number): number => (length / shape.pitch) * perStart;
  const root = shape.pitch - shape.crest - 2 * shape.depth;
  const pieces = [share(shape.crest), share(shape.depth), share(root), share(shape.depth)];
  const result: number[] = [];
  for (let start = 0; start < shape.starts; start++) {
    let at = start * perStart - pieces[0]! / 2;
    for (const piece of pieces) {
      const count = Math.max(1, Math.ceil(piece / STEP - 1e-9));
      for (let i = 0; i < count; i++) result.push(at + (piece * i) / count);
      at += piece;
    }
  }
  return result;
}

/** The section at its start angle: `rootRadius` plus the ridges. */
export function threadSection(shape: ThreadShape, rootRadius: number): Loop {
  return angles(shape).map((angle): Vec2 => {
    const radius = rootRadius + ridge(shape, (angle / 360) * shape.starts * shape.pitch);
    return [radius * Math.cos((angle * Math.PI) / 180), radius * Math.sin((angle * Math.PI) / 180)];
  });
}

/** Turn (degrees) and number of slices of a thread of the given length. Positive turn: a right-hand thread. */
export function threadTwist(shape: ThreadShape, length: number): { turn: number; steps: number } {
  const turn = (length / (shape.starts * shape.pitch)) * 360;
  return { turn, steps: Math.ceil(turn / STEP) };
}

/**
 * Mean section area (mm2) of a twisted section as it is meshed: each side of a slice is split along one diagonal, and the
 * area is quadratic in between, so that the prismatoid rule is exact. Negative for a section that runs clockwise.
 */
export function twistedArea(section: Loop, degreesPerSlice: number): number {
  const angle = (degreesPerSlice * Math.PI) / 180;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  const above = section.map(([x, y]): Vec2 => [x * cos - y * sin, x * sin + y * cos]);
  const middle = (a: Vec2, b: Vec2): Vec2 => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  const halfway = section.flatMap((point, i) => [
    middle(point, above[i]!),
    middle(point, above[(i + 1) % section.length]!),
  ]);
  return (2 * loopArea(section) + 4 * loopArea(halfway)) / 6;
}

const perSlice = (shape: ThreadShape): number => {
  const { turn, steps } = threadTwist(shape, shape.pitch);
  return turn / steps;
};

/** Section area (mm2) that ridges add to a round shaft of the root’s radius, as meshed. */
export function ridgesOnShaft(shape: ThreadShape, section: Loop, rootRadius: number): number {
  const slice = perSlice(shape);
  const flat = 1 - (shape.crest + 2 * shape.depth) / shape.pitch;
  const circle = Math.PI * rootRadius ** 2;
  // Between the ridges the thread's chords lie beneath the shaft's surface and add nothing.
  const chords = twistedArea(polygon(rootRadius, section.length), slice) / circle;
  return twistedArea(section, slice) - circle * (flat * chords + (1 - flat));
}

/** Section area (mm2) that ridges take from a bore; there the chords stand proud of the bore everywhere. */
export function ridgesInBore(shape: ThreadShape, section: Loop, boreArea: number): number {
  return boreArea + twistedArea(reversed(section), perSlice(shape));
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
