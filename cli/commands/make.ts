import { join } from 'node:path';
import { buildSheet, type Finding, LEDGER_FILE, nearest, openWorkshop } from '../../parts/index.js';
import { EXIT, InputError } from '../exit.js';
import { defaultFolder, withFolder } from '../folder.js';
import { openMachine } from '../machine-file.js';
import { block, paint, printJson, printText, wrap } from '../print.js';
import { Progress } from '../progress.js';
import { reportOn } from '../report.js';
import {
  assumedText,
  cautionsText,
  changesText,
  findingsText,
  partsText,
  predictedText,
} from '../report-text.js';
import { BUILD_SHEET, type Made, writeParts } from '../write-parts.js';

export interface MakeOptions {
  readonly out?: string;
  readonly only?: string;
  readonly accept?: readonly string[];
  readonly json?: boolean;
}

/** Writes parts, notes for the build and the ledger; nothing while a danger is not accepted. */
export async function make(path: string, options: MakeOptions): Promise<number> {
  const { machine } = openMachine(path);
  const { report, orders } = reportOn(machine);
  const folder = options.out ?? defaultFolder(path);
  const accepted = options.accept ?? [];
  mustKnow(
    'finding',
    accepted,
    report.findings.map(({ id }) => id),
  );
  if (options.only !== undefined)
    mustKnow(
      'part',
      [options.only],
      orders.map(({ part }) => part.id),
    );

  const barring = report.findings.filter(
    ({ id, severity }) => severity === 'danger' && !accepted.includes(id),
  );
  const head = [
    paint(report.machine, 'bold'),
    predictedText(report.predicted),
    findingsText(report.findings),
  ];
  if (barring.length > 0) {
    if (options.json) printJson({ ...report, folder: null, made: [], ledger: null });
    else printText([...head, refusalText(barring), cautionsText()]);
    return EXIT.danger;
  }

  const wanted = { machine: machine.name, orders, sheet: buildSheet(machine, orders), only: options.only };
  const progress = new Progress();
  const tools = { openWorkshop, progress: progress.step.bind(progress) };
  const isOurs = (names: readonly string[]) => names.includes(LEDGER_FILE);
  const { made, ledger } = await withFolder(folder, isOurs, () => writeParts(folder, wanted, tools)).finally(
    () => progress.end(),
  );
  if (options.json) {
    printJson({ ...report, folder, made, ledger: { parts: ledger.parts.length, made: ledger.made.length } });
  } else {
    printText([
      ...head,
      partsText(report.parts),
      madeText(made, folder),
      assumedText(report.assumed),
      cautionsText(),
    ]);
  }
  return EXIT.done;
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
