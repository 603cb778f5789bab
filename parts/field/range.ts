/** Least, likely and greatest value of something predicted. Always low <= likely <= high. */
export interface Range {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** Combines ranges that all work the same way on the result: lows with lows, likely with likely, highs with highs. */
export function combine(ranges: readonly Range[], of: (...values: number[]) => number): Range {
  const at = (end: keyof Range) => of(...ranges.map((range) => range[end]));
  return { low: at('low'), likely: at('likely'), high: at('high') };
}

export const scaled = (range: Range, factor: number): Range => combine([range], (value) => value * factor);
export const times = (...ranges: readonly Range[]): Range =>
  combine(ranges, (...values) => values.reduce((product, value) => product * value, 1));

/** Where a larger denominator makes the result smaller: the ends change places. No denominator may be 0. */
export function over(numerator: Range, denominator: Range): Range {
  return {
    low: numerator.low / denominator.high,
    likely: numerator.likely / denominator.likely,
    high: numerator.high / denominator.low,
  };
}

/** The smallest of several ranges, end by end. */
export const least = (ranges: readonly Range[]): Range => combine(ranges, Math.min);

/** A table's range with the builder's own number in place of the likely one; the ends give way where they must. */
export function withLikely(range: Range, measured: number | undefined): Range {
  if (measured === undefined) return range;
  return { low: Math.min(range.low, measured), likely: measured, high: Math.max(range.high, measured) };
}
