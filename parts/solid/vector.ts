/** A point or direction in a plane, mm. For profiles of revolution: [radius, z]. */
export type Vec2 = readonly [number, number];

/** A point or direction in space, mm. */
export type Vec3 = readonly [number, number, number];

/** A closed polygon; the last point joins the first. Counter-clockwise encloses material, clockwise a hole. */
export type Loop = readonly Vec2[];

/** A flat shape: outer loops counter-clockwise, holes clockwise, none crossing another. */
export type Region = readonly Loop[];

/** Where a solid goes: turned about x, then y, then z (degrees), then moved (mm). */
export interface Placement {
  readonly turn: Vec3;
  readonly move: Vec3;
}

export const AT_ORIGIN: Placement = { turn: [0, 0, 0], move: [0, 0, 0] };

/** Axis-aligned bounds, mm. */
export interface Bounds {
  readonly min: Vec3;
  readonly max: Vec3;
}

export const radians = (degrees: number): number => (degrees * Math.PI) / 180;
export const degrees = (angle: number): number => (angle * 180) / Math.PI;
