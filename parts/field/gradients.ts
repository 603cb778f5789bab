import type { Machine } from '../machine/machine.js';
import { COLUMN_GRADIENT, FOUL_COLUMN_FACTOR, STREAMER_GRADIENT } from '../stock/air.js';
import type { Constant } from '../stock/row.js';
import type { Polarity } from './polarity.js';
import { type Range, scaled, withLikely } from './range.js';

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
 * that the builder found replaces the likely one as it is. Not corrected for air density, as practice does not.
 */
export function columnGradient(machine: Machine): Range {
  const { low, likely, high } = COLUMN_GRADIENT;
  const clean = { low: low.value, likely: likely.value, high: high.value };
  const table = isFoul(machine) ? scaled(clean, FOUL_COLUMN_FACTOR.value) : clean;
  return scaled(withLikely(table, machine.assume.columnGradient), 1e5);
}

/** Mean gradient (V/m) at which a streamer crosses an open gap to a blunt plate: the positive one, from whichever end is the anode. */
export const openAirGradient: Range = middled(STREAMER_GRADIENT.positive);

/**
 * Mean gradient (V/m) at which a spark reaches a small grounded ball. The ball bears the higher field and the streamers
 * start from it: it is the anode before a negative terminal, the cathode before a positive one.
 */
export function ballGradient(polarity: Polarity): Range {
  const { positive, negative } = STREAMER_GRADIENT;
  if (polarity === 'negative') return middled(positive);
  if (polarity === 'positive') return middled(negative);
  return middled({ low: positive.low, high: negative.high });
}

function middled({ low, high }: { low: Constant; high: Constant }): Range {
  return scaled({ low: low.value, likely: (low.value + high.value) / 2, high: high.value }, 1e5);
}
