import type { Machine } from '../machine/machine.js';
import { BREAKDOWN_FIELD, VACUUM_PERMITTIVITY } from '../stock/air.js';
import type { Constant } from '../stock/row.js';
import { type Range, scaled, withLikely } from './range.js';

// SI throughout.

const fraction = (value: number): Constant => ({
  value,
  unit: '',
  meaning: 'share of the one-sided ceiling that a belt charged by friction and a comb carries',
  source: 'common practice, no source',
  status: 'common-practice',
});
export const FRICTION_CHARGED = { low: fraction(0.1), likely: fraction(0.3), high: fraction(0.6) };

/**
 * Charge density (C/m2) of a sheet whose field on one side reaches the breakdown of air: eps0 E, 26.6 uC/m2 at density 1
 * (textbook formula with OpenStax' 3 MV/m).
 * @param relativeDensity of air, 1 at 20 C and 101.3 kPa
 */
export function densityCeiling(relativeDensity: number): number {
  return VACUUM_PERMITTIVITY.value * BREAKDOWN_FIELD.value * relativeDensity;
}

/** Current (A) of a sheet of charge that moves: width (m) times speed (m/s) times density (C/m2). */
export function sheetCurrent(width: number, speed: number, density: number): number {
  return width * speed * density;
}

/** Current (A) that the belt brings up; only what passes under both combs counts. */
export function beltCurrent({ combs, belt, site, assume }: Machine): Range {
  const width = Math.min(combs.lower.width, combs.upper.width) / 1000;
  const { low, likely, high } = FRICTION_CHARGED;
  const share = withLikely({ low: low.value, likely: likely.value, high: high.value }, assume.beltFraction);
  return scaled(share, sheetCurrent(width, belt.speed, densityCeiling(site.relativeDensity)));
}

/**
 * Voltage (V) at which a belt that conducts takes down what it brings up. Both runs, each half of the measured
 * end-to-end resistance, lie between terminal and ground side by side: a quarter of it.
 */
export function leakageLimit(machine: Machine): Range | undefined {
  const { resistance } = machine.belt;
  return resistance === undefined ? undefined : scaled(beltCurrent(machine), resistance / 4);
}
