import {
  type Assumed,
  CAUTIONS,
  DISCHARGE,
  describeChange,
  type Finding,
  findingNumbers,
  number,
  type PartChange,
  type PartOrder,
  type Prediction,
  type Printability,
  type PrintEstimate,
  printCells,
  printTotal,
  QUANTITIES,
  type Severity,
} from '../parts/index.js';
import { block, type Colour, paint, table, wrap } from './print.js';
import type { PartReport } from './report.js';

const heading = (text: string) => paint(text, 'bold');

/** What the machine will do, and at which voltage each way gives way: weakest first. */
export function predictedText(predicted: Prediction): string {
  const rows = QUANTITIES.map(([key, name]) => {
    const { low, likely, high, unit, dominated_by } = predicted[key];
    return [name, number(low), number(likely), number(high), unit, dominated_by];
  });
  const limits = [...predicted.limits].sort((a, b) => a.voltage.likely - b.voltage.likely);
  const ways = limits.map(({ way, voltage: { low, likely, high } }) => [
    number(low),
    number(likely),
    number(high),
    number(likely / predicted.discharge),
    way,
  ]);
  return [
    heading('Predicted'),
    table(['', 'low', 'likely', 'high', '', 'depends most on'], rows),
    '',
    heading(
      `Ways, weakest first: kV at which each gives way; meant to discharge at ${number(predicted.discharge)} kV`,
    ),
    table(['low', 'likely', 'high', 'ratio', ''], ways),
    '',
    ...predicted.basis.map((line) => block([line], 2)),
    block([fieldText(predicted)], 2),
  ].join('\n');
}

/** How well the field is known as a problem of mathematics, and what was idealised before. */
function fieldText({ field, idealised }: Prediction): string {
  const share = (error: number) => `${number(100 * error, 1)} %`;
  return `Solved with ${field.unknowns} unknowns; estimated error of the capacitance ${share(field.capacitance_error)}, of the greatest field ${share(field.field_error)}. Idealised: ${idealised.join('; ')}.`;
}

const MARKS: Record<Severity, string> = { danger: '!!', caution: '! ', ok: '  ' };
const COLOURS: Record<Severity, Colour> = { danger: 'red', caution: 'yellow', ok: 'green' };
/** Where a finding's text begins: after its mark and severity. */
const INDENT = 13;

/** Findings, gravest first: what needs a hand in full, the rest with their numbers in one line each. */
export function findingsText(findings: readonly Finding[]): string {
  const count = (severity: Severity) =>
    `${findings.filter((finding) => finding.severity === severity).length} ${severity}`;
  const grave = findings.filter(({ severity }) => severity !== 'ok').map(graveText);
  const rows = findings
    .filter(({ severity }) => severity === 'ok')
    .map((finding) => ['ok', ...numbersOf(finding), finding.id]);
  return [
    heading(`Findings: ${count('danger')}, ${count('caution')}, ${count('ok')}`),
    ...grave,
    ...(rows.length > 0 ? [table(['', 'measured', 'required', '', 'to spare', ''], rows)] : []),
  ].join('\n');
}

/** Ways that were measured on the solids, weakest first, each with what it runs along. */
export function waysText(findings: readonly Finding[]): string {
  const rows = [...findings]
    .sort((a, b) => a.margin - b.margin)
    .flatMap((finding) => {
      const { at, title } = finding;
      if (!at || !('path' in at)) return [];
      const [measured, required, unit] = numbersOf(finding);
      // What a title says after its colon is told in the heading.
      const what = title.split(': ')[0];
      return [block([`${what}: ${measured}, ${required} ${unit}`], 2), block([at.surfaces.join(' > ')], 6)];
    });
  return [
    heading('Ways measured on the solids, least to spare first: what each holds, and what it runs along'),
    ...rows,
  ].join('\n');
}

function graveText(finding: Finding): string {
  const { id, severity, title, basis, status, remedy } = finding;
  const [measured, required, unit, spare] = numbersOf(finding);
  const head = paint(`  ${MARKS[severity]} ${severity.padEnd(INDENT - 5)}`, COLOURS[severity]) + id;
  const numbers = `${measured} ${unit}`.trim() + `, ${required} ${unit}`.trimEnd() + (spare && ` (${spare})`);
  const paragraphs = [
    `${title}: ${numbers}.`,
    ...(remedy ? [`Remedy: ${remedy}.`] : []),
    `Basis: ${basis} [${status}].`,
  ];
  return `${head}\n${block(paragraphs, INDENT)}`;
}

