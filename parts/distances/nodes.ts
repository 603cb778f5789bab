import type { Vec3 } from '../solid/vector.js';

/** A place on a mesh: inside a triangle, mm in the mesh’s own frame. */
export interface SurfacePoint {
  readonly triangle: number;
  readonly at: Vec3;
}

/** Places on one mesh, found by the triangle that they lie in. */
export class Nodes {
  private readonly heads: Int32Array;
  private readonly nexts: number[] = [];
  readonly triangles: number[] = [];
  /** Three numbers each, mm. */
  readonly positions: number[] = [];

  /** @param triangles of the mesh */
  constructor(triangles: number) {
    this.heads = new Int32Array(triangles).fill(-1);
  }

  get count(): number {
    return this.triangles.length;
  }

  /** @returns its number */
  add(triangle: number, [x, y, z]: Vec3): number {
    const number = this.triangles.length;
    this.triangles.push(triangle);
    this.positions.push(x, y, z);
    this.nexts.push(this.heads[triangle]!);
    this.heads[triangle] = number;
    return number;
  }

  /** The first node in a triangle, -1 when there is none; `after` leads to the others. */
  first(triangle: number): number {
    return this.heads[triangle]!;
  }

  after(node: number): number {
    return this.nexts[node]!;
  }

  at(node: number): Vec3 {
    const i = 3 * node;
    return [this.positions[i]!, this.positions[i + 1]!, this.positions[i + 2]!];
  }

  point(node: number): SurfacePoint {
    return { triangle: this.triangles[node]!, at: this.at(node) };
  }
}
