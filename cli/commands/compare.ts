import { compareOrders, type Ledger, type MadePart, ordersFor, parseLedger } from '../../parts/index.js';
import { EXIT, InputError } from '../exit.js';
import { readText } from '../files.js';
import { machineFromText, openMachine } from '../machine-file.js';
import { paint } from '../print.js';
import { changesText } from './make.js';

/** What changes from a second file, or from what a ledger says was made, to the first. */
export function compare(path: string, other: string, options: { readonly json?: boolean }): number {
  const { machine } = openMachine(path);
  const before = madeBefore(other);
  const changes = compareOrders(before, ordersFor(machine));
  if (options.json) {
    process.stdout.write(`${JSON.stringify({ machine: machine.name, from: other, parts: changes }, null, 1)}\n`);
    return EXIT.done;
  }
  const again = changes.filter(({ verdict }) => verdict === 'print again' || verdict === 'new').length;
  const summary = again === 0 ? 'Nothing has to be printed again.' : `${again} of ${changes.length} parts to print.`;
  process.stdout.write(`${paint(`From ${other} to ${path}`, 'bold')}\n${changesText(changes).join('\n')}\n${summary}\n`);
  return EXIT.done;
}

/** The parts of a ledger, or those a machine file asks for. @throws InputError */
function madeBefore(path: string): readonly MadePart[] {
  const text = readText(path);
  const ledger = asLedger(text, path);
  if (ledger) return ledger.parts;
  return ordersFor(machineFromText(path, text).machine).map(({ part, dimensions, code }) => ({
    id: part.id,
    revision: part.revision,
    code,
    dimensions,
  }));
}

/** A JSON file with a `kind` is a ledger or nothing we know; any other is a machine file. */
function asLedger(text: string, path: string): Ledger | undefined {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    return undefined;
  }
  if (typeof value !== 'object' || value === null || !('kind' in value)) return undefined;
  try {
    return parseLedger(text);
  } catch (error) {
    throw new InputError(`${path}: not a ledger of this program: ${(error as Error).message}`);
  }
}
