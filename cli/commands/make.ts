import { join } from 'node:path';
import {
  buildSheet,
  byGravity,
  compareOrders,
  type Finding,
  isToPrint,
  LEDGER_FILE,
  nearest,
  openWorkshop,
  type PartChange,
  printabilityOfStl,
} from '../../parts/index.js';
import { COUPON_LIST } from '../coupon-files.js';
import { EXIT, InputError } from '../exit.js';
import { defaultFolder, withFolder } from '../folder.js';
import { openMachine } from '../machine-file.js';
import { measureWays } from '../measure-ways.js';
import { block, paint, printJson, printText, wrap } from '../print.js';
import { Progress } from '../progress.js';
import { reportOn } from '../report.js';
import {
  assumedText,
  cautionsText,
  changesText,
  estimateTold,
  findingsText,
  partsText,
  predictedText,
  printsText,
} from '../report-text.js';
import { BUILD_SHEET, type Made, type Wanted, writeParts } from '../write-parts.js';

export interface MakeOptions {
  readonly out?: string;
  readonly only?: readonly string[];
  readonly accept?: readonly string[];
  /** Whether ways are measured on the solids. */
  readonly ways?: boolean;
  readonly json?: boolean;
}

/** Writes parts, notes for the build and the ledger; nothing while a danger is not accepted. */
export async function make(path: string, options: MakeOptions): Promise<number> {
  const { machine } = openMachine(path);
  const { report: before, orders } = reportOn(machine);
  const report = {
    ...before,
    findings: [...before.findings, ...(options.ways === false ? [] : await measureWays(machine))].sort(
      byGravity,
    ),
  };
  const folder = options.out ?? defaultFolder(path);
  const accepted = options.accept ?? [];
  mustKnow(
    'finding',
    accepted,
    report.findings.map(({ id }) => id),
  );
  const only = oneOf(options.only ?? []);
  mustKnow(
    'part',
    options.only ?? [],
    orders.map(({ part }) => part.id),
  );

  const barring = report.findings.filter(
    ({ id, severity }) => severity === 'danger' && !accepted.includes(id),
  );
  const head = (findings: readonly Finding[]) => [
    paint(report.machine, 'bold'),
    predictedText(report.predicted),
    findingsText(findings),
  ];
  if (barring.length > 0) {
    if (options.json) printJson({ ...report, folder: null, made: [], prints: [], ledger: null });
    else printText([...head(report.findings), refusalText(barring), cautionsText()]);
    return EXIT.danger;
  }

  const wanted: Wanted = {
    machine: machine.name,
    orders,
    measure: (order, bytes) => printabilityOfStl(machine, order, bytes),
    sheet: (made, prints) => buildSheet(machine, orders, { made, findings: report.findings, prints }),
    only,
  };
  const progress = new Progress();
  const tools = { openWorkshop, progress: progress.step.bind(progress) };
  const isOurs = (names: readonly string[]) => names.includes(LEDGER_FILE) || names.includes(COUPON_LIST);
  const { made, ledger, prints } = await withFolder(folder, isOurs, () =>
    writeParts(folder, wanted, tools),
  ).finally(() => progress.end());
  // What stands in the folder was measured there: it bars nothing, the files are what they should be.
  const printed = prints.flatMap((each) => each.findings);
  const findings = [...report.findings, ...printed];
  if (options.json) {
    printJson({
      ...report,
      findings,
      folder,
      made,
      prints: prints.map(({ part, estimate }) => ({ id: part, estimate: estimateTold(estimate) })),
      ledger: { parts: ledger.parts.length, made: ledger.made.length },
    });
  } else {
    printText([
      // What prints as it should is in the table of parts.
      ...head([...report.findings, ...printed.filter(({ severity }) => severity !== 'ok')]),
      partsText(report.parts),
      madeText(made, folder),
      printsText(orders, prints),
      ...acceptedText(findings),
      ...staleText(compareOrders(ledger.parts, orders)),
      assumedText(report.assumed),
      cautionsText(),
    ]);
  }
  return EXIT.done;
}

/** @throws InputError when `--only` was given more than once: it makes one part */
function oneOf(only: readonly string[]): string | undefined {
  if (only.length > 1)
    throw new InputError(`--only makes one part; given were ${only.join(', ')}. Leave it out to make all`);
  return only[0];
}

/** @throws InputError naming the nearest known word */
function mustKnow(what: string, given: readonly string[], known: readonly string[]): void {
  for (const id of given) {
    if (known.includes(id)) continue;
    const near = nearest(id, known);
    throw new InputError(
      `no ${what} "${id}" here${near ? `; did you mean ${near}?` : `; known: ${known.join(', ')}`}`,
    );
  }
}

function refusalText(barring: readonly Finding[]): string {
  const count = barring.length === 1 ? 'one finding is danger' : `${barring.length} findings are danger`;
  const accept = barring.map(({ id }) => `--accept ${id}`).join(' ');
  return wrap(
    `Nothing was written: ${count}. Change the machine as the remedy says, or accept what will happen with ${accept}`,
  );
}

/** Made in spite of a danger: said once more, where the files are named. */
function acceptedText(findings: readonly Finding[]): string[] {
  const dangers = findings.filter(({ severity }) => severity === 'danger').map(({ id }) => id);
  return dangers.length > 0
    ? [wrap(`Made in spite of ${dangers.join(', ')}; ${BUILD_SHEET} says so too.`)]
    : [];
}

/** After `--only`: the other parts that this machine needs printed. */
function staleText(changes: readonly PartChange[]): string[] {
  const again = changes.filter(isToPrint).map(({ id }) => id);
  return again.length > 0
    ? [wrap(`Not made in this run, and still to be made for this machine: ${again.join(', ')}`)]
    : [];
}

function madeText(made: readonly Made[], folder: string): string {
  const written = made.filter((part) => part.written).length;
  const restored = made.filter((part) => part.written && part.verdict === 'keep').map(({ file }) => file);
  const notes = [
    `${written} of ${made.length} files written. Every one was read back: closed, and as its part states.`,
    ...(restored.length > 0 ? [`Missing or altered, made again as they were: ${restored.join(', ')}`] : []),
    `Notes for the build: ${join(folder, BUILD_SHEET)}`,
  ];
  return [paint(`Made in ${folder}`, 'bold'), changesText(made), block(notes, 2)].join('\n');
}
