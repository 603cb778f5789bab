/** Bending of rods, tubes and arms. Lengths in mm, forces in N, moduli in MPa; slopes in radians. */

/** Second moment of area (mm4) of a rod: pi d^4 / 64 (handbooks, from memory). */
export const rodMoment = (diameter: number): number => (Math.PI * diameter ** 4) / 64;

/** Second moment of area (mm4) of a tube: pi (D^4 - d^4) / 64 (handbooks, from memory). */
export const pipeMoment = (outer: number, inner: number): number => rodMoment(outer) - rodMoment(inner);

/**
 * Second moment of area (mm4) of a regular octagon by its width across flats, about any axis through its middle:
 * (11 + 8 sqrt 2) / 12 a^4, a = (sqrt 2 - 1) width its side (computed from the polygon's formula).
 */
export const octagonMoment = (width: number): number =>
  ((11 + 8 * Math.SQRT2) / 12) * ((Math.SQRT2 - 1) * width) ** 4;

/** A rod on two supports with the same load at the same distance from each. */
export interface TwoLoads {
  /** Each of the two, N. */
  readonly load: number;
  readonly span: number;
  /** From a support to the nearer load; at most half the span. */
  readonly arm: number;
  readonly modulus: number;
  readonly moment: number;
}

/** Deflection in the middle, W a (3 L^2 - 4 a^2) / (24 E I) (beam tables, from memory; both loads in the middle give F L^3 / 48 E I). */
export function middleDeflection({ load, span, arm, modulus, moment }: TwoLoads): number {
  return (load * arm * (3 * span ** 2 - 4 * arm ** 2)) / (24 * modulus * moment);
}

/** Slope at the supports, W a (L - a) / (2 E I): between the loads the moment is W a all along. */
export function slopeAtSupports({ load, span, arm, modulus, moment }: TwoLoads): number {
  return (load * arm * (span - arm)) / (2 * modulus * moment);
}

/** Slope under the loads, W a (L - 2 a) / (2 E I). */
export function slopeAtLoads({ load, span, arm, modulus, moment }: TwoLoads): number {
  return (load * arm * (span - 2 * arm)) / (2 * modulus * moment);
}

/** Slope at the nearer support of a load (N) that overhangs it: F c L / (3 E I); half of it at the farther one. */
export function slopeByOverhang(rod: {
  readonly load: number;
  /** From the support to the load. */
  readonly overhang: number;
  readonly span: number;
  readonly modulus: number;
  readonly moment: number;
}): number {
  return (rod.load * rod.overhang * rod.span) / (3 * rod.modulus * rod.moment);
}

/**
 * How far (mm) a load moves that acts on a stiff arm beyond a cantilever's end: F/(E I) (L^3/3 + L^2 a + L a^2) (from the
 * beam tables' deflection and slope under an end load and an end moment; without an arm F L^3 / 3 E I).
 */
export function pushedAside(arm: {
  readonly force: number;
  readonly length: number;
  readonly beyond: number;
  readonly modulus: number;
  readonly moment: number;
}): number {
  const { force, length, beyond, modulus, moment } = arm;
  return (force * (length ** 3 / 3 + length ** 2 * beyond + length * beyond ** 2)) / (modulus * moment);
}

/**
 * Greatest strain (as a fraction) in an arm of changing thickness whose end is pushed aside by so much (mm): each place
 * bends by its own moment over E I, summed by the midpoint rule. Of even thickness h it is 1.5 h y / L^2, as in the
 * handbooks for snap-fit joints (verified on two).
 * @param thickness of the arm at a distance from its root
 */
export function armStrain(deflection: number, length: number, thickness: (at: number) => number): number {
  const STEPS = 400;
  let [given, most] = [0, 0];
  for (let i = 0; i < STEPS; i++) {
    const at = ((i + 0.5) * length) / STEPS;
    const lever = length - at;
    const h = thickness(at);
    given += ((12 * lever ** 2) / h ** 3) * (length / STEPS);
    most = Math.max(most, (6 * lever) / h ** 2);
  }
  return (deflection * most) / given;
}

/**
 * Basic rating life (h): 10^6 / (60 n) (C / P)^3 for ball bearings (ISO 281:2007).
 * @param rating C and @param load P in the same unit, @param speed rpm, all above 0
 */
export function ratingLife(rating: number, load: number, speed: number): number {
  return (1e6 / (60 * speed)) * (rating / load) ** 3;
}
