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

/** Unit normal of each triangle, and its least height in mm. Written out in numbers: it runs over every triangle of a picture. */
function facetsOf({ positions: p, triangles }: Mesh): { directions: Float64Array; heights: Float64Array } {
  const count = triangles.length / 3;
  const directions = new Float64Array(3 * count);
  const heights = new Float64Array(count);
  for (let t = 0; t < count; t++) {
    const a = 3 * triangles[3 * t]!;
    const b = 3 * triangles[3 * t + 1]!;
    const c = 3 * triangles[3 * t + 2]!;
    const ux = p[b]! - p[a]!;
    const uy = p[b + 1]! - p[a + 1]!;
    const uz = p[b + 2]! - p[a + 2]!;
    const vx = p[c]! - p[a]!;
    const vy = p[c + 1]! - p[a + 1]!;
    const vz = p[c + 2]! - p[a + 2]!;
    const nx = uy * vz - uz * vy;
    const ny = uz * vx - ux * vz;
    const nz = ux * vy - uy * vx;
    const doubled = Math.sqrt(nx * nx + ny * ny + nz * nz);
    const longest = Math.sqrt(
      Math.max(
        ux * ux + uy * uy + uz * uz,
        vx * vx + vy * vy + vz * vz,
        (vx - ux) ** 2 + (vy - uy) ** 2 + (vz - uz) ** 2,
      ),
    );
    heights[t] = longest > 0 ? doubled / longest : 0;
    const scale = doubled > 0 ? 1 / doubled : 0;
    directions[3 * t] = nx * scale;
    directions[3 * t + 1] = ny * scale;
    directions[3 * t + 2] = nz * scale;
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
  const corners = triangles.length;
  const first = firstOfSurface(triangles, of, positions.length / 3);
  const sums = new Float64Array(3 * corners);
  for (let corner = 0; corner < corners; corner++) {
    const facet = corner - (corner % 3);
    const at = 3 * first[corner]!;
    const weight = angleAt(positions, triangles, corner);
    for (let axis = 0; axis < 3; axis++) sums[at + axis]! += directions[facet + axis]! * weight;
  }
  const normals = new Float32Array(3 * corners);
  for (let corner = 0; corner < corners; corner++) {
    const at = 3 * first[corner]!;
    const length = Math.sqrt(sums[at]! ** 2 + sums[at + 1]! ** 2 + sums[at + 2]! ** 2);
    const facet = corner - (corner % 3);
    for (let axis = 0; axis < 3; axis++) {
      normals[3 * corner + axis] = length > 1e-9 ? sums[at + axis]! / length : directions[facet + axis]!;
    }
  }
  return normals;
}

/** For each corner the first one at the same vertex and on the same surface. */
function firstOfSurface(triangles: Uint32Array, of: Uint32Array, vertices: number): Uint32Array {
  const corners = triangles.length;
  const first = new Uint32Array(corners);
  // A list for each vertex of the first corners there, one for each surface.
  const heads = new Int32Array(vertices).fill(-1);
  const nexts = new Int32Array(corners).fill(-1);
  for (let corner = 0; corner < corners; corner++) {
    const vertex = triangles[corner]!;
    const surface = of[Math.floor(corner / 3)]!;
    let known = heads[vertex]!;
    while (known >= 0 && of[Math.floor(known / 3)] !== surface) known = nexts[known]!;
    if (known < 0) {
      known = corner;
      nexts[corner] = heads[vertex]!;
      heads[vertex] = corner;
    }
    first[corner] = known;
  }
  return first;
}

/** Radians between the two sides of a triangle that meet at a corner. */
function angleAt(p: Float32Array, triangles: Uint32Array, corner: number): number {
  const facet = corner - (corner % 3);
  const a = 3 * triangles[corner]!;
  const b = 3 * triangles[facet + ((corner - facet + 1) % 3)]!;
  const c = 3 * triangles[facet + ((corner - facet + 2) % 3)]!;
  const ux = p[b]! - p[a]!;
  const uy = p[b + 1]! - p[a + 1]!;
  const uz = p[b + 2]! - p[a + 2]!;
  const vx = p[c]! - p[a]!;
  const vy = p[c + 1]! - p[a + 1]!;
  const vz = p[c + 2]! - p[a + 2]!;
  const x = uy * vz - uz * vy;
  const y = uz * vx - ux * vz;
  const z = ux * vy - uy * vx;
  return Math.atan2(Math.sqrt(x * x + y * y + z * z), ux * vx + uy * vy + uz * vz);
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
