import type { Kernel, Solid } from './kernel.js';
import type { Loop } from './vector.js';

/** A flat shape drawn in the x-z plane, [x, z], and drawn out along y, half to either side. */
export function prismAlongY(loop: Loop, length: number, kernel: Kernel): Solid {
  return kernel.place(kernel.extrude([loop], 0, length), { turn: [90, 0, 0], move: [0, length / 2, 0] });
}

/** A flat shape drawn in the y-z plane, [y, z], and drawn out along x between two places. */
export function prismAlongX(loop: Loop, from: number, to: number, kernel: Kernel): Solid {
  return kernel.place(kernel.extrude([loop], from, to), { turn: [90, 0, 90], move: [0, 0, 0] });
}
