import type { Vec3 } from '../solid/vector.js';
import { type Costs, costOf } from './costs.js';
import { triangleOf } from './half-edges.js';
import type { SurfacePoint } from './nodes.js';
import type { Body } from './scene.js';
import { FROM_ELSEWHERE, LINKED, LINKED_AT_MOST } from './shape.js';
import { pulledTight, type SurfaceLine } from './strip.js';
import type { SurfaceGraph } from './surface-graph.js';
import type { Leg, Way } from './way.js';

/** A bridge or wall of a graph, the way it is passed. */
export interface Crossing {
  /** Its number among bridges and then walls. */
  readonly over: number;
  readonly forwards: boolean;
  readonly from: Body;
  readonly to: Body;
  readonly start: SurfacePoint;
  readonly end: SurfacePoint;
  /** mm */
  readonly length: number;
}

/** Crossings, and over which line each leads to the next; undefined where it ends on metal. */
export interface Route {
  readonly crossings: readonly Crossing[];
  readonly lines: readonly (SurfaceLine | undefined)[];
}

/** The route that leads through nodes of a graph. @param overs the link from each node to the next */
export function routeThrough(graph: SurfaceGraph, nodes: readonly number[], overs: readonly number[]): Route {
  const crossings: Crossing[] = [];
  const lines: (SurfaceLine | undefined)[] = [];
  for (let i = 0; i + 1 < nodes.length; ) {
    if (overs[i]! < 0) {
      let to = i;
      while (to + 1 < nodes.length && overs[to]! < 0) to++;
      lines.push(lineOver(graph, nodes.slice(i, to + 1)));
      i = to;
      continue;
    }
    // Nothing was walked since the last crossing.
    if (crossings.length > lines.length) {
      lines.push(graph.isNet(nodes[i]!) ? undefined : lineOver(graph, [nodes[i]!]));
    }
    crossings.push(crossingBetween(graph, overs[i]!, nodes[i]!, nodes[i + 1]!));
    i++;
  }
  return { crossings, lines };
}

/** A crossing by its number. */
export function crossingOf(graph: SurfaceGraph, over: number, forwards: boolean): Crossing {
  const wall = graph.walls[over - graph.bridges.length];
  const [from, to, a, b, length] = wall
    ? [wall.body, wall.body, wall.fromPoint, wall.toPoint, wall.length]
    : bridgeOf(graph, over);
  return forwards
    ? { over, forwards, from, to, start: a, end: b, length }
    : { over, forwards, from: to, to: from, start: b, end: a, length };
}

function bridgeOf(graph: SurfaceGraph, over: number): [Body, Body, SurfacePoint, SurfacePoint, number] {
  const { from, to, fromPoint, toPoint, length } = graph.bridges[over]!;
  return [from, to, fromPoint, toPoint, length];
}

/** A bridge or wall as it leads from one node to another. */
export function crossingBetween(graph: SurfaceGraph, over: number, from: number, to: number): Crossing {
  const forwards = crossingOf(graph, over, true);
  const leads =
    liesAt(graph, from, forwards.from, forwards.start) && liesAt(graph, to, forwards.to, forwards.end);
  return leads ? forwards : crossingOf(graph, over, false);
}

function liesAt(graph: SurfaceGraph, node: number, body: Body, { at }: SurfacePoint): boolean {
  if (graph.isNet(node)) return body.net === graph.netAt(node);
  const place = graph.placeOf(node);
  return place.body === body && apart(place.at, at) < 1e-6;
}

/** The geodesic that a way over nodes of one surface can be pulled to. @throws RangeError when they are not linked */
export function lineOver(graph: SurfaceGraph, nodes: readonly number[]): SurfaceLine {
  const places = nodes.map((node) => graph.placeOf(node));
  const { shape } = places[0]!.body;
  const spacing = shape.spacing(graph.grain.spacing);
  // As far as was looked when the links were made, so that the same lines are found.
  const line = (from: SurfacePoint, to: SurfacePoint) =>
    shape.unfolding.straight(from, to, FROM_ELSEWHERE * spacing) ??
    shape.unfolding.straight(from, to, LINKED * spacing) ??
    shape.unfolding.straight(from, to, LINKED_AT_MOST * spacing);
  const crossed: number[] = [];
  for (let i = 1; i < places.length; i++) {
    const link = line(places[i - 1]!, places[i]!);
    if (!link) throw new RangeError('a link that no straight line over the surface is');
    crossed.push(...link.crossed);
  }
  return pulledTight(shape, { from: places[0]!, to: places.at(-1)!, crossed });
}

/** The way along a route. */
export function wayAlong(graph: SurfaceGraph, costs: Costs, { crossings, lines }: Route): Way {
  const legs: Leg[] = [];
  let cost = 0;
  for (const [i, crossing] of crossings.entries()) {
    const { over, from, to, start, end, length } = crossing;
    legs.push({
      kind: over >= graph.bridges.length ? 'wall' : 'gap',
      on: to.name,
      length,
      points: [from.toScene(start.at), to.toScene(end.at)],
    });
    cost += costOf(graph, costs, length, over);
    if (i + 1 === crossings.length) break;
    const line = lines[i];
    if (!line) {
      legs.push({ kind: 'metal', on: to.name, length: 0, points: [] });
      continue;
    }
    if (line.length > 0) legs.push(surfaceLeg(to, line));
    cost += costOf(graph, costs, line.length, -1);
  }
  return {
    from: crossings[0]!.from.name,
    to: crossings.at(-1)!.to.name,
    length: legs.reduce((sum, leg) => sum + leg.length, 0),
    cost,
    alike: 1,
    legs,
  };
}

/** A stretch over a surface. */
export const surfaceLeg = (body: Body, line: SurfaceLine): Leg => ({
  kind: 'surface',
  on: body.name,
  length: line.length,
  points: line.points.map((at) => body.toScene(at)),
  outward: [
    body.normal(line.from.triangle),
    ...line.crossed.map((edge) => between(body, triangleOf(edge), triangleOf(body.shape.edges.twins[edge]!))),
    body.normal(line.to.triangle),
  ],
});

/** The direction away from two triangles at their common edge. */
function between(body: Body, a: number, b: number): Vec3 {
  const [p, q] = [body.normal(a), body.normal(b)];
  const sum: Vec3 = [p[0] + q[0], p[1] + q[1], p[2] + q[2]];
  const size = Math.hypot(...sum);
  // A sliver has no direction, and a fold back onto itself none that leads out of both.
  return size > 1e-6 ? [sum[0] / size, sum[1] / size, sum[2] / size] : p;
}

const apart = (a: Vec3, b: Vec3) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
