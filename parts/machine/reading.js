/**
 * Sums up one or several readings of the same dimension.
 * @param readings mm, at least one, all finite
 * @param caliperError mm, the permissible error of the instrument, >= 0
 * @throws RangeError when there is no reading or one is not finite
 */
export function readingOf(readings, caliperError) {
    if (readings.length === 0)
        throw new RangeError('a reading needs at least one value');
    if (!readings.every(Number.isFinite))
        throw new RangeError('every reading must be a finite number of mm');
    if (!(caliperError >= 0))
        throw new RangeError(`caliper error must be 0 mm or more, got ${caliperError}`);
    const min = Math.min(...readings);
    const max = Math.max(...readings);
    const mean = readings.reduce((sum, value) => sum + value, 0) / readings.length;
    return { readings, mean, min, max, spread: max - min, low: min - caliperError, high: max + caliperError };
}
