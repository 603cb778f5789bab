import { gaussRule } from './gauss.js';

// Rules for an integral along a panel whose integrand crowds at one place: near a place beside the panel, or around a
// place on it. Each writes its nodes (xi from -1 to 1) and weights over those of the rule before.

/** Points of the longest rule. */
export const MOST_POINTS = 200;
export const nodeXi = new Float64Array(MOST_POINTS);
export const nodeWeight = new Float64Array(MOST_POINTS);
let count = 0;

function take(xi: number, weight: number): void {
  nodeXi[count] = xi;
  nodeWeight[count] = weight;
  count++;
}

/** Power of the map that takes up the logarithm at the place itself, and points on each side. */
const SELF_POWER = 4;
const SELF_POINTS = 14;
/** A place on the panel is at one of its ends when it is this close to it, in xi. */
export const AT_END = 1e-7;

/**
 * For a place on the panel at xi0: both sides in pairs, so that a field's principal value comes out. Returns the points.
 * @param cut what is left out beside a place at the panel's end, in xi: the neighbour leaves out as much
 */
export function ruleAt(xi0: number, cut: number): number {
  count = 0;
  const half = Math.min(1 + xi0, 1 - xi0);
  const inward = xi0 < 0 ? 1 : -1;
  if (half < AT_END) {
    takeLogarithmic(-inward, inward, cut, 2, 4 * SELF_POINTS);
    return count;
  }
  const { nodes, weights } = gaussRule(SELF_POINTS);
  for (let q = 0; q < SELF_POINTS; q++) {
    const u = (1 + nodes[q]!) / 2;
    const off = half * u ** SELF_POWER;
    const weight = 0.5 * weights[q]! * half * SELF_POWER * u ** (SELF_POWER - 1);
    take(xi0 - off, weight);
    take(xi0 + off, weight);
  }
  // What is left over on the longer side lies at least `half` away.
  if (2 - 2 * half > 1e-12) takeLogarithmic(xi0, inward, half, 2 - half, SELF_POINTS);
  return count;
}

/** Logarithmic steps from `least` to `most` away from xi0, to one side of it. */
function takeLogarithmic(xi0: number, side: number, least: number, most: number, points: number): void {
  const growth = Math.log(most / least);
  const { nodes, weights } = gaussRule(points);
  for (let q = 0; q < points; q++) {
    const off = least * Math.exp((growth * (1 + nodes[q]!)) / 2);
    take(xi0 + side * off, 0.5 * weights[q]! * growth * off);
  }
}

/**
 * For a place beside the panel, whose closest place on it is at xi0, `off` away in xi: sinh map (Johnston and Elliott
 * 2005, from memory). Returns the points.
 */
export function ruleNear(xi0: number, off: number): number {
  count = 0;
  for (const side of [-1, 1]) {
    const extent = side < 0 ? 1 + xi0 : 1 - xi0;
    if (extent <= 1e-12) continue;
    const most = Math.asinh(extent / off);
    const points = Math.min(MOST_POINTS / 2, 9 + Math.ceil(3.2 * most));
    const { nodes, weights } = gaussRule(points);
    for (let q = 0; q < points; q++) {
      const u = (most * (1 + nodes[q]!)) / 2;
      take(xi0 + side * off * Math.sinh(u), 0.5 * weights[q]! * most * off * Math.cosh(u));
    }
  }
  return count;
}
