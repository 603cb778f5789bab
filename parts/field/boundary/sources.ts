import { VACUUM_PERMITTIVITY } from '../../stock/air.js';
import { type Charged, Charges } from './charges.js';
import { type Place, placeOn } from './curve.js';
import { gaussRule, legendre } from './gauss.js';
import { Panel } from './panel.js';
import type { Problem, RingCharge, SurfaceCharge } from './problem.js';
import { ringE, ringField, ringPotential } from './ring.js';

/** Potential (V) and field (V/m) of what is prescribed: fixed charge, its image in the floor, and the applied field. */
export interface Sources {
  potential(r: number, z: number): number;
  field(r: number, z: number): Place;
}

const EPSILON = VACUUM_PERMITTIVITY.value;
const ORDER = 6;
/** Panels for each segment that bears prescribed charge. */
const PIECES = 12;

export function sourcesOf({ bodies, floor, uniformField = 0 }: Problem): Sources {
  const rings = bodies.filter((body): body is RingCharge => body.kind === 'ring-charge');
  const surfaces = new Charges(
    bodies.filter((body): body is SurfaceCharge => body.kind === 'surface-charge').flatMap(charged),
    floor,
  );
  const images = floor === undefined ? [] : [-1];

  const potential = (r: number, z: number) => {
    let total = surfaces.potential(r, z) - uniformField * (z - (floor ?? 0));
    for (const sign of [1, ...images]) {
      const height = sign > 0 ? z : 2 * floor! - z;
      for (const ring of rings) total += sign * potentialOfRing(ring, r, height);
    }
    return total;
  };
  const field = (r: number, z: number): Place => {
    let [er, ez] = surfaces.field(r, z);
    ez += uniformField;
    for (const sign of [1, ...images]) {
      const height = sign > 0 ? z : 2 * floor! - z;
      for (const ring of rings) {
        const [ringR, ringZ] = fieldOfRing(ring, r, height);
        er += sign * ringR;
        ez += ringZ;
      }
    }
    return [er, ez];
  };
  return { potential, field };
}

/** Over eps0 and 2 pi R: what a ring of 1 m of meridian would have to carry; on the axis a point charge. */
function potentialOfRing({ at, charge }: RingCharge, r: number, z: number): number {
  const [ringR, ringZ] = at;
  if (ringR > 0) return (charge / (EPSILON * 2 * Math.PI * ringR)) * ringPotential(r, z, ringR, ringZ);
  return charge / (4 * Math.PI * EPSILON * Math.hypot(r, z - ringZ));
}

function fieldOfRing({ at, charge }: RingCharge, r: number, z: number): Place {
  const [ringR, ringZ] = at;
  if (ringR > 0) {
    ringField(r, z, ringR, ringZ);
    const strength = charge / (EPSILON * 2 * Math.PI * ringR);
    return [strength * ringE.r, strength * ringE.z];
  }
  const distance = Math.hypot(r, z - ringZ);
  const strength = charge / (4 * Math.PI * EPSILON * distance ** 3);
  return [strength * r, strength * (z - ringZ)];
}

/** The density as polynomials on equal pieces of each segment. */
function charged({ profile, density }: SurfaceCharge): Charged[] {
  const { nodes, weights } = gaussRule(ORDER);
  const polynomials = new Float64Array(ORDER);
  return profile.flatMap((segment) =>
    Array.from({ length: PIECES }, (_, i): Charged => {
      const panel = new Panel(
        { segment, freeStart: false, freeEnd: false },
        i / PIECES,
        (i + 1) / PIECES,
        ORDER,
      );
      const coefficients = new Float64Array(ORDER);
      for (let q = 0; q < ORDER; q++) {
        legendre(ORDER, nodes[q]!, polynomials);
        const t = (i + (1 + nodes[q]!) / 2) / PIECES;
        const value = density(placeOn(segment, t)) / EPSILON;
        for (let k = 0; k < ORDER; k++) coefficients[k]! += (k + 0.5) * weights[q]! * value * polynomials[k]!;
      }
      return { panel, coefficients, at: 0 };
    }),
  );
}
