/** Field along a field line that starts on an electrode. */
export interface FieldProfile {
  /** Distance along the line from the electrode, m: from 0, ascending. */
  readonly s: ArrayLike<number>;
  /** Field there, per volt of terminal voltage, 1/m, above 0. */
  readonly perVolt: ArrayLike<number>;
}

/** Where a field is wanted when summing along a line: four places in each step (Gauss and Legendre). */
export interface Step {
  readonly from: number;
  readonly to: number;
  /** Field per volt at the step's end, 1/m. */
  readonly end: number;
  /** Fields per volt at the four places, 1/m. */
  readonly inside: readonly number[];
  /** The field per volt at any place of the step, 1/m. */
  at(s: number): number;
}

/** Gauss and Legendre's four places on -1 to 1 and their weights (exact for polynomials of degree 7). */
const INNER = Math.sqrt(3 / 7 - (2 / 7) * Math.sqrt(6 / 5));
const OUTER = Math.sqrt(3 / 7 + (2 / 7) * Math.sqrt(6 / 5));
export const GAUSS_PLACES: readonly number[] = [-OUTER, -INNER, INNER, OUTER];
export const GAUSS_WEIGHTS: readonly number[] = [
  (18 - Math.sqrt(30)) / 36,
  (18 + Math.sqrt(30)) / 36,
  (18 + Math.sqrt(30)) / 36,
  (18 - Math.sqrt(30)) / 36,
];

/** Points that a slope is taken from. */
const STENCIL = 5;
/** A step over which ln E changes by no more than this is summed to far better than 1e-4. */
const LARGEST_CHANGE = 0.05;

/**
 * Cuts a line into steps short enough to sum over. Between points ln E is a cubic with the slopes of the quartic through
 * the five nearest points, so a field that falls like a power of distance is met with few points.
 *
 * @throws RangeError for fewer than two points, lengths that differ, distances that do not ascend from 0, or a field that is not above 0
 */
export function stepsAlong(profile: FieldProfile): readonly Step[] {
  checkProfile(profile);
  const s = Array.from(profile.s);
  const logs = Array.from(profile.perVolt, Math.log);
  const slopes = s.map((_, index) => slopeAt(s, logs, index));
  return s.slice(1).flatMap((_, index) => stepsOf(s, logs, slopes, index));
}

function stepsOf(
  s: readonly number[],
  logs: readonly number[],
  slopes: readonly number[],
  index: number,
): Step[] {
  const start = s[index]!;
  const length = s[index + 1]! - start;
  const [first, last] = [logs[index]!, logs[index + 1]!];
  const [firstSlope, lastSlope] = [slopes[index]! * length, slopes[index + 1]! * length];
  const at = (place: number) => {
    const t = (place - start) / length;
    const u = 1 - t;
    return Math.exp(
      u * u * (1 + 2 * t) * first + t * t * (1 + 2 * u) * last + t * u * (u * firstSlope - t * lastSlope),
    );
  };
  const change = Math.max(Math.abs(last - first), Math.abs(firstSlope), Math.abs(lastSlope));
  const count = Math.max(1, Math.ceil(change / LARGEST_CHANGE));
  return Array.from({ length: count }, (_, step) => {
    const from = start + (length * step) / count;
    const to = step + 1 === count ? s[index + 1]! : start + (length * (step + 1)) / count;
    return { from, to, at, end: at(to), inside: GAUSS_PLACES.map((place) => at(within(from, to, place))) };
  });
}

/** A place given on -1 to 1, on `from` to `to`. */
export const within = (from: number, to: number, place: number) => (from + to + (to - from) * place) / 2;

/** Slope at one of the points of the polynomial through it and its nearest neighbours (Lagrange). */
function slopeAt(s: readonly number[], values: readonly number[], index: number): number {
  const first = Math.max(0, Math.min(index - (STENCIL - 1) / 2, s.length - STENCIL));
  const near = Array.from({ length: Math.min(STENCIL, s.length) }, (_, offset) => first + offset);
  const here = s[index]!;
  let slope = 0;
  for (const j of near) {
    if (j === index) continue;
    let weight = 1 / (s[j]! - here);
    for (const k of near) {
      if (k !== j && k !== index) weight *= (here - s[k]!) / (s[j]! - s[k]!);
    }
    // The weights of a slope add up to none: the point's own is the others' with the sign turned.
    slope += weight * (values[j]! - values[index]!);
  }
  return slope;
}

function checkProfile({ s, perVolt }: FieldProfile): void {
  if (s.length !== perVolt.length) {
    throw new RangeError(
      `a profile of ${s.length} distances and ${perVolt.length} fields: one each is expected`,
    );
  }
  if (s.length < 2) throw new RangeError(`a profile of ${s.length} points: two or more are expected`);
  if (s[0] !== 0)
    throw new RangeError(`a profile that starts at ${s[0]} m: it starts on the electrode, at 0`);
  for (let index = 0; index < s.length; index++) {
    const [distance, field] = [s[index]!, perVolt[index]!];
    if (!Number.isFinite(distance) || (index > 0 && !(distance > s[index - 1]!))) {
      throw new RangeError(
        `point ${index} of a profile lies at ${distance} m: distances ascend and are finite`,
      );
    }
    if (!(field > 0 && Number.isFinite(field))) {
      throw new RangeError(`point ${index} of a profile has the field ${field} 1/m: above 0 is expected`);
    }
  }
}
