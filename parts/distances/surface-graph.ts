import type { Vec3 } from '../solid/vector.js';
import { type Bridge, bridgesBetween, bridgesWithin } from './bridges.js';
import type { Wanted } from './corridor.js';
import { cover } from './cover.js';
import { Nodes } from './nodes.js';
import type { Body, Scene } from './scene.js';
import { type Links, linksAmong, reachedFrom } from './shape.js';
import { type Wall, wallsOf } from './walls.js';

/** mm: how fine a graph is, and where. */
export interface Grain {
  /** mm; walls up to this are looked through, none where it is left out. */
  readonly thickest?: number | undefined;
  /** Between nodes. */
  readonly spacing: number;
  /** Width X up to which a gap is bridged. */
  readonly bridge: number;
  /** Places of the scene that matter; everywhere when left out. */
  readonly wanted?: Wanted;
}

/** A body with its nodes. Of an insulator the graph has them all, and after them the far ends of bridges. */
interface Ground {
  readonly body: Body;
  readonly nodes: Nodes;
  readonly links: Links | undefined;
  readonly ends: Nodes;
  /** Number of its first node in the graph; of a conductor that of its net. */
  first: number;
}

/**
 * Ways along insulating surfaces as a graph: nodes on the surfaces, straight unfolded lines between them, and bridges over
 * narrow gaps. A node of the graph is a place on an insulator; after all places comes one for each net of conductors.
 */
export class SurfaceGraph {
  private readonly grounds: Ground[] = [];
  readonly nets: readonly string[];
  readonly size: number;
  readonly bridges: readonly Bridge[];
  readonly walls: readonly Wall[];
  /** Nodes that a bridge between two insulators starts or ends at: they lie in narrow gaps. */
  readonly inGaps: ReadonlySet<number>;
  private readonly bridgeEnds: Int32Array;
  /** Of the links that are not kept with shapes: node, next link from the same node, end, length. */
  private readonly heads: Int32Array;
  private readonly nexts: number[] = [];
  private readonly ends: number[] = [];
  private readonly lengths: number[] = [];
  /** The bridge that a link is, counted on for walls; -1 for one over a surface. */
  private readonly over: number[] = [];

  constructor(
    readonly scene: Scene,
    readonly grain: Grain,
  ) {
    this.nets = [...new Set(scene.bodies.flatMap(({ net }) => net ?? []))];
    const all = scene.bodies.map((body) => groundOf(body, grain));
    const bridges: Bridge[] = [];
    for (const { body, nodes } of all) {
      if (nodes.count === 0) continue;
      if (body.net === undefined) bridges.push(...bridgesWithin(scene, body, nodes, grain.bridge));
      for (const to of scene.bodies) {
        // Within one net there is no voltage.
        if (to === body || (body.net !== undefined && body.net === to.net)) continue;
        bridges.push(...bridgesBetween(scene, body, nodes, to, grain.bridge));
      }
    }
    this.bridges = bridges;
    const byBody = new Map(all.map((ground) => [ground.body, ground]));
    const far = bridges.map(({ to, toPoint }) =>
      to.net === undefined ? byBody.get(to)!.ends.add(toPoint.triangle, toPoint.at) : -1,
    );
    const { thickest } = grain;
    this.walls = thickest
      ? all.flatMap(({ body, nodes }) =>
          body.net === undefined ? wallsOf(body, nodes, thickest, body.shape.spacing(grain.spacing)) : [],
        )
      : [];
    const beyond = this.walls.map(({ body, toPoint }) =>
      byBody.get(body)!.ends.add(toPoint.triangle, toPoint.at),
    );
    let first = 0;
    for (const ground of all) {
      if (ground.body.net !== undefined) continue;
      ground.first = first;
      first += ground.nodes.count + ground.ends.count;
      this.grounds.push(ground);
    }
    this.size = first + this.nets.length;
    for (const ground of all) {
      const { net } = ground.body;
      if (net !== undefined) ground.first = first + this.nets.indexOf(net);
    }
    this.heads = new Int32Array(this.size).fill(-1);
    const inGaps = new Set<number>();
    this.inGaps = inGaps;
    for (const ground of this.grounds) this.linkEnds(ground);
    this.bridgeEnds = new Int32Array(2 * bridges.length);
    for (const [number, bridge] of bridges.entries()) {
      const [from, to] = [byBody.get(bridge.from)!, byBody.get(bridge.to)!];
      const a = from.body.net === undefined ? from.first + bridge.fromNode : from.first;
      const b = to.body.net === undefined ? to.first + to.nodes.count + far[number]! : to.first;
      this.bridgeEnds.set([a, b], 2 * number);
      this.join(a, b, bridge.length, number);
      this.join(b, a, bridge.length, number);
      if (from.body.net !== undefined || to.body.net !== undefined) continue;
      inGaps.add(a);
      inGaps.add(b);
    }
    for (const [i, { body, fromNode, length }] of this.walls.entries()) {
      const { first: start, nodes } = byBody.get(body)!;
      const [a, b] = [start + fromNode, start + nodes.count + beyond[i]!];
      this.join(a, b, length, bridges.length + i);
      this.join(b, a, length, bridges.length + i);
      // Its far end is a place like others, but for one more than there need be.
      inGaps.add(b);
    }
  }

