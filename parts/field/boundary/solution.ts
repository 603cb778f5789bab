import type { Place } from './curve.js';
import { addField, addPotential, OFF_PANEL } from './influence.js';
import type { Panel } from './panel.js';
import { netOf, type Placed, type System } from './system.js';

/** Field and place of a greatest value on a surface. */
export interface Peak {
  /** V/m, positive */
  readonly field: number;
  readonly r: number;
  readonly z: number;
}

/** Steps along a panel between which a greatest value is looked for. */
const STEPS = 24;

/** The field of a problem for one drive. */
export class Solution {
  constructor(
    readonly system: System,
    /** Charge per area over eps0, as coefficients of the panels’ polynomials; then potentials of nets. */
    readonly coefficients: Float64Array,
    private readonly sources: number,
  ) {}

  /** V at a place anywhere. */
  potentialAt(r: number, z: number): number {
    let total = this.sources * this.system.sources.potential(r, z);
    const { floor } = this.system.problem;
    for (const { panel, at } of this.system.placed) {
      const scratch = this.scratch(panel);
      const self = onPanel(panel, r, z);
      addPotential(panel, r, z, self, 1, scratch, 0);
      if (floor !== undefined) addPotential(panel, r, 2 * floor - z, OFF_PANEL, -1, scratch, 0);
      for (let k = 0; k < panel.order; k++) total += scratch[k]! * this.coefficients[at + k]!;
    }
    return total;
  }

  /** V/m at a place off all surfaces; on one the mean of both sides. */
  fieldAt(r: number, z: number): Place {
    const [sr, sz] = this.system.sources.field(r, z);
    let [er, ez] = [this.sources * sr, this.sources * sz];
    const { floor } = this.system.problem;
    for (const { panel, at } of this.system.placed) {
      const self = onPanel(panel, r, z);
      const radial = this.scratch(panel);
      addField(panel, r, z, self, 1, 0, radial, 0);
      if (floor !== undefined) addField(panel, r, 2 * floor - z, OFF_PANEL, -1, 0, radial, 0);
      for (let k = 0; k < panel.order; k++) er += radial[k]! * this.coefficients[at + k]!;
      const axial = this.scratch(panel);
      addField(panel, r, z, self, 0, 1, axial, 0);
      if (floor !== undefined) addField(panel, r, 2 * floor - z, OFF_PANEL, 0, 1, axial, 0);
      for (let k = 0; k < panel.order; k++) ez += axial[k]! * this.coefficients[at + k]!;
    }
    return [er, ez];
  }

  /** Charge per area over eps0 (V/m) on a panel: on a conductor the field just outside, along the outward normal. */
  densityOn({ panel, at }: Placed, xi: number): number {
    return panel.valueAt(this.coefficients, at, xi) * panel.densityFactor(xi);
  }

  /** Free charge (C) of a conductor by name. */
  chargeOf(name: string): number {
    return dot(
      this.system.chargeWeights((body) => body.name === name),
      this.coefficients,
    );
  }

  /** Potential (V) of a floating net. */
  potentialOfNet(net: string): number {
    const index = this.system.nets.findIndex((each) => each.net === net);
    if (index < 0) throw new RangeError(`no floating net ${net}`);
    return this.coefficients[this.system.size - this.system.nets.length + index]!;
  }

  /** Greatest field on the outside of a conductor, of those places that `where` takes; undefined where it takes none. */
  peakOn(name: string, where: (r: number, z: number) => boolean = () => true): Peak | undefined {
    let best: Peak | undefined;
    for (const one of this.system.placed) {
      if (one.boundary.body.name !== name || one.boundary.kind !== 'conductor') continue;
      for (let i = 0; i <= STEPS; i++) {
        const xi = -1 + (2 * i) / STEPS;
        const field = Math.abs(this.densityOn(one, xi));
        const { r, z } = one.panel.trace(xi);
        if (!isAtCorner(one, xi) && where(r, z) && field > (best?.field ?? 0)) best = { field, r, z };
      }
    }
    return best;
  }

  private scratch(panel: Panel): Float64Array {
    const buffer = SCRATCH.subarray(0, panel.order);
    buffer.fill(0);
    return buffer;
  }
}

/** Share of its segment next to a corner that is left out of greatest values: the field has no bound there, or none that counts. */
const CORNER_ZONE = 0.02;

function isAtCorner({ panel, boundary }: Placed, xi: number): boolean {
  const u = panel.from + ((1 + xi) / 2) * (panel.to - panel.from);
  return (boundary.cornerStart && u < CORNER_ZONE) || (boundary.cornerEnd && u > 1 - CORNER_ZONE);
}

const SCRATCH = new Float64Array(32);

const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, i) => sum + value * b[i]!, 0);

/** Share of a panel's length within which a place counts as lying on it. */
const ON = 1e-7;

function onPanel(panel: Panel, r: number, z: number): number {
  if (Math.hypot(r - panel.r, z - panel.z) > panel.reach * (1 + ON)) return OFF_PANEL;
  const xi = panel.closest(r, z);
  const spot = panel.trace(xi);
  return Math.hypot(spot.r - r, spot.z - z) < ON * panel.length
    ? Math.min(1 - 1e-9, Math.max(-1 + 1e-9, xi))
    : OFF_PANEL;
}

export { netOf };
