import type { Machine } from '../../parts/machine/machine.js';
import type { MachineValues } from '../../parts/machine/read.js';
import { readingOf } from '../../parts/machine/reading.js';
import { resolveMachine } from '../../parts/machine/resolve.js';
import { type Starter, starterValues } from './machines.js';

type Deep<T> = T extends readonly unknown[]
  ? T
  : T extends object
    ? { [K in keyof T]?: Deep<T[K]> | undefined }
    : T;

function merged(base: unknown, over: unknown): unknown {
  const plain = (value: unknown): value is Record<string, unknown> =>
    typeof value === 'object' && value !== null && !Array.isArray(value);
  if (!plain(base) || !plain(over) || 'readings' in over) return over;
  return {
    ...base,
    ...Object.fromEntries(Object.entries(over).map(([key, value]) => [key, merged(base[key], value)])),
  };
}

/** A starter with some of its values replaced; nothing checks that they go together. */
export function variant(name: Starter, over: Deep<MachineValues> = {}): Machine {
  return resolveMachine(merged(starterValues(name), over) as MachineValues, []);
}

/** Readings in mm, with a usual caliper. */
export const readings = (...values: number[]) => readingOf(values, 0.03);
