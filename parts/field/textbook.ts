import {
  BREAKDOWN_FIELD,
  PEEK_SPHERE_FACTOR,
  PEEK_SPHERE_FIELD,
  PEEK_TEMPERATURE,
  REFERENCE_TEMPERATURE,
  VACUUM_PERMITTIVITY,
} from '../stock/air.js';

// Closed forms of the textbooks, to compare the solved machine with. SI throughout.

/** Air density relative to Peek's 25 C, from that relative to 20 C at the same pressure. */
export function peekDensity(relativeDensity: number): number {
  return (relativeDensity * (273 + PEEK_TEMPERATURE.value)) / (273 + REFERENCE_TEMPERATURE.value);
}

/**
 * Surface field (V/m) at which corona starts on a polished sphere: Peek's law, E = 27.2 d (1 + 0.54/sqrt(d R)) kV/cm.
 * @param radius m, above 0
 * @param density relative to 25 C and 101.3 kPa, above 0
 */
export function peekSphereField(radius: number, density: number): number {
  if (!(radius > 0 && density > 0))
    throw new RangeError(`no inception field for radius ${radius} m, density ${density}`);
  const perCentimetre =
    PEEK_SPHERE_FIELD.value * density * (1 + PEEK_SPHERE_FACTOR.value / Math.sqrt(density * radius * 100));
  return perCentimetre * 1e5;
}

/** The rule of 30 kV for each centimetre of radius: 3 MV/m times the radius (V). @param radius m */
export function textbookLimit(radius: number): number {
  return BREAKDOWN_FIELD.value * radius;
}

/** Capacitance (F) of a sphere far from everything, 4 pi eps0 R. @param radius m, above 0 */
export function isolatedSphere(radius: number): number {
  return 4 * Math.PI * VACUUM_PERMITTIVITY.value * radius;
}
