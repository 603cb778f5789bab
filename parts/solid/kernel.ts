import type { Engraving } from './marks.js';
import type { Bounds, Loop, Placement, Region } from './vector.js';

/** A solid held by a kernel. Opaque: only the kernel that made it can use it. */
export interface Solid {
  readonly kernel: string;
}

/** Triangles of a closed surface: vertex positions (x, y, z after one another, mm) and vertex numbers by threes. */
export interface Mesh {
  readonly positions: Float32Array;
  readonly triangles: Uint32Array;
}

/** An outline at a height. */
export interface Section {
  readonly z: number;
  readonly loop: Loop;
}

/**
 * The few operations that printed parts are made of. Parts are written against this interface and receive it, so that
 * stating a part's dimensions needs neither modelling library, and the same part can be built by another kernel to
 * compare with.
 */
export interface Kernel {
  readonly name: string;
  /** A flat region drawn up from `bottom` to `top` (mm along z, top above bottom). */
  extrude(region: Region, bottom: number, top: number): Solid;
  /** A skin over a stack of sections with the same number of points each, lowest first. */
  loft(sections: readonly Section[]): Solid;
  /** A profile of [radius, z] points, counter-clockwise with z up and radius to the right, turned once about z. */
  revolve(profile: Loop, sides: number): Solid;
  /** The least convex solid around all of them. */
  hull(solids: readonly Solid[]): Solid;
  union(solids: readonly Solid[]): Solid;
  subtract(base: Solid, cutters: readonly Solid[]): Solid;
  intersect(a: Solid, b: Solid): Solid;
  place(solid: Solid, placement: Placement): Solid;
  /** The solid with details below `tolerance` mm smoothed away, where it has any. */
  simplify(solid: Solid, tolerance: number): Solid;
  /** Overlapping loops joined to one region. */
  join(loops: readonly Loop[]): Region;
  mesh(solid: Solid): Mesh;
  /** Outline of engraved characters, seen from above. */
  characters(engraving: Engraving): Region;
  /** mm3 */
  volume(solid: Solid): number;
  bounds(solid: Solid): Bounds;
  /** Frees every solid made since the matching `open`, except those named. Scopes may be nested. */
  scope<T>(work: () => T, keep?: (result: T) => readonly Solid[]): T;
}
