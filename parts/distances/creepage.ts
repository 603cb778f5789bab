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
  /** Kinds that ways are told to, those with the best; all where it is left out. */
  readonly most?: number;
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
  const [start, goal] = [graph.netNode(from), graph.netNode(to)];
  const out = searched(graph, costs, start, goal);
  const kinds = bestOfKinds(arrivals(graph, costs, out, goal), options.kind);
  const most = options.upTo * (kinds[0]?.cost ?? 0);
  const others =
    kinds.length > 0 ? alternatives(graph, costs, out, searched(graph, costs, goal, start), kinds[0]!) : [];
  return kinds
    .filter(({ cost }) => cost <= most)
    .slice(0, options.most)
    .map(({ name, alike, path }, i) => {
      const best = bestOf(graph, costs, [path, ...(i === 0 ? others : [])], (way) =>
        isOfKind(way, name, options.kind),
      );
      return refined(scene, from, to, options, { ...best, alike });
    })
    .sort((a, b) => a.cost - b.cost);
}

/** The best of some paths, each pulled tight; the few best of these with their crossings slid. */
function bestOf(graph: SurfaceGraph, costs: Costs, paths: readonly Path[], fits: (way: Way) => boolean): Way {
  const tight = paths
    .map(({ nodes, overs }) => routeThrough(graph, nodes, overs))
    .map((route) => ({ route, way: wayAlong(graph, costs, route) }))
    .filter(({ way }) => fits(way))
    .sort((a, b) => a.way.cost - b.way.cost);
  if (tight.length === 1) return tight[0]!.way;
  return tight
    .slice(0, SLID)
    .map(({ route }) => wayAlong(graph, costs, slid(graph, costs, route)))
    .reduce((least, way) => (way.cost < least.cost ? way : least));
}

const isOfKind = ({ to }: Way, name: string, kind: (name: string) => string = (each) => each) =>
  kind(to) === kind(name);

/** Of each kind of conductor the one that is reached first, and how many others are reached nearly as soon. */
export function bestOfKinds<T extends { readonly name: string; readonly cost: number }>(
  reached: readonly T[],
  kind: (name: string) => string = (name) => name,
): (T & { readonly alike: number })[] {
  const kinds = new Map<string, T[]>();
  for (const each of reached) kinds.set(kind(each.name), [...(kinds.get(kind(each.name)) ?? []), each]);
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
    const goal = graph.netNode(to);
    const out = searched(graph, costs, graph.netNode(from), goal);
    const arrival = arrivals(graph, costs, out, goal).find(({ name }) => name === best.to);
    if (!arrival) break;
    const { nodes, overs } = arrival.path;
    const found = wayAlong(graph, costs, slid(graph, costs, routeThrough(graph, nodes, overs)));
    if (found.cost < best.cost) best = { ...found, alike: way.alike };
  }
  return best;
}

/** What every node costs to reach from a start, and how it is reached. */
interface Searched {
  readonly costs: Float64Array;
  /** The node before, and the link from there; -1 at the start. */
  readonly before: Int32Array;
  readonly by: Int32Array;
}

/** Nodes from start to goal, and the link from each to the next. */
interface Path {
  readonly nodes: readonly number[];
  readonly overs: readonly number[];
}

/** @param end a node that nothing leads on from */
function searched(graph: SurfaceGraph, costs: Costs, start: number, end: number): Searched {
  const { size } = graph;
  const reached = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
  const before = new Int32Array(size).fill(-1);
  const by = new Int32Array(size).fill(-1);
  const done = new Uint8Array(size);
  const heap = new Heap(size);
  reached[start] = 0;
  heap.push(0, start);
  while (!heap.isEmpty) {
    const { key, value: node } = heap.pop();
    if (done[node]) continue;
    done[node] = 1;
    if (node === end) continue;
    graph.from(node, (next, length, over) => {
      const cost = key + costOf(graph, costs, length, over);
      if (!(cost < reached[next]!)) return;
      reached[next] = cost;
      before[next] = node;
      by[next] = over;
      heap.push(cost, next);
    });
  }
  return { costs: reached, before, by };
}

/** From the start of a search to a node. */
function pathTo({ before, by }: Searched, node: number): Path {
  const nodes = [node];
  const overs: number[] = [];
  for (let at = node; before[at]! >= 0; at = before[at]!) {
    nodes.push(before[at]!);
    overs.push(by[at]!);
  }
  return { nodes: nodes.reverse(), overs: overs.reverse() };
}

/** Each conductor that a goal stands for, by the best link that leads to it. */
function arrivals(
  graph: SurfaceGraph,
  costs: Costs,
  out: Searched,
  goal: number,
): { readonly name: string; readonly cost: number; readonly path: Path }[] {
  const best = new Map<string, { cost: number; node: number; over: number }>();
  const net = graph.netAt(goal);
  graph.from(goal, (node, length, over) => {
    const cost = out.costs[node]! + costOf(graph, costs, length, over);
    const { from, to } = graph.bridges[over]!;
    const { name } = from.net === net ? from : to;
    if (cost < (best.get(name)?.cost ?? Number.POSITIVE_INFINITY)) best.set(name, { cost, node, over });
  });
  return [...best].map(([name, { cost, node, over }]) => {
    const { nodes, overs } = pathTo(out, node);
    return { name, cost, path: { nodes: [...nodes, goal], overs: [...overs, over] } };
  });
}

/** Ways that seem longer than the best by at most this share: links only nearly tell lengths. And how many are looked at. */
const NEARLY = 1.06;
const MOST_ALTERNATIVES = 6;
/** Those of them that are looked at closely. */
const SLID = 3;

/** Other ways to the conductor that is reached first: over each pair of bodies the best one that passes between these. */
function alternatives(
  graph: SurfaceGraph,
  costs: Costs,
  out: Searched,
  back: Searched,
  best: { readonly cost: number; readonly path: Path },
): Path[] {
  const [startNet, goalNet] = [best.path.nodes[0]!, best.path.nodes.at(-1)!].map(
    (node) => graph.netAt(node)!,
  );
  const pairs = new Map<string, { cost: number; near: number; far: number; over: number }>();
  for (const number of graph.bridges.keys()) {
    const { from, to } = graph.bridges[number]!;
    const ends = graph.endsOf(number);
    // Start and goal are ends of every way anyhow.
    if (from.net === startNet || to.net === startNet || from.net === goalNet || to.net === goalNet) continue;
    for (const [near, far] of [ends, [ends[1], ends[0]] as const]) {
      const own = costOf(graph, costs, graph.bridges[number]!.length, number);
      const cost = out.costs[near]! + own + back.costs[far]!;
      const pair = `${from.name} ${to.name}`;
      if (cost <= NEARLY * best.cost && cost < (pairs.get(pair)?.cost ?? Number.POSITIVE_INFINITY))
        pairs.set(pair, { cost, near, far, over: number });
    }
  }
  const through = ({ nodes }: Path) => [...new Set(nodes.map((node) => graph.nameAt(node)))].sort().join();
  const seen = new Set([through(best.path)]);
  const found: Path[] = [];
  for (const { near, far, over } of [...pairs.values()].sort((a, b) => a.cost - b.cost)) {
    const [there, on] = [pathTo(out, near), pathTo(back, far)];
    const path = {
      nodes: [...there.nodes, ...[...on.nodes].reverse()],
      overs: [...there.overs, over, ...[...on.overs].reverse()],
    };
    const name = through(path);
    if (seen.has(name)) continue;
    seen.add(name);
    found.push(path);
    if (found.length === MOST_ALTERNATIVES) break;
  }
  return found;
}
