import type { Place, Segment } from './curve.js';

// What the solver is given: bodies of revolution by their profiles in the meridian plane, SI units throughout.

/** A potential that no source holds: all bodies of one net share it, and together carry `charge` (C, 0 if left out). */
export interface Floating {
  readonly net: string;
  readonly charge?: number;
}

/**
 * A conductor. Its profile runs with the body on its left (counter-clockwise with r to the right and z up), closed, or
 * from axis to axis. Edges that stick out must be rounded: at a sharp one the field has no bound.
 */
export interface Conductor {
  readonly kind: 'conductor';
  readonly name: string;
  readonly profile: readonly Segment[];
  /** V, or floating */
  readonly potential: number | Floating;
}

/** A conductor without thickness, along an open line. */
export interface Sheet {
  readonly kind: 'sheet';
  readonly name: string;
  readonly profile: readonly Segment[];
  readonly potential: number | Floating;
}

/** A body that polarises. Where it touches a conductor or another dielectric along a straight line it is in full contact. */
export interface Dielectric {
  readonly kind: 'dielectric';
  readonly name: string;
  /** As of a conductor. */
  readonly profile: readonly Segment[];
  /** Relative, at least 1. */
  readonly permittivity: number;
}

/** A surface along which the potential is given, as by a current through a resistive film. */
export interface Graded {
  readonly kind: 'graded';
  readonly name: string;
  readonly profile: readonly Segment[];
  /** V at a place on it */
  readonly potential: (place: Place) => number;
}

/** Charge fixed on a surface without effect on what it sits on; it stays clear of all other bodies. */
export interface SurfaceCharge {
  readonly kind: 'surface-charge';
  readonly name: string;
  readonly profile: readonly Segment[];
  /** C/m2 at a place on it */
  readonly density: (place: Place) => number;
}

/** A charged ring without thickness; on the axis a point. */
export interface RingCharge {
  readonly kind: 'ring-charge';
  readonly name: string;
  readonly at: Place;
  /** C */
  readonly charge: number;
}

export type Body = Conductor | Sheet | Dielectric | Graded | SurfaceCharge | RingCharge;

export interface Problem {
  readonly bodies: readonly Body[];
  /** Height (m) of an endless grounded plane; everything is above it. Left out: open space. */
  readonly floor?: number | undefined;
  /** V/m along +z, far from everything; 0 if left out. */
  readonly uniformField?: number | undefined;
}

/** A problem that has no solution, or that the method is not made for; the message says where and why. */
export class ProblemError extends Error {
  override readonly name = 'ProblemError';
  constructor(
    /** Name of the body it is about. */
    readonly body: string,
    what: string,
  ) {
    super(`${body}: ${what}`);
  }
}

/** The same problem at another scale of potentials and charges is the same matrix: what drives it. */
export interface Drive {
  /** V by body name, in place of those of the problem. */
  readonly potentials?: Readonly<Record<string, number>>;
  /** Factor on every prescribed charge and on the uniform field. */
  readonly sources?: number;
  /** Factor on every graded potential. */
  readonly graded?: number;
}
