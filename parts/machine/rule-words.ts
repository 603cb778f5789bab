import type { MachineValues } from './declarations.js';
import { short } from './units.js';

/** A contradiction between values: the keys concerned, what they say, what would do and by how much they miss it. */
export interface RuleMiss {
  readonly keys: readonly string[];
  readonly found: string;
  readonly expected: string;
}
/** Which of the two rollers, or combs. */
export type End = 'lower' | 'upper';
export type Check = (values: MachineValues) => RuleMiss | undefined;

export const mm = (value: number) => `${short(Math.round(value * 1000) / 1000)} mm`;

/** `value` has to stay below `limit` (mm); equal is too much already. */
export function below(
  keys: readonly string[],
  what: string,
  value: number,
  than: string,
  limit: number,
): RuleMiss | undefined {
  if (value < limit) return undefined;
  const miss = value > limit ? `${mm(value - limit)} too much` : 'equal is too much';
  return { keys, found: `${what} ${mm(value)}`, expected: `less than ${than} ${mm(limit)} (${miss})` };
}

/** `value` has to reach `limit` (mm). */
export function atLeast(
  keys: readonly string[],
  what: string,
  value: number,
  than: string,
  limit: number,
): RuleMiss | undefined {
  if (value >= limit) return undefined;
  return {
    keys,
    found: `${what} ${mm(value)}`,
    expected: `at least ${than} ${mm(limit)} (${mm(limit - value)} short)`,
  };
}

/** `value` may reach `limit` (mm), not pass it. */
export function atMost(
  keys: readonly string[],
  what: string,
  value: number,
  than: string,
  limit: number,
): RuleMiss | undefined {
  if (value <= limit) return undefined;
  return {
    keys,
    found: `${what} ${mm(value)}`,
    expected: `at most ${than} ${mm(limit)} (${mm(value - limit)} too much)`,
  };
}
