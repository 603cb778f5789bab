// Closed forms of electrostatics that the solver and its inputs are checked against. SI throughout.

/**
 * Capacitance of a sphere over an earthed plane, divided by that of the sphere alone: sinh(a) sum 1/sinh(n a) with
 * cosh(a) = 1 + gap/radius, the sum of the image charges (Kelvin; Smythe, Static and Dynamic Electricity, from memory).
 * @param ratio gap over radius, above 0; the sum is cut where a term adds less than 1e-12
 */
export function planeFactor(ratio: number): number {
  if (!(ratio > 0))
    throw new RangeError(`the sphere must stand clear of the plane, not ${ratio} radii over it`);
  const a = Math.acosh(1 + ratio);
  let sum = 0;
  for (let n = 1; n < 1e6; n++) {
    const term = 1 / Math.sinh(n * a);
    sum += term;
    if (term < 1e-12 * sum) break;
  }
  return Math.sinh(a) * sum;
}

/**
 * Capacitance of a spherical bowl over that of the whole sphere, (a + sin a)/pi with a the angle from the pole to the
 * rim: what cutting the opening takes away (Kelvin's bowl; from memory).
 * @param opening half of the angle that the opening spans at the sphere's centre, radians, 0 to pi
 */
export function bowlFactor(opening: number): number {
  const a = Math.PI - opening;
  return (a + Math.sin(a)) / Math.PI;
}

/** A body of revolution for closed forms. Lengths in m. */
export interface Spheroid {
  readonly equatorial: number;
  readonly polar: number;
}

/** Where a charged spheroid's surface field is greatest or of interest. */
interface Place {
  /** m2: the field there is Q / (4 pi eps0 area). */
  readonly area: number;
  /** m, smallest radius of curvature. */
  readonly curvature: number;
}

export interface SpheroidField {
  /** m: capacitance over 4 pi eps0. */
  readonly length: number;
  readonly sharpest: Place;
  readonly pole: Place;
}

/**
 * Capacitance and surface field of an isolated spheroid (Smythe, Static and Dynamic Electricity, from memory).
 * A sphere is the case of two equal semi-axes.
 */
export function spheroidField({ equatorial: a, polar: c }: Spheroid): SpheroidField {
  if (!(a > 0 && c > 0)) throw new RangeError('both semi-axes must be above 0');
  const pole = { area: a * a, curvature: (a * a) / c };
  // Close to a sphere both quotients below lose their digits.
  if (Math.abs(a - c) < 1e-6 * a) return { length: (a + c) / 2, sharpest: pole, pole };
  if (a > c) {
    const focus = Math.sqrt(a * a - c * c);
    return { length: focus / Math.acos(c / a), sharpest: { area: a * c, curvature: (c * c) / a }, pole };
  }
  const focus = Math.sqrt(c * c - a * a);
  return { length: focus / Math.acosh(c / a), sharpest: pole, pole };
}
