import { existsSync, rmSync } from 'node:fs';
import { basename, dirname, extname, join } from 'node:path';
import {
  buildSheet,
  compareOrders,
  describeChange,
  type Finding,
  LEDGER_FILE,
  type Ledger,
  type LedgerRow,
  ledgerText,
  nearest,
  nextLedger,
  openWorkshop,
  type PartChange,
  type PartOrder,
  parseLedger,
  proveStl,
} from '../../parts/index.js';
import { EXIT, InputError, OutputError } from '../exit.js';
import { Batch, readBytes, readText, sha256 } from '../files.js';
import { withFolder } from '../folder.js';
import { openMachine } from '../machine-file.js';
import { paint, wrap } from '../print.js';
import { cautionsText, findingsText, partsText, predictedText, reportOn } from './check.js';

export interface MakeOptions {
  readonly out?: string;
  readonly only?: string;
  readonly accept: readonly string[];
  readonly json?: boolean;
}

const BUILD_SHEET = 'build.txt';

/** One part of a run: what was said about it and whether its file was written now. */
interface Made extends PartChange {
  readonly file: string;
  readonly written: boolean;
  readonly closed: boolean;
}

/** Where `make` puts things when nothing else is said: a folder named after the file, beside it. */
export function defaultFolder(path: string): string {
  const name = basename(path, extname(path));
  const folder = join(dirname(path), name);
  return folder === path ? `${folder}-parts` : folder;
}

export async function make(path: string, options: MakeOptions): Promise<number> {
  const { machine } = openMachine(path);
  const report = reportOn(machine);
  const folder = options.out ?? defaultFolder(path);
  mustKnow('finding', options.accept, report.findings.map(({ id }) => id));
  if (options.only !== undefined) mustKnow('part', [options.only], report.orders.map(({ part }) => part.id));

  const barring = report.findings.filter(({ id, severity }) => severity === 'danger' && !options.accept.includes(id));
  if (barring.length > 0) {
    refuse(report, barring, options);
    return EXIT.danger;
  }

  const { made, ledger } = await withFolder(
    folder,
    (names) => names.includes(LEDGER_FILE),
    () => writeParts(folder, report.orders, options.only, machine.name, buildSheet(machine, report.orders)),
  );
  const { orders: _orders, ...said } = report;
  if (options.json) {
    process.stdout.write(`${JSON.stringify({ ...said, folder, made, ledger: { parts: ledger.parts.length, made: ledger.made.length } }, null, 1)}\n`);
  } else {
    const text = [paint(machine.name, 'bold'), predictedText(report.predicted), findingsText(report.findings), partsText(report), madeText(made, folder), cautionsText()];
    process.stdout.write(`${text.join('\n\n')}\n`);
  }
  return EXIT.done;
}

function mustKnow(what: string, given: readonly string[], known: readonly string[]): void {
  for (const id of given) {
    if (known.includes(id)) continue;
    const near = nearest(id, known);
    throw new InputError(
      `no ${what} "${id}" here${near ? `; did you mean "${near}"?` : ''} Known: ${known.join(', ')}`,
    );
  }
}

function refuse(report: ReturnType<typeof reportOn>, barring: readonly Finding[], options: MakeOptions): void {
  if (options.json) {
    const { orders: _orders, ...said } = report;
    process.stdout.write(`${JSON.stringify({ ...said, folder: null, made: [], ledger: null }, null, 1)}\n`);
    return;
  }
  const accept = barring.map(({ id }) => `--accept ${id}`).join(' ');
  const text = [
    paint(report.machine, 'bold'),
    predictedText(report.predicted),
    findingsText(report.findings),
    wrap(`Nothing was written: ${barring.length === 1 ? 'one finding is' : `${barring.length} findings are`} danger. Change the machine as the remedy says, or accept what will happen:  ${accept}`),
    cautionsText(),
  ];
  process.stdout.write(`${text.join('\n\n')}\n`);
}

