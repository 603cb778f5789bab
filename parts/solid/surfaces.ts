import type { Mesh } from './kernel.js';
import { radians } from './vector.js';

/** Degrees between two facets from which on their common edge is an edge of the piece, not a facet of a round. */
export const CREASE = 28;

/** A triangle lower than this (mm) is a sliver that a boolean left: its direction says nothing. */
const SLIVER = 1e-3;

/** A mesh parted into the surfaces a hand would feel: a face, a bore, a cone. */
export interface Surfaces {
  readonly count: number;
  /** Number of the surface that each triangle belongs to. */
  readonly of: Uint32Array;
  /** Unit normals, three numbers for each of three corners a triangle; smooth within a surface. */
  readonly normals: Float32Array;
  /** Segments between surfaces: six numbers each, mm. */
  readonly edges: Float32Array;
}

/**
 * Parts a closed mesh into surfaces: triangles that meet at less than `crease` degrees belong together. Slivers join a
 * neighbour.
 * @param crease degrees, 0 to 180
 */
export function surfacesOf(mesh: Mesh, crease: number = CREASE): Surfaces {
  const { positions, triangles } = mesh;
  const count = triangles.length / 3;
  const { directions, heights } = facetsOf(mesh);
  const neighbours = neighboursOf(triangles);
  const cosine = Math.cos(radians(crease));
  const smooth = (a: number, b: number) =>
    directions[3 * a]! * directions[3 * b]! +
      directions[3 * a + 1]! * directions[3 * b + 1]! +
      directions[3 * a + 2]! * directions[3 * b + 2]! >=
    cosine;

  const of = new Uint32Array(count).fill(UNASSIGNED);
  let surfaces = 0;
  const flood = (first: number, joins: (from: number, to: number) => boolean): void => {
    const waiting = [first];
    while (waiting.length > 0) {
      const here = waiting.pop()!;
      for (let side = 0; side < 3; side++) {
        const there = neighbours[3 * here + side]!;
        if (there === UNASSIGNED || of[there] !== UNASSIGNED || !joins(here, there)) continue;
        of[there] = of[first]!;
        waiting.push(there);
      }
    }
  };
  for (let t = 0; t < count; t++) {
    if (of[t] !== UNASSIGNED || heights[t]! < SLIVER) continue;
    of[t] = surfaces++;
    flood(t, (from, to) => heights[to]! >= SLIVER && smooth(from, to));
  }
  for (let t = 0; t < count; t++) if (of[t] !== UNASSIGNED) flood(t, () => true);
  // A mesh of nothing but slivers still has its surfaces.
  for (let t = 0; t < count; t++) {
    if (of[t] !== UNASSIGNED) continue;
    of[t] = surfaces++;
    flood(t, () => true);
  }
  return {
    count: surfaces,
    of,
    normals: normalsOf(mesh, directions, of),
    edges: edgesBetween(positions, triangles, neighbours, of),
  };
}

const UNASSIGNED = 0xffffffff;

/** Unit normal of each triangle, and its least height in mm. */
function facetsOf({ positions, triangles }: Mesh): { directions: Float64Array; heights: Float64Array } {
  const count = triangles.length / 3;
  const directions = new Float64Array(3 * count);
  const heights = new Float64Array(count);
  for (let t = 0; t < count; t++) {
    const [a, b, c] = [0, 1, 2].map((corner) => 3 * triangles[3 * t + corner]!) as [number, number, number];
    const edge = (from: number, to: number, axis: number) => positions[to + axis]! - positions[from + axis]!;
    const [ux, uy, uz] = [edge(a, b, 0), edge(a, b, 1), edge(a, b, 2)];
    const [vx, vy, vz] = [edge(a, c, 0), edge(a, c, 1), edge(a, c, 2)];
    const [nx, ny, nz] = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const doubled = Math.hypot(nx, ny, nz);
    const longest = Math.max(
      Math.hypot(ux, uy, uz),
      Math.hypot(vx, vy, vz),
      Math.hypot(vx - ux, vy - uy, vz - uz),
    );
    heights[t] = longest > 0 ? doubled / longest : 0;
    const scale = doubled > 0 ? 1 / doubled : 0;
    directions.set([nx * scale, ny * scale, nz * scale], 3 * t);
  }
  return { directions, heights };
}

