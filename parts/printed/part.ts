import type { Machine } from '../machine/machine.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import type { Engraving } from '../solid/marks.js';
import type { Bounds, Placement, Vec3 } from '../solid/vector.js';
import { codeOf, type Dimensions } from './identity.js';

/** What a dimension means, for messages and documents. */
export interface Field {
  readonly unit: 'mm' | 'degrees' | 'count' | 'word';
  readonly meaning: string;
}

/** What a part says of itself without looking at its mesh. Volumes in mm3. */
export interface Stated {
  readonly genus: number;
  readonly pieces: number;
  /** In print orientation: on the bed, around the origin. */
  readonly bounds: Bounds;
  /** The body without slots, engraving and small features: closed form. */
  readonly bareVolume: number;
  /** The finished part: the bare body less (or plus) its features by section areas. */
  readonly volume: number;
}

/** One step on a part’s way to its place: along a direction (mm) or about z (degrees); a screw does both at once. */
export interface Move {
  readonly slide: Vec3;
  readonly turn: number;
  readonly why: string;
  /** Name of a group whose pieces make this move as one, when all of them have come so far. */
  readonly with?: string;
  /** The piece that is stretched out of the way on this move. */
  readonly stretches?: string;
}

/** mm; the chamfered end of a spigot, which touches nothing. */
export const SPIGOT_LEAD_IN = 1;

/** mm; how far beyond what is already there a part starts on its way. */
export const CLEAR_AIR = 10;

/** One copy of a part in the machine: where it ends up, and how it gets there from clear air, first move first. */
export interface Placed {
  readonly placement: Placement;
  readonly moves: readonly Move[];
}

/** Bought screws, nuts, inserts and the like. */
export interface Fastener {
  readonly what: string;
  readonly size: string;
  /** mm; undefined where a length means nothing. */
  readonly length: number | undefined;
  readonly count: number;
  readonly use: string;
}

export interface PrintAdvice {
  readonly walls: number;
  /** % */
  readonly infill: number;
  readonly orientation: string;
  /** mm; a brim around what stands too narrow for its height. */
  readonly brim?: number;
}

/**
 * A printed part. `build` and `bare` are pure functions of the dimensions; the hash of id, revision and dimensions is the
 * part’s identity.
 */
export interface PrintedPart<D extends Dimensions = Dimensions> {
  readonly id: string;
  /** Raised whenever the shape changes for the same dimensions. */
  readonly revision: number;
  readonly purpose: string;
  readonly fields: { readonly [K in keyof D]: Field };
  /** Whether a machine has it; without it every machine does. */
  wanted?(machine: Machine): boolean;
  /** How many a machine takes; `PartOrder` has the number for one. */
  readonly copies: number | ((machine: Machine) => number);
  /** A tool for building the machine, not a piece of it: it has no place in it. */
  readonly role?: 'tool';
  readonly print: PrintAdvice;
  dimensions(machine: Machine): D;
  bare(dimensions: D, kernel: Kernel): Solid;
  build(dimensions: D, kernel: Kernel): Solid;
  stated(dimensions: D): Stated;
  place(machine: Machine): readonly Placed[];
  fasteners(machine: Machine): readonly Fastener[];
  /** The order in which parts go together: lower first. */
  readonly step: number;
  /** What the hands do to bring it there; for a tool, how it is used. */
  readonly assembly: string;
}

/** The code a part carries when made with these dimensions. */
export function codeFor<D extends Dimensions>(
  part: Pick<PrintedPart<D>, 'id' | 'revision'>,
  dimensions: D,
): string {
  return codeOf(part.id, part.revision, dimensions);
}

/** The cutter that engraves a text into the bed face of a part. */
export function engraver(kernel: Kernel, engraving: Engraving): Solid {
  return kernel.extrude(kernel.characters(engraving), -1, engraving.depth);
}

/** The part’s own bounds when it is as wide as it is deep. */
export function roundBounds(radius: number, height: number): Bounds {
  return { min: [-radius, -radius, 0], max: [radius, radius, height] };
}
