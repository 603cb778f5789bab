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

/** The first three rows of a matrix, row by row: what it takes to place a point. */
export type Matrix = readonly [
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
  number,
];

/** A placement as a matrix. */
export function placementMatrix({ turn, move }: Placement): Matrix {
  const [cx, cy, cz] = turn.map((angle) => Math.cos(radians(angle))) as [number, number, number];
  const [sx, sy, sz] = turn.map((angle) => Math.sin(radians(angle))) as [number, number, number];
  return [
    cz * cy,
    cz * sy * sx - sz * cx,
    cz * sy * cx + sz * sx,
    move[0],
    sz * cy,
    sz * sy * sx + cz * cx,
    sz * sy * cx - cz * sx,
    move[1],
    -sy,
    cy * sx,
    cy * cx,
    move[2],
  ];
}
