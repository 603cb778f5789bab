import type { Vec3 } from '../../parts/solid/vector.js';
import { random } from './random-boxes.js';

// A second way to the shortest way over a surface made of squares: it shares nothing with the one it is to test.

/** mm, a square's side. */
export const SIDE = 8;
/** Squares along each side of the ground plan. */
const CELLS = 5;

/** Columns of cubes, some higher than others, and two small conductors that stand on them. */
export interface Terrain {
  /** Cubes of each column, by x and y; at least one. */
  readonly heights: readonly (readonly number[])[];
  readonly a: Footprint;
  readonly b: Footprint;
}

/** A conductor's square foot on a column, mm from the column's corner. */
export interface Footprint {
  readonly cell: readonly [number, number];
  readonly from: readonly [number, number];
  readonly size: number;
}

export function randomTerrain(seed: number): Terrain {
  const next = random(seed);
  for (;;) {
    const heights = Array.from({ length: CELLS }, () =>
      Array.from({ length: CELLS }, () => 1 + Math.floor(2.4 * next())),
    );
    if (hasPinch(heights)) continue;
    const foot = (cell: readonly [number, number]): Footprint => ({
      cell,
      from: [2.3 + next(), 2.3 + next()],
      size: 2,
    });
    return { heights, a: foot([0, 0]), b: foot([CELLS - 1, CELLS - 1 - Math.floor(2 * next())]) };
  }
}

/** Two columns that touch along an edge alone leave it open where a way goes. */
function hasPinch(heights: Terrain['heights']): boolean {
  return heights.some((row, x) =>
    row.some((height, y) => {
      const [right, up, across] = [heights[x + 1]?.[y], row[y + 1], heights[x + 1]?.[y + 1]];
      if (right === undefined || up === undefined || across === undefined) return false;
      return Math.min(height, across) > Math.max(right, up) || Math.min(right, up) > Math.max(height, across);
    }),
  );
}

type Corner = readonly [number, number, number];
/** A square of the surface by its corners, in order, in sides. */
type Square = readonly [Corner, Corner, Corner, Corner];

function squaresOf(heights: Terrain['heights']): Square[] {
  const isSolid = (x: number, y: number, z: number) => z >= 0 && z < (heights[x]?.[y] ?? 0);
  const squares: Square[] = [];
  for (let x = 0; x < CELLS; x++)
    for (let y = 0; y < CELLS; y++)
      for (let z = 0; z < heights[x]![y]!; z++) {
        for (let axis = 0; axis < 3; axis++)
          for (const way of [0, 1]) {
            const beside: [number, number, number] = [x, y, z];
            beside[axis]! += way === 1 ? 1 : -1;
            if (isSolid(...beside)) continue;
            const [u, v] = [(axis + 1) % 3, (axis + 2) % 3];
            const corner = (i: number, j: number): Corner => {
              const at: [number, number, number] = [x, y, z];
              at[axis]! += way;
              at[u]! += i;
              at[v]! += j;
              return at;
            };
            squares.push([corner(0, 0), corner(1, 0), corner(1, 1), corner(0, 1)]);
          }
      }
  return squares;
}

/**
 * Bounds of the shortest way over the surface between both feet. A shortest way is straight within each square. Upper: it
 * changes squares at `count` + 1 points of each side. Lower: each change was moved to the nearest of these points, by half a
 * step at most, so that each straight stretch may be a step longer than it was.
 */
export function boundsOfCreepage(
  { heights, a, b }: Terrain,
  count: number,
): { readonly lower: number; readonly upper: number } {
  const squares = squaresOf(heights);
  return {
    upper: shortest(heights, squares, a, b, count, 0),
    lower: shortest(heights, squares, a, b, count, SIDE / count),
  };
}

