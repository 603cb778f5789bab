import { leastAhead } from './ahead.js';
import { AirSpace } from './air-space.js';
import { bestOfKinds } from './creepage.js';
import { Heap } from './heap.js';
import { crossingBetween, lineOver, surfaceLeg } from './route.js';
import type { Scene } from './scene.js';
import { SurfaceGraph } from './surface-graph.js';
import { tightened } from './tighten.js';
import type { Leg, Way } from './way.js';

export interface ClearanceOptions {
  /** mm between the places that are looked at first. */
  readonly spacing: number;
  /** Ways longer than the shortest by this factor are left out. */
  readonly upTo: number;
  /** mm; gaps between surfaces that are narrower than this are passed from surface to surface. */
  readonly bridge: number;
  /** Conductors of one kind are reported once, with the shortest way to any of them. */
  readonly kind?: (name: string) => string;
  /** Kinds that ways are told to, those with the best; all where it is left out. */
  readonly most?: number;
  /** The scene’s graph with the same bridge and spacing, where there is one already. */
  readonly graph?: SurfaceGraph;
}

/**
 * The shortest way through air from conductors of one net to each conductor of another, bent around what insulates,
 * shortest first. Conductors of further nets on the way count as free length.
 */
export function clearances(scene: Scene, from: string, to: string, options: ClearanceOptions): Way[] {
  const search = new AirSearch(scene, from, to, options);
  return search.run().sort((a, b) => a.cost - b.cost);
}

/** How a conductor is come to. */
interface End {
  readonly name: string;
  readonly cost: number;
  readonly node: number;
  readonly parent: number;
  readonly kind: number;
  readonly bridge: number;
}

/** Ways to one conductor that are pulled tight, and how much more than the shortest they may seem to be: places only nearly tell. */
const CANDIDATES = 6;
const NEARLY = 1.04;

/** How a node was come to: straight through air, over a surface or across a narrow gap, or through metal. */
const AIR = 0;
const LINK = 1;
const METAL = 2;

/**
 * Shortest ways over places on surfaces and in the air between them. Each place takes over the last bend of the place it is
 * come from wherever that is seen from it, so that ways are straight between bends whatever grid they were found on.
 */
class AirSearch {
  private readonly graph: SurfaceGraph;
  private readonly space: AirSpace;
  private readonly reached: Float64Array;
  private readonly parents: Int32Array;
  private readonly kinds: Uint8Array;
  private readonly bridges: Int32Array;
  private readonly done: Uint8Array;
  private readonly heap: Heap;
  /** Places around a node that were found not to see it. */
  private readonly hidden = new Map<number, Set<number>>();
  private readonly least: ReturnType<typeof leastAhead>;
  /** mm that are at least left from each node; NaN where nobody asked. */
  private readonly left: Float64Array;

  constructor(
    private readonly scene: Scene,
    private readonly from: string,
    private readonly to: string,
    private readonly options: ClearanceOptions,
  ) {
    const { spacing, bridge } = options;
    this.graph = options.graph ?? new SurfaceGraph(scene, { spacing, bridge });
    this.space = new AirSpace(scene, this.graph);
    const { size } = this.space;
    this.reached = new Float64Array(size).fill(Number.POSITIVE_INFINITY);
    this.parents = new Int32Array(size).fill(-1);
    this.kinds = new Uint8Array(size);
    this.bridges = new Int32Array(size).fill(-1);
    this.done = new Uint8Array(size);
    this.heap = new Heap(size);
    this.least = leastAhead(scene, from, to);
    this.left = new Float64Array(size).fill(Number.NaN);
  }