  /** Numbers of the bridges between two bodies, whichever they start from. */
  bridgesOf(a: Body, b: Body): readonly number[] {
    return this.bridges.flatMap(({ from, to }, number) =>
      (from === a && to === b) || (from === b && to === a) ? [number] : [],
    );
  }

  /** Numbers of a body’s walls. */
  wallsOf(body: Body): readonly number[] {
    return this.walls.flatMap((wall, number) => (wall.body === body ? [number] : []));
  }

  /** Both nodes that a bridge leads between. */
  endsOf(bridge: number): readonly [number, number] {
    return [this.bridgeEnds[2 * bridge]!, this.bridgeEnds[2 * bridge + 1]!];
  }

  /** The insulator or net that a node lies on. */
  nameAt(node: number): string {
    return this.netAt(node) ?? this.holding(node).body.name;
  }

  netNode(net: string): number {
    const found = this.nets.indexOf(net);
    if (found < 0) throw new RangeError(`no conductor of net ${net}`);
    return this.size - this.nets.length + found;
  }

  /** The net that a node stands for; undefined for a place on an insulator. */
  netAt(node: number): string | undefined {
    return this.isNet(node) ? this.nets[node - this.size + this.nets.length] : undefined;
  }

  isNet(node: number): boolean {
    return node < this.size && node >= this.size - this.nets.length;
  }

  /** Body and place of a node that is no net. */
  placeOf(node: number): { body: Body; triangle: number; at: Vec3 } {
    const ground = this.holding(node);
    const number = node - ground.first;
    const { nodes, ends, body } = ground;
    return number < nodes.count
      ? { body, ...nodes.point(number) }
      : { body, ...ends.point(number - nodes.count) };
  }

  /** Calls `take` for every link from a node: its end, its length (mm), and its bridge (then walls) or -1. */
  from(node: number, take: (end: number, length: number, over: number) => void): void {
    if (!this.isNet(node)) {
      const { first, nodes, links } = this.holding(node);
      if (links && node - first < nodes.count) {
        const at = node - first;
        for (let i = links.starts[at]!; i < links.starts[at + 1]!; i++) {
          take(first + links.ends[i]!, links.lengths[i]!, -1);
        }
      }
    }
    for (let link = this.heads[node]!; link >= 0; link = this.nexts[link]!) {
      take(this.ends[link]!, this.lengths[link]!, this.over[link]!);
    }
  }

  private holding(node: number): Ground {
    let [low, high] = [0, this.grounds.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.grounds[middle]!.first <= node) low = middle;
      else high = middle - 1;
    }
    return this.grounds[low]!;
  }

  private linkEnds({ body: { shape }, nodes, ends, first }: Ground): void {
    const { spacing, wanted } = this.grain;
    for (let end = 0; end < ends.count; end++) {
      const number = first + nodes.count + end;
      const place = ends.point(end);
      const reached = wanted
        ? reachedFrom(shape, nodes, place, shape.spacing(spacing))
        : shape.linksFrom(spacing, place);
      for (const [i, node] of reached.nodes.entries()) {
        this.join(number, first + node, reached.lengths[i]!, -1);
        this.join(first + node, number, reached.lengths[i]!, -1);
      }
    }
  }

  private join(from: number, to: number, length: number, bridge: number): void {
    this.nexts.push(this.heads[from]!);
    this.heads[from] = this.ends.length;
    this.ends.push(to);
    this.lengths.push(length);
    this.over.push(bridge);
  }
}

function groundOf(body: Body, { spacing, wanted }: Grain): Ground {
  const { shape, net } = body;
  const triangles = shape.mesh.triangles.length / 3;
  const ends = new Nodes(triangles);
  const insulator = net === undefined;
  if (!wanted) {
    const links = insulator ? shape.links(spacing) : undefined;
    return { body, nodes: shape.nodes(spacing), links, ends, first: 0 };
  }
  const middle = [0, 1, 2].map((axis) => (body.min[axis]! + body.max[axis]!) / 2) as unknown as Vec3;
  const radius = Math.hypot(...body.max.map((value, axis) => value - middle[axis]!));
  const own = shape.spacing(spacing);
  const nodes = wanted(...middle, radius)
    ? cover(shape, own, (x, y, z, around) => wanted(...body.toScene([x, y, z]), around))
    : new Nodes(triangles);
  return { body, nodes, links: insulator ? linksAmong(shape, nodes, own) : undefined, ends, first: 0 };
}