async function writeParts(
  folder: string,
  orders: readonly PartOrder[],
  only: string | undefined,
  machine: string,
  sheet: string,
): Promise<{ made: Made[]; ledger: Ledger }> {
  const ledgerPath = join(folder, LEDGER_FILE);
  const previous = existsSync(ledgerPath) ? readLedger(ledgerPath) : undefined;
  const known = new Map((previous?.parts ?? []).map((row) => [row.id, row]));
  const wanted = orders.filter(({ part }) => only === undefined || part.id === only);
  const changes = compareOrders(previous?.parts ?? [], orders).filter(({ id }) => only === undefined || id === only);

  const batch = new Batch(folder);
  const rows = new Map(known);
  const made: Made[] = [];
  try {
    let workshop: Awaited<ReturnType<typeof openWorkshop>> | undefined;
    for (const order of wanted) {
      const change = changes.find(({ id }) => id === order.part.id)!;
      const file = `${order.part.id}.stl`;
      const old = known.get(order.part.id);
      const there = readBytes(join(folder, file));
      if (change.verdict === 'keep' && old && there && sha256(there) === old.sha256) {
        made.push({ ...change, file, written: false, closed: proveStl(there, order.stated).facts.closed });
        continue;
      }
      workshop ??= await openWorkshop();
      const bytes = batch.add(file, workshop.stlOf(order));
      const { facts, complaints } = proveStl(bytes, order.stated);
      if (complaints.length > 0) {
        throw new OutputError(`${file} is not the part it should be and was not written: ${complaints.join('; ')}`);
      }
      rows.set(order.part.id, rowFor(order, file, bytes));
      made.push({ ...change, file, written: true, closed: facts.closed });
    }
    const gone = changes.filter(({ verdict }) => verdict === 'no longer needed');
    for (const change of gone) {
      made.push({ ...change, file: `${change.id}.stl`, written: false, closed: false });
      rows.delete(change.id);
    }
    const ledger = nextLedger(machine, previous, [...rows.values()]);
    addIfChanged(batch, folder, BUILD_SHEET, sheet);
    // Last: a folder's ledger never speaks of files that are not there yet.
    addIfChanged(batch, folder, LEDGER_FILE, ledgerText(ledger));
    batch.commit();
    for (const change of gone) removeOwn(folder, known.get(change.id));
    return { made, ledger };
  } finally {
    batch.drop();
  }
}

function rowFor({ part, dimensions, code }: PartOrder, file: string, bytes: Uint8Array): LedgerRow {
  return { id: part.id, revision: part.revision, code, dimensions, file, sha256: sha256(bytes) };
}

function addIfChanged(batch: Batch, folder: string, name: string, text: string): void {
  const there = readBytes(join(folder, name));
  if (there && Buffer.from(there).toString('utf8') === text) return;
  batch.add(name, text);
}

/** A file no part needs any more goes, unless somebody changed it. */
function removeOwn(folder: string, row: LedgerRow | undefined): void {
  if (!row) return;
  const path = join(folder, row.file);
  const bytes = readBytes(path);
  if (bytes && sha256(bytes) === row.sha256) rmSync(path);
}

/** @throws OutputError when the folder’s ledger cannot be understood: nothing is written over it */
export function readLedger(path: string): Ledger {
  try {
    return parseLedger(readText(path));
  } catch (error) {
    throw new OutputError(`${path} is not a ledger of this program (${(error as Error).message}); nothing was written`);
  }
}

/** What became of each part, with the dimensions that changed. */
export function changesText(changes: readonly PartChange[]): string[] {
  return changes.map((change) => {
    const head = `${paint(change.verdict.padEnd(16), change.verdict === 'keep' ? 'green' : 'yellow')} ${change.id} ${change.code}`;
    const why = [
      ...(change.oldCode ? [`was ${change.oldCode}`] : []),
      ...(change.revised ? ['its shape was revised'] : []),
      ...change.changes.map(describeChange),
    ];
    return why.length > 0 ? `${head}\n                 ${wrap(why.join('; '), 17)}` : head;
  });
}

function madeText(made: readonly Made[], folder: string): string {
  const written = made.filter((part) => part.written).length;
  return [
    paint(`Made in ${folder}`, 'bold'),
    ...changesText(made),
    `${written} of ${made.length} files written, each read back and closed; notes for the build in ${join(folder, BUILD_SHEET)}.`,
  ].join('\n');
}
