import type { Mesh } from '../solid/kernel.js';
import { type Nearest, nearestOn } from '../solid/nearest.js';
import type { Hit } from '../solid/rays.js';
import { type Matrix, type Placement, placementMatrix, type Vec3 } from '../solid/vector.js';
import { Shape } from './shape.js';

/** What stands in a scene: a conductor of a net, or an insulator. */
export interface Item {
  readonly name: string;
  /** The same key, the same mesh. */
  readonly key: string;
  /** Closed, mm, in its own frame. */
  readonly mesh: Mesh;
  readonly placement: Placement;
  /** Conductors of one net have one potential; undefined for an insulator. */
  readonly net?: string | undefined;
}

/** An item in its place. */
export class Body {
  readonly name: string;
  readonly net: string | undefined;
  /** In the scene’s frame, mm. */
  readonly min: Vec3;
  readonly max: Vec3;
  private readonly matrix: Matrix;

  constructor(
    item: Pick<Item, 'name' | 'net' | 'placement'>,
    readonly shape: Shape,
  ) {
    this.name = item.name;
    this.net = item.net;
    this.matrix = placementMatrix(item.placement);
    const corners = [0, 1, 2, 3, 4, 5, 6, 7].map((corner) =>
      this.toScene([
        (corner & 1 ? shape.max : shape.min)[0],
        (corner & 2 ? shape.max : shape.min)[1],
        (corner & 4 ? shape.max : shape.min)[2],
      ]),
    );
    const over = (pick: (...values: number[]) => number) =>
      [0, 1, 2].map((axis) => pick(...corners.map((corner) => corner[axis]!))) as unknown as Vec3;
    this.min = over(Math.min);
    this.max = over(Math.max);
  }

  toScene([x, y, z]: Vec3): Vec3 {
    const m = this.matrix;
    return [
      m[0] * x + m[1] * y + m[2] * z + m[3],
      m[4] * x + m[5] * y + m[6] * z + m[7],
      m[8] * x + m[9] * y + m[10] * z + m[11],
    ];
  }

  toOwn([x, y, z]: Vec3): Vec3 {
    const m = this.matrix;
    return this.turnedBack([x - m[3], y - m[7], z - m[11]]);
  }

  /** A direction of the scene in the body’s own frame. */
  turnedBack([x, y, z]: Vec3): Vec3 {
    const m = this.matrix;
    return [m[0] * x + m[4] * y + m[8] * z, m[1] * x + m[5] * y + m[9] * z, m[2] * x + m[6] * y + m[10] * z];
  }

  /** Outward direction of one of its triangles, in the scene. */
  normal(triangle: number): Vec3 {
    const [x, y, z] = this.shape.normal(triangle);
    const m = this.matrix;
    return [m[0] * x + m[1] * y + m[2] * z, m[4] * x + m[5] * y + m[6] * z, m[8] * x + m[9] * y + m[10] * z];
  }

  /** Whether the box around it comes within `within` mm of the box between two corners. */
  isNear(min: Vec3, max: Vec3, within: number): boolean {
    for (let axis = 0; axis < 3; axis++) {
      if (this.min[axis]! - within > max[axis]! || this.max[axis]! + within < min[axis]!) return false;
    }
    return true;
  }

  /** Nearest place on it, in the scene’s frame. */
  nearest(point: Vec3, within: number): Nearest | undefined {
    if (!this.isNear(point, point, within)) return undefined;
    const found = nearestOn(this.shape.index, this.toOwn(point), within);
    return found && { ...found, at: this.toScene(found.at) };
  }

  /** Where a ray first meets it. @param along of length 1 */
  first(from: Vec3, along: Vec3, most: number): Hit | undefined {
    return this.shape.index.first(this.toOwn(from), this.turnedBack(along), most);
  }

  isHit(from: Vec3, along: Vec3, most: number): boolean {
    return this.shape.index.isHit(this.toOwn(from), this.turnedBack(along), most);
  }

  holds(point: Vec3): boolean {
    return this.isNear(point, point, 0) && this.shape.index.holds(this.toOwn(point));
  }
}

/** Shapes that are already prepared, by their keys. Whoever keeps it decides how long. */
export type ShapeCache = Map<string, Shape>;

/** Everything that stands in one place, mm. */
export class Scene {
  readonly bodies: readonly Body[];

  /** @throws RangeError when a mesh is not closed, or two items have one name */
  constructor(items: readonly Item[], cache: ShapeCache = new Map()) {
    this.bodies = items.map((item) => {
      let shape = cache.get(item.key);
      if (!shape) {
        shape = new Shape(item.mesh);
        cache.set(item.key, shape);
      }
      return new Body(item, shape);
    });
    const names = new Set<string>();
    for (const { name } of items) {
      if (names.has(name)) throw new RangeError(`two items are called ${name}`);
      names.add(name);
    }
  }

  body(name: string): Body {
    const found = this.bodies.find((body) => body.name === name);
    if (!found) throw new RangeError(`nothing here is called ${name}`);
    return found;
  }

  /** Whether a straight line between two points passes through no surface. Its ends should lie off the surfaces. */
  sees(from: Vec3, to: Vec3): boolean {
    const [dx, dy, dz] = [to[0] - from[0], to[1] - from[1], to[2] - from[2]];
    const distance = Math.sqrt(dx * dx + dy * dy + dz * dz);
    if (distance === 0) return true;
    const along: Vec3 = [dx / distance, dy / distance, dz / distance];
    for (const body of this.bodies) {
      if (!crossesBox(from, to, body.min, body.max)) continue;
      if (body.isHit(from, along, distance)) return false;
    }
    return true;
  }

  /** Whether a point lies inside a body other than some. */
  isInside(point: Vec3, except: readonly Body[] = []): boolean {
    return this.bodies.some((body) => !except.includes(body) && body.holds(point));
  }
}

/** Whether a segment comes into a box. */
function crossesBox(from: Vec3, to: Vec3, min: Vec3, max: Vec3): boolean {
  let near = 0;
  let far = 1;
  for (let axis = 0; axis < 3; axis++) {
    const start = from[axis]!;
    const way = to[axis]! - start;
    if (way === 0) {
      if (start < min[axis]! || start > max[axis]!) return false;
      continue;
    }
    const a = (min[axis]! - start) / way;
    const b = (max[axis]! - start) / way;
    near = Math.max(near, Math.min(a, b));
    far = Math.min(far, Math.max(a, b));
    if (near > far) return false;
  }
  return true;
}
