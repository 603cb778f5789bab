import { VACUUM_PERMITTIVITY } from '../../stock/air.js';
import type { Boundary } from './boundaries.js';
import { addField, addPotential, OFF_PANEL } from './influence.js';
import { type Factored, factor, solveWith } from './lu.js';
import type { Panel } from './panel.js';
import type { Body, Drive, Floating, Problem } from './problem.js';
import { type Sources, sourcesOf } from './sources.js';

/** A panel with the surface it lies on and where its unknowns stand. */
export interface Placed {
  readonly panel: Panel;
  readonly boundary: Boundary;
  /** Index of its first unknown. */
  readonly at: number;
}

const EPSILON = VACUUM_PERMITTIVITY.value;

/** Unknown charge on panels: equations, factors, and solutions for any drive. Charge per area is told over eps0, V/m. */
export class System {
  readonly placed: readonly Placed[];
  /** Potentials of floating nets come after the charges. */
  readonly nets: readonly Floating[];
  readonly size: number;
  readonly sources: Sources;
  private readonly matrix: Float64Array;
  private factored: Factored | undefined;

  /** @param before a system on a coarser mesh: what both share is taken over */
  constructor(
    readonly problem: Problem,
    panels: readonly (readonly [Panel, Boundary])[],
    before?: System,
  ) {
    let at = 0;
    this.placed = panels.map(([panel, boundary]) => {
      const one = { panel, boundary, at };
      at += panel.order;
      return one;
    });
    this.nets = netsOf(problem.bodies);
    this.size = at + this.nets.length;
    this.sources = before?.sources ?? sourcesOf(problem);
    this.matrix = new Float64Array(this.size * this.size);
    this.fill(before);
  }

  /** Charge per area over eps0 as coefficients, and potentials of the nets after them. */
  solve(drive: Drive = {}): Float64Array {
    return this.respond(this.rightHand(drive));
  }

  /** Unknowns for any right-hand side: potentials on conductors, jumps on dielectrics, charges of nets. */
  respond(right: ArrayLike<number>): Float64Array {
    this.factored ??= factor(this.matrix.slice(), this.size);
    return solveWith(this.factored, right);
  }

  /** How much each unknown weighs in the free charge (C) of a body, or of all bodies of a net. */
  chargeWeights(owns: (body: Body) => boolean): Float64Array {
    const weights = new Float64Array(this.size);
    for (const { panel, boundary, at } of this.placed) {
      if (!owns(boundary.body) || boundary.kind === 'dielectric') continue;
      const { measure, r, basis } = panel.pointsFor(0);
      // Of a sheet both sides count as vacuum; where it lies against a dielectric its free charge is told by the fields.
      const permittivity = boundary.kind === 'conductor' ? boundary.outside : 1;
      for (let q = 0; q < measure.length; q++) {
        const weight = EPSILON * permittivity * 2 * Math.PI * r[q]! * measure[q]!;
        for (let k = 0; k < panel.order; k++) weights[at + k]! += weight * basis[q * panel.order + k]!;
      }
    }
    return weights;
  }

  private rightHand({ potentials = {}, sources = 1, graded = 1 }: Drive): Float64Array {
    const right = new Float64Array(this.size);
    for (const { panel, boundary, at } of this.placed) {
      const { nodes } = panel;
      const { body, kind, inside, outside } = boundary;
      for (let i = 0; i < panel.order; i++) {
        const [r, z] = [nodes.r[i]!, nodes.z[i]!];
        if (kind === 'dielectric') {
          const [er, ez] = this.sources.field(r, z);
          right[at + i] = -sources * (outside - inside) * (er * nodes.nr[i]! + ez * nodes.nz[i]!);
          continue;
        }
        let wanted = 0;
        if (body.kind === 'graded') wanted = graded * body.potential([r, z]);
        else if (body.kind === 'conductor' || body.kind === 'sheet') {
          if (typeof body.potential === 'number') wanted = potentials[body.name] ?? body.potential;
        }
        right[at + i] = wanted - sources * this.sources.potential(r, z);
      }
    }
    for (const [i, { charge = 0 }] of this.nets.entries())
      right[this.size - this.nets.length + i] = (sources * charge) / EPSILON;
    return right;
  }

