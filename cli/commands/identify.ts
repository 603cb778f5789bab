import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { compareOrders, type Dimensions, LEDGER_FILE, type MadePart, nearest, ordersFor, type PartOrder, parseLedger } from '../../parts/index.js';
import { EXIT, InputError } from '../exit.js';
import { readText } from '../files.js';
import { openMachine } from '../machine-file.js';
import { paint, table } from '../print.js';
import { changesText, defaultFolder } from './make.js';

/** Which part carries a code, what it was made with, and whether it still fits a machine file. */
export function identify(code: string, path: string, options: { readonly out?: string; readonly json?: boolean }): number {
  const { machine } = openMachine(path);
  const orders = ordersFor(machine);
  const wanted = code.trim().toUpperCase();
  const found = lookUpCode(wanted, orders, join(options.out ?? defaultFolder(path), LEDGER_FILE));
  const order = orders.find(({ part }) => part.id === found.id);
  const [change] = order ? compareOrders([found], [order]) : [];
  const good = change?.verdict === 'keep';

  if (options.json) {
    const changes = change?.changes ?? [];
    process.stdout.write(`${JSON.stringify({ code: wanted, part: found.id, dimensions: found.dimensions, good, changes }, null, 1)}\n`);
    return EXIT.done;
  }
  const lines = [
    paint(`${wanted} is a ${found.id}`, 'bold'),
    dimensionsTable(found.dimensions, order),
    good ? `Still good for ${path}.` : `No longer right for ${path}:`,
    ...(good || !change ? [] : changesText([change])),
  ];
  process.stdout.write(`${lines.join('\n')}\n`);
  return EXIT.done;
}

function dimensionsTable(dimensions: Dimensions, order: PartOrder | undefined): string {
  const rows = Object.entries(dimensions).map(([key, value]) => {
    const field = order?.part.fields[key];
    const shown = typeof value === 'object' ? value.join(' ') : String(value);
    return [field?.meaning ?? key, shown, field?.unit ?? ''];
  });
  return table(['made with', '', ''], rows);
}

/** From the ledger, which keeps every set ever made, else from what the file itself asks for. @throws InputError */
function lookUpCode(code: string, orders: readonly PartOrder[], ledgerPath: string): MadePart {
  const current = orders.map(({ part, dimensions, code: own }) => ({ id: part.id, revision: part.revision, code: own, dimensions }));
  let made: readonly MadePart[] = [];
  if (existsSync(ledgerPath)) {
    try {
      made = parseLedger(readText(ledgerPath)).made;
    } catch (error) {
      throw new InputError(`${ledgerPath}: not a ledger of this program: ${(error as Error).message}`);
    }
  }
  const all = [...made, ...current];
  const found = all.find((part) => part.code === code);
  if (found) return found;
  const near = nearest(code, all.map((part) => part.code));
  const where = existsSync(ledgerPath) ? `${ledgerPath} or the machine file` : `the machine file (there is no ${ledgerPath})`;
  throw new InputError(`no part with the code "${code}" in ${where}${near ? `; did you mean ${near}?` : ''}`);
}
