import { corridor } from './corridor.js';
import { type Costs, costOf, LENGTHS } from './costs.js';
import { Heap } from './heap.js';
import { routeThrough, wayAlong } from './route.js';
import type { Scene } from './scene.js';
import { slid } from './slide.js';
import { SurfaceGraph } from './surface-graph.js';
import type { Way } from './way.js';

export interface CreepageOptions {
  /** mm, X of the standard: gaps narrower than this are counted straight across. */
  readonly bridge: number;
  /** mm between the places that are looked at first. */
  readonly spacing: number;
  /** Ways that cost more than the least by this factor are left out. */
  readonly upTo: number;
  /** What ways are least in; their length where it is left out. */
  readonly costs?: Costs;
  /** mm; walls up to this are looked through, none where it is left out. */
  readonly thickest?: number;
  /** The scene’s graph with the same bridge, spacing and walls, where there is one already. */
  readonly graph?: SurfaceGraph;
  /** Conductors of one kind are reported once, with the best way to any of them. */
  readonly kind?: (name: string) => string;
}

/** How much finer the surroundings of a way are looked at for each refinement, and how far around it (in old spacings). */
const FINER = 4;
const AROUND = 1.5;
const MOST_REFINEMENTS = 3;
/** A way may pass each gap this many spacings beside the best place for it; by so much of its length it is left at that. */
const BESIDE = 0.1;
const ENOUGH = 0.003;

/** Conductors of one kind count as reached alike when their ways differ by no more than this share. */
const ALIKE = 0.03;

/**
 * The shortest way along insulating surfaces from conductors of one net to each kind of conductor of another, shortest
 * first. Conductors of further nets on the way count as free length.
 */
export function creepages(scene: Scene, from: string, to: string, options: CreepageOptions): Way[] {
  const { costs = LENGTHS, graph = new SurfaceGraph(scene, options) } = options;
  const kinds = bestOfKinds(shortest(graph, costs, from, to), options.kind);
  const most = options.upTo * (kinds[0]?.cost ?? 0);
  return kinds
    .filter(({ cost }) => cost <= most)
    .map((arrival) => {
      const route = routeThrough(graph, arrival.nodes, arrival.overs);
      const way = { ...wayAlong(graph, costs, route), alike: arrival.alike };
      return refined(scene, from, to, options, way);
    })
    .sort((a, b) => a.cost - b.cost);
}

/** Of each kind of conductor the one that is reached first, and how many others are reached nearly as soon. */
export function bestOfKinds<T extends { readonly name: string; readonly cost: number }>(
  arrivals: readonly T[],
  kind: (name: string) => string = (name) => name,
): (T & { readonly alike: number })[] {
  const kinds = new Map<string, T[]>();
  for (const each of arrivals) kinds.set(kind(each.name), [...(kinds.get(kind(each.name)) ?? []), each]);
  return [...kinds.values()]
    .map((held) => {
      const best = held.reduce((least, each) => (each.cost < least.cost ? each : least));
      return { ...best, alike: held.filter(({ cost }) => cost <= (1 + ALIKE) * best.cost).length };
    })
    .sort((a, b) => a.cost - b.cost);
}

function refined(scene: Scene, from: string, to: string, options: CreepageOptions, way: Way): Way {
  const { bridge, thickest, costs = LENGTHS } = options;
  let best = way;
  let { spacing } = options;
  for (let round = 0; round < MOST_REFINEMENTS; round++) {
    const gaps = best.legs.filter(({ kind }) => kind === 'gap').length;
    if (round > 0 && BESIDE * spacing * gaps < ENOUGH * best.length) break;
    const around = AROUND * spacing;
    spacing /= FINER;
    const wanted = corridor(
      best.legs.flatMap(({ points }) => points),
      around,
    );
    const graph = new SurfaceGraph(scene, { bridge, thickest, spacing, wanted });
    for (const { nodes, overs } of shortest(graph, costs, from, to, best.to)) {
      const found = wayAlong(graph, costs, slid(graph, costs, routeThrough(graph, nodes, overs)));
      if (found.cost < best.cost) best = { ...found, alike: way.alike };
    }
  }
  return best;
}

/** How a conductor is reached: the nodes from start to goal, and the link from each to the next. */
interface Arrival {
  readonly name: string;
  readonly cost: number;
  readonly nodes: readonly number[];
  readonly overs: readonly number[];
}

/** From each conductor of `to` (or the one named) the best way to `from`. */
function shortest(graph: SurfaceGraph, costs: Costs, from: string, to: string, only?: string): Arrival[] {
  const { size, bridges } = graph;
  const distances = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  const before = new Int32Array(size).fill(-1);
  const by = new Int32Array(size).fill(-1);
  const done = new Uint8Array(size);
  const start = graph.netNode(from);
  const goal = graph.netNode(to);
  const heap = new Heap(size);
  /** For each conductor of the other net the last node before it and the bridge to it. */
  const arrivals = new Map<string, { cost: number; node: number; bridge: number }>();
  distances[start] = 0;
  heap.push(0, start);
  while (!heap.isEmpty) {
    const { key, value: node } = heap.pop();
    if (done[node]) continue;
    done[node] = 1;
    if (only !== undefined && arrivals.has(only) && arrivals.get(only)!.cost <= key) break;
    graph.from(node, (end, length, over) => {
      const reached = key + costOf(graph, costs, length, over);
      if (end === goal) {
        const { from: a, to: b } = bridges[over]!;
        const { name } = a.net === to ? a : b;
        if (reached < (arrivals.get(name)?.cost ?? Number.POSITIVE_INFINITY))
          arrivals.set(name, { cost: reached, node, bridge: over });
        return;
      }
      if (!(reached < distances[end]!)) return;
      distances[end] = reached;
      before[end] = node;
      by[end] = over;
      heap.push(reached, end);
    });
  }
  return [...arrivals]
    .filter(([name]) => only === undefined || name === only)
    .map(([name, { cost, node, bridge }]) => {
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
      return { name, cost, nodes: nodes.reverse(), overs: overs.reverse() };
    });
}
