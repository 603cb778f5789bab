import type { Wanted } from './corridor.js';
import { nextOf, triangleOf } from './half-edges.js';
import { Nodes } from './nodes.js';
import type { Shape } from './shape.js';

/** Candidates lie so many times the spacing apart. */
const CANDIDATES = 0.7;
/** Nodes along sharp edges lie so many times the spacing apart: there ways bend and gaps begin. */
const ALONG_EDGES = 0.5;
/** Cosine: surfaces that turn away from one another by more have nodes of their own. */
const SAME_SIDE = 0.5;
/** mm2; what a boolean left behind has no node. */
const LEAST_AREA = 1e-6;
/** Cosine of the angle from which on the edge between two triangles is an edge of the piece. */
const SHARP = Math.cos((20 * Math.PI) / 180);
/** mm; nodes along an edge lie so far off it, each in a triangle of its own. */
const OFF_EDGE = 0.01;

type Take = (triangle: number, x: number, y: number, z: number) => void;

/**
 * Nodes along both sides of sharp edges and all over the surface, so close that nothing is much further from one than
 * `spacing` mm; surfaces that face different ways count apart, so that both sides of a thin wall have theirs.
 * @param wanted places that may have one, in the shape’s own frame
 */
export function cover(shape: Shape, spacing: number, wanted: Wanted = () => true): Nodes {
  const nodes = new Nodes(shape.mesh.triangles.length / 3);
  const edges = new Sieve(shape, nodes, ALONG_EDGES * spacing);
  edgePlaces(shape, ALONG_EDGES * spacing, wanted, (triangle, x, y, z) => edges.add(triangle, x, y, z));
  const faces = new Sieve(shape, nodes, spacing);
  for (let node = 0; node < nodes.count; node++) faces.know(node);
  candidates(shape, CANDIDATES * spacing, wanted, (triangle, x, y, z) => faces.add(triangle, x, y, z));
  return nodes;
}

/** Lets a place in only where no node of the same side is within `spacing` mm. */
class Sieve {
  private readonly cells = new Map<number, number[]>();

  constructor(
    private readonly shape: Shape,
    private readonly nodes: Nodes,
    private readonly spacing: number,
  ) {}

  know(node: number): void {
    const [x, y, z] = this.nodes.at(node);
    const key = this.cell(x, y, z);
    const held = this.cells.get(key);
    if (held) held.push(node);
    else this.cells.set(key, [node]);
  }

  add(triangle: number, x: number, y: number, z: number): void {
    const { nodes, spacing, cells } = this;
    const { normals } = this.shape.index;
    const n = 3 * triangle;
    for (let i = -1; i <= 1; i++) {
      for (let j = -1; j <= 1; j++) {
        for (let k = -1; k <= 1; k++) {
          const there = cells.get(this.cell(x + i * spacing, y + j * spacing, z + k * spacing));
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
    this.know(nodes.add(triangle, [x, y, z]));
  }

  private cell(x: number, y: number, z: number): number {
    const { spacing } = this;
    return (
      (Math.floor(x / spacing) + 4096) * 2 ** 26 +
      (Math.floor(y / spacing) + 4096) * 2 ** 13 +
      Math.floor(z / spacing) +
      4096
    );
  }
}

/** Candidates of one row that are asked for together. */
const TOGETHER = 4;

/** Places inside every triangle, in rows along its longest side, at most `apart` mm from one another. */
function candidates(shape: Shape, apart: number, wanted: Wanted, take: Take): void {
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
    // Everything of a triangle is within its longest side of that side’s middle.
    if (!wanted((p[a]! + p[b]!) / 2, (p[a + 1]! + p[b + 1]!) / 2, (p[a + 2]! + p[b + 2]!) / 2, length))
      continue;
    const rows = Math.ceil((2 * areas[t]!) / length / apart);
    for (let row = 0; row < rows; row++) {
      const up = (row + 0.5) / rows;
      const long = (1 - up) * length;
      const count = Math.max(1, Math.ceil(long / apart));
      const place = (share: number): readonly [number, number, number] => {
        const toB = share * (1 - up);
        const toA = 1 - up - toB;
        return [
          toA * p[a]! + toB * p[b]! + up * p[c]!,
          toA * p[a + 1]! + toB * p[b + 1]! + up * p[c + 1]!,
          toA * p[a + 2]! + toB * p[b + 2]! + up * p[c + 2]!,
        ];
      };
      const between = (from: number, to: number): void => {
        if (!wanted(...place((from + to) / 2 / count), ((to - from) / 2 / count) * long)) return;
        if (to - from > TOGETHER) {
          const middle = (from + to) >> 1;
          between(from, middle);
          between(middle, to);
          return;
        }
        for (let i = from; i < to; i++) {
          const at = place((i + 0.5) / count);
          if (wanted(...at, 0)) take(t, ...at);
        }
      };
      between(0, count);
    }
  }
}

/** Places along the piece’s sharp edges, in the triangles on either side, at most `apart` mm from one another. */
function edgePlaces(shape: Shape, apart: number, wanted: Wanted, take: Take): void {
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
    const length = lengths[edge]!;
    if (!wanted((p[a]! + p[b]!) / 2, (p[a + 1]! + p[b + 1]!) / 2, (p[a + 2]! + p[b + 2]!) / 2, length / 2))
      continue;
    const height = (2 * areas[t]!) / length;
    const off = Math.min(OFF_EDGE / height, 0.1);
    const count = Math.max(1, Math.ceil(length / apart));
    for (let i = 0; i <= count; i++) {
      // Not on a corner: the place has to be inside its triangle.
      const along = Math.min(0.999, Math.max(0.001, i / count));
      const [toA, toB] = [(1 - along) * (1 - off), along * (1 - off)];
      const x = toA * p[a]! + toB * p[b]! + off * p[c]!;
      const y = toA * p[a + 1]! + toB * p[b + 1]! + off * p[c + 1]!;
      const z = toA * p[a + 2]! + toB * p[b + 2]! + off * p[c + 2]!;
      if (wanted(x, y, z, 0)) take(t, x, y, z);
    }
  }
}
