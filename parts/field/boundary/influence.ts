import { legendre } from './gauss.js';
import { MOST_ORDER, NEAR, type Panel, type Points } from './panel.js';
import { ringE, ringField, ringPotential } from './ring.js';
import { AT_END, MOST_POINTS, nodeWeight, nodeXi, ruleAt, ruleNear } from './rules.js';

// What the charge on a panel does at a place: integrals of the ring's potential and field over the panel, one for each
// polynomial of its basis. Three cases: far off, plain Gauss rules; near, a rule that crowds towards the closest place
// on the panel; on the panel, a rule that takes both sides of the place in pairs (the principal value of the field).

/** In place of xi where a place does not lie on the panel. */
export const OFF_PANEL = 2;

/** The points of the last place that was not far, written over by the next. */
const close = {
  count: 0,
  r: new Float64Array(MOST_POINTS),
  z: new Float64Array(MOST_POINTS),
  measure: new Float64Array(MOST_POINTS),
  basis: new Float64Array(MOST_POINTS * MOST_ORDER),
};
const polynomials = new Float64Array(MOST_ORDER);

/** Distance of a place from a panel's middle over half of the panel's extent. */
export function distanceFrom(panel: Panel, r: number, z: number): number {
  const [byR, byZ] = [r - panel.r, z - panel.z];
  return Math.sqrt(byR * byR + byZ * byZ) / panel.reach;
}

/** Share of a place's distance from the axis that both panels leave out beside it where they meet in it. */
const CUT = 1e-10;

/** Points of the panel for what its charge does at a place; valid until the next call. */
export function pointsTowards(panel: Panel, r: number, z: number, selfXi: number): Points {
  const distance = distanceFrom(panel, r, z);
  if (distance > NEAR && selfXi === OFF_PANEL) return panel.pointsFor(distance);
  const { order } = panel;
  close.count = selfXi === OFF_PANEL ? ruleBeside(panel, r, z) : ruleOn(panel, r, selfXi);
  for (let q = 0; q < close.count; q++) {
    const xi = nodeXi[q]!;
    const spot = panel.trace(xi);
    close.r[q] = spot.r;
    close.z[q] = spot.z;
    close.measure[q] = panel.measureOf(spot) * nodeWeight[q]!;
    legendre(order, xi, polynomials);
    for (let k = 0; k < order; k++) close.basis[q * order + k] = polynomials[k]!;
  }
  return close;
}

function ruleOn(panel: Panel, r: number, selfXi: number): number {
  if (Math.min(1 + selfXi, 1 - selfXi) >= AT_END) return ruleAt(selfXi, 0);
  const { dr, dz } = panel.trace(selfXi);
  const speed = Math.max(Math.hypot(dr, dz), 1e-3 * panel.length);
  return ruleAt(selfXi, Math.max(1e-12, (CUT * r) / speed));
}

function ruleBeside(panel: Panel, r: number, z: number): number {
  const xi0 = panel.closest(r, z);
  const spot = panel.trace(xi0);
  const distance = Math.hypot(spot.r - r, spot.z - z);
  const speed = Math.hypot(spot.dr, spot.dz);
  // Where a free edge slows xi down, the distance is reached as its root.
  const atEdge = 2 * Math.sqrt(distance / panel.length) + distance / panel.length;
  return ruleNear(xi0, Math.max(1e-12, Math.min(distance / Math.max(speed, 1e-300), atEdge)));
}

/**
 * Adds `factor` times the potential (V) of each polynomial of the panel to `out` from `at` on.
 * @param selfXi where the place lies on the panel, `OFF_PANEL` where it does not
 */
export function addPotential(
  panel: Panel,
  r: number,
  z: number,
  selfXi: number,
  factor: number,
  out: Float64Array,
  at: number,
): void {
  const points = pointsTowards(panel, r, z, selfXi);
  const { order } = panel;
  const { count, measure, basis } = points;
  for (let q = 0; q < count; q++) {
    const weight = factor * measure[q]! * ringPotential(r, z, points.r[q]!, points.z[q]!);
    const from = q * order;
    for (let k = 0; k < order; k++) out[at + k]! += weight * basis[from + k]!;
  }
}

/** Adds the field (V/m) likewise, `toR` times its radial and `toZ` times its axial part. */
export function addField(
  panel: Panel,
  r: number,
  z: number,
  selfXi: number,
  toR: number,
  toZ: number,
  out: Float64Array,
  at: number,
): void {
  const points = pointsTowards(panel, r, z, selfXi);
  const { order } = panel;
  const { count, measure, basis } = points;
  for (let q = 0; q < count; q++) {
    ringField(r, z, points.r[q]!, points.z[q]!);
    const weight = measure[q]! * (toR * ringE.r + toZ * ringE.z);
    const from = q * order;
    for (let k = 0; k < order; k++) out[at + k]! += weight * basis[from + k]!;
  }
}
