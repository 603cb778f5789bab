import type { Sourced } from './row.js';

/** Lengths (mm) under the head that shops keep for cap screws M3 to M8. */
export const SCREW_LENGTHS: Sourced & { readonly lengths: readonly number[] } = {
  lengths: [5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 80, 90, 100],
  source: 'ISO 888 preferred lengths, as used by ISO 4762',
  status: 'from-memory',
};

/**
 * The shortest screw on sale that is long enough.
 *
 * @param minimum mm under the head
 * @throws RangeError when the longest on the list is too short, or `minimum` is not a length
 */
export function nextScrewLength(minimum: number): number {
  const { lengths } = SCREW_LENGTHS;
  const fitting = minimum > 0 ? lengths.find((length) => length >= minimum - 1e-9) : undefined;
  if (fitting === undefined) {
    throw new RangeError(`no screw of ${minimum} mm or longer: the lengths are ${lengths.join(', ')} mm`);
  }
  return fitting;
}
