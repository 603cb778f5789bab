import type { Vec3 } from '../solid/vector.js';
import { type Costs, costOf } from './costs.js';
import type { Body } from './scene.js';
import type { SurfaceGraph } from './surface-graph.js';
import { legOver } from './surface-leg.js';
import type { Leg, Way } from './way.js';

/**
 * A way from the nodes that it leads through, its legs over each surface pulled tight.
 * @param overs the link from each node to the next
 */
export function wayThrough(
  graph: SurfaceGraph,
  costs: Costs,
  nodes: readonly number[],
  overs: readonly number[],
): Way {
  const legs: Leg[] = [];
  let cost = 0;
  let [first, last] = ['', ''];
  for (let i = 0; i + 1 < nodes.length; ) {
    const over = overs[i]!;
    if (over < 0) {
      let to = i;
      while (to + 1 < nodes.length && overs[to]! < 0) to++;
      const leg = legOver(graph, nodes.slice(i, to + 1));
      legs.push(leg);
      cost += costOf(graph, costs, leg.length, -1);
      i = to;
      continue;
    }
    const wall = graph.walls[over - graph.bridges.length];
    const crossing = wall
      ? { from: wall.body, to: wall.body, length: wall.length, a: wall.fromPoint.at, b: wall.toPoint.at }
      : bridgeOf(graph, over);
    const a = crossing.from.toScene(crossing.a);
    const b = crossing.to.toScene(crossing.b);
    const forwards =
      leadsFrom(graph, nodes[i]!, crossing.from, a) && leadsTo(graph, nodes[i + 1]!, crossing.to);
    const [start, end] = forwards ? [crossing.from, crossing.to] : [crossing.to, crossing.from];
    if (i === 0) first = start.name;
    last = end.name;
    if (graph.isNet(nodes[i]!) && i > 0) legs.push({ kind: 'metal', on: start.name, length: 0, points: [] });
    legs.push({
      kind: wall ? 'wall' : 'gap',
      on: end.name,
      length: crossing.length,
      points: forwards ? [a, b] : [b, a],
    });
    cost += costOf(graph, costs, crossing.length, over);
    i++;
  }
  return {
    from: first,
    to: last,
    length: legs.reduce((sum, { length }) => sum + length, 0),
    cost,
    alike: 1,
    legs,
  };
}

function bridgeOf(graph: SurfaceGraph, number: number) {
  const { from, to, length, fromPoint, toPoint } = graph.bridges[number]!;
  return { from, to, length, a: fromPoint.at, b: toPoint.at };
}

const leadsTo = (graph: SurfaceGraph, node: number, body: Body): boolean =>
  graph.isNet(node) ? body.net !== undefined : graph.placeOf(node).body === body;

/** What starts and ends on one body leads from the end that the node lies at. */
function leadsFrom(graph: SurfaceGraph, node: number, body: Body, at: Vec3): boolean {
  if (graph.isNet(node)) return body.net !== undefined;
  const place = graph.placeOf(node);
  if (place.body !== body) return false;
  const here = body.toScene(place.at);
  return Math.hypot(here[0] - at[0], here[1] - at[1], here[2] - at[2]) < 1e-6;
}
