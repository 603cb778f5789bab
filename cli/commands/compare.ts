import { basename } from 'node:path';
import {
  changedValues,
  checkMachine,
  compareOrders,
  isToPrint,
  LEDGER_FILE,
  type Machine,
  type MadePart,
  madePart,
  ordersFor,
  SEVERITIES,
  type Severity,
} from '../../parts/index.js';
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
  const before = comparedWith(other);
  const changes = compareOrders(before.made, orders);
  const values = before.machine && changedValues(before.machine.values, machine.values);
  const findings = before.machine && changedFindings(before.machine, machine);
  if (options.json) {
    printJson({
      machine: machine.name,
      from: other,
      values: values ?? null,
      findings: findings ?? null,
      parts: changes,
    });
    return EXIT.done;
  }
  const again = changes.filter(isToPrint).length;
  const summary = `${again === 0 ? 'none' : again} of ${orders.length} parts to print`;
  const text = [
    paint(`From ${other} to ${path}: ${summary}`, 'bold'),
    ...(values ?? []).map(({ key, from, to, unit }) =>
      `  ${key}: ${from ?? 'nothing'} -> ${to ?? 'nothing'} ${unit}`.trimEnd(),
    ),
    ...(findings ?? []).map(({ id, from, to }) => `  ${id}: ${from ?? 'nothing'} -> ${to ?? 'nothing'}`),
    changesText(changes),
  ];
  process.stdout.write(`${text.join('\n')}\n`);
  return EXIT.done;
}

interface FindingChange {
  readonly id: string;
  /** Undefined where there was no such finding. */
  readonly from: Severity | undefined;
  readonly to: Severity | undefined;
}

/** Findings whose severity differs, gravest news first. */
function changedFindings(before: Machine, after: Machine): FindingChange[] {
  const severities = (machine: Machine) =>
    new Map(checkMachine(machine).findings.map(({ id, severity }) => [id, severity]));
  const [from, to] = [severities(before), severities(after)];
  const grave = ({ to }: FindingChange) => (to ? SEVERITIES.indexOf(to) : SEVERITIES.length);
  return [...new Set([...to.keys(), ...from.keys()])]
    .map((id) => ({ id, from: from.get(id), to: to.get(id) }))
    .filter((change) => change.from !== change.to)
    .sort((a, b) => grave(a) - grave(b));
}

/** The parts of a ledger, or those a machine file asks for, then with the machine. @throws InputError */
function comparedWith(path: string): { made: readonly MadePart[]; machine?: Machine } {
  const text = readText(path);
  if (basename(path) === LEDGER_FILE || isLedger(text)) return { made: ledgerFrom(path, text).parts };
  const { machine } = machineFromText(path, text);
  return { made: ordersFor(machine).map(madePart), machine };
}

/** A file by a ledger’s name, or JSON with a `kind`, is a ledger or nothing we know; any other is a machine file. */
function isLedger(text: string): boolean {
  try {
    const value: unknown = JSON.parse(text);
    return typeof value === 'object' && value !== null && 'kind' in value;
  } catch {
    return false;
  }
}
