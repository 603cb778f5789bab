import type { Machine } from '../machine/machine.js';
import { COLUMN_GRADIENT, FOUL_COLUMN_FACTOR } from '../stock/air.js';
import type { Constant } from '../stock/row.js';
import { measuredOr, type Range, scaled } from './range.js';

/** Relative humidity (%) above which a column counts as foul. */
export const HUMID: Constant = {
  value: 60,
  unit: '%',
  meaning: 'relative humidity above which surfaces insulate half as well',
  source: 'common practice, no source',
  status: 'common-practice',
};

export const PEAK_OVER_MEAN: Constant = {
  value: 5.6 / 2.4,
  unit: '',
  meaning: 'greatest over mean gradient along a plain column',
  source: 'boundary-element solution of one plain machine, outside this package: 5.6 over 2.4 kV/cm',
  status: 'computed',
};

export const isFoul = ({ site }: Machine) => site.cleanliness !== 'clean' || site.humidity > HUMID.value;

/**
 * Mean gradient (V/m) that a column holds, metal to metal. Dust, damp and humidity halve the table's range; a gradient
 * that the builder found replaces the range as it is. Not corrected for air density, as practice does not.
 */
export function columnGradient(machine: Machine): Range {
  const { low, likely, high } = COLUMN_GRADIENT;
  const clean = { low: low.value, likely: likely.value, high: high.value };
  const table = isFoul(machine) ? scaled(clean, FOUL_COLUMN_FACTOR.value) : clean;
  return scaled(measuredOr(table, machine.assume.columnGradient), 1e5);
}
