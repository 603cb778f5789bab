import { threadDiameter } from '../machine/drive.js';
import { circumscribed, holeLoop, polygon, reversed, shaftLoop, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { prismAlongY } from '../solid/prisms.js';
import type { Loop, Vec2 } from '../solid/vector.js';
import { type FastenerSize, fastener } from '../stock/fasteners.js';
import { type InsertSize, insert } from '../stock/inserts.js';
import type { Dimensions } from './identity.js';

// What screws, nuts, washers and inserts are drawn as: steps about one axis, the head's outer face at z = 0, the screw below.
// Threads are drawn as a shank of their nominal diameter, which fills nut, washer and insert: outside they are what they are.

/** A step of a piece along its axis, mm. */
export interface Step {
  readonly form: 'round' | 'hexagon';
  readonly from: number;
  readonly to: number;
  /** Radius at its lower and its upper end; of a hexagon to its corners. */
  readonly low: number;
  readonly high: number;
  /** Degrees about the axis; a hexagon's first corner lies on +x without it. */
  readonly spin: number;
}

const round = (radius: number, from: number, to: number): Step => ({
  form: 'round',
  from,
  to,
  low: radius,
  high: radius,
  spin: 0,
});

/** A shank of a thread's nominal diameter. */
export const shank = (size: FastenerSize, from: number, to: number): Step =>
  round(threadDiameter(size) / 2, from, to);

/** A washer, or what lies on a screw like one, its upper face at `top`. */
export const disc = (size: FastenerSize, thickness: number, top: number): Step =>
  round(fastener(size).washer.outer / 2, top - thickness, top);

export const washer = (size: FastenerSize, top: number): Step =>
  disc(size, fastener(size).washer.thickness, top);

/** A hexagon nut, its upper face at `top`. It turns by sixths: spins of 60 degrees are the same nut. */
export function nut(
  size: FastenerSize,
  top: number,
  spin = 0,
  height: number = fastener(size).nutHeight,
): Step {
  const corner = fastener(size).nutCorners / 2;
  return {
    form: 'hexagon',
    from: top - height,
    to: top,
    low: corner,
    high: corner,
    spin: ((spin % 60) + 60) % 60,
  };
}

/** A threaded insert, flush at `top`. */
export function brass(size: InsertSize, top: number): Step {
  const { outerDiameter, length } = insert(size);
  return round(outerDiameter / 2, top - length.value, top);
}

/** A head as high as wide; its own kind of screw says how high. */
export const headOf = (radius: number, height: number): Step => round(radius, -height, 0);

/** A cap screw of a length (mm under its head). */
export function capScrew(size: FastenerSize, length: number): Step[] {
  const { headDiameter, headHeight } = fastener(size);
  return [headOf(headDiameter / 2, headHeight), shank(size, -headHeight - length, -headHeight / 2)];
}

/** A countersunk screw; its length (mm) includes the head. */
export function sunkScrew(size: FastenerSize, length: number): Step[] {
  const { diameter, depth } = fastener(size).countersink;
  const cone: Step = { ...round(diameter / 2, -depth, 0), low: threadDiameter(size) / 2 };
  return [cone, shank(size, -length, -depth / 2)];
}

/** What the solid of some steps depends on. */
export const stepDimensions = (steps: readonly Step[]): Dimensions => ({
  forms: steps.map(({ form }) => form).join(),
  from: steps.map(({ from }) => from),
  to: steps.map(({ to }) => to),
  low: steps.map(({ low }) => low),
  high: steps.map(({ high }) => high),
  spin: steps.map(({ spin }) => spin),
});

/** A step's outline with its corners at a radius. */
function outline({ form, low, high, spin }: Step, radius: number): Loop {
  if (form === 'round') return polygon(radius, sidesFor(Math.max(low, high)));
  const turn = (spin * Math.PI) / 180;
  return polygon(radius, 6).map(
    ([x, y]): Vec2 => [x * Math.cos(turn) - y * Math.sin(turn), x * Math.sin(turn) + y * Math.cos(turn)],
  );
}

/** All steps as one solid. */
export function stepped(steps: readonly Step[], k: Kernel): Solid {
  return k.union(
    steps.map((step) =>
      k.loft([
        { z: step.from, loop: outline(step, step.low) },
        { z: step.to, loop: outline(step, step.high) },
      ]),
    ),
  );
}

/** A ring standing on z = 0, mm. */
export const ring = (inner: number, outer: number, height: number, k: Kernel): Solid =>
  k.extrude([shaftLoop(outer), reversed(holeLoop(inner))], 0, height);

/** Outline of a strip of a thickness along a path, as seen from its edge. The path runs along its middle. */
export function ribbonLoop(path: readonly Vec2[], thickness: number): Loop {
  const headings = path.slice(1).map(([x, y], i): Vec2 => {
    const [dx, dy] = [x - path[i]![0], y - path[i]![1]];
    return [dx / Math.hypot(dx, dy), dy / Math.hypot(dx, dy)];
  });
  const side = (sign: 1 | -1): Vec2[] =>
    path.map(([x, y], i): Vec2 => {
      const [a, b] = [headings[Math.max(0, i - 1)]!, headings[Math.min(i, headings.length - 1)]!];
      // Along the middle of both normals, as far as the sides meet.
      const off = (sign * thickness) / 2 / (1 + a[0] * b[0] + a[1] * b[1]);
      return [x - off * (a[1] + b[1]), y + off * (a[0] + b[0])];
    });
  return [...side(-1), ...side(1).reverse()];
}

/** A strip of sheet along a path in the x-z plane, half of its width to either side of it. */
export const ribbon = (path: readonly Vec2[], thickness: number, width: number, k: Kernel): Solid =>
  prismAlongY(ribbonLoop(path, thickness), width, k);

/** Half a circle over the origin, from +x to -x, that touches what is round in it from outside. */
export function overHalf(radius: number, k = sidesFor(radius)): Vec2[] {
  const vertex = circumscribed(radius, k);
  return Array.from({ length: k / 2 + 1 }, (_, i): Vec2 => {
    const angle = (2 * Math.PI * i) / k;
    return [vertex * Math.cos(angle), vertex * Math.sin(angle)];
  });
}
