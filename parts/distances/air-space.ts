import type { Vec3 } from '../solid/vector.js';
import { OFF } from './bridges.js';
import type { Body, Scene } from './scene.js';
import type { SurfaceGraph } from './surface-graph.js';

/** Places in the air lie so many spacings apart, and so far around everything. */
const COARSER = 2.4;
/** Places on surfaces look for others within so many spacings. */
const REACH = 1.5;

/**
 * Places through which ways lead through the air: those of the surface graph, moved a little off their surfaces, places on
 * conductors, and a grid in the air between. Numbers go on after those of the graph.
 */
export class AirSpace {
  readonly size: number;
  private readonly positions: Float64Array;
  private readonly bodies: (Body | undefined)[];
  private readonly nets = new Map<string, number[]>();
  private readonly open: Int8Array;
  private readonly cells = new Map<number, number[]>();
  private readonly reach: number;
  private readonly step: number;
  private readonly origin: Vec3;
  private readonly counts: readonly [number, number, number];
  private readonly firstInAir: number;

  constructor(
    private readonly scene: Scene,
    private readonly graph: SurfaceGraph,
  ) {
    const { spacing } = graph.grain;
    this.reach = REACH * spacing;
    this.step = COARSER * spacing;
    const places: number[] = [];
    this.bodies = [];
    for (let node = 0; node < graph.size; node++) {
      if (graph.isNet(node)) {
        places.push(0, 0, 0);
        this.bodies.push(undefined);
        continue;
      }
      const { body, triangle, at } = graph.placeOf(node);
      places.push(...offSurface(body, triangle, at));
      this.bodies.push(body);
    }
    for (const body of scene.bodies) {
      if (body.net === undefined) continue;
      const nodes = body.shape.nodes(spacing);
      const held = this.nets.get(body.net) ?? [];
      this.nets.set(body.net, held);
      for (let i = 0; i < nodes.count; i++) {
        held.push(this.bodies.length);
        this.bodies.push(body);
        places.push(...offSurface(body, nodes.triangles[i]!, nodes.at(i)));
      }
    }
    this.firstInAir = this.bodies.length;
    const low = (axis: number) => Math.min(...scene.bodies.map(({ min }) => min[axis]!)) - this.step;
    const high = (axis: number) => Math.max(...scene.bodies.map(({ max }) => max[axis]!)) + this.step;
    this.origin = [low(0), low(1), low(2)];
    this.counts = [0, 1, 2].map(
      (axis) => Math.ceil((high(axis) - this.origin[axis]!) / this.step) + 1,
    ) as unknown as [number, number, number];
    const [nx, ny, nz] = this.counts;
    this.size = this.firstInAir + nx * ny * nz;
    this.positions = Float64Array.from(places);
    this.open = new Int8Array(this.firstInAir);
    // Where a gap is bridged the graph’s own links lead on.
    for (const node of graph.inGaps) this.open[node] = -1;
    for (let node = 0; node < this.firstInAir; node++) {
      if (node < graph.size && graph.isNet(node)) continue;
      if (this.open[node] === -1) continue;
      const key = this.cell(...this.at(node));
      const held = this.cells.get(key);
      if (held) held.push(node);
      else this.cells.set(key, [node]);
    }
  }

  at(node: number): Vec3 {
    if (node < this.firstInAir) {
      const i = 3 * node;
      return [this.positions[i]!, this.positions[i + 1]!, this.positions[i + 2]!];
    }
    const [nx, ny] = this.counts;
    const number = node - this.firstInAir;
    const i = number % nx;
    const j = Math.floor(number / nx) % ny;
    const k = Math.floor(number / (nx * ny));
    const [x, y, z] = this.origin;
    return [x + i * this.step, y + j * this.step, z + k * this.step];
  }

  bodyOf(node: number): Body | undefined {
    return node < this.firstInAir ? this.bodies[node] : undefined;
  }

  /** The net of a place on a conductor, or of a node of the graph that stands for one. */
  netOf(node: number): string | undefined {
    if (node < this.graph.size) return this.graph.netAt(node);
    return this.bodyOf(node)?.net;
  }

  /** All places on conductors of a net. */
  metal(net: string): readonly number[] {
    return this.nets.get(net) ?? [];
  }

  apart(a: number, b: number): number {
    const p = this.at(a);
    const q = this.at(b);
    return Math.sqrt((p[0] - q[0]) ** 2 + (p[1] - q[1]) ** 2 + (p[2] - q[2]) ** 2);
  }

  /** Whether air is at a place: not where surfaces lie on one another or leave a narrow gap. What was seen from the air is in the air. */
  isOpen(node: number): boolean {
    if (node >= this.firstInAir) return true;
    if (this.open[node] === 0) {
      this.open[node] = this.scene.isInside(this.at(node), [this.bodies[node]!]) ? -1 : 1;
    }
    return this.open[node] === 1;
  }

  /** Places that a way may lead on to, if they are seen. */
  around(node: number, take: (other: number) => void): void {
    const [x, y, z] = this.at(node);
    const { reach, step, origin, counts } = this;
    const [nx, ny, nz] = counts;
    const inAir = node >= this.firstInAir;
    const i = (x - origin[0]) / step;
    const j = (y - origin[1]) / step;
    const k = (z - origin[2]) / step;
    // From a place in the air all 26 around it, from one on a surface the corners of its cell.
    const [down, up] = inAir ? [-1, 1] : [0, 1];
    const [i0, j0, k0] = inAir
      ? [Math.round(i), Math.round(j), Math.round(k)]
      : [Math.floor(i), Math.floor(j), Math.floor(k)];
    for (let c = k0 + down; c <= k0 + up; c++) {
      if (c < 0 || c >= nz) continue;
      for (let b = j0 + down; b <= j0 + up; b++) {
        if (b < 0 || b >= ny) continue;
        for (let a = i0 + down; a <= i0 + up; a++) {
          if (a < 0 || a >= nx) continue;
          const other = this.firstInAir + a + nx * (b + ny * c);
          if (other !== node) take(other);
        }
      }
    }
    for (let c = -1; c <= 1; c++) {
      for (let b = -1; b <= 1; b++) {
        for (let a = -1; a <= 1; a++) {
          const held = this.cells.get(this.cell(x + a * reach, y + b * reach, z + c * reach));
          if (held) for (const other of held) if (other !== node) take(other);
        }
      }
    }
  }

  private cell(x: number, y: number, z: number): number {
    const { reach, origin } = this;
    return (
      (Math.floor((x - origin[0]) / reach) + 4) * 2 ** 28 +
      (Math.floor((y - origin[1]) / reach) + 4) * 2 ** 14 +
      Math.floor((z - origin[2]) / reach) +
      4
    );
  }
}

function offSurface(body: Body, triangle: number, at: Vec3): Vec3 {
  const [x, y, z] = body.toScene(at);
  const n = body.normal(triangle);
  return [x + OFF * n[0], y + OFF * n[1], z + OFF * n[2]];
}
