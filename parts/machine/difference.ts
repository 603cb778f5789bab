import { MACHINE_FILE, type MachineValues } from './declarations.js';
import { leavesOf } from './declare.js';
import type { Reading } from './reading.js';

/** One value of a machine file that differs between two machines, in words; lengths in mm, others in their key's unit. */
export interface ValueChange {
  readonly key: string;
  readonly meaning: string;
  readonly unit: string;
  /** Undefined where the value was not given. */
  readonly from: string | undefined;
  readonly to: string | undefined;
}

/** Every value that differs, in the order of the file's declarations. */
export function changedValues(before: MachineValues, after: MachineValues): ValueChange[] {
  return leavesOf(MACHINE_FILE).flatMap(([key, leaf]) => {
    const [from, to] = [written(valueAt(before, key)), written(valueAt(after, key))];
    const unit = leaf.kind === 'quantity' || leaf.kind === 'reading' ? leaf.unit : '';
    return from === to ? [] : [{ key, meaning: leaf.meaning, unit, from, to }];
  });
}

function valueAt(values: MachineValues, key: string): unknown {
  return key
    .split('.')
    .reduce<unknown>((at, name) => (at as Record<string, unknown> | undefined)?.[name], values);
}

function written(value: unknown): string | undefined {
  if (value === undefined) return undefined;
  if (typeof value === 'object' && value !== null) return (value as Reading).readings.map(short).join(', ');
  return typeof value === 'number' ? short(value) : String(value);
}

/** Enough digits for a caliper, none that an inch's conversion left behind. */
const short = (value: number): string => String(Number(value.toPrecision(9)));
