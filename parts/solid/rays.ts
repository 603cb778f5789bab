import type { Mesh } from './kernel.js';
import type { Vec3 } from './vector.js';

/** Where a ray first meets a surface. */
export interface Hit {
  /** mm from where the ray starts */
  readonly distance: number;
  readonly triangle: number;
  /** Cosine between the ray and the surface's outward direction: above 0 the ray comes out of the solid. */
  readonly leaving: number;
}

/** The boxes while they are being made. */
interface Tree {
  readonly boxes: number[];
  readonly links: number[];
  readonly counts: number[];
}

/** Triangles that a box of the tree holds before it is halved. */
const LEAF = 4;
/** Boxes that wait to be looked at: twice the depth of any tree of float32 centres. */
const STACK = 256;
/** mm; boxes are taken this much larger, so that a ray along the side of one is not lost */
const ROUNDING = 1e-9;

/**
 * Finds where rays meet a closed mesh, by boxes within boxes. Coordinates in mm, directions of length 1. A ray that starts on
 * a surface meets it or not: start it a little off.
 */
export class RayIndex {
  /** Outward unit normal of each triangle, three numbers each; zero for one without area. */
  readonly normals: Float64Array;
  /** mm2 of each triangle */
  readonly areas: Float64Array;
  /** Triangles in the order in which boxes hold them. */
  readonly order: Uint32Array;
  /** Of each box: its least and greatest corner. */
  readonly boxes: Float64Array;
  /** Of each box: number of its second half (the first follows it), or of its first triangle. */
  readonly links: Int32Array;
  /** Of each box: how many triangles it holds itself; 0 when it is halved. */
  readonly counts: Int32Array;
  private readonly waiting = new Int32Array(STACK);

  constructor(readonly mesh: Mesh) {
    const count = mesh.triangles.length / 3;
    const centres = new Float64Array(3 * count);
    this.normals = new Float64Array(3 * count);
    this.areas = new Float64Array(count);
    this.order = Uint32Array.from({ length: count }, (_, i) => i);
    for (let t = 0; t < count; t++) this.measure(t, centres);
    const tree: Tree = { boxes: [], links: [], counts: [] };
    if (count > 0) this.divide(0, count, centres, tree);
    this.boxes = Float64Array.from(tree.boxes);
    this.links = Int32Array.from(tree.links);
    this.counts = Int32Array.from(tree.counts);
  }

  /** Where a ray first meets the surface no further than `most` mm away. */
  first(from: Vec3, along: Vec3, most: number): Hit | undefined {
    const found = this.meet(from, along, most, false);
    if (!found) return undefined;
    const { distance, triangle } = found;
    const n = this.normals;
    const leaving =
      along[0] * n[3 * triangle]! + along[1] * n[3 * triangle + 1]! + along[2] * n[3 * triangle + 2]!;
    return { distance, triangle, leaving };
  }

  /** Whether a ray meets the surface at all no further than `most` mm away. */
  isHit(from: Vec3, along: Vec3, most: number): boolean {
    return this.meet(from, along, most, true) !== undefined;
  }

  /** @param any whether the first triangle that is found will do */
  private meet(
    from: Vec3,
    along: Vec3,
    most: number,
    any: boolean,
  ): { readonly distance: number; readonly triangle: number } | undefined {
    const { positions: p, triangles } = this.mesh;
    const [ox, oy, oz] = from;
    const [dx, dy, dz] = along;
    const [ix, iy, iz] = [1 / dx, 1 / dy, 1 / dz];
    let nearest = most;
    let triangle = -1;
    let height = 0;
    if (this.boxes.length > 0) this.waiting[height++] = 0;
    while (height > 0) {
      const box = this.waiting[--height]!;
      if (!this.crosses(box, ox, oy, oz, ix, iy, iz, nearest)) continue;
      const held = this.counts[box]!;
      if (held === 0) {
        this.waiting[height++] = this.links[box]!;
        this.waiting[height++] = box + 1;
        continue;
      }
      for (let i = this.links[box]!; i < this.links[box]! + held; i++) {
        const t = this.order[i]!;
        const a = 3 * triangles[3 * t]!;
        const b = 3 * triangles[3 * t + 1]!;
        const c = 3 * triangles[3 * t + 2]!;
        const ux = p[b]! - p[a]!;
        const uy = p[b + 1]! - p[a + 1]!;
        const uz = p[b + 2]! - p[a + 2]!;
        const vx = p[c]! - p[a]!;
        const vy = p[c + 1]! - p[a + 1]!;
        const vz = p[c + 2]! - p[a + 2]!;
        const px = dy * vz - dz * vy;
        const py = dz * vx - dx * vz;
        const pz = dx * vy - dy * vx;
        const det = ux * px + uy * py + uz * pz;
        if (det === 0) continue;
        const [sx, sy, sz] = [ox - p[a]!, oy - p[a + 1]!, oz - p[a + 2]!];
        const u = (sx * px + sy * py + sz * pz) / det;
        if (!(u >= 0 && u <= 1)) continue;
        const qx = sy * uz - sz * uy;
        const qy = sz * ux - sx * uz;
        const qz = sx * uy - sy * ux;
        const v = (dx * qx + dy * qy + dz * qz) / det;
        if (!(v >= 0 && u + v <= 1)) continue;
        const distance = (vx * qx + vy * qy + vz * qz) / det;
        if (distance >= 0 && distance < nearest) {
          nearest = distance;
          triangle = t;
          if (any) return { distance, triangle };
        }
      }
    }
    return triangle < 0 ? undefined : { distance: nearest, triangle };
  }