  run(): Way[] {
    const { graph, space, heap, done } = this;
    const ends = new Map<string, End[]>();
    const start = graph.netNode(this.from);
    const goal = graph.netNode(this.to);
    this.improve(start, 0, -1, METAL, -1);
    for (const node of space.metal(this.from)) this.improve(node, 0, start, METAL, -1);
    let most = Number.POSITIVE_INFINITY;
    const arrive = (end: End) => {
      if (most === Number.POSITIVE_INFINITY) most = end.cost * this.options.upTo;
      if (end.cost > most) return;
      const held = ends.get(end.name) ?? [];
      ends.set(end.name, held);
      if (held.length < CANDIDATES && held.every((other) => this.differs(other, end))) held.push(end);
    };
    while (!heap.isEmpty) {
      const { key, value: node } = heap.pop();
      if (key > most) break;
      if (done[node] || key > this.reached[node]! + this.ahead(node)) continue;
      if (!this.settle(node)) continue;
      done[node] = 1;
      if (node === goal) continue;
      const metal = space.netOf(node);
      if (metal === this.to) {
        const { parents, kinds } = this;
        arrive({
          name: space.bodyOf(node)!.name,
          node,
          parent: parents[node]!,
          kind: kinds[node]!,
          bridge: -1,
          cost: this.reached[node]!,
        });
        continue;
      }
      if (metal !== undefined && metal !== this.from) {
        // Free length: all of this net is as near.
        const net = graph.netNode(metal);
        this.improve(net, this.reached[node]!, node, METAL, -1);
      }
      this.expand(node, (length, bridge) => {
        const { from: a, to: b } = graph.bridges[bridge]!;
        const { name } = a.net === this.to ? a : b;
        arrive({ name, node: goal, parent: node, kind: LINK, bridge, cost: length });
      });
    }
    const firsts = [...ends.values()].map(([first]) => first!);
    const kinds = bestOfKinds(firsts, this.options.kind).slice(0, this.options.most);
    return kinds.map(({ name, cost, alike }) => {
      const ways = ends
        .get(name)!
        .filter((end) => end.cost <= NEARLY * cost)
        .map((end) => this.wayTo(end, alike));
      return ways.reduce((best, way) => (way.length < best.length ? way : best));
    });
  }

  private improve(node: number, length: number, parent: number, kind: number, bridge: number): void {
    if (this.done[node] || length >= this.reached[node]!) return;
    this.reached[node] = length;
    this.parents[node] = parent;
    this.kinds[node] = kind;
    this.bridges[node] = bridge;
    this.heap.push(length + this.ahead(node), node);
  }

  private ahead(node: number): number {
    const { left, graph, space, least } = this;
    if (Number.isNaN(left[node]!)) {
      left[node] =
        node < graph.size && graph.isNet(node) ? least.ofNet(space.netOf(node)!) : least.at(space.at(node));
    }
    return left[node]!;
  }

  /** Makes sure that a node is really come to as it was hoped; else it waits again, come to from a neighbour. */
  private settle(node: number): boolean {
    if (this.kinds[node] !== AIR) return true;
    const { space } = this;
    if (space.isOpen(node) && this.canSee(this.parents[node]!, node)) return true;
    const seen = this.nearestSeen(node);
    let best = seen?.length ?? Number.POSITIVE_INFINITY;
    const parent = seen?.other ?? -1;
    this.reached[node] = Number.POSITIVE_INFINITY;
    // The links that led here before were overtaken by a hope that failed.
    let link = -1;
    let bridge = -1;
    if (node < this.graph.size) {
      this.graph.from(node, (other, length, over) => {
        if (over >= this.graph.bridges.length) return;
        if (!this.done[other] || this.space.netOf(other) === this.to) return;
        if (this.reached[other]! + length >= best) return;
        best = this.reached[other]! + length;
        link = other;
        bridge = over;
      });
    }
    if (link >= 0) this.improve(node, best, link, LINK, bridge);
    else if (parent >= 0) this.improve(node, best, parent, AIR, -1);
    return false;
  }

