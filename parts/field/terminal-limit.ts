import type { Machine } from '../machine/machine.js';
import {
  BREAKDOWN_FIELD,
  PEEK_SPHERE_FACTOR,
  PEEK_SPHERE_FIELD,
  PEEK_TEMPERATURE,
  REFERENCE_TEMPERATURE,
} from '../stock/air.js';
import type { Constant } from '../stock/row.js';
import { isolatedSphere, spheroidField, terminalCapacitance, terminalSpheroid } from './capacitance.js';
import { type Range, withLikely } from './range.js';

// SI throughout.

const practice = { source: 'common practice, no source', status: 'common-practice' } as const;
const surface = (value: number): Constant => ({
  value,
  unit: '',
  meaning: 'share of the ideal inception voltage that a terminal with seams, dents and dust reaches',
  ...practice,
});
/** Real terminals against Peek's polished ones. */
export const SURFACE_FACTOR = { low: surface(0.5), likely: surface(0.7), high: surface(0.9) };

const spread = (value: number): Constant => ({
  value,
  unit: '',
  meaning:
    'field at the lip over that of the bare bowl: the tube polarised, or charged so that its gradient is even',
  source: 'boundary-element solutions of two machines of this kind, outside this package',
  status: 'computed',
});
export const LIP_FIELD_FACTOR = { low: spread(0.68), high: spread(1.41) };

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

/** The textbook's limit of a terminal, 3 MV/m times its radius, for comparison (V). @param radius m */
export function textbookLimit(radius: number): number {
  return BREAKDOWN_FIELD.value * radius;
}

export function surfaceFactor({ assume }: Machine): Range {
  const { low, likely, high } = SURFACE_FACTOR;
  return withLikely({ low: low.value, likely: likely.value, high: high.value }, assume.surfaceFactor);
}

/**
 * Voltage (V) at which the terminal's body itself discharges: Peek's field over the greatest field that the charge of
 * the terminal makes on its spheroid, times the surface factor. The even surface charge of the isolated spheroid is
 * taken; that the plate below draws some of it down is not. For a shell the low end also takes the smallest radius of
 * curvature as the radius of a whole sphere, since the profile is not known.
 */
export function bodyLimit(machine: Machine): Range {
  const density = peekDensity(machine.site.relativeDensity);
  const { sharpest } = spheroidField(terminalSpheroid(machine));
  const field = peekSphereField(sharpest.curvature, density);
  const capacitance = terminalCapacitance(machine);
  const reach = (farads: number) => (field * isolatedSphere(1) * sharpest.area) / farads;
  const surface = surfaceFactor(machine);
  const low = Math.min(reach(capacitance.high), field * sharpest.curvature);
  return {
    low: surface.low * low,
    likely: surface.likely * reach(capacitance.likely),
    high: surface.high * reach(capacitance.low),
  };
}

/**
 * Field (1/m, per volt) at the bead around the opening of a spherical bowl at 1 V. Kelvin's bowl carries near its rim the
 * charge of a sheet's edge, E = K/sqrt(s) with K = (2/pi) sin(b/2)/sqrt(2 R sin b), b half the opening's angle; a round
 * bead of radius r on a sheet's edge bears 2 K/sqrt(r) (conformal map z^1/2 + r z^-1/2). Holds for r well below the
 * opening's radius. It ignores plate, tube, belt and everything inside the bowl.
 * @param radius of the bowl, m
 * @param rim radius of the bead's circle, m, up to `radius`
 * @param bead radius of the bead, m
 */
export function lipFieldPerVolt(radius: number, rim: number, bead: number): number {
  if (!(rim > 0 && rim <= radius && bead > 0))
    throw new RangeError('a bead needs a radius, and a rim within the bowl');
  const half = Math.asin(rim / radius);
  const edge = ((2 / Math.PI) * Math.sin(half / 2)) / Math.sqrt(2 * radius * Math.sin(half));
  return (2 * edge) / Math.sqrt(bead);
}

/**
 * Voltage (V) at which corona starts on the lip. The bead is nearly a cylinder; the sphere of the same mean curvature,
 * twice its radius, stands for it in Peek’s law (within 5 % of his law for wires of 1 to 10 mm radius).
 */
export function lipLimit(machine: Machine): Range {
  const { terminal, site } = machine;
  const bead = terminal.lipRadius / 1000;
  const rim = terminal.openingDiameter.mean / 2000 + bead;
  // The sphere that bears the same field around the pole as the spheroid.
  const { length, pole } = spheroidField(terminalSpheroid(machine));
  const radius = Math.max(pole.area / length, rim);
  const perVolt = lipFieldPerVolt(radius, rim, bead);
  const polished = peekSphereField(2 * bead, peekDensity(site.relativeDensity)) / perVolt;
  const surface = surfaceFactor(machine);
  return {
    low: (surface.low * polished) / LIP_FIELD_FACTOR.high.value,
    likely: surface.likely * polished,
    high: (surface.high * polished) / LIP_FIELD_FACTOR.low.value,
  };
}
