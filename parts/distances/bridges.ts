import type { Vec3 } from '../solid/vector.js';
import type { Nodes, SurfacePoint } from './nodes.js';
import type { Body, Scene } from './scene.js';

/** A gap so narrow that creepage counts straight across it: between two bodies, or two walls of one groove. */
export interface Bridge {
  readonly from: Body;
  readonly to: Body;
  /** The node of `from` that it starts at. */
  readonly fromNode: number;
  readonly fromPoint: SurfacePoint;
  readonly toPoint: SurfacePoint;
  /** mm */
  readonly length: number;
}

/**
 * Cosine of the angle between outward directions of two walls that a gap is bridged between. IEC 60664-1:2020, 6.8: the
 * bottom of a groove is bridged where its walls include less than 80 degrees; a wider corner is followed.
 */
const FACING = -Math.cos((80 * Math.PI) / 180);
/** mm; surfaces this near one another touch, whatever the angle. */
const TOUCHING = 0.05;
/** mm; a line between two surfaces starts and ends so far off them. */
export const OFF = 0.01;

/**
 * Every narrow gap from nodes of one body to the nearest place of another. Between a conductor and an insulator any angle
 * will do.
 * @param widest mm, the width X up to which a gap is bridged
 */
export function bridgesBetween(scene: Scene, from: Body, nodes: Nodes, to: Body, widest: number): Bridge[] {
  if (!from.isNear(to.min, to.max, widest)) return [];
  const metal = from.net !== undefined || to.net !== undefined;
  const bridges: Bridge[] = [];
  for (let node = 0; node < nodes.count; node++) {
    const place = nodes.point(node);
    const at = from.toScene(place.at);
    const found = to.nearest(at, widest);
    if (!found) continue;
    if (found.distance > TOUCHING) {
      if (!metal && dot(from.normal(place.triangle), to.normal(found.triangle)) >= FACING) continue;
      // A screw’s thread reaches into its hole’s wall.
      const overlapping = to.holds(at) ? [from, to] : [];
      if (!isFree(scene, at, found.at, from.normal(place.triangle), overlapping)) continue;
    }
    bridges.push({
      from,
      to,
      fromNode: node,
      fromPoint: place,
      toPoint: inside(to, found.triangle, found.at),
      length: found.distance,
    });
  }
  return bridges;
}

/** Gaps between walls of one body that face each other with nothing between, straight across from its nodes. */
export function bridgesWithin(scene: Scene, body: Body, nodes: Nodes, widest: number): Bridge[] {
  const { shape } = body;
  const bridges: Bridge[] = [];
  for (let node = 0; node < nodes.count; node++) {
    const place = nodes.point(node);
    const [x, y, z] = place.at;
    const n = shape.normal(place.triangle);
    const start: Vec3 = [x + OFF * n[0], y + OFF * n[1], z + OFF * n[2]];
    const hit = shape.index.first(start, n, widest - OFF);
    // The ray has to come out of air: a hit from within is the far side of a wall that the start lies in by rounding.
    if (!hit || hit.leaving > 0 || dot(n, shape.normal(hit.triangle)) >= FACING) continue;
    const length = hit.distance + OFF;
    const end: Vec3 = [x + length * n[0], y + length * n[1], z + length * n[2]];
    if (
      length > TOUCHING &&
      !isFree(scene, body.toScene(place.at), body.toScene(end), body.normal(place.triangle))
    )
      continue;
    bridges.push({
      from: body,
      to: body,
      fromNode: node,
      fromPoint: place,
      toPoint: { triangle: hit.triangle, at: end },
      length,
    });
  }
  return bridges;
}

/**
 * Whether nothing is between two places on surfaces but air, and bodies that reach into one another there.
 * @param outward of the surface that the first lies on: a line may run along this
 */
function isFree(scene: Scene, a: Vec3, b: Vec3, outward: Vec3, overlapping: readonly Body[] = []): boolean {
  const [dx, dy, dz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const inset = OFF / Math.hypot(dx, dy, dz);
  const at = (share: number): Vec3 => [a[0] + share * dx, a[1] + share * dy, a[2] + share * dz];
  if (!scene.sees(at(inset), at(1 - inset))) return false;
  // Of what both places lie on no surface is crossed: the line is inside it all along.
  const middle = at(0.5).map((value, axis) => value + 2 * OFF * outward[axis]!) as unknown as Vec3;
  return !scene.isInside(middle, overlapping);
}

/** How far a place on a triangle's edge is moved towards its middle, so that it lies in this triangle alone. */
const INWARDS = 1e-4;

function inside(body: Body, triangle: number, at: Vec3): SurfacePoint {
  const { positions: p, triangles } = body.shape.mesh;
  const corners = [0, 1, 2].map((corner) => 3 * triangles[3 * triangle + corner]!);
  const middle = [0, 1, 2].map((axis) => corners.reduce((sum, v) => sum + p[v + axis]!, 0) / 3);
  const own = body.toOwn(at);
  return {
    triangle,
    at: own.map((value, axis) => value + INWARDS * (middle[axis]! - value)) as unknown as Vec3,
  };
}

const dot = (a: Vec3, b: Vec3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
