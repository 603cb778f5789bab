import {
  type Assumed,
  formatProblem,
  type Machine,
  type Problem,
  readMachineFile,
  resolveMachine,
} from '../parts/index.js';
import { InputError } from './exit.js';
import { readText } from './files.js';

/** A machine file that cannot be used: every problem of it, in the order of its lines. */
export class FileProblems extends InputError {
  constructor(readonly problems: readonly Problem[]) {
    super(problems.map(formatProblem).join('\n'));
  }
}

export interface OpenedMachine {
  readonly path: string;
  readonly machine: Machine;
  readonly assumed: readonly Assumed[];
}

/** @throws FileProblems naming everything that is wrong with the file; InputError when it cannot be read */
export function openMachine(path: string): OpenedMachine {
  return machineFromText(path, readText(path));
}

export function machineFromText(path: string, text: string): OpenedMachine {
  const read = readMachineFile(text, path);
  if (!read.ok) throw new FileProblems(read.problems);
  return { path, machine: resolveMachine(read.values, read.assumed), assumed: read.assumed };
}