  /** The settled place around a node that leads to it soonest through air. */
  private nearestSeen(node: number): { readonly other: number; readonly length: number } | undefined {
    const { space, done, reached } = this;
    if (!space.isOpen(node)) return undefined;
    const hidden = this.hidden.get(node) ?? new Set<number>();
    this.hidden.set(node, hidden);
    const others: { other: number; length: number }[] = [];
    space.around(node, (other) => {
      if (done[other] && !hidden.has(other))
        others.push({ other, length: reached[other]! + space.apart(other, node) });
    });
    others.sort((a, b) => a.length - b.length);
    for (const each of others) {
      if (this.canSee(each.other, node)) return each;
      hidden.add(each.other);
    }
    return undefined;
  }

  private canSee(from: number, to: number): boolean {
    const { space } = this;
    return space.isOpen(from) && this.scene.sees(space.at(from), space.at(to));
  }

  private expand(node: number, arrive: (length: number, bridge: number) => void): void {
    const { space, graph } = this;
    const reached = this.reached[node]!;
    if (node < graph.size) {
      const goal = graph.netNode(this.to);
      graph.from(node, (end, length, bridge) => {
        if (bridge >= graph.bridges.length) return;
        if (end === goal) arrive(reached + length, bridge);
        else this.improve(end, reached + length, node, LINK, bridge);
      });
      if (graph.isNet(node)) {
        const net = space.netOf(node)!;
        if (net !== this.from)
          for (const place of space.metal(net)) this.improve(place, reached, node, METAL, -1);
        return;
      }
    }
    const fromAir = this.kinds[node] === AIR;
    const bend = this.parents[node]!;
    space.around(node, (other) => {
      if (this.done[other]) return;
      if (fromAir) this.improve(other, this.reached[bend]! + space.apart(bend, other), bend, AIR, -1);
      else this.improve(other, reached + space.apart(node, other), node, AIR, -1);
    });
  }

  /** Whether two ends are come to from different places. */
  private differs(a: End, b: End): boolean {
    if (a.kind !== b.kind || a.kind !== AIR) return a.kind !== b.kind;
    return this.space.apart(a.parent, b.parent) > this.options.spacing;
  }

  private wayTo(end: End, alike: number): Way {
    const { graph, space } = this;
    // Back from the end: nodes with how each was come to.
    const steps: { node: number; kind: number; bridge: number }[] = [
      { node: end.node, kind: end.kind, bridge: end.bridge },
    ];
    for (let node = end.parent; node >= 0; node = this.parents[node]!) {
      steps.push({ node, kind: this.kinds[node]!, bridge: this.bridges[node]! });
    }
    steps.reverse();
    const legs: Leg[] = [];
    let first = '';
    for (let i = 1; i < steps.length; i++) {
      const { node, kind, bridge } = steps[i]!;
      const last = steps[i - 1]!.node;
      if (kind === METAL) {
        const body = space.bodyOf(node) ?? space.bodyOf(last);
        const before = legs.at(-1);
        // In and out of one conductor are two steps.
        const isNew = before && !(before.kind === 'metal' && before.on === body?.name);
        if (body && isNew) legs.push({ kind: 'metal', on: body.name, length: 0, points: [] });
        if (body && first === '' && !graph.isNet(node)) first = body.name;
        continue;
      }
      if (kind === AIR) {
        const points = [space.at(last), space.at(node)];
        legs.push({
          kind: 'air',
          on: space.bodyOf(node)?.name ?? '',
          length: space.apart(last, node),
          points,
        });
        continue;
      }
      if (bridge >= 0) {
        const { from, to, start, end: stop, length } = crossingBetween(graph, bridge, last, node);
        if (first === '') first = from.name;
        legs.push({
          kind: 'gap',
          on: to.name,
          length,
          points: [from.toScene(start.at), to.toScene(stop.at)],
        });
        continue;
      }
      let run = i;
      while (run + 1 < steps.length && steps[run + 1]!.kind === LINK && steps[run + 1]!.bridge < 0) run++;
      const nodes = steps.slice(i - 1, run + 1).map((step) => step.node);
      legs.push(surfaceLeg(graph.placeOf(nodes[0]!).body, lineOver(graph, nodes)));
      i = run;
    }
    return tightened(this.scene, { from: first, to: end.name, length: 0, cost: 0, alike, legs });
  }
}
