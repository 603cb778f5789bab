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
export declare function readingOf(readings: readonly number[], caliperError: number): Reading;
