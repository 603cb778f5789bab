import type { Vec3 } from '../solid/vector.js';

/** A stretch of a way. */
export interface Leg {
  /** Along a surface, across a narrow gap, freely through air, through a solid wall, or within metal, which counts nothing. */
  readonly kind: 'surface' | 'gap' | 'air' | 'wall' | 'metal';
  /** The item that it runs along, through, or to. */
  readonly on: string;
  /** mm */
  readonly length: number;
  /** In the scene’s frame, mm. */
  readonly points: readonly Vec3[];
  /** For a stretch over a surface: at each point the direction away from it, length 1. */
  readonly outward?: readonly Vec3[];
}

/** A way from a conductor to another one. */
export interface Way {
  /** Names of both conductors. */
  readonly from: string;
  readonly to: string;
  /** mm */
  readonly length: number;
  /** What it was found to be least in: mm, or what its stretches were said to cost. */
  readonly cost: number;
  /** Conductors of the kind it ends at that are reached as soon, this one among them. */
  readonly alike: number;
  readonly legs: readonly Leg[];
}
