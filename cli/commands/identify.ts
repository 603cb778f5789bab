import { existsSync } from 'node:fs';
import { join } from 'node:path';
import {
  compareOrders,
  couponOrder,
  LEDGER_FILE,
  type MadePart,
  madePart,
  nearest,
  ordersFor,
  type PartOrder,
  showDimension,
  unitShown,
} from '../../parts/index.js';
import { EXIT, InputError } from '../exit.js';
import { defaultFolder } from '../folder.js';
import { readLedger } from '../ledger-file.js';
import { openMachine } from '../machine-file.js';
import { paint, printJson, table } from '../print.js';
import { changesText } from '../report-text.js';

/** Which part carries a code, what it was made with, and whether it still fits a machine file. */
export function identify(
  code: string,
  path: string,
  options: { readonly out?: string; readonly json?: boolean },
): number {
  const { machine } = openMachine(path);
  const orders = [...ordersFor(machine), couponOrder(machine)];
  const wanted = code.trim().toUpperCase();
  const found = lookUpCode(wanted, orders, join(options.out ?? defaultFolder(path), LEDGER_FILE));
  const order = orders.find(({ part }) => part.id === found.id);
  const [change] = order ? compareOrders([found], [order]) : [];
  const good = change !== undefined && change.code === found.code;

  if (options.json) {
    const { id, dimensions } = found;
    printJson({ code: wanted, part: id, dimensions, good, changes: change?.changes ?? [] });
    return EXIT.done;
  }
  const verdict = good
    ? `Still good for ${path}.`
    : `No longer right for ${path}${change ? ':' : ', which has no such part.'}`;
  const lines = [
    paint(`${wanted} is a ${found.id}, made with`, 'bold'),
    dimensionsText(found, order),
    verdict,
  ];
  if (change && !good) lines.push(changesText([change]));
  process.stdout.write(`${lines.join('\n')}\n`);
  return EXIT.done;
}

function dimensionsText({ dimensions }: MadePart, order: PartOrder | undefined): string {
  const rows = Object.entries(dimensions).map(([key, value]) => {
    const field = order?.part.fields[key];
    return [field?.meaning ?? key, `${showDimension(value)} ${unitShown(field?.unit)}`.trimEnd()];
  });
  return table(['', ''], rows);
}

/** From the ledger, which keeps every set ever made, else from what the file itself asks for. @throws InputError */
function lookUpCode(code: string, orders: readonly PartOrder[], ledgerPath: string): MadePart {
  const isThere = existsSync(ledgerPath);
  const all = [...(isThere ? readLedger(ledgerPath).made : []), ...orders.map(madePart)];
  const found = all.find((part) => part.code === code);
  if (found) return found;
  const near = nearest(
    code,
    all.map((part) => part.code),
  );
  const where = isThere
    ? `${ledgerPath} or the machine file`
    : `the machine file, and there is no ${ledgerPath} (--out names another folder)`;
  throw new InputError(`no part with the code "${code}" in ${where}${near ? `; did you mean ${near}?` : ''}`);
}
