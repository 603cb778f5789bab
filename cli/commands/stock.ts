import { lookUp, UnknownStockError } from '../../parts/index.js';
import { EXIT, InputError } from '../exit.js';
import { paint, table } from '../print.js';

/** Looks stock up: every row of a kind, or one by name, each fact with its source. */
export function stock(kind: string, name: string | undefined, options: { readonly json?: boolean }): number {
  const entries = known(() => lookUp(kind, name));
  if (options.json) {
    process.stdout.write(`${JSON.stringify({ kind, entries }, null, 1)}\n`);
    return EXIT.done;
  }
  const text = entries.map((entry) => {
    const rows = entry.facts.map(({ label, value, unit, source, status }) => [label, String(value), unit, status, source]);
    return `${paint(`${entry.kind} ${entry.name}`, 'bold')}\n${table(['', '', '', 'status', 'source'], rows)}`;
  });
  process.stdout.write(`${text.join('\n\n')}\n`);
  return EXIT.done;
}

function known<T>(work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (error instanceof UnknownStockError) throw new InputError(error.message);
    throw error;
  }
}
