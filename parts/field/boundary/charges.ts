import type { Place } from './curve.js';
import { gaussRule, legendre } from './gauss.js';
import { distanceFrom, OFF_PANEL, pointsTowards } from './influence.js';
import { FAR, MOST_ORDER, NEAR, type Panel, type Points } from './panel.js';
import { ringE, ringField, ringPotential } from './ring.js';

/** A panel with the coefficients of its polynomials, of charge per area over eps0 (V/m), from `at` on. */
export interface Charged {
  readonly panel: Panel;
  readonly coefficients: Float64Array;
  readonly at: number;
}

/** Rings that stand for a panel at places that are far from it. */
interface Rings {
  readonly r: Float64Array;
  readonly z: Float64Array;
  readonly strength: Float64Array;
}

interface Known extends Charged {
  readonly dense: Rings;
  readonly sparse: Rings;
  readonly few: Rings;
}

/** Points that stand for a panel very far off, so many halves of its extent away: they carry its first moments. */
const FEW = 3;
const VERY_FAR = 14;

/** Potential and field of panels whose charge is known, with their images in the floor. */
export class Charges {
  private readonly panels: readonly Known[];
  private readonly sum = { r: 0, z: 0 };

  /** @param floor height (m) of the grounded plane, if there is one */
  constructor(
    charged: readonly Charged[],
    private readonly floor: number | undefined,
  ) {
    this.panels = charged.map((one) => ({
      ...one,
      dense: ringsAt(one, one.panel.dense),
      sparse: ringsAt(one, one.panel.sparse),
      few: fewRings(one),
    }));
  }

  /** V */
  potential(r: number, z: number): number {
    const direct = this.potentialOf(r, z, false);
    return this.floor === undefined ? direct : direct - this.potentialOf(r, 2 * this.floor - z, true);
  }

  /** V/m; on a surface the mean of both sides. */
  field(r: number, z: number): Place {
    const { sum, floor } = this;
    sum.r = 0;
    sum.z = 0;
    if (floor !== undefined) {
      // An image's charge is opposite: its radial field is turned round, its axial field is as mirrored.
      this.addFieldOf(r, 2 * floor - z, true);
      sum.r = -sum.r;
    }
    this.addFieldOf(r, z, false);
    return [sum.r, sum.z];
  }

  private potentialOf(r: number, z: number, image: boolean): number {
    let total = 0;
    for (const one of this.panels) {
      const { panel } = one;
      const distance = distanceFrom(panel, r, z);
      if (distance > NEAR) {
        const rings = ringsFor(one, distance);
        for (let q = 0; q < rings.r.length; q++)
          total += rings.strength[q]! * ringPotential(r, z, rings.r[q]!, rings.z[q]!);
        continue;
      }
      const points = pointsTowards(panel, r, z, image ? OFF_PANEL : onPanel(panel, r, z));
      for (let q = 0; q < points.count; q++)
        total +=
          strengthAt(one, points.basis, q) *
          points.measure[q]! *
          ringPotential(r, z, points.r[q]!, points.z[q]!);
    }
    return total;
  }

  private addFieldOf(r: number, z: number, image: boolean): void {
    const { sum } = this;
    for (const one of this.panels) {
      const { panel } = one;
      const distance = distanceFrom(panel, r, z);
      if (distance > NEAR) {
        const rings = ringsFor(one, distance);
        for (let q = 0; q < rings.r.length; q++) {
          ringField(r, z, rings.r[q]!, rings.z[q]!);
          sum.r += rings.strength[q]! * ringE.r;
          sum.z += rings.strength[q]! * ringE.z;
        }
        continue;
      }
      const points = pointsTowards(panel, r, z, image ? OFF_PANEL : onPanel(panel, r, z));
      for (let q = 0; q < points.count; q++) {
        const strength = strengthAt(one, points.basis, q) * points.measure[q]!;
        ringField(r, z, points.r[q]!, points.z[q]!);
        sum.r += strength * ringE.r;
        sum.z += strength * ringE.z;
      }
    }
  }
}

function ringsFor(one: Known, distance: number): Rings {
  if (distance > VERY_FAR) return one.few;
  return distance > FAR ? one.sparse : one.dense;
}

function strengthAt({ panel, coefficients, at }: Charged, basis: Float64Array, point: number): number {
  const { order } = panel;
  const from = point * order;
  let sum = 0;
  for (let k = 0; k < order; k++) sum += coefficients[at + k]! * basis[from + k]!;
  return sum;
}

function ringsAt(one: Charged, { r, z, measure, basis }: Points): Rings {
  return { r, z, strength: measure.map((each, q) => each * strengthAt(one, basis, q)) };
}

/** Rings at few Gauss points with the first moments (over P0, P1, ...) of the panel's charge. */
function fewRings(one: Charged): Rings {
  const { panel } = one;
  const { dense } = panel;
  const { nodes: xi } = gaussRule(dense.count);
  const moments = new Float64Array(FEW);
  for (let q = 0; q < dense.count; q++) {
    const charge = dense.measure[q]! * strengthAt(one, dense.basis, q);
    // The panel's basis may be shorter than the moments asked for.
    legendre(FEW, xi[q]!, polynomials);
    for (let k = 0; k < FEW; k++) moments[k]! += charge * polynomials[k]!;
  }
  const { nodes, weights } = gaussRule(FEW);
  const rings = { r: new Float64Array(FEW), z: new Float64Array(FEW), strength: new Float64Array(FEW) };
  for (let q = 0; q < FEW; q++) {
    const spot = panel.trace(nodes[q]!);
    rings.r[q] = spot.r;
    rings.z[q] = spot.z;
    legendre(FEW, nodes[q]!, polynomials);
    for (let k = 0; k < FEW; k++)
      rings.strength[q]! += (k + 0.5) * weights[q]! * polynomials[k]! * moments[k]!;
  }
  return rings;
}

const polynomials = new Float64Array(MOST_ORDER);

/** Share of a panel's length within which a place counts as lying on it. */
const ON = 1e-11;

function onPanel(panel: Panel, r: number, z: number): number {
  if (Math.hypot(r - panel.r, z - panel.z) > panel.reach * (1 + ON)) return OFF_PANEL;
  const xi = panel.closest(r, z);
  const spot = panel.trace(xi);
  return Math.hypot(spot.r - r, spot.z - z) < ON * panel.length ? xi : OFF_PANEL;
}
