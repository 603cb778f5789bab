/** Bending of a round rod on two supports. Lengths in mm, forces in N, moduli in MPa; slopes in radians. */

/** Second moment of area (mm4) of a rod: pi d^4 / 64 (handbooks, from memory). */
export const rodMoment = (diameter: number): number => (Math.PI * diameter ** 4) / 64;

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

/**
 * Basic rating life (h): 10^6 / (60 n) (C / P)^3 for ball bearings (ISO 281:2007).
 * @param rating C and @param load P in the same unit, @param speed rpm, all above 0
 */
export function ratingLife(rating: number, load: number, speed: number): number {
  return (1e6 / (60 * speed)) * (rating / load) ** 3;
}
