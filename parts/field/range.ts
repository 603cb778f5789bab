/** Least, likely and greatest value of something predicted. Always low <= likely <= high. */
export interface Range {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

export const scaled = ({ low, likely, high }: Range, factor: number): Range => ({
  low: low * factor,
  likely: likely * factor,
  high: high * factor,
});

/** What the builder measured replaces the table's range: the range shrinks to it. */
export function measuredOr(range: Range, measured: number | undefined): Range {
  return measured === undefined ? range : { low: measured, likely: measured, high: measured };
}

/** The range of three constants of one quantity, in their unit. */
export function rangeOf({
  low,
  likely,
  high,
}: Readonly<Record<keyof Range, { readonly value: number }>>): Range {
  return { low: low.value, likely: likely.value, high: high.value };
}

/** A range with the input that widens it most. */
export interface Propagated extends Range {
  readonly dominatedBy: string;
}

/** An input of a computed quantity: its range, and in words what it is. */
export interface Uncertain {
  readonly range: Range;
  readonly what: string;
}

/** What dominates a quantity whose inputs are all single values. */
export const NOTHING_VARIES = 'nothing: every input is a single value';

/**
 * Range of a quantity that follows from independent uncertain inputs. Each input is put alone at its low and at its
 * high end; the deviations upward are combined by root of the sum of squares, those downward likewise (law of
 * propagation of uncertainty for independent inputs, JCGM 100:2008, 5.1, with an input's span taken whole instead of
 * its slope). Deviations are taken in logarithms where every value met is above 0, so that a product of powers comes
 * out exact, else as differences.
 * @param inputs ranges in whatever units `of` expects
 * @returns low <= likely <= high, and the `what` of the input with the largest span
 * @throws RangeError for an input that is not ordered or not finite, or a result that is not finite
 */
export function propagated<Name extends string>(
  inputs: Readonly<Record<Name, Uncertain>>,
  of: (values: Readonly<Record<Name, number>>) => number,
): Propagated {
  const entries = Object.entries<Uncertain>(inputs);
  for (const [name, { range }] of entries) {
    const { low, likely, high } = range;
    if (!(Number.isFinite(low) && low <= likely && likely <= high && Number.isFinite(high)))
      throw new RangeError(`${name} is no range: ${low}, ${likely}, ${high}`);
  }
  const centre = Object.fromEntries(entries.map(([name, { range }]) => [name, range.likely])) as Record<
    Name,
    number
  >;
  const at = (values: Readonly<Record<Name, number>>): number => {
    const value = of(values);
    if (!Number.isFinite(value)) throw new RangeError(`no finite result for ${JSON.stringify(values)}`);
    return value;
  };
  const likely = at(centre);
  const ends = entries.map(([name, { range, what }]) => ({
    what,
    values: [range.low, range.high].map((end) => at({ ...centre, [name]: end })),
  }));

  const inLogarithms = likely > 0 && ends.every(({ values }) => values.every((value) => value > 0));
  const deviation = (value: number) => (inLogarithms ? Math.log(value / likely) : value - likely);
  const spans = ends.map(({ what, values }) => {
    const deviations = values.map(deviation);
    return { what, up: Math.max(0, ...deviations), down: Math.max(0, ...deviations.map((each) => -each)) };
  });
  const up = Math.hypot(...spans.map((span) => span.up));
  const down = Math.hypot(...spans.map((span) => span.down));
  const [low, high] = inLogarithms
    ? [likely * Math.exp(-down), likely * Math.exp(up)]
    : [likely - down, likely + up];
  if (!(Number.isFinite(low) && Number.isFinite(high)))
    throw new RangeError(`the range of ${likely} is not finite`);
  const widest = spans.reduce(
    (most, { what, up: above, down: below }) =>
      above + below > most.span ? { what, span: above + below } : most,
    { what: NOTHING_VARIES, span: 0 },
  );
  return { low, likely, high, dominatedBy: widest.what };
}
