/** Values in the middles of cells of the meridian plane; mm. Rows from low z to high z, columns from the axis outwards. */
export interface Grid {
  readonly radius: number;
  readonly bottom: number;
  readonly top: number;
  readonly columns: number;
  readonly rows: number;
  /** NaN where there is no value: in metal. */
  readonly share: Float32Array;
}

/** A line in a plane through the axis: distance from it (negative on its other side) and z in turn, mm. */
export type PlaneLine = Float32Array;

/** Size (mm) of a cell, outwards and upwards. */
export function cellOf({
  radius,
  bottom,
  top,
  columns,
  rows,
}: Grid): readonly [outwards: number, upwards: number] {
  return [radius / columns, (top - bottom) / rows];
}

/** Where a value is, mm. */
function placeOf(grid: Grid, column: number, row: number): readonly [r: number, z: number] {
  const [outwards, upwards] = cellOf(grid);
  return [(column + 0.5) * outwards, grid.bottom + (row + 0.5) * upwards];
}

/** A piece of a contour within one cell, from edge to edge. */
interface Piece {
  readonly from: number;
  readonly to: number;
}

/**
 * Lines along which the values of a grid are at a level, on both sides of the axis, by marching squares: straight from
 * edge to edge of each cell between four values, joined as far as they go. Where one of the four lies in metal there is
 * none. Higher values lie to the left of a line.
 * @param level in the unit of the values
 */
export function contourLines(grid: Grid, level: number): PlaneLine[] {
  const places = new Map<number, readonly [number, number]>();
  const pieces = piecesOf(grid, level, places);
  // Higher values always lie to the same side, so each edge is the start of one piece at most, and the end of one.
  const byStart = new Map(pieces.map((piece) => [piece.from, piece]));
  const ends = new Set(pieces.map(({ to }) => to));
  const lines: PlaneLine[] = [];
  const follow = (first: Piece) => {
    const points = [...places.get(first.from)!];
    for (let next: Piece | undefined = first; next; next = byStart.get(next.to)) {
      byStart.delete(next.from);
      points.push(...places.get(next.to)!);
    }
    lines.push(Float32Array.from(points));
  };
  for (const piece of pieces) if (!ends.has(piece.from)) follow(piece);
  // What is left goes round.
  for (const piece of pieces) if (byStart.has(piece.from)) follow(piece);
  return lines;
}

/** @param places filled: where the level is met on each edge that is crossed */
function piecesOf(grid: Grid, level: number, places: Map<number, readonly [number, number]>): Piece[] {
  const { columns, rows, share } = grid;
  const wide = 2 * columns;
  // Numbered from the far side through the axis to the near one; both sides are alike.
  const columnOf = (node: number) => (node % wide) - columns;
  const valueAt = (node: number) => {
    const column = columnOf(node);
    return share[Math.floor(node / wide) * columns + (column < 0 ? -1 - column : column)]!;
  };
  const meet = (node: number, other: number, id: number) => {
    if (places.has(id)) return id;
    const [a, b] = [valueAt(node), valueAt(other)];
    const part = (level - a) / (b - a);
    const [from, to] = [node, other].map((each) => placeOf(grid, columnOf(each), Math.floor(each / wide)));
    places.set(id, [from![0] + part * (to![0] - from![0]), from![1] + part * (to![1] - from![1])]);
    return id;
  };
  const pieces: Piece[] = [];
  for (let row = 0; row + 1 < rows; row++) {
    for (let column = 0; column + 1 < wide; column++) {
      const node = row * wide + column;
      const values = [node, node + 1, node + wide + 1, node + wide].map(valueAt);
      if (values.some(Number.isNaN)) continue;
      // Below, right, above, left: each from the lower node, so that neighbours know it by the same number.
      const edges = [
        () => meet(node, node + 1, 2 * node),
        () => meet(node + 1, node + wide + 1, 2 * (node + 1) + 1),
        () => meet(node + wide, node + wide + 1, 2 * (node + wide)),
        () => meet(node, node + wide, 2 * node + 1),
      ] as const;
      const middle = values.reduce((sum, value) => sum + value, 0) / 4;
      for (const [from, to] of crossings(values, level, middle >= level)) {
        pieces.push({ from: edges[from]!(), to: edges[to]!() });
      }
    }
  }
  return pieces;
}

/**
 * Which edges (0 below, 1 right, 2 above, 3 left) pieces lead from and to, with higher values to their left.
 * @param values at the corners, counter-clockwise from below left
 * @param joined where two opposite corners are high, these are joined through the middle
 */
function crossings(values: readonly number[], level: number, joined: boolean): (readonly [number, number])[] {
  const high = values.map((value) => value >= level);
  // Going round counter-clockwise: edges on which it falls, and on which it rises.
  const falls = [0, 1, 2, 3].filter((edge) => high[edge] && !high[(edge + 1) % 4]);
  const rises = [0, 1, 2, 3].filter((edge) => !high[edge] && high[(edge + 1) % 4]);
  if (falls.length < 2) return falls.map((edge) => [edge, rises[0]!]);
  // Around each low corner where the high ones are joined, else around each high one.
  return falls.map((edge) => [edge, (edge + (joined ? 1 : 3)) % 4]);
}

/** Lines of the meridian plane, and the same on the other side of the axis. */
export function onBothSides(lines: readonly Float32Array[]): PlaneLine[] {
  const mirrored = lines.map((line) => line.map((value, i) => (i % 2 === 0 ? -value : value)));
  return [...lines, ...mirrored];
}

/** The highest value of a grid, and where it is; undefined where there is none. */
export function highestOf(
  grid: Grid,
): { readonly share: number; readonly at: readonly [number, number] } | undefined {
  let best = -1;
  for (let node = 0; node < grid.share.length; node++) {
    const value = grid.share[node]!;
    if (!Number.isNaN(value) && (best < 0 || value > grid.share[best]!)) best = node;
  }
  if (best < 0) return undefined;
  return {
    share: grid.share[best]!,
    at: placeOf(grid, best % grid.columns, Math.floor(best / grid.columns)),
  };
}
