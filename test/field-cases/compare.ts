import type { Solution } from '../../parts/field/boundary/solution.js';
import { type Effort, solve } from '../../parts/field/boundary/solve.js';
import { nearest } from '../../parts/stock/nearest.js';
import { type Case, CaseError } from './case.js';
import { problemOf } from './geometry.js';
import { PROFILE, type Profile, quantitiesOf, worstOfProfile } from './quantities.js';

export interface Row {
  readonly key: string;
  readonly unit: string;
  readonly value: number;
  readonly reference: number;
  /** Share of the reference; of a profile, of its greatest value. */
  readonly error: number;
  /** The solver's own estimate of that share. */
  readonly estimate: number;
  readonly bar: number;
  /** Whether being farther off than the bar counts. */
  readonly judged: boolean;
}

export interface Compared {
  readonly rows: readonly Row[];
  readonly unknowns: number;
  /** ms of the solve alone. */
  readonly time: number;
  /** Keys of the result that say something that is not compared, each with the known key that may be meant. */
  readonly left: readonly string[];
}

export const isOutside = ({ judged, error, bar }: Row): boolean => judged && !(error <= bar);

/** Keys that describe a case rather than hold a quantity, and charges, which the capacitance stands for. */
const BESIDES = ['geom', 'time_solve_s', 'charge_pC_per_V'];

/** @throws CaseError, ProblemError */
export function compare({ input, result }: Case, effort: Effort = {}): Compared {
  const path = `case ${input.name}`;
  const quantities = quantitiesOf(input);
  const known = [...quantities.map(({ key }) => key), PROFILE.key];
  const left = Object.keys(result)
    .filter((key) => !known.includes(key) && !BESIDES.includes(key))
    .map((key) => {
      const meant = nearest(key, known);
      return meant === undefined ? key : `${key} (nearest known ${meant})`;
    });
  // What is wrong with the reference is said before work is done.
  const references = quantities.flatMap((quantity) => {
    const reference = referenceOf(result[quantity.key], `${path}: ${quantity.key}`);
    return reference === undefined ? [] : [{ quantity, reference }];
  });
  const profile = profileOf(result[PROFILE.key], `${path}: ${PROFILE.key}`);
  if (references.length === 0 && profile === undefined)
    throw new CaseError(`${path}: its result holds none of ${known.join(', ')}`);

  const problem = problemOf(input);
  const start = performance.now();
  const solved = solve(problem, effort);
  const time = performance.now() - start;
  const solution = solved.solutions[0]!;
  const rows = references.map(({ quantity: { key, unit, bar, judged, of }, reference }): Row => {
    const value = of(solution);
    const error = Math.abs(value / reference - 1);
    return { key, unit, value, reference, error, estimate: solved.estimate(of) / reference, bar, judged };
  });
  if (profile) rows.push(profileRow(solution, input, profile, (of) => solved.estimate(of)));
  return { rows, unknowns: solved.unknowns, time, left };
}

function profileRow(
  solution: Solution,
  input: Case['input'],
  profile: Profile,
  estimateOf: (of: (solution: Solution) => number) => number,
): Row {
  const { z, value, reference, error } = worstOfProfile(solution, input, profile);
  const greatest = profile.field.reduce((so, each) => Math.max(so, Math.abs(each)), 0);
  const at = { z: [z], field: [reference] };
  const estimate = estimateOf((each) => worstOfProfile(each, input, at).value) / greatest;
  const { key, unit, bar, judged } = PROFILE;
  return { key: `${key} at z ${z} mm`, unit, value, reference, error, estimate, bar, judged };
}

function referenceOf(value: unknown, path: string): number | undefined {
  if (value === undefined || value === null) return undefined;
  const number = typeof value === 'object' && 'E' in value ? value.E : value;
  if (typeof number !== 'number' || !Number.isFinite(number) || number <= 0)
    throw new CaseError(
      `${path}: expected a number above 0, or one under "E", found ${JSON.stringify(value).slice(0, 60)}`,
    );
  return number;
}

function profileOf(value: unknown, path: string): Profile | undefined {
  if (value === undefined || value === null) return undefined;
  const { z_mm: z, Et_per_V: field } = value as Record<string, unknown>;
  const isList = (list: unknown): list is number[] =>
    Array.isArray(list) && list.length > 0 && list.every((each) => Number.isFinite(each));
  if (!isList(z) || !isList(field) || z.length !== field.length)
    throw new CaseError(`${path}: expected "z_mm" and "Et_per_V", two lists of as many numbers`);
  return { z, field };
}
