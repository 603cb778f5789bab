import type { Vec3 } from '../solid/vector.js';
import { Heap } from './heap.js';
import type { Body, Scene } from './scene.js';
import { SurfaceGraph } from './surface-graph.js';
import { legOver } from './surface-leg.js';
import type { Leg, Way } from './way.js';

export interface CreepageOptions {
  /** mm, X of the standard: gaps narrower than this are counted straight across. */
  readonly bridge: number;
  /** mm between the places that are looked at first. */
  readonly spacing: number;
  /** Ways longer than the shortest by this factor are left out. */
  readonly upTo: number;
}

/** How much finer the surroundings of a way are looked at for each refinement, and how far around it (in old spacings). */
const FINER = 4;
const AROUND = 1.5;
const REFINEMENTS = 1;

/**
 * The shortest way along insulating surfaces from conductors of one net to each conductor of another, shortest first.
 * Conductors of further nets on the way count as free length.
 */
export function creepages(scene: Scene, from: string, to: string, options: CreepageOptions): Way[] {
  const graph = new SurfaceGraph(scene, options);
  const found = shortest(graph, from, to);
  const most = options.upTo * (found[0]?.length ?? 0);
  return found
    .filter(({ length }) => length <= most)
    .map((way) => refined(scene, from, to, options, way))
    .sort((a, b) => a.length - b.length);
}

function refined(scene: Scene, from: string, to: string, options: CreepageOptions, way: Way): Way {
  let best = way;
  let { spacing } = options;
  for (let round = 0; round < REFINEMENTS; round++) {
    const around = AROUND * spacing;
    spacing /= FINER;
    const wanted = nearLine(best.legs.flatMap(({ points }) => points), around);
    const graph = new SurfaceGraph(scene, { spacing, bridge: options.bridge, wanted });
    const found = shortest(graph, from, to, best.to).find((each) => each.to === best.to);
    if (found && found.length < best.length) best = found;
  }
  return best;
}

/** Whether a place lies within so many mm of a line, or a little further. */
function nearLine(points: readonly Vec3[], within: number): (point: Vec3) => boolean {
  // By little boxes along the line: exact distances are not needed.
  const boxes = new Set<number>();
  const cell = (value: number) => Math.floor(value / within) + 2 ** 15;
  const key = (x: number, y: number, z: number) => (x * 2 ** 16 + y) * 2 ** 16 + z;
  for (const [i, b] of points.entries()) {
    const a = points[Math.max(0, i - 1)]!;
    const steps = Math.max(1, Math.ceil((2 * Math.hypot(b[0] - a[0], b[1] - a[1], b[2] - a[2])) / within));
    for (let step = 0; step <= steps; step++) {
      const at = (axis: 0 | 1 | 2) => cell(a[axis] + ((b[axis] - a[axis]) * step) / steps);
      const [cx, cy, cz] = [at(0), at(1), at(2)];
      for (let x = cx - 1; x <= cx + 1; x++)
        for (let y = cy - 1; y <= cy + 1; y++)
          for (let z = cz - 1; z <= cz + 1; z++) boxes.add(key(x, y, z));
    }
  }
  return ([x, y, z]) => boxes.has(key(cell(x), cell(y), cell(z)));
}

/** From each conductor of `to` (or the one named) the shortest way to `from`. */
function shortest(graph: SurfaceGraph, from: string, to: string, only?: string): Way[] {
  const { size, bridges } = graph;
  const distances = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  const before = new Int32Array(size).fill(-1);
  const by = new Int32Array(size).fill(-1);
  const done = new Uint8Array(size);
  const start = graph.netNode(from);
  const goal = graph.netNode(to);
  const heap = new Heap(size);
  /** For each conductor of the other net the last node before it and the bridge to it. */
  const arrivals = new Map<string, { length: number; node: number; bridge: number }>();
  distances[start] = 0;
  heap.push(0, start);
  while (!heap.isEmpty) {
    const { key, value: node } = heap.pop();
    if (done[node]) continue;
    done[node] = 1;
    if (only !== undefined && arrivals.has(only) && arrivals.get(only)!.length <= key) break;
    graph.from(node, (end, length, bridge) => {
      const reached = key + length;
      if (end === goal) {
        const { from: a, to: b } = bridges[bridge]!;
        const { name } = a.net === to ? a : b;
        if (reached < (arrivals.get(name)?.length ?? Number.POSITIVE_INFINITY))
          arrivals.set(name, { length: reached, node, bridge });
        return;
      }
      if (reached >= distances[end]!) return;
      distances[end] = reached;
      before[end] = node;
      by[end] = bridge;
      heap.push(reached, end);
    });
  }
  return [...arrivals]
    .filter(([name]) => only === undefined || name === only)
    .map(([, { node, bridge }]) => {
      const nodes: number[] = [goal];
      const overs: number[] = [];
      let last = node;
      let over = bridge;
      for (;;) {
        nodes.push(last);
        overs.push(over);
        if (last === start) break;
        over = by[last]!;
        last = before[last]!;
      }
      return wayThrough(graph, nodes.reverse(), overs.reverse());
    })
    .sort((a, b) => a.length - b.length);
}

/** A way from the nodes that it leads through, its legs over each surface pulled tight. */
function wayThrough(graph: SurfaceGraph, nodes: readonly number[], overs: readonly number[]): Way {
  const legs: Leg[] = [];
  let [first, last] = ['', ''];
  for (let i = 0; i + 1 < nodes.length; ) {
    if (overs[i]! >= 0) {
      const bridge = graph.bridges[overs[i]!]!;
      const a = bridge.from.toScene(bridge.fromPoint.at);
      const b = bridge.to.toScene(bridge.toPoint.at);
      const forwards = leadsFrom(graph, nodes[i]!, bridge.from, a) && leadsTo(graph, nodes[i + 1]!, bridge.to);
      const [start, end] = forwards ? [bridge.from, bridge.to] : [bridge.to, bridge.from];
      if (i === 0) first = start.name;
      last = end.name;
      if (graph.isNet(nodes[i]!) && i > 0) legs.push({ kind: 'metal', on: start.name, length: 0, points: [] });
      legs.push({ kind: 'gap', on: end.name, length: bridge.length, points: forwards ? [a, b] : [b, a] });
      i++;
      continue;
    }
    let to = i;
    while (to + 1 < nodes.length && overs[to]! < 0) to++;
    legs.push(legOver(graph, nodes.slice(i, to + 1)));
    i = to;
  }
  return { from: first, to: last, length: legs.reduce((sum, { length }) => sum + length, 0), legs };
}

const leadsTo = (graph: SurfaceGraph, node: number, body: Body): boolean =>
  graph.isNet(node) ? body.net !== undefined : graph.placeOf(node).body === body;

/** A bridge within one body leads from the end that the node lies at. */
function leadsFrom(graph: SurfaceGraph, node: number, body: Body, at: Vec3): boolean {
  if (graph.isNet(node)) return body.net !== undefined;
  const place = graph.placeOf(node);
  if (place.body !== body) return false;
  const here = body.toScene(place.at);
  return Math.hypot(here[0] - at[0], here[1] - at[1], here[2] - at[2]) < 1e-6;
}
