import type { Vec3 } from '../solid/vector.js';
import { OFF } from './bridges.js';
import type { Nodes, SurfacePoint } from './nodes.js';
import type { Body } from './scene.js';

/** A straight line through an insulating wall, from one of its surfaces to the other. */
export interface Wall {
  readonly body: Body;
  readonly fromNode: number;
  readonly fromPoint: SurfacePoint;
  readonly toPoint: SurfacePoint;
  /** mm */
  readonly length: number;
  /** In the body’s own frame, length 1. */
  readonly along: Vec3;
}

/** Of the walls within a cell of so many spacings the thinnest is taken. */
const CELL = 2;

/** Walls of a body up to `thickest` mm, straight inwards from its nodes: of each neighbourhood the thinnest, on either side. */
export function wallsOf(body: Body, nodes: Nodes, thickest: number, spacing: number): Wall[] {
  const { shape } = body;
  const thinnest = new Map<string, Wall>();
  const cell = CELL * spacing;
  for (let node = 0; node < nodes.count; node++) {
    const fromPoint = nodes.point(node);
    const n = shape.normal(fromPoint.triangle);
    const [x, y, z] = fromPoint.at;
    const along: Vec3 = [-n[0], -n[1], -n[2]];
    const start: Vec3 = [x + OFF * along[0], y + OFF * along[1], z + OFF * along[2]];
    const key = [...fromPoint.at.map((value) => Math.floor(value / cell)), ...n.map(Math.round)].join();
    const hit = shape.index.first(start, along, (thinnest.get(key)?.length ?? thickest) - OFF);
    if (!hit || hit.leaving <= 0) continue;
    const length = hit.distance + OFF;
    thinnest.set(key, {
      body,
      fromNode: node,
      fromPoint,
      toPoint: {
        triangle: hit.triangle,
        at: [x + length * along[0], y + length * along[1], z + length * along[2]],
      },
      length,
      along,
    });
  }
  return [...thinnest.values()];
}
