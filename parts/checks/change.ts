import { MACHINE_FILE } from '../machine/declarations.js';
import { leavesOf } from '../machine/declare.js';
import type { Machine } from '../machine/machine.js';
import type { MachineValues } from '../machine/read.js';
import { readingOf } from '../machine/reading.js';
import { resolveMachine } from '../machine/resolve.js';
import { RULES } from '../machine/rules.js';
import type { Trial } from './finding.js';

/** New values by full key of the machine file, each in the unit of its declaration. */
export type Changes = Readonly<Record<string, number | string>>;

const LEAVES = new Map(leavesOf(MACHINE_FILE));

/**
 * The same machine with some of its values changed: how a remedy is tried before it is told. A measured value becomes one
 * reading. Whether the values go together is not asked.
 */
export function withValues(machine: Machine, changes: Changes): Machine {
  return resolveMachine(valuesWith(machine.values, changes), machine.assumed);
}

function valuesWith(values: MachineValues, changes: Changes): MachineValues {
  const caliperError = values.measuring.caliper_error;
  return Object.entries(changes).reduce<MachineValues>((so, [key, value]) => {
    const measured = LEAVES.get(key)?.kind === 'reading' && typeof value === 'number';
    return put(so, key.split('.'), measured ? readingOf([value], caliperError) : value);
  }, values);
}

function put<T extends object>(group: T, [name, ...below]: readonly string[], value: unknown): T {
  const inner = (group as Record<string, unknown>)[name!];
  return { ...group, [name!]: below.length === 0 ? value : put((inner ?? {}) as object, below, value) };
}

/**
 * A trial, where the machine file may hold these values and something then holds; else none.
 * @param what in short words, as `a tube of 653 mm`
 */
export function attempt(
  machine: Machine,
  what: string,
  changes: Changes,
  holds: (tried: Machine) => boolean,
): readonly Trial[] {
  const entries = Object.entries(changes);
  const values = valuesWith(machine.values, changes);
  if (!entries.every(([key, value]) => inRange(key, value))) return [];
  if (RULES.some(({ check }) => check(values) !== undefined)) return [];
  if (!holds(resolveMachine(values, machine.assumed))) return [];
  return [{ what, values: entries.map(([key, value]) => ({ key, value, unit: unitOf(key) })) }];
}

function unitOf(key: string): string {
  const leaf = LEAVES.get(key);
  return leaf && 'unit' in leaf ? leaf.unit : '';
}

function inRange(key: string, value: number | string): boolean {
  const leaf = LEAVES.get(key);
  if (!leaf) throw new RangeError(`no key of a machine file: ${key}`);
  if ('range' in leaf) return typeof value === 'number' && value >= leaf.range.min && value <= leaf.range.max;
  return leaf.kind !== 'choice' || leaf.choices.includes(String(value));
}

export function withTubeLength(machine: Machine, length: number): Machine {
  return withValues(machine, { 'column.tube.length': length });
}

/**
 * The value closest to `from` at which something holds, between `from` (where it does not) and `to`, found by halving;
 * undefined when it does not hold at `to` either. What holds must go on holding from there to `to`.
 * @param step to which the answer is rounded, away from `from`
 */
export function nearestThatHolds(
  from: number,
  to: number,
  step: number,
  holds: (value: number) => boolean,
): number | undefined {
  if (!holds(to)) return undefined;
  let [bad, good] = [from, to];
  while (Math.abs(good - bad) > step / 8) {
    const middle = (bad + good) / 2;
    if (holds(middle)) good = middle;
    else bad = middle;
  }
  const rounded = (to > from ? Math.ceil(good / step) : Math.floor(good / step)) * step;
  return Math.abs(rounded - from) > Math.abs(to - from) ? to : rounded;
}

/** mm, how closely a remedy tells a length. */
const lengthStep = (mm: number) => (mm < 10 ? 0.01 : 0.1);
/** What is left over by binary numbers. */
const BINARY = 1e-6;

/** A length (mm) as a remedy tells it, at least as long. */
export function lengthUp(mm: number): number {
  const step = lengthStep(mm);
  return Number((Math.ceil(mm / step - BINARY) * step).toFixed(2));
}

/** A length (mm) as a remedy tells it, at most as long. */
export function lengthDown(mm: number): number {
  const step = lengthStep(mm);
  return Number((Math.floor(mm / step + BINARY) * step).toFixed(2));
}

/** A length as the builder thinks of it: mm, and inches beside them where the machine file is in inches or feet. */
export function lengthText(machine: Machine, mm: number): string {
  const { units } = machine.values;
  const text = `${Number(mm.toFixed(mm < 10 ? 2 : 1))} mm`;
  return units === 'in' || units === 'ft' ? `${text} (${Number((mm / 25.4).toFixed(2))} in)` : text;
}
