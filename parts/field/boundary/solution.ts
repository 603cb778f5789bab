import { Charges } from './charges.js';
import type { Place } from './curve.js';
import type { Placed, System } from './system.js';

/** Field and place of a greatest value on a surface. */
export interface Peak {
  /** V/m, positive */
  readonly field: number;
  readonly r: number;
  readonly z: number;
  /** Unit vector out of the conductor. */
  readonly normal: Place;
}

/** Steps along a panel between which a greatest value is looked for. */
const STEPS = 24;

/** The field of a problem for one drive. */
export class Solution {
  private known: Charges | undefined;

  constructor(
    readonly system: System,
    /** Charge per area over eps0, as coefficients of the panels’ polynomials; then potentials of nets. */
    readonly coefficients: Float64Array,
    readonly sources: number,
  ) {}

  /** V at a place anywhere. */
  potentialAt(r: number, z: number): number {
    return this.sources * this.system.sources.potential(r, z) + this.charges.potential(r, z);
  }

  /** V/m at a place off all surfaces; on one the mean of both sides. */
  fieldAt(r: number, z: number): Place {
    const [sourceR, sourceZ] = this.system.sources.field(r, z);
    const [er, ez] = this.charges.field(r, z);
    return [er + this.sources * sourceR, ez + this.sources * sourceZ];
  }

  /**
   * Field at many places.
   * @param places r and z (m) of one place after another
   * @returns radial and axial field (V/m), likewise
   * @throws RangeError for an odd count of numbers
   */
  fieldsAt(places: Float64Array): Float64Array {
    if (places.length % 2 !== 0) throw new RangeError(`${places.length} numbers are no pairs of r and z`);
    const fields = new Float64Array(places.length);
    for (let i = 0; i < places.length; i += 2) {
      const [er, ez] = this.fieldAt(places[i]!, places[i + 1]!);
      fields[i] = er;
      fields[i + 1] = ez;
    }
    return fields;
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

  /**
   * Greatest field on the outside of a conductor, of those places that `where` takes; undefined where it takes none. Places
   * next to sharp edges and corners are left out: the field has no bound there, or none that counts.
   */
  peakOn(name: string, where: (r: number, z: number) => boolean = () => true): Peak | undefined {
    let best: { readonly one: Placed; readonly xi: number; readonly field: number } | undefined;
    const fieldAt = (one: Placed, xi: number): number => {
      const { r, z } = one.panel.trace(xi);
      return isAtCorner(one, xi) || !where(r, z) ? -1 : Math.abs(this.densityOn(one, xi));
    };
    for (const one of this.system.placed) {
      if (one.boundary.body.name !== name || one.boundary.kind !== 'conductor') continue;
      for (let i = 0; i <= STEPS; i++) {
        const xi = -1 + (2 * i) / STEPS;
        const field = fieldAt(one, xi);
        if (field >= 0 && field > (best?.field ?? -1)) best = { one, xi, field };
      }
    }
    if (!best) return undefined;
    const { one } = best;
    const xi = greatestNear(best.xi, (each) => fieldAt(one, each));
    const { r, z, dr, dz } = one.panel.trace(xi);
    const size = Math.hypot(dr, dz);
    const normal: Place = [dz / size, -dr / size];
    return { field: fieldAt(one, xi), r, z, normal };
  }

  private get charges(): Charges {
    this.known ??= new Charges(
      this.system.placed.map(({ panel, at }) => ({ panel, at, coefficients: this.coefficients })),
      this.system.problem.floor,
    );
    return this.known;
  }
}

/** Where a function is greatest within a step of the best of the places looked at, by golden section. */
function greatestNear(xi: number, of: (xi: number) => number): number {
  const SHARE = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [Math.max(-1, xi - 2 / STEPS), Math.min(1, xi + 2 / STEPS)];
  while (high - low > 1e-7) {
    const [a, b] = [high - SHARE * (high - low), low + SHARE * (high - low)];
    if (of(a) > of(b)) high = b;
    else low = a;
  }
  const found = (low + high) / 2;
  return of(found) > of(xi) ? found : xi;
}

/** Share of its segment next to a corner that is left out of greatest values: the field has no bound there, or none that counts. */
const CORNER_ZONE = 0.02;

function isAtCorner({ panel, boundary }: Placed, xi: number): boolean {
  const u = panel.from + ((1 + xi) / 2) * (panel.to - panel.from);
  return (boundary.cornerStart && u < CORNER_ZONE) || (boundary.cornerEnd && u > 1 - CORNER_ZONE);
}

const dot = (a: Float64Array, b: Float64Array) => a.reduce((sum, value, i) => sum + value * b[i]!, 0);
