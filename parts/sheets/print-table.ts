import type { Printability } from '../checks/printability.js';
import type { PartOrder } from '../printed/catalog.js';
import { EXTRUSION, PRINT_OVERHEAD } from '../printed/print-time.js';

/** Hours and minutes. */
export function hoursText(seconds: number): string {
  const minutes = Math.round(seconds / 60);
  return `${Math.floor(minutes / 60)}:${String(minutes % 60).padStart(2, '0')}`;
}

/** What all copies of a part take, or all parts together. */
export interface PrintTotal {
  /** g; undefined where the plastic's density is not in stock */
  readonly mass: number | undefined;
  /** m of 1.75 mm filament */
  readonly filament: number;
  readonly seconds: { readonly low: number; readonly likely: number; readonly high: number };
}

/** Grams, metres of filament and hours of a copy or of all, as a table shows them. */
export function printCells({ mass, filament, seconds }: PrintTotal): [string, string, string] {
  return [
    mass === undefined ? '?' : mass.toFixed(mass < 10 ? 1 : 0),
    filament.toFixed(filament < 10 ? 2 : 1),
    hoursText(seconds.likely),
  ];
}

/** All copies of all parts that were measured. */
export function printTotal(
  orders: readonly Pick<PartOrder, 'part' | 'copies'>[],
  prints: readonly Pick<Printability, 'part' | 'estimate'>[],
): PrintTotal {
  const each = prints.map(({ part, estimate }) => {
    const copies = orders.find((order) => order.part.id === part)?.copies ?? 0;
    return { copies, estimate };
  });
  const sum = (of: (estimate: Printability['estimate']) => number) =>
    each.reduce((total, { copies, estimate }) => total + copies * of(estimate), 0);
  return {
    mass: each.some(({ estimate }) => estimate.mass === undefined) ? undefined : sum(({ mass }) => mass!),
    filament: sum(({ filament }) => filament),
    seconds: {
      low: sum(({ seconds }) => seconds.low),
      likely: sum(({ seconds }) => seconds.likely),
      high: sum(({ seconds }) => seconds.high),
    },
  };
}

/** Mass, filament and time of each copy, and of all of them, in columns. Empty while nothing was measured. */
export function printTable(orders: readonly PartOrder[], prints: readonly Printability[]): string[] {
  if (prints.length === 0) return [];
  const rows = orders.flatMap(({ part, copies }): string[][] => {
    const print = prints.find((each) => each.part === part.id);
    if (!print) return [];
    return [[part.id, `x${copies}`, ...printCells(print.estimate)]];
  });
  const total = printTotal(orders, prints);
  const { low, high } = total.seconds;
  const all = ['together', '', ...printCells(total)];
  return [
    'What each copy takes, measured on the files:',
    ...aligned([['part', '', 'g', 'm', 'h:min'], ...rows, all]),
    `Filament of 1.75 mm. Time for all of them ${hoursText(low)} to ${hoursText(high)} h: lines of ${EXTRUSION.lineWidth.value} nozzles at ${EXTRUSION.speed.value} mm/s, and ${PRINT_OVERHEAD.low.value} to ${PRINT_OVERHEAD.high.value} times that with travel and cooling (${EXTRUSION.speed.source}); printers differ by a factor of two.`,
  ];
}

/** Rows in columns, the first to the left and the others to the right. */
function aligned(rows: readonly (readonly string[])[]): string[] {
  const widths = rows[0]!.map((_, column) => Math.max(...rows.map((row) => row[column]!.length)));
  return rows.map((row) =>
    row
      .map((cell, column) => (column === 0 ? cell.padEnd(widths[0]!) : cell.padStart(widths[column]!)))
      .join('  '),
  );
}
