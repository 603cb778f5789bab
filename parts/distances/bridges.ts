import type { Vec3 } from '../solid/vector.js';
import type { SurfacePoint } from './nodes.js';
import type { Body, Scene } from './scene.js';
import { candidates, cover, edgePlaces } from './shape.js';

/** A gap so narrow that creepage counts straight across it: between two bodies, or two walls of one groove. */
export interface Bridge {
  readonly from: Body;
  readonly to: Body;
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
 * Every narrow gap from the surface of one body to another's, a selection of places about `apart` mm from one another.
 * Between a conductor and an insulator any angle will do.
 * @param widest mm, the width X up to which a gap is bridged
 */
export function bridgesBetween(
  scene: Scene,
  from: Body,
  to: Body,
  widest: number,
  apart: number,
  wanted: (point: Vec3) => boolean = () => true,
): Bridge[] {
  if (!from.isNear(to.min, to.max, widest)) return [];
  const metal = from.net !== undefined || to.net !== undefined;
  const bridges: Bridge[] = [];
  const taken = new Set<string>();
  const fits = (x: number, y: number, z: number): boolean => {
    const at = from.toScene([x, y, z]);
    return to.isNear(at, at, widest) && wanted(at);
  };
  const take = (fine: number) => (triangle: number, x: number, y: number, z: number) => {
    const at = from.toScene([x, y, z]);
    if (!to.isNear(at, at, widest) || !wanted(at)) return;
    const found = to.nearest(at, widest);
    if (!found) return;
    const facing = dot(from.normal(triangle), to.normal(found.triangle)) < FACING;
    if (!metal && !facing && found.distance > TOUCHING) return;
    // One bridge in a little box is enough, but for both of the surfaces that meet at an edge.
    const [a, b, c] = from.shape.normal(triangle).map(Math.round) as [number, number, number];
    const key = `${Math.floor(x / fine)},${Math.floor(y / fine)},${Math.floor(z / fine)},${a}${b}${c}`;
    if (taken.has(key)) return;
    if (found.distance > TOUCHING && !isFree(scene, at, found.at)) return;
    taken.add(key);
    bridges.push({
      from,
      to,
      fromPoint: { triangle, at: [x, y, z] },
      toPoint: inside(to, found.triangle, found.at),
      length: found.distance,
    });
  };
  const own = from.shape.spacing(apart);
  const areas = cover(from.shape, own, fits);
  for (let node = 0; node < areas.count; node++) take(own)(areas.triangles[node]!, ...areas.at(node));
  edgePlaces(from.shape, own, take(own / 2));
  return bridges;
}

/** Gaps between walls of one body that face each other, found from its sharp edges and from places all over it. */
export function bridgesWithin(
  body: Body,
  widest: number,
  apart: number,
  wanted: (point: Vec3) => boolean = () => true,
): Bridge[] {
  const { shape } = body;
  const bridges: Bridge[] = [];
  const taken = new Set<string>();
  const own = shape.spacing(apart);
  const take = (triangle: number, x: number, y: number, z: number) => {
    const n = shape.normal(triangle);
    const fine = own / 2;
    const key = `${Math.floor(x / fine)},${Math.floor(y / fine)},${Math.floor(z / fine)},${n.map(Math.round).join()}`;
    if (taken.has(key) || !wanted(body.toScene([x, y, z]))) return;
    taken.add(key);
    const start: Vec3 = [x + OFF * n[0], y + OFF * n[1], z + OFF * n[2]];
    const hit = shape.index.first(start, n, widest - OFF);
    // The ray has to come out of air: a hit from within is the far side of a wall that the start lies in by rounding.
    if (!hit || hit.leaving > 0 || dot(n, shape.normal(hit.triangle)) >= FACING) return;
    const length = hit.distance + OFF;
    bridges.push({
      from: body,
      to: body,
      fromPoint: { triangle, at: [x, y, z] },
      toPoint: {
        triangle: hit.triangle,
        at: [x + length * n[0], y + length * n[1], z + length * n[2]],
      },
      length,
    });
  };
  edgePlaces(shape, own, take);
  candidates(shape, own, (x, y, z) => wanted(body.toScene([x, y, z])), take);
  return bridges;
}

/** Whether nothing else stands between two places that lie on surfaces or near them. */
function isFree(scene: Scene, a: Vec3, b: Vec3): boolean {
  const [dx, dy, dz] = [b[0] - a[0], b[1] - a[1], b[2] - a[2]];
  const inset = OFF / Math.hypot(dx, dy, dz);
  const at = (share: number): Vec3 => [a[0] + share * dx, a[1] + share * dy, a[2] + share * dz];
  return scene.sees(at(inset), at(1 - inset));
}

/** How far a place on a triangle's edge is moved towards its middle, so that it lies in this triangle alone. */
const INWARDS = 1e-4;

function inside(body: Body, triangle: number, at: Vec3): SurfacePoint {
  const { positions: p, triangles } = body.shape.mesh;
  const corners = [0, 1, 2].map((corner) => 3 * triangles[3 * triangle + corner]!);
  const middle = [0, 1, 2].map((axis) => corners.reduce((sum, v) => sum + p[v + axis]!, 0) / 3);
  const own = body.toOwn(at);
  return { triangle, at: own.map((value, axis) => value + INWARDS * (middle[axis]! - value)) as unknown as Vec3 };
}

const dot = (a: Vec3, b: Vec3) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
