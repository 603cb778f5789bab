import type { Mesh } from '../solid/kernel.js';
import { RayIndex } from '../solid/rays.js';
import type { Vec3 } from '../solid/vector.js';
import { type HalfEdges, halfEdgesOf, nextOf, triangleOf } from './half-edges.js';
import { Nodes } from './nodes.js';
import { Unfolding } from './unfolding.js';

/** Straight lines over the surface from each node to the nodes around it: those of node i from `starts[i]` to `starts[i + 1]`. */
export interface Links {
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  /** mm */
  readonly lengths: Float64Array;
}

/** Nodes lie at least so far apart, and are linked as far as this many times that. */
const LINKED = 2.6;
/** Candidates lie so many times the spacing apart. */
const CANDIDATES = 0.7;
/** Cosine: surfaces that turn away from one another by more have nodes of their own. */
const SAME_SIDE = 0.5;
/** Nodes on the smallest piece: its diagonal over this. */
const ACROSS = 6;

/**
 * One closed mesh with everything that does not depend on where it stands: what rays, nearest places and ways along its
 * surface need. Its nodes cover the surface at a spacing.
 */
export class Shape {
  readonly index: RayIndex;
  readonly edges: HalfEdges;
  readonly unfolding: Unfolding;
  /** mm */
  readonly min: Vec3;
  readonly max: Vec3;
  private readonly covers = new Map<number, Nodes>();
  private readonly linked = new Map<number, Links>();

  /** @throws RangeError when the mesh is not closed */
  constructor(readonly mesh: Mesh) {
    this.index = new RayIndex(mesh);
    this.edges = halfEdgesOf(mesh);
    this.unfolding = new Unfolding(mesh, this.edges);
    const { positions } = mesh;
    const min: [number, number, number] = [Infinity, Infinity, Infinity];
    const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
    for (let i = 0; i < positions.length; i++) {
      min[i % 3] = Math.min(min[i % 3]!, positions[i]!);
      max[i % 3] = Math.max(max[i % 3]!, positions[i]!);
    }
    this.min = min;
    this.max = max;
  }

  /** mm between nodes on this piece, when `spacing` is asked for: small pieces have closer ones. */
  spacing(spacing: number): number {
    const size = Math.hypot(...this.max.map((value, axis) => value - this.min[axis]!));
    return Math.min(spacing, size / ACROSS);
  }

  /** Nodes all over the surface. @param spacing mm */
  nodes(spacing: number): Nodes {
    const known = this.covers.get(spacing);
    if (known) return known;
    const made = cover(this, this.spacing(spacing));
    this.covers.set(spacing, made);
    return made;
  }

  /** The links between its nodes. @param spacing mm, that the nodes were asked with */
  links(spacing: number): Links {
    const known = this.linked.get(spacing);
    if (known) return known;
    const made = link(this, this.nodes(spacing), LINKED * this.spacing(spacing));
    this.linked.set(spacing, made);
    return made;
  }

  normal(triangle: number): Vec3 {
    const { normals } = this.index;
    return [normals[3 * triangle]!, normals[3 * triangle + 1]!, normals[3 * triangle + 2]!];
  }
}

/**
 * Nodes at least `spacing` mm apart, so close that nothing is much further from one; surfaces that face different ways
 * count apart, so that both sides of a thin wall have theirs.
 * @param wanted places that may have one
 */
export function cover(
  shape: Shape,
  spacing: number,
  wanted?: (x: number, y: number, z: number) => boolean,
): Nodes {
  const nodes = new Nodes(shape.mesh.triangles.length / 3);
  const { normals } = shape.index;
  const cells = new Map<number, number[]>();
  const cell = (x: number, y: number, z: number) =>
    (Math.floor(x / spacing) + 4096) * 2 ** 26 +
    (Math.floor(y / spacing) + 4096) * 2 ** 13 +
    Math.floor(z / spacing) +
    4096;
  candidates(shape, CANDIDATES * spacing, wanted, (triangle, x, y, z) => {
    const n = 3 * triangle;
    for (let i = -1; i <= 1; i++) {
      for (let j = -1; j <= 1; j++) {
        for (let k = -1; k <= 1; k++) {
          const there = cells.get(cell(x + i * spacing, y + j * spacing, z + k * spacing));
          if (!there) continue;
          for (const node of there) {
            const at = 3 * node;
            const { positions, triangles } = nodes;
            const m = 3 * triangles[node]!;
            const near =
              (positions[at]! - x) ** 2 + (positions[at + 1]! - y) ** 2 + (positions[at + 2]! - z) ** 2 <
              spacing * spacing;
            if (
              near &&
              normals[n]! * normals[m]! +
                normals[n + 1]! * normals[m + 1]! +
                normals[n + 2]! * normals[m + 2]! >
                SAME_SIDE
            )
              return;
          }
        }
      }
    }
    const node = nodes.add(triangle, [x, y, z]);
    const key = cell(x, y, z);
    const held = cells.get(key);
    if (held) held.push(node);
    else cells.set(key, [node]);
  });
  return nodes;
}

