import type { Mesh } from '../solid/kernel.js';

/**
 * A closed mesh by its half-edges: number c runs from corner c of a triangle to the next corner of the same triangle, the
 * material on its left seen from outside.
 */
export interface HalfEdges {
  /** The half-edge that runs the other way in the triangle beyond. */
  readonly twins: Int32Array;
  /** mm */
  readonly lengths: Float64Array;
}

export const nextOf = (halfEdge: number): number => (halfEdge % 3 === 2 ? halfEdge - 2 : halfEdge + 1);
export const triangleOf = (halfEdge: number): number => (halfEdge - (halfEdge % 3)) / 3;

/** Two vertex numbers below this make one exact number. */
const BASE = 2 ** 26;

/** @throws RangeError when the mesh is not closed: there is nothing beyond one of its edges */
export function halfEdgesOf({ positions: p, triangles }: Mesh): HalfEdges {
  const count = triangles.length;
  const twins = new Int32Array(count).fill(-1);
  const lengths = new Float64Array(count);
  const open = new Map<number, number>();
  for (let edge = 0; edge < count; edge++) {
    const [from, to] = [triangles[edge]!, triangles[nextOf(edge)]!];
    const [a, b] = [3 * from, 3 * to];
    lengths[edge] = Math.sqrt(
      (p[b]! - p[a]!) ** 2 + (p[b + 1]! - p[a + 1]!) ** 2 + (p[b + 2]! - p[a + 2]!) ** 2,
    );
    const mate = open.get(to * BASE + from);
    if (mate === undefined) {
      open.set(from * BASE + to, edge);
      continue;
    }
    open.delete(to * BASE + from);
    twins[edge] = mate;
    twins[mate] = edge;
  }
  if (open.size > 0) throw new RangeError(`the mesh is not closed: ${open.size} open edges`);
  return { twins, lengths };
}
