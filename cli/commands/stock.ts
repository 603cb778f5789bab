import { lookUp, STOCK_KINDS, type StockEntry, UnknownStockError } from '../../parts/index.js';
import { EXIT, InputError } from '../exit.js';
import { block, paint, printJson, printText, table, wrap } from '../print.js';

/** Looks stock up: every row of a kind, or one by name, each fact with its source. */
export function stock(
  kind: string | undefined,
  name: string | undefined,
  options: { readonly json?: boolean },
): number {
  if (kind === undefined) throw new InputError(`stock of what? One of ${STOCK_KINDS.join(', ')}`);
  const entries = known(() => lookUp(kind, name));
  if (options.json) {
    printJson({ kind, entries });
    return EXIT.done;
  }
  printText(entries.map(entryText));
  return EXIT.done;
}

/** Sources stand once each under the facts they belong to. */
function entryText({ kind, name, facts, missing }: StockEntry): string {
  const sources = [...new Set(facts.map(({ source }) => source))];
  const rows = facts.map(({ label, value, unit, source, status }) => {
    const shown = typeof value === 'number' ? String(Number(value.toPrecision(6))) : value;
    return [label, `${shown} ${unit}`.trimEnd(), status, `[${sources.indexOf(source) + 1}]`];
  });
  return [
    paint(`${kind} ${name}`, 'bold'),
    table(['', '', 'status', 'source'], rows),
    ...sources.map((source, i) => `  [${i + 1}] ${wrap(source, 6)}`),
    ...(missing.length > 0 ? [block([`Not in the tables: ${missing.join(', ')}`], 2)] : []),
  ].join('\n');
}

function known<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof UnknownStockError) throw new InputError(error.message);
    throw error;
  }
}