  private fill(before: System | undefined): void {
    const old = new Map(before?.placed.map((one) => [one.panel, one.at]));
    // Where each panel's unknowns stood before, -1 for a new one.
    const stood = Int32Array.from(this.placed, ({ panel }) => old.get(panel) ?? -1);
    const { size, matrix } = this;
    for (const [t, target] of this.placed.entries()) {
      const { panel, at } = target;
      for (let i = 0; i < panel.order; i++) {
        const row = (at + i) * size;
        for (let s = 0; s < stood.length; s++) {
          const source = this.placed[s]!;
          if (stood[t]! < 0 || stood[s]! < 0) {
            this.fillPair(target, i, source, row);
            continue;
          }
          const from = (stood[t]! + i) * before!.size + stood[s]!;
          for (let k = 0; k < source.panel.order; k++)
            matrix[row + source.at + k] = before!.matrix[from + k]!;
        }
      }
    }
    this.fillNets();
  }

  /** What the charge on one panel does at a node of another, or of the same. */
  private fillPair(target: Placed, node: number, source: Placed, row: number): void {
    const { matrix } = this;
    const { floor } = this.problem;
    const { nodes } = target.panel;
    const { kind, inside, outside } = target.boundary;
    const [r, z] = [nodes.r[node]!, nodes.z[node]!];
    const self = source === target ? nodes.xi[node]! : OFF_PANEL;
    const at = row + source.at;
    if (kind !== 'dielectric') {
      addPotential(source.panel, r, z, self, 1, matrix, at);
      if (floor !== undefined) addPotential(source.panel, r, 2 * floor - z, OFF_PANEL, -1, matrix, at);
      return;
    }
    const [toR, toZ] = [(outside - inside) * nodes.nr[node]!, (outside - inside) * nodes.nz[node]!];
    addField(source.panel, r, z, self, toR, toZ, matrix, at);
    // The image below the floor has the opposite charge: its radial field is turned round, its axial field is as mirrored.
    if (floor !== undefined) addField(source.panel, r, 2 * floor - z, OFF_PANEL, -toR, toZ, matrix, at);
    if (source === target) this.addJump(source, node, row);
  }

  /** Half of the field's jump across the surface: what the charge itself adds to the mean of both sides. */
  private addJump({ panel, boundary, at }: Placed, node: number, row: number): void {
    const half = (boundary.outside + boundary.inside) / 2;
    const unit = new Float64Array(panel.order);
    for (let k = 0; k < panel.order; k++) {
      unit.fill(0);
      unit[k] = 1;
      this.matrix[row + at + k]! += half * panel.valueAt(unit, 0, panel.nodes.xi[node]!);
    }
  }

  private fillNets(): void {
    const { size, matrix } = this;
    const first = size - this.nets.length;
    for (const [i, { net }] of this.nets.entries()) {
      const owns = (body: Body) => netOf(body)?.net === net;
      for (const { panel, boundary, at } of this.placed) {
        if (!owns(boundary.body)) continue;
        for (let node = 0; node < panel.order; node++) matrix[(at + node) * size + first + i] = -1;
      }
      const weights = this.chargeWeights(owns);
      for (let j = 0; j < first; j++) matrix[(first + i) * size + j] = weights[j]! / EPSILON;
    }
  }
}

export function netOf(body: Body): Floating | undefined {
  if (body.kind !== 'conductor' && body.kind !== 'sheet') return undefined;
  return typeof body.potential === 'number' ? undefined : body.potential;
}

function netsOf(bodies: readonly Body[]): Floating[] {
  const nets = new Map<string, Floating>();
  for (const body of bodies) {
    const net = netOf(body);
    if (net) nets.set(net.net, { ...net, charge: (nets.get(net.net)?.charge ?? 0) + (net.charge ?? 0) });
  }
  return [...nets.values()];
}
