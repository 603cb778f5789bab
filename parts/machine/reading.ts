/**
 * What a caliper said about one dimension, once or several times.
 *
 * All lengths in mm. `min` and `max` are the extreme readings, `spread` their difference (the out-of-round of a
 * tube measured across several directions), `low` and `high` the readings widened by the caliper's permissible
 * error: the bounds that everything downstream works with.
 */
export interface Reading {
  readonly readings: readonly number[];
  readonly mean: number;
  readonly min: number;
  readonly max: number;
  readonly spread: number;
  readonly low: number;
  readonly high: number;
}

/**
 * Sums up one or several readings of the same dimension.
 * @param readings mm, at least one, all finite
 * @param caliperError mm, the permissible error of the instrument, >= 0
 * @throws RangeError when there is no reading or one is not finite
 */
export function readingOf(readings: readonly number[], caliperError: number): Reading {
  if (readings.length === 0) throw new RangeError('a reading needs at least one value');
  if (!readings.every(Number.isFinite)) throw new RangeError('every reading must be a finite number of mm');
  if (!(caliperError >= 0)) throw new RangeError(`caliper error must be 0 mm or more, got ${caliperError}`);
  const min = Math.min(...readings);
  const max = Math.max(...readings);
  const mean = readings.reduce((sum, value) => sum + value, 0) / readings.length;
  return { readings, mean, min, max, spread: max - min, low: min - caliperError, high: max + caliperError };
}
