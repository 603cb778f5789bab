import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import type { Machine } from '../../parts/machine/machine.js';
import { type MachineValues, readMachineFile } from '../../parts/machine/read.js';
import { resolveMachine } from '../../parts/machine/resolve.js';

export const STARTERS = [
  'travelling-demonstrator',
  'lecture-hall',
  'school-workshop',
  'inch-built',
  'inch-built-longer-tube',
] as const;
export type Starter = (typeof STARTERS)[number];

export function starterPath(name: Starter): string {
  return fileURLToPath(new URL(`../../cli/starters/${name}.yaml`, import.meta.url));
}

export function starterText(name: Starter): string {
  return readFileSync(starterPath(name), 'utf8');
}

/** Values of a starter, with its text changed first where a test wants another machine. */
export function starterValues(
  name: Starter,
  change: (text: string) => string = (text) => text,
): MachineValues {
  const read = readMachineFile(change(starterText(name)), `${name}.yaml`);
  if (!read.ok) throw new Error(read.problems.map((problem) => JSON.stringify(problem)).join('\n'));
  return read.values;
}

export function starterMachine(name: Starter, change?: (text: string) => string): Machine {
  return resolveMachine(starterValues(name, change), []);
}
