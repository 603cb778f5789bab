import type { Kernel, Solid } from '../solid/kernel.js';
import type { Placement } from '../solid/vector.js';
import type { Dimensions } from './identity.js';
import type { Move } from './part.js';

/** What a bought piece is, without its shape. */
interface About {
  readonly id: string;
  readonly title: string;
  readonly material: string;
  readonly placement: Placement;
  /** When it comes into the machine, between the steps of the printed parts: see `BOUGHT_STEPS`. */
  readonly step: number;
  /** How it gets to its place; empty for what is there first. */
  readonly moves: readonly Move[];
}

/** A piece that is bought, at its likely size, where it belongs in the machine. */
export interface BoughtPiece extends About {
  /** Everything its shape depends on, mm: the same dimensions give the same solid. */
  readonly dimensions: Dimensions;
  build(kernel: Kernel): Solid;
}

/** A bought piece from its dimensions. */
export function bought<const D extends Dimensions>(
  about: About,
  dimensions: D,
  build: (kernel: Kernel, dimensions: D) => Solid,
): BoughtPiece {
  return { ...about, dimensions, build: (kernel) => build(kernel, dimensions) };
}

/**
 * When bought pieces come in, on the scale of the printed parts' own steps. The plate is there first. The belt, a closed
 * loop, comes through the rim ring before the upper roller goes into it from the side; ring, roller and carrier are put
 * together on the bench and go onto the tube as one, the belt hanging through it; the lower roller is put together in the
 * loop and goes up into its carrier as one. A sleeve, where there is one, lies in the loop before its shell, a shell in the loop before its hubs are pushed in; upper bearings come
 * with their hub, so that they count as there after it; an axle goes through last.
 * A comb is laid on its bracket before the bar is screwed over it.
 */
export const BOUGHT_STEPS = {
  plate: 0,
  lowerComb: 14.5,
  groundStud: 35,
  tube: 45,
  belt: 50,
  upperSleeve: 50.5,
  upperShell: 51,
  upperBearings: 53,
  upperAxle: 54,
  jackScrews: 55.6,
  lowerSleeve: 56.5,
  lowerShell: 57,
  lowerAxle: 59,
  lowerBearings: 60.5,
  upperComb: 62.5,
  terminal: 70,
  lipClips: 70.5,
} as const;

/** Turns a solid that stands along z so that it lies along y, its foot at -y. */
export const alongY = (y: number, z: number): Placement => ({ turn: [-90, 0, 0], move: [0, y, z] });
