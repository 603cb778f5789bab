import { degrees, type Placement, radians, type Vec3 } from '../solid/vector.js';
import { type FastenerSize, fastener } from '../stock/fasteners.js';
import type { Drive } from './tools.js';

/** Where a tool takes hold: the middle of the head's outer face, and the direction away from it along the screw. */
export interface Head {
  /** mm, in the machine's frame */
  readonly at: Vec3;
  readonly away: Vec3;
}

/** A screw or nut that a tool turns in the machine. */
export interface Screw {
  readonly what: string;
  /** Id of the printed part that it holds. */
  readonly part: string;
  readonly drive: Drive;
  /** When it is turned, on the scale of all steps: what has come by then is there. The last time, where it is set again. */
  readonly step: number;
  /** Group of pieces that lie together on the bench then; without it all that has come is there. */
  readonly bench?: string;
  /** One of these: a shaft can be turned until its screw lies well. The first is the one in which the pieces are placed. */
  readonly heads: readonly Head[];
}

export const UP: Vec3 = [0, 0, 1];
export const DOWN: Vec3 = [0, 0, -1];

/** After the seat, before the terminal: when combs and drive belt are set. */
export const SETTING = 69;

export const socket = (size: FastenerSize): Drive => ({ kind: 'socket', key: fastener(size).key });

/** A place on a circle (mm) about the column's axis, in a direction in degrees from +x, at a height. */
export const around = (radius: number, angle: number, z: number): Vec3 => [
  radius * Math.cos(radians(angle)),
  radius * Math.sin(radians(angle)),
  z,
];

export const bothSides = <T>(of: (side: -1 | 1) => T): T[] => ([-1, 1] as const).map(of);

/** Placement of what is drawn with a head's outer face at z = 0 and all that is away from the screw above it. */
export function standing({ at, away }: Head): Placement {
  const lean = degrees(Math.acos(Math.min(1, Math.max(-1, away[2]))));
  return { turn: [0, lean, degrees(Math.atan2(away[1], away[0]))], move: at };
}
