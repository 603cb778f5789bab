import { type Assumed, CAUTIONS, checkMachine, DISCHARGE, type Finding, type Machine, ordersFor, type PartOrder, plastic, type Prediction } from '../../parts/index.js';
import { EXIT } from '../exit.js';
import { openMachine } from '../machine-file.js';
import { number, paint, table, wrap } from '../print.js';

export interface CheckReport {
  readonly machine: string;
  readonly assumed: readonly Assumed[];
  readonly predicted: Prediction;
  readonly findings: readonly Finding[];
  readonly parts: readonly {
    readonly id: string;
    readonly code: string;
    readonly copies: number;
    readonly bounds: { readonly min: readonly number[]; readonly max: readonly number[] };
    /** mm3 */
    readonly volume: number;
    /** g, solid */
    readonly mass: number | null;
  }[];
}

/** Everything `check` says, without building a solid. */
export function reportOn(machine: Machine): CheckReport & { readonly orders: readonly PartOrder[] } {
  const { findings, prediction } = checkMachine(machine);
  const orders = ordersFor(machine);
  const density = plastic(machine.print.material).density?.value;
  return {
    machine: machine.name,
    assumed: machine.assumed,
    predicted: prediction,
    findings,
    parts: orders.map(({ part, code, stated }) => ({
      id: part.id,
      code,
      copies: part.copies,
      bounds: stated.bounds,
      volume: Math.round(stated.volume),
      mass: density === undefined ? null : Number(((stated.volume / 1000) * density).toFixed(1)),
    })),
    orders,
  };
}

export function check(path: string, options: { readonly json?: boolean }): number {
  const { machine } = openMachine(path);
  const { orders: _orders, ...report } = reportOn(machine);
  if (options.json) process.stdout.write(`${JSON.stringify(report, null, 1)}\n`);
  else process.stdout.write(`${[heading(report), predictedText(report.predicted), findingsText(report.findings), partsText(report), assumedText(report.assumed), cautionsText()].join('\n\n')}\n`);
  return report.findings.some(({ severity }) => severity === 'danger') ? EXIT.danger : EXIT.done;
}

const heading = (report: CheckReport) => paint(report.machine, 'bold');

/** What the machine will do, low to high. */
export function predictedText(predicted: Prediction): string {
  const rows = quantities(predicted).map(([name, quantity]) => [
    name.replaceAll('_', ' '),
    number(quantity.low),
    number(quantity.likely),
    number(quantity.high),
    quantity.unit,
    quantity.dominated_by,
  ]);
  const limits = predicted.limits.map(({ way, voltage }) => [
    way,
    ...[voltage.low, voltage.likely, voltage.high].map((value) => number(value)),
  ]);
  return [
    paint('Predicted (closed form, field not solved)', 'bold'),
    table(['', 'low', 'likely', 'high', '', 'dominated by'], rows),
    '',
    paint('Gives way at, kV', 'bold'),
    table(['way', 'low', 'likely', 'high'], limits),
  ].join('\n');
}

type Range = { low: number; likely: number; high: number; unit: string; dominated_by: string };

function quantities(predicted: Prediction): [string, Range][] {
  return Object.entries(predicted).filter(
    (entry): entry is [string, Range] =>
      typeof entry[1] === 'object' && entry[1] !== null && 'likely' in entry[1] && 'unit' in entry[1],
  );
}

const MARKS = { danger: '!! danger', caution: ' ! caution', ok: '   ok' } as const;
const COLOURS = { danger: 'red', caution: 'yellow', ok: 'green' } as const;

/** Findings, gravest first; those that are well in one line each. */
export function findingsText(findings: readonly Finding[]): string {
  const lines = findings.map((finding) => {
    const { severity, title, measured, required, unit, sense } = finding;
    const word = sense === 'min' ? 'at least' : 'at most';
    const head = `${paint(MARKS[severity].padEnd(10), COLOURS[severity])} ${finding.id}`;
    const numbers = `${number(measured)} ${unit}, ${word} ${number(required)} ${unit}`;
    if (severity === 'ok') return `${head}: ${numbers}`;
    const detail = [wrap(`${title}: ${numbers}. Basis: ${finding.basis} (${finding.status}).`, 11)];
    if (finding.remedy) detail.push(wrap(`Remedy: ${finding.remedy}`, 11));
    return [head, ...detail].join('\n           ');
  });
  return [paint('Findings', 'bold'), ...lines].join('\n');
}

export function partsText(report: CheckReport): string {
  const rows = report.parts.map(({ id, code, copies, bounds, volume, mass }) => {
    const size = bounds.max.map((max, i) => (max - bounds.min[i]!).toFixed(0)).join(' x ');
    return [id, code, String(copies), size, (volume / 1000).toFixed(1), mass === null ? '?' : mass.toFixed(0)];
  });
  return `${paint('Parts', 'bold')}\n${table(['part', 'code', 'copies', 'size mm', 'cm3', 'g solid'], rows)}`;
}

export function assumedText(assumed: readonly Assumed[]): string {
  if (assumed.length === 0) return 'Nothing was assumed.';
  const rows = assumed.map(({ key, value, unit, why }) => [key, `${value}${unit ? ` ${unit}` : ''}`, why]);
  return `${paint('Assumed, because the file does not say', 'bold')}\n${table(['key', 'value', 'why'], rows)}`;
}

export function cautionsText(): string {
  const lines = CAUTIONS.map((line) => `- ${wrap(line, 2)}`);
  const before = DISCHARGE.map((line, i) => `${i + 1}. ${wrap(line, 3)}`);
  return [paint('Cautions', 'bold'), ...lines, paint('Before touching', 'bold'), ...before].join('\n');
}
