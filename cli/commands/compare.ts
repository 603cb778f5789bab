import { compareOrders, type MadePart, madePart, ordersFor } from '../../parts/index.js';
import { EXIT } from '../exit.js';
import { readText } from '../files.js';
import { ledgerFrom } from '../ledger-file.js';
import { machineFromText, openMachine } from '../machine-file.js';
import { paint, printJson } from '../print.js';
import { changesText } from '../report-text.js';

/** What changes from a second file, or from what a ledger says was made, to the first. */
export function compare(path: string, other: string, options: { readonly json?: boolean }): number {
  const { machine } = openMachine(path);
  const orders = ordersFor(machine);
  const changes = compareOrders(madeBefore(other), orders);
  if (options.json) {
    printJson({ machine: machine.name, from: other, parts: changes });
    return EXIT.done;
  }
  const again = changes.filter(({ verdict }) => verdict === 'print again' || verdict === 'new').length;
  const summary = `${again === 0 ? 'none' : again} of ${orders.length} parts to print`;
  const head = paint(`From ${other} to ${path}: ${summary}`, 'bold');
  process.stdout.write(`${head}\n${changesText(changes)}\n`);
  return EXIT.done;
}

/** The parts of a ledger, or those a machine file asks for. @throws InputError */
function madeBefore(path: string): readonly MadePart[] {
  const text = readText(path);
  if (isLedger(text)) return ledgerFrom(path, text).parts;
  return ordersFor(machineFromText(path, text).machine).map(madePart);
}

/** A JSON file with a `kind` is a ledger or nothing we know; any other is a machine file. */
function isLedger(text: string): boolean {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null && 'kind' in value;
  } catch {
    return false;
  }
}
