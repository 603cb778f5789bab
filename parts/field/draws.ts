import { NOTHING_VARIES, type Propagated, type Range, type Uncertain } from './range.js';

// Propagation of distributions (JCGM 101:2008) instead of deviations: where the weakest of several things counts, no
// single deviation tells what all of them together do.

/** One choice of every input. */
export type Draw<Name extends string> = Readonly<Record<Name, number>>;

export interface Draws<Name extends string> {
  readonly values: readonly Draw<Name>[];
  /** Where each draw of an input lies in its range: 0 low, 0.5 likely, 1 high. */
  readonly places: Readonly<Record<Name, Float64Array>>;
  readonly inputs: Readonly<Record<Name, Uncertain>>;
}

/**
 * Draws independent inputs, evenly spread over all of them together, always the same ones: an additive recurrence with the
 * powers of the generalised golden ratio (Roberts 2018, from memory). Half of the draws lie between low and likely, half
 * between likely and high, evenly; in logarithms where the range is above 0.
 * @param count of draws, above 0
 */
export function drawFrom<Name extends string>(
  inputs: Readonly<Record<Name, Uncertain>>,
  count: number,
): Draws<Name> {
  const names = Object.keys(inputs) as Name[];
  const ratio = goldenRatio(names.length);
  const places = Object.fromEntries(
    names.map((name, dimension) => {
      const step = ratio ** -(dimension + 1);
      return [name, Float64Array.from({ length: count }, (_, i) => (0.5 + (i + 1) * step) % 1)];
    }),
  ) as Record<Name, Float64Array>;
  const values = Array.from(
    { length: count },
    (_, i) =>
      Object.fromEntries(
        names.map((name) => [name, valueAt(inputs[name].range, places[name][i]!)]),
      ) as Draw<Name>,
  );
  return { values, places, inputs };
}

/** Root of x^(dimensions + 1) = x + 1. */
function goldenRatio(dimensions: number): number {
  let x = 1.5;
  for (let i = 0; i < 60; i++) x = (1 + x) ** (1 / (dimensions + 1));
  return x;
}

function valueAt({ low, likely, high }: Range, place: number): number {
  const share = Math.abs(2 * place - 1);
  const end = place < 0.5 ? low : high;
  return low > 0 ? likely * (end / likely) ** share : likely + share * (end - likely);
}

/** Share of the draws that lie below `low` and above `high` of what follows from them. */
const TAIL = 0.025;

/**
 * Range of what follows from draws: the middle of the results, and the ends that 95 of 100 lie between. Dominated by the
 * input whose place goes along most with the result’s rank.
 * @param results one for each draw, finite
 */
export function rangeOfDraws<Name extends string>(
  { places, inputs }: Draws<Name>,
  results: readonly number[],
): Propagated {
  const wrong = results.find((result) => !Number.isFinite(result));
  if (wrong !== undefined) throw new RangeError(`a draw gives ${wrong}`);
  const order = results.map((_, i) => i).sort((a, b) => results[a]! - results[b]!);
  const at = (share: number) => results[order[Math.round(share * (results.length - 1))]!]!;
  const rank = new Float64Array(results.length);
  for (const [position, i] of order.entries()) rank[i] = position / (results.length - 1) - 0.5;
  let [dominatedBy, most] = [NOTHING_VARIES, 0];
  for (const [name, { range, what }] of Object.entries<Uncertain>(inputs)) {
    if (range.low === range.high || at(0) === at(1)) continue;
    const place = places[name as Name];
    const along = Math.abs(rank.reduce((sum, each, i) => sum + each * (place[i]! - 0.5), 0));
    if (along > most) [dominatedBy, most] = [what, along];
  }
  return { low: at(TAIL), likely: at(0.5), high: at(1 - TAIL), dominatedBy };
}
