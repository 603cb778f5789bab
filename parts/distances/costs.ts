import type { Vec3 } from '../solid/vector.js';
import type { SurfaceGraph } from './surface-graph.js';

/** What a mm of a way counts. */
export interface Costs {
  readonly surface: number;
  readonly gap: number;
  /** Of a straight line through a body’s wall, its length in mm and direction in the body’s own frame; infinite where none leads through. */
  wall(body: string, length: number, along: Vec3): number;
}

/** A way’s length is what it costs, and no way leads through a wall. */
export const LENGTHS: Costs = { surface: 1, gap: 1, wall: () => Number.POSITIVE_INFINITY };

/** What a link of a graph costs. @param over the bridge or wall that it is, -1 for one over a surface */
export function costOf(graph: SurfaceGraph, costs: Costs, length: number, over: number): number {
  if (over < 0) return length * costs.surface;
  const wall = graph.walls[over - graph.bridges.length];
  return wall ? costs.wall(wall.body.name, wall.length, wall.along) : length * costs.gap;
}
