import { STREAMER_GRADIENT } from '../../stock/air.js';
import type { Constant } from '../../stock/row.js';
import type { Polarity } from '../polarity.js';
import { type Range, scaled } from '../range.js';
import { type Air, checkAir, streamerHumidityFactor } from './atmosphere.js';

const KILOVOLT_PER_CENTIMETRE = 1e5;

/** The sign of the electrode across the gap. */
export function opposite(polarity: Polarity): Polarity {
  if (polarity === 'unknown') return polarity;
  return polarity === 'positive' ? 'negative' : 'positive';
}

/**
 * Mean gradient (V/m) at which streamers cross a gap. It goes with the air's relative density. Humidity moves the positive
 * one by the d.c. factor of IEC 60060-1; by that standard's exponents a gap that needs 10 kV/cm or more takes no factor for
 * humidity (from memory), so the negative one has none. When the sign is not known, the range spans both.
 *
 * @param polarity of the electrode that the streamers start from
 * @throws RangeError for impossible air
 */
export function crossingGradient(polarity: Polarity, air: Air): Range {
  checkAir(air);
  const positive = scaled(middled(STREAMER_GRADIENT.positive), streamerHumidityFactor(air));
  const negative = middled(STREAMER_GRADIENT.negative);
  const reference = { positive, negative, unknown: between(positive.low, negative.high) }[polarity];
  return scaled(reference, air.relativeDensity * KILOVOLT_PER_CENTIMETRE);
}

/**
 * Voltage (V) at which streamers cross a gap, given that they start at all.
 *
 * @param length of the gap along the way, m, above 0
 * @param polarity of the electrode that the streamers start from
 * @throws RangeError for another length or impossible air
 */
export function crossingVoltage(length: number, polarity: Polarity, air: Air): Range {
  if (!(length > 0 && Number.isFinite(length))) {
    throw new RangeError(`not a gap that a streamer could cross: ${length} m, above 0 is expected`);
  }
  return scaled(crossingGradient(polarity, air), length);
}

const middled = ({ low, high }: { low: Constant; high: Constant }) => between(low.value, high.value);
const between = (low: number, high: number): Range => ({ low, likely: (low + high) / 2, high });