  /** Whether a point is inside: a ray from there first meets the surface from within. */
  holds(point: Vec3): boolean {
    const hit = this.first(point, UP, Number.POSITIVE_INFINITY);
    return hit !== undefined && hit.leaving > 0;
  }

  private measure(t: number, centres: Float64Array): void {
    const { positions: p, triangles } = this.mesh;
    const [a, b, c] = [3 * triangles[3 * t]!, 3 * triangles[3 * t + 1]!, 3 * triangles[3 * t + 2]!];
    const [ux, uy, uz] = [p[b]! - p[a]!, p[b + 1]! - p[a + 1]!, p[b + 2]! - p[a + 2]!];
    const [vx, vy, vz] = [p[c]! - p[a]!, p[c + 1]! - p[a + 1]!, p[c + 2]! - p[a + 2]!];
    const normal = [uy * vz - uz * vy, uz * vx - ux * vz, ux * vy - uy * vx];
    const doubled = Math.hypot(...normal);
    this.areas[t] = doubled / 2;
    for (let axis = 0; axis < 3; axis++) {
      this.normals[3 * t + axis] = doubled > 0 ? normal[axis]! / doubled : 0;
      centres[3 * t + axis] = (p[a + axis]! + p[b + axis]! + p[c + axis]!) / 3;
    }
  }

  /** Makes the box of `order[from..to)` and, halved at the middle of their centres, of what it holds. */
  private divide(from: number, to: number, centres: Float64Array, tree: Tree): void {
    const box = tree.counts.length;
    const { positions: p, triangles } = this.mesh;
    const least = [Infinity, Infinity, Infinity];
    const greatest = [-Infinity, -Infinity, -Infinity];
    const low = [Infinity, Infinity, Infinity];
    const high = [-Infinity, -Infinity, -Infinity];
    for (let i = from; i < to; i++) {
      const t = this.order[i]!;
      for (let axis = 0; axis < 3; axis++) {
        for (let corner = 0; corner < 3; corner++) {
          const value = p[3 * triangles[3 * t + corner]! + axis]!;
          least[axis] = Math.min(least[axis]!, value);
          greatest[axis] = Math.max(greatest[axis]!, value);
        }
        low[axis] = Math.min(low[axis]!, centres[3 * t + axis]!);
        high[axis] = Math.max(high[axis]!, centres[3 * t + axis]!);
      }
    }
    tree.boxes.push(...least, ...greatest);
    if (to - from <= LEAF) {
      tree.counts.push(to - from);
      tree.links.push(from);
      return;
    }
    const sizes = high.map((value, axis) => value - low[axis]!);
    const axis = sizes.indexOf(Math.max(...sizes));
    const middle = (low[axis]! + high[axis]!) / 2;
    let split = from;
    for (let i = from; i < to; i++) {
      const t = this.order[i]!;
      if (centres[3 * t + axis]! > middle) continue;
      this.order[i] = this.order[split]!;
      this.order[split++] = t;
    }
    // All centres in one place, or on one side by rounding.
    if (split === from || split === to) split = Math.floor((from + to) / 2);
    tree.counts.push(0);
    tree.links.push(0);
    this.divide(from, split, centres, tree);
    tree.links[box] = tree.counts.length;
    this.divide(split, to, centres, tree);
  }

  /** Whether a ray, by its start and the inverse of its direction, passes through a box before `most`. */
  private crosses(
    box: number,
    ox: number,
    oy: number,
    oz: number,
    ix: number,
    iy: number,
    iz: number,
    most: number,
  ): boolean {
    const b = this.boxes;
    const at = 6 * box;
    let near = -ROUNDING;
    let far = most + ROUNDING;
    // NaN (a ray within the plane of a side) fails every comparison and leaves the interval as it is.
    let low = (b[at]! - ox) * ix;
    let high = (b[at + 3]! - ox) * ix;
    if (ix >= 0) {
      if (low > near) near = low;
      if (high < far) far = high;
    } else {
      if (high > near) near = high;
      if (low < far) far = low;
    }
    low = (b[at + 1]! - oy) * iy;
    high = (b[at + 4]! - oy) * iy;
    if (iy >= 0) {
      if (low > near) near = low;
      if (high < far) far = high;
    } else {
      if (high > near) near = high;
      if (low < far) far = low;
    }
    low = (b[at + 2]! - oz) * iz;
    high = (b[at + 5]! - oz) * iz;
    if (iz >= 0) {
      if (low > near) near = low;
      if (high < far) far = high;
    } else {
      if (high > near) near = high;
      if (low < far) far = low;
    }
    return near <= far + ROUNDING;
  }
}

/** Hardly ever along a wall or through an edge of a part, as straight up would be. */
const UP: Vec3 = (() => {
  const tilted = [0.0137, 0.0229, 1] as const;
  const length = Math.hypot(...tilted);
  return [tilted[0] / length, tilted[1] / length, tilted[2] / length];
})();