/** A finding's numbers as the cells of a table. */
function numbersOf(finding: Finding): [string, string, string, string] {
  const { measured, bound, unit, spare } = findingNumbers(finding);
  return [measured, bound, unit, spare];
}

export function partsText(parts: readonly PartReport[]): string {
  const rows = parts.map(({ id, code, copies, tool, bounds, volume, mass }) => {
    const size = bounds.max.map((max, i) => (max - bounds.min[i]!).toFixed(0)).join(' x ');
    return [
      id,
      code,
      String(copies),
      size,
      (volume / 1000).toFixed(1),
      mass === null ? '?' : mass.toFixed(0),
      tool ? 'tool' : '',
    ];
  });
  return `${heading('Parts')}\n${table(['', 'code', 'copies', 'size, mm', 'cm3', 'g solid', ''], rows)}`;
}

/** What becomes of each part, and every dimension that changed, from what to what. */
export function changesText(changes: readonly PartChange[]): string {
  const longest = Math.max(0, ...changes.map(({ id }) => id.length));
  return changes
    .map(({ verdict, id, code, oldCode, revised, more, changes: dimensions }) => {
      const word = paint(verdict.padEnd(16), verdict === 'keep' ? 'green' : 'yellow');
      const told = [code, oldCode && `was ${oldCode}`, more > 0 && `${more} more`].filter(Boolean).join(', ');
      const head = `  ${word}  ${id.padEnd(longest)}  ${told}`;
      const why = [...(revised ? ['its shape was revised'] : []), ...dimensions.map(describeChange)];
      return why.length > 0 ? `${head}\n${block(why, 20)}` : head;
    })
    .join('\n');
}

export function assumedText(assumed: readonly Assumed[]): string {
  if (assumed.length === 0) return heading('Nothing was assumed: the file states every value.');
  const rows = assumed.map(({ key, value, unit, why }) => [key, String(value), unit, why]);
  return `${heading('Assumed, because the file does not say')}\n${table(['', '', '', ''], rows)}`;
}

export function cautionsText(): string {
  const lines = CAUTIONS.map((line) => `  - ${wrap(line, 4)}`);
  const before = DISCHARGE.map((line, i) => `  ${i + 1}. ${wrap(line, 5)}`);
  return [heading('Cautions'), ...lines, '', heading('Before touching'), ...before].join('\n');
}

/** What a print takes, in whole minutes, m and g. */
export function estimateTold({ mass, filament, seconds }: PrintEstimate) {
  const minutes = (time: number) => Math.round(time / 60);
  return {
    minutes: { low: minutes(seconds.low), likely: minutes(seconds.likely), high: minutes(seconds.high) },
    filament: Number(filament.toFixed(2)),
    mass: mass === undefined ? null : Number(mass.toFixed(1)),
  };
}

/** What each copy of the parts takes to print, and all of them; what was measured on their files. */
export function printsText(orders: readonly PartOrder[], prints: readonly Printability[]): string {
  const copies = (id: string) => orders.find(({ part }) => part.id === id)?.copies ?? 0;
  const mm = (value: number | undefined) => (value === undefined ? '-' : value.toFixed(1));
  const rows = prints.map(({ part, estimate, measures: { thickness, overhang, stance } }) => [
    part,
    String(copies(part)),
    ...printCells(estimate),
    mm(thickness.wall?.width),
    mm(thickness.gap?.width),
    mm(overhang.widest?.span),
    stance.contact.toFixed(0),
  ]);
  const all = ['together', '', ...printCells(printTotal(orders, prints)), '', '', '', ''];
  const head = ['', 'copies', 'g', 'm filament', 'h:min', 'wall', 'gap', 'bridge', 'mm2 on bed'];
  return `${heading('Printing, each copy; thinnest wall and gap and widest bridge in mm')}\n${table(head, [...rows, all])}`;
}
