import type { Mesh } from '../solid/kernel.js';
import { RayIndex } from '../solid/rays.js';
import type { Vec3 } from '../solid/vector.js';
import { cover } from './cover.js';
import { type HalfEdges, halfEdgesOf } from './half-edges.js';
import type { Nodes, SurfacePoint } from './nodes.js';
import { Unfolding } from './unfolding.js';

/** Straight lines over the surface from each node to the nodes around it: those of node i from `starts[i]` to `starts[i + 1]`. */
export interface Links {
  readonly starts: Int32Array;
  readonly ends: Int32Array;
  /** mm */
  readonly lengths: Float64Array;
}

/** Nodes are linked as far as this many times the spacing. */
export const LINKED = 2.1;
/** As far as this where that leaves some apart from the others: neighbours may lie so far from one another. */
export const LINKED_AT_MOST = 3.2;
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
  private readonly reached = new Map<number, Map<string, Reached>>();

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
    const made = linksAmong(this, this.nodes(spacing), this.spacing(spacing));
    this.linked.set(spacing, made);
    return made;
  }

  /** The links from any place to the nodes around it. @param spacing mm, that the nodes were asked with */
  linksFrom(spacing: number, place: SurfacePoint): Reached {
    const held = this.reached.get(spacing) ?? new Map<string, Reached>();
    this.reached.set(spacing, held);
    const key = `${place.triangle} ${place.at.join(' ')}`;
    const known = held.get(key);
    if (known) return known;
    const made = reachedFrom(this, this.nodes(spacing), place, this.spacing(spacing));
    held.set(key, made);
    return made;
  }

  normal(triangle: number): Vec3 {
    const { normals } = this.index;
    return [normals[3 * triangle]!, normals[3 * triangle + 1]!, normals[3 * triangle + 2]!];
  }
}

/** Nodes that a place is linked to, and how far they are (mm). */
export interface Reached {
  readonly nodes: readonly number[];
  readonly lengths: readonly number[];
}

/** Reach of links from places that are no nodes, in spacings: nodes lie all around within that. */
export const FROM_ELSEWHERE = 1.6;

/** Straight lines from a place to the nodes around it. @param spacing mm between nodes */
export function reachedFrom(shape: Shape, nodes: Nodes, place: SurfacePoint, spacing: number): Reached {
  const found: number[] = [];
  const lengths: number[] = [];
  for (const radius of [FROM_ELSEWHERE, LINKED, LINKED_AT_MOST]) {
    shape.unfolding.reach(place, radius * spacing, nodes, (node, length) => {
      found.push(node);
      lengths.push(length);
    });
    if (found.length > 0) break;
  }
  return { nodes: found, lengths };
}

/** Shortest straight lines from each node to the others around it. @param spacing mm between nodes */
export function linksAmong(shape: Shape, nodes: Nodes, spacing: number): Links {
  const links = nearestLinks(shape, nodes, LINKED * spacing);
  const apart = apartFromMost(links);
  return apart.size === 0
    ? links
    : nearestLinks(shape, nodes, LINKED * spacing, apart, LINKED_AT_MOST * spacing);
}

/**
 * @param radius mm
 * @param further nodes that are linked as far as `most` mm, both ways
 */
function nearestLinks(
  shape: Shape,
  nodes: Nodes,
  radius: number,
  further: ReadonlySet<number> = new Set(),
  most = radius,
): Links {
  const lengths = Array.from({ length: nodes.count }, () => new Map<number, number>());
  for (let node = 0; node < nodes.count; node++) {
    const from = further.has(node);
    shape.unfolding.reach(nodes.point(node), from ? most : radius, nodes, (other, distance) => {
      if (other === node) return;
      keepLeast(lengths[node]!, other, distance);
      if (from) keepLeast(lengths[other]!, node, distance);
    });
  }
  const starts = new Int32Array(nodes.count + 1);
  for (const [node, { size }] of lengths.entries()) starts[node + 1] = starts[node]! + size;
  return {
    starts,
    ends: Int32Array.from(lengths.flatMap((reached) => [...reached.keys()])),
    lengths: Float64Array.from(lengths.flatMap((reached) => [...reached.values()])),
  };
}

function keepLeast(lengths: Map<number, number>, other: number, distance: number): void {
  if (distance < (lengths.get(other) ?? Number.POSITIVE_INFINITY)) lengths.set(other, distance);
}

/** Nodes that links do not connect with the greatest number of others. */
function apartFromMost({ starts, ends }: Links): ReadonlySet<number> {
  const part = new Int32Array(starts.length - 1).fill(-1);
  const parts: number[][] = [];
  for (let first = 0; first < part.length; first++) {
    if (part[first] !== -1) continue;
    const held = [first];
    part[first] = parts.length;
    for (let i = 0; i < held.length; i++) {
      for (let link = starts[held[i]!]!; link < starts[held[i]! + 1]!; link++) {
        const other = ends[link]!;
        if (part[other] !== -1) continue;
        part[other] = parts.length;
        held.push(other);
      }
    }
    parts.push(held);
  }
  return new Set(
    parts
      .sort((a, b) => b.length - a.length)
      .slice(1)
      .flat(),
  );
}
