import type { Vec3 } from '../solid/vector.js';
import { OFF } from './bridges.js';
import type { Nodes, SurfacePoint } from './nodes.js';
import type { Body } from './scene.js';
import type { Costs } from './surface-graph.js';

/** A straight line through an insulating wall, from one of its surfaces to the other. */
export interface Wall {
  readonly body: Body;
  readonly fromNode: number;
  readonly fromPoint: SurfacePoint;
  readonly toPoint: SurfacePoint;
  /** mm */
  readonly length: number;
  readonly cost: number;
}

/** Walls of a body, straight inwards from its nodes, at most one from each cell of `spacing` mm on either side. */
export function wallsOf(body: Body, nodes: Nodes, costs: Costs, spacing: number): Wall[] {
  const { shape } = body;
  const walls: Wall[] = [];
  const taken = new Set<string>();
  for (let node = 0; node < nodes.count; node++) {
    const fromPoint = nodes.point(node);
    const n = shape.normal(fromPoint.triangle);
    const cell = [...fromPoint.at.map((value) => Math.floor(value / spacing)), ...n.map(Math.round)].join();
    if (taken.has(cell)) continue;
    taken.add(cell);
    const [x, y, z] = fromPoint.at;
    const along: Vec3 = [-n[0], -n[1], -n[2]];
    const start: Vec3 = [x + OFF * along[0], y + OFF * along[1], z + OFF * along[2]];
    const hit = shape.index.first(start, along, costs.thickest - OFF);
    if (!hit || hit.leaving <= 0) continue;
    const length = hit.distance + OFF;
    const cost = costs.wall(body.name, length, along);
    if (!Number.isFinite(cost)) continue;
    walls.push({
      body,
      fromNode: node,
      fromPoint,
      toPoint: {
        triangle: hit.triangle,
        at: [x + length * along[0], y + length * along[1], z + length * along[2]],
      },
      length,
      cost,
    });
  }
  return walls;
}