function shortest(
  heights: Terrain['heights'],
  squares: readonly Square[],
  a: Footprint,
  b: Footprint,
  count: number,
  less: number,
): number {
  const sides = new Map<string, { number: number; of: number[] }>();
  const sidesOf = squares.map((square, number) =>
    square.map((from, i) => {
      const to = square[(i + 1) % 4]!;
      const key = [from, to].map(String).sort().join(' ');
      const side = sides.get(key) ?? { number: sides.size, of: [] };
      sides.set(key, side);
      side.of.push(number);
      return side.number;
    }),
  );
  const bySide = [...sides.keys()].map((key) =>
    key.split(' ').map((corner) => corner.split(',').map(Number) as unknown as Vec3),
  );
  const owners = [...sides.values()].map(({ of }) => of);
  const each = count + 1;
  const place = (side: number, i: number): Vec3 => {
    const [from, to] = bySide[side]! as [Vec3, Vec3];
    return [0, 1, 2].map(
      (axis) => SIDE * (from[axis]! + (i / count) * (to[axis]! - from[axis]!)),
    ) as unknown as Vec3;
  };
  /** For each point of a side, once for either of its squares: reached, about to be left through this square. */
  const reached = new Float64Array(2 * each * owners.length).fill(Number.POSITIVE_INFINITY);
  const done = new Uint8Array(reached.length);
  const state = (side: number, i: number, into: number) =>
    2 * (side * each + i) + owners[side]!.indexOf(into);
  const queue = new Buckets();
  const improve = (at: number, way: number) => {
    if (way >= reached[at]!) return;
    reached[at] = way;
    queue.push(way, at);
  };
  const [start, end] = [topOf(heights, squares, a), topOf(heights, squares, b)];
  const points = (square: number) =>
    sidesOf[square]!.flatMap((side) => Array.from({ length: each }, (_, i) => ({ side, i })));
  for (const { side, i } of points(start)) {
    const other = owners[side]!.find((owner) => owner !== start)!;
    improve(state(side, i, other), Math.max(0, toFoot(heights, a, place(side, i)) - less / 2));
  }
  let best = Number.POSITIVE_INFINITY;
  for (;;) {
    const next = queue.pop();
    if (next === undefined || reached[next]! >= best) return best;
    if (done[next]) continue;
    done[next] = 1;
    const point = next >> 1;
    const [side, i] = [Math.floor(point / each), point % each];
    const into = owners[side]![next & 1]!;
    const here = place(side, i);
    if (into === end)
      best = Math.min(best, reached[next]! + Math.max(0, toFoot(heights, b, here) - less / 2));
    for (const other of sidesOf[into]!) {
      // Along its side a way is not straight within the square: it would be one stretch of the next.
      if (other === side) continue;
      const onward = owners[other]!.find((owner) => owner !== into)!;
      for (let j = 0; j < each; j++) {
        const there = place(other, j);
        const length = Math.hypot(here[0] - there[0], here[1] - there[1], here[2] - there[2]);
        improve(state(other, j, onward), reached[next]! + Math.max(0, length - less));
      }
    }
  }
}

/** Numbers in the order of their keys, mm. */
class Buckets {
  private readonly width = 0.02;
  private readonly buckets: { key: number; value: number }[][] = [];
  private at = 0;

  push(key: number, value: number): void {
    const bucket = Math.floor(key / this.width);
    const held = this.buckets[bucket] ?? [];
    this.buckets[bucket] = held;
    held.push({ key, value });
    if (bucket < this.at) this.at = bucket;
  }

  pop(): number | undefined {
    while (this.at < this.buckets.length && !this.buckets[this.at]?.length) this.at++;
    const bucket = this.buckets[this.at];
    if (!bucket) return undefined;
    let least = 0;
    for (let i = 1; i < bucket.length; i++) if (bucket[i]!.key < bucket[least]!.key) least = i;
    return bucket.splice(least, 1)[0]!.value;
  }
}

/** The square that a foot stands on. */
function topOf(heights: Terrain['heights'], squares: readonly Square[], { cell: [x, y] }: Footprint): number {
  const z = heights[x]![y]!;
  return squares.findIndex(
    (square) =>
      square.every((corner) => corner[2] === z) &&
      Math.min(...square.map((corner) => corner[0])) === x &&
      Math.min(...square.map((corner) => corner[1])) === y,
  );
}

/** Distance over its square from a point of this square's sides to a foot. */
function toFoot(heights: Terrain['heights'], { cell, from, size }: Footprint, [x, y, z]: Vec3): number {
  if (z !== SIDE * heights[cell[0]]![cell[1]]!) return Number.POSITIVE_INFINITY;
  const [low, high] = [0, 1].map((axis) => SIDE * cell[axis]! + from[axis]!) as [number, number];
  const off = (value: number, least: number) => Math.max(0, least - value, value - least - size);
  return Math.hypot(off(x, low), off(y, high));
}