/** mm2; what a boolean left behind has no node. */
const LEAST_AREA = 1e-6;

/** Places inside every triangle, in rows along its longest side, at most `apart` mm from one another. */
export function candidates(
  shape: Shape,
  apart: number,
  wanted: ((x: number, y: number, z: number) => boolean) | undefined,
  take: (triangle: number, x: number, y: number, z: number) => void,
): void {
  const { positions: p, triangles } = shape.mesh;
  const { lengths } = shape.edges;
  const { areas } = shape.index;
  for (let t = 0; t < triangles.length / 3; t++) {
    if (areas[t]! < LEAST_AREA) continue;
    let longest = 3 * t;
    for (const edge of [3 * t + 1, 3 * t + 2]) if (lengths[edge]! > lengths[longest]!) longest = edge;
    const a = 3 * triangles[longest]!;
    const b = 3 * triangles[nextOf(longest)]!;
    const c = 3 * triangles[nextOf(nextOf(longest))]!;
    const length = lengths[longest]!;
    const rows = Math.ceil((2 * areas[t]!) / length / apart);
    for (let row = 0; row < rows; row++) {
      const up = (row + 0.5) / rows;
      const count = Math.max(1, Math.ceil(((1 - up) * length) / apart));
      for (let i = 0; i < count; i++) {
        const toB = ((i + 0.5) / count) * (1 - up);
        const toA = 1 - up - toB;
        const x = toA * p[a]! + toB * p[b]! + up * p[c]!;
        const y = toA * p[a + 1]! + toB * p[b + 1]! + up * p[c + 1]!;
        const z = toA * p[a + 2]! + toB * p[b + 2]! + up * p[c + 2]!;
        if (!wanted || wanted(x, y, z)) take(t, x, y, z);
      }
    }
  }
}

/** Shortest straight lines from each node to the others around it. */
function link(shape: Shape, nodes: Nodes, radius: number): Links {
  const starts = new Int32Array(nodes.count + 1);
  const ends: number[] = [];
  const lengths: number[] = [];
  const nearest = new Map<number, number>();
  for (let node = 0; node < nodes.count; node++) {
    nearest.clear();
    shape.unfolding.reach(nodes.point(node), radius, [nodes], (_, other, distance) => {
      if (other !== node && distance < (nearest.get(other) ?? Number.POSITIVE_INFINITY))
        nearest.set(other, distance);
    });
    for (const [other, distance] of nearest) {
      ends.push(other);
      lengths.push(distance);
    }
    starts[node + 1] = ends.length;
  }
  return { starts, ends: Int32Array.from(ends), lengths: Float64Array.from(lengths) };
}

/** Cosine of the angle from which on the edge between two triangles is an edge of the piece. */
const SHARP = Math.cos((20 * Math.PI) / 180);

/** Places along the piece’s sharp edges, one on either side of each, at most `apart` mm from one another; 0.01 mm off the edge. */
export function edgePlaces(
  shape: Shape,
  apart: number,
  take: (triangle: number, x: number, y: number, z: number) => void,
): void {
  const { positions: p, triangles } = shape.mesh;
  const { lengths, twins } = shape.edges;
  const { normals, areas } = shape.index;
  for (let edge = 0; edge < triangles.length; edge++) {
    const t = triangleOf(edge);
    const u = triangleOf(twins[edge]!);
    if (areas[t]! < LEAST_AREA || areas[u]! < LEAST_AREA) continue;
    const cosine =
      normals[3 * t]! * normals[3 * u]! +
      normals[3 * t + 1]! * normals[3 * u + 1]! +
      normals[3 * t + 2]! * normals[3 * u + 2]!;
    if (cosine > SHARP) continue;
    const a = 3 * triangles[edge]!;
    const b = 3 * triangles[nextOf(edge)]!;
    const c = 3 * triangles[nextOf(nextOf(edge))]!;
    const height = (2 * areas[t]!) / lengths[edge]!;
    const off = Math.min(0.01 / height, 0.1);
    const count = Math.max(1, Math.ceil(lengths[edge]! / apart));
    for (let i = 0; i <= count; i++) {
      // Not on a corner: the place has to be inside its triangle.
      const along = Math.min(0.999, Math.max(0.001, i / count));
      const [toA, toB] = [(1 - along) * (1 - off), along * (1 - off)];
      take(
        t,
        toA * p[a]! + toB * p[b]! + off * p[c]!,
        toA * p[a + 1]! + toB * p[b + 1]! + off * p[c + 1]!,
        toA * p[a + 2]! + toB * p[b + 2]! + off * p[c + 2]!,
      );
    }
  }
}
