import type { Vec3 } from '../solid/vector.js';
import { type Bridge, bridgesBetween, bridgesWithin } from './bridges.js';
import { Nodes } from './nodes.js';
import type { Body, Scene } from './scene.js';
import { cover, type Links } from './shape.js';

/** mm: how fine a graph is, and where. */
export interface Grain {
  /** Between nodes. */
  readonly spacing: number;
  /** Width X up to which a gap is bridged. */
  readonly bridge: number;
  /** Places of the scene that matter; everywhere when left out. */
  readonly wanted?: (point: Vec3) => boolean;
}

/** An insulator with its nodes: those that cover it, and the ends of bridges, which come after them. */
interface Ground {
  readonly body: Body;
  readonly cover: Nodes;
  readonly links: Links | undefined;
  readonly ends: Nodes;
  /** Number of its first node in the graph. */
  readonly first: number;
}

/** Reach of links from the ends of bridges, in spacings: nodes lie all around within that. */
const END_REACH = 1.8;
/** The same among nodes that are not kept with the shape. */
const REACH = 2.6;
/** Bridges lie so much closer than nodes. */
const CLOSER = 0.5;

/**
 * Ways along insulating surfaces as a graph: nodes on the surfaces, straight unfolded lines between them, and bridges over
 * narrow gaps. A node of the graph is a place on an insulator; after all places comes one for each net of conductors.
 */
export class SurfaceGraph {
  private readonly grounds: Ground[] = [];
  readonly nets: readonly string[];
  readonly size: number;
  readonly bridges: readonly Bridge[];
  /** Of the links that are not kept with shapes: node, next link from the same node, end, length. */
  private readonly heads: Int32Array;
  private readonly nexts: number[] = [];
  private readonly ends: number[] = [];
  private readonly lengths: number[] = [];
  /** The bridge that a link is, -1 for one over a surface. */
  private readonly over: number[] = [];

  constructor(
    readonly scene: Scene,
    readonly grain: Grain,
  ) {
    const { wanted } = grain;
    const insulators = scene.bodies.filter(({ net }) => net === undefined);
    this.nets = [...new Set(scene.bodies.flatMap(({ net }) => net ?? []))];
    this.bridges = allBridges(scene, grain);
    const byBody = new Map<Body, { at: Nodes; numbers: Map<Bridge, number[]> }>();
    let first = 0;
    for (const body of insulators) {
      const { shape } = body;
      const fits = wanted && ((x: number, y: number, z: number) => wanted(body.toScene([x, y, z])));
      const nodes = fits
        ? cover(shape, shape.spacing(grain.spacing), fits)
        : shape.nodes(grain.spacing);
      const ends = new Nodes(shape.mesh.triangles.length / 3);
      byBody.set(body, { at: ends, numbers: new Map() });
      this.grounds.push({
        body,
        cover: nodes,
        links: fits ? undefined : shape.links(grain.spacing),
        ends,
        first,
      });
      const held = byBody.get(body)!;
      for (const bridge of this.bridges) {
        if (bridge.from === body) keep(held, bridge, ends.add(bridge.fromPoint.triangle, bridge.fromPoint.at));
        if (bridge.to === body) keep(held, bridge, ends.add(bridge.toPoint.triangle, bridge.toPoint.at));
      }
      first += nodes.count + ends.count;
    }
    this.size = first + this.nets.length;
    this.heads = new Int32Array(this.size).fill(-1);
    for (const ground of this.grounds) this.link(ground);
    for (const [number, bridge] of this.bridges.entries()) {
      const place = (body: Body, which: number): number => {
        if (body.net !== undefined) return first + this.nets.indexOf(body.net);
        const ground = this.grounds.find((each) => each.body === body)!;
        const numbers = byBody.get(body)!.numbers.get(bridge)!;
        return ground.first + ground.cover.count + numbers[which]!;
      };
      const a = place(bridge.from, 0);
      const b = place(bridge.to, bridge.from === bridge.to ? 1 : 0);
      this.join(a, b, bridge.length, number);
      this.join(b, a, bridge.length, number);
    }
  }

  netNode(net: string): number {
    const found = this.nets.indexOf(net);
    if (found < 0) throw new RangeError(`no conductor of net ${net}`);
    return this.size - this.nets.length + found;
  }

  isNet(node: number): boolean {
    return node < this.size && node >= this.size - this.nets.length;
  }

  /** Body and place of a node that is no net. */
  placeOf(node: number): { body: Body; triangle: number; at: Vec3 } {
    const ground = this.groundOf(node);
    const number = node - ground.first;
    const { cover: nodes, ends, body } = ground;
    return number < nodes.count
      ? { body, ...nodes.point(number) }
      : { body, ...ends.point(number - nodes.count) };
  }

  /** Calls `take` for every link from a node: its end, its length (mm), and its bridge or -1. */
  from(node: number, take: (end: number, length: number, bridge: number) => void): void {
    if (!this.isNet(node)) {
      const { first, cover: nodes, links } = this.groundOf(node);
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

  private groundOf(node: number): Ground {
    let [low, high] = [0, this.grounds.length - 1];
    while (low < high) {
      const middle = (low + high + 1) >> 1;
      if (this.grounds[middle]!.first <= node) low = middle;
      else high = middle - 1;
    }
    return this.grounds[low]!;
  }

  private link({ body, cover: nodes, links, ends, first }: Ground): void {
    const spacing = body.shape.spacing(this.grain.spacing);
    const afterCover = first + nodes.count;
    for (let end = 0; end < ends.count; end++) {
      const radius = END_REACH * spacing;
      body.shape.unfolding.reach(ends.point(end), radius, [nodes, ends], (set, other, length) => {
        if (set === 1) {
          if (other !== end) this.join(afterCover + end, afterCover + other, length, -1);
          return;
        }
        this.join(afterCover + end, first + other, length, -1);
        this.join(first + other, afterCover + end, length, -1);
      });
    }
    if (links) return;
    for (let node = 0; node < nodes.count; node++) {
      body.shape.unfolding.reach(nodes.point(node), REACH * spacing, [nodes], (_, other, length) => {
        if (other !== node) this.join(first + node, first + other, length, -1);
      });
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

function keep(held: { numbers: Map<Bridge, number[]> }, bridge: Bridge, number: number): void {
  const known = held.numbers.get(bridge);
  if (known) known.push(number);
  else held.numbers.set(bridge, [number]);
}

function allBridges(scene: Scene, { bridge: widest, spacing, wanted }: Grain): Bridge[] {
  const apart = CLOSER * spacing;
  const found: Bridge[] = [];
  for (const from of scene.bodies) {
    for (const to of scene.bodies) {
      if (from === to) {
        if (from.net === undefined) found.push(...bridgesWithin(from, widest, apart, wanted));
        continue;
      }
      // Within one net there is no voltage.
      if (from.net !== undefined && from.net === to.net) continue;
      found.push(...bridgesBetween(scene, from, to, widest, apart, wanted));
    }
  }
  return found;
}