/** For each side of each triangle (corner to next corner) the triangle beyond it. */
function neighboursOf(triangles: Uint32Array): Uint32Array {
  const beyond = new Uint32Array(triangles.length).fill(UNASSIGNED);
  const open = new Map<number, number>();
  for (let corner = 0; corner < triangles.length; corner++) {
    const next = corner % 3 === 2 ? corner - 2 : corner + 1;
    const [from, to] = [triangles[corner]!, triangles[next]!];
    const mate = open.get(to * EDGE_BASE + from);
    if (mate === undefined) {
      open.set(from * EDGE_BASE + to, corner);
      continue;
    }
    open.delete(to * EDGE_BASE + from);
    beyond[corner] = Math.floor(mate / 3);
    beyond[mate] = Math.floor(corner / 3);
  }
  return beyond;
}

/** Two vertex numbers below this make one exact number. */
const EDGE_BASE = 2 ** 26;

/** At each corner the mean of the facets of the same surface that meet there, each by its angle. */
function normalsOf({ positions, triangles }: Mesh, directions: Float64Array, of: Uint32Array): Float32Array {
  const sums = new Map<number, [number, number, number]>();
  const key = (corner: number) => of[Math.floor(corner / 3)]! * EDGE_BASE + triangles[corner]!;
  for (let corner = 0; corner < triangles.length; corner++) {
    const facet = 3 * Math.floor(corner / 3);
    const weight = angleAt(positions, triangles, corner);
    const sum = sums.get(key(corner)) ?? [0, 0, 0];
    for (let axis = 0; axis < 3; axis++) sum[axis]! += directions[facet + axis]! * weight;
    sums.set(key(corner), sum);
  }
  const normals = new Float32Array(3 * triangles.length);
  for (let corner = 0; corner < triangles.length; corner++) {
    const sum = sums.get(key(corner))!;
    const length = Math.hypot(...sum);
    const facet = 3 * Math.floor(corner / 3);
    for (let axis = 0; axis < 3; axis++) {
      normals[3 * corner + axis] = length > 1e-9 ? sum[axis]! / length : directions[facet + axis]!;
    }
  }
  return normals;
}

/** Radians between the two sides of a triangle that meet at a corner. */
function angleAt(positions: Float32Array, triangles: Uint32Array, corner: number): number {
  const first = corner - (corner % 3);
  const at = 3 * triangles[corner]!;
  const to = (step: number) => {
    const end = 3 * triangles[first + ((corner - first + step) % 3)]!;
    return [0, 1, 2].map((axis) => positions[end + axis]! - positions[at + axis]!) as [
      number,
      number,
      number,
    ];
  };
  const [u, v] = [to(1), to(2)];
  const across = Math.hypot(u[1] * v[2] - u[2] * v[1], u[2] * v[0] - u[0] * v[2], u[0] * v[1] - u[1] * v[0]);
  return Math.atan2(across, u[0] * v[0] + u[1] * v[1] + u[2] * v[2]);
}

function edgesBetween(
  positions: Float32Array,
  triangles: Uint32Array,
  neighbours: Uint32Array,
  of: Uint32Array,
): Float32Array {
  const ends: number[] = [];
  for (let corner = 0; corner < triangles.length; corner++) {
    const here = Math.floor(corner / 3);
    const there = neighbours[corner]!;
    // Each edge once; an open one belongs to nobody else.
    if (there !== UNASSIGNED && (of[there] === of[here] || there < here)) continue;
    const next = corner % 3 === 2 ? corner - 2 : corner + 1;
    for (const end of [triangles[corner]!, triangles[next]!]) {
      ends.push(positions[3 * end]!, positions[3 * end + 1]!, positions[3 * end + 2]!);
    }
  }
  return Float32Array.from(ends);
}
