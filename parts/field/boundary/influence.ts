import { gaussRule, legendre } from './gauss.js';
import { NEAR, type Panel, type Points } from './panel.js';
import { ringE, ringField, ringPotential } from './ring.js';

// What the charge on a panel does at a place: integrals of the ring's potential and field over the panel, one for each
// polynomial of its basis. Three cases: far off, plain Gauss rules; near, a rule that crowds towards the closest place
// on the panel; on the panel, a rule that takes both sides of the place in pairs (the principal value of the field).

/** In place of xi where a place does not lie on the panel. */
export const OFF_PANEL = 2;

const MOST_POINTS = 160;
const MOST_ORDER = 16;
const nodeXi = new Float64Array(MOST_POINTS);
const nodeWeight = new Float64Array(MOST_POINTS);
const polynomials = new Float64Array(MOST_ORDER);
let count = 0;

const take = (xi: number, weight: number) => {
  nodeXi[count] = xi;
  nodeWeight[count] = weight;
  count++;
};

/** Power of the map that takes up the logarithm on the panel itself, and points on each side. */
const SELF_POWER = 4;
const SELF_POINTS = 14;

/** Rule for a place on the panel at xi0. */
function ruleAt(xi0: number): void {
  count = 0;
  const half = Math.min(1 + xi0, 1 - xi0);
  const { nodes, weights } = gaussRule(SELF_POINTS);
  for (let q = 0; q < SELF_POINTS; q++) {
    const u = (1 + nodes[q]!) / 2;
    const off = half * u ** SELF_POWER;
    const weight = 0.5 * weights[q]! * half * SELF_POWER * u ** (SELF_POWER - 1);
    take(xi0 - off, weight);
    take(xi0 + off, weight);
  }
  // What is left over on the longer side lies at least `half` away: logarithmic steps.
  const rest = 2 - 2 * half;
  if (rest <= 1e-12) return;
  const sign = xi0 < 0 ? 1 : -1;
  const growth = Math.log((half + rest) / half);
  for (let q = 0; q < SELF_POINTS; q++) {
    const v = (1 + nodes[q]!) / 2;
    const off = half * Math.exp(growth * v);
    take(xi0 + sign * off, 0.5 * weights[q]! * growth * off);
  }
}

/** Rule for a place whose closest place on the panel is at xi0, `off` away in xi. Sinh map (Johnston and Elliott 2005, from memory). */
function ruleNear(xi0: number, off: number): void {
  count = 0;
  for (const side of [-1, 1]) {
    const extent = side < 0 ? 1 + xi0 : 1 - xi0;
    if (extent <= 1e-12) continue;
    const most = Math.asinh(extent / off);
    const points = Math.min(40, 9 + Math.ceil(3.2 * most));
    const { nodes, weights } = gaussRule(points);
    for (let q = 0; q < points; q++) {
      const u = (most * (1 + nodes[q]!)) / 2;
      take(xi0 + side * off * Math.sinh(u), 0.5 * weights[q]! * most * off * Math.cosh(u));
    }
  }
}

/** Prepares the rule for a place that is not far: on the panel at `selfXi`, or beside it. */
function prepare(panel: Panel, r: number, z: number, selfXi: number): void {
  if (selfXi !== OFF_PANEL) {
    ruleAt(selfXi);
    return;
  }
  const xi0 = panel.closest(r, z);
  const spot = panel.trace(xi0);
  const distance = Math.hypot(spot.r - r, spot.z - z);
  const speed = Math.hypot(spot.dr, spot.dz);
  // Where a free edge slows xi down, the distance is reached as its root.
  const atEdge = Math.sqrt(distance / panel.length);
  ruleNear(
    xi0,
    Math.max(1e-9, Math.min(distance / Math.max(speed, 1e-300), 2 * atEdge + distance / panel.length)),
  );
}

const isNear = (panel: Panel, r: number, z: number): number =>
  Math.hypot(r - panel.r, z - panel.z) / panel.reach;

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
  const distance = isNear(panel, r, z);
  const { order } = panel;
  if (distance > NEAR && selfXi === OFF_PANEL) {
    const points: Points = panel.pointsFor(distance);
    const { measure, basis } = points;
    for (let q = 0; q < measure.length; q++) {
      const weight = factor * measure[q]! * ringPotential(r, z, points.r[q]!, points.z[q]!);
      const from = q * order;
      for (let k = 0; k < order; k++) out[at + k]! += weight * basis[from + k]!;
    }
    return;
  }
  prepare(panel, r, z, selfXi);
  for (let q = 0; q < count; q++) {
    const xi = nodeXi[q]!;
    const measure = panel.measureAt(xi) * nodeWeight[q]! * factor;
    const spot = panel.trace(xi);
    const weight = measure * ringPotential(r, z, spot.r, spot.z);
    legendre(order, xi, polynomials);
    for (let k = 0; k < order; k++) out[at + k]! += weight * polynomials[k]!;
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
  const distance = isNear(panel, r, z);
  const { order } = panel;
  if (distance > NEAR && selfXi === OFF_PANEL) {
    const points: Points = panel.pointsFor(distance);
    const { measure, basis } = points;
    for (let q = 0; q < measure.length; q++) {
      ringField(r, z, points.r[q]!, points.z[q]!);
      const weight = measure[q]! * (toR * ringE.r + toZ * ringE.z);
      const from = q * order;
      for (let k = 0; k < order; k++) out[at + k]! += weight * basis[from + k]!;
    }
    return;
  }
  prepare(panel, r, z, selfXi);
  for (let q = 0; q < count; q++) {
    const xi = nodeXi[q]!;
    const measure = panel.measureAt(xi) * nodeWeight[q]!;
    const spot = panel.trace(xi);
    ringField(r, z, spot.r, spot.z);
    const weight = measure * (toR * ringE.r + toZ * ringE.z);
    legendre(order, xi, polynomials);
    for (let k = 0; k < order; k++) out[at + k]! += weight * polynomials[k]!;
  }
}
