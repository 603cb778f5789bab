import { findBearing } from './bearings.js';
import { airEntries, beltEntries, metalEntries, plasticEntries } from './lookup-materials.js';
import { bearingEntries, fastenerEntries, insertEntries, tubeEntries } from './lookup-mechanical.js';
import { nearest } from './nearest.js';
import type { StockEntry } from './stock-entry.js';

export type { StockEntry, StockFact } from './stock-entry.js';

export const STOCK_KINDS = [
  'bearing',
  'fastener',
  'insert',
  'tube',
  'plastic',
  'belt',
  'air',
  'metal',
] as const;
export type StockKind = (typeof STOCK_KINDS)[number];

const ENTRIES: Readonly<Record<StockKind, () => StockEntry[]>> = {
  bearing: bearingEntries,
  fastener: fastenerEntries,
  insert: insertEntries,
  tube: tubeEntries,
  plastic: plasticEntries,
  belt: beltEntries,
  air: airEntries,
  metal: metalEntries,
};

/** A kind or a name that is not in stock. */
export class UnknownStockError extends Error {
  override readonly name = 'UnknownStockError';
  constructor(
    /** What was asked for: `kind` or a kind's `name`. */
    readonly asked: 'kind' | 'name',
    readonly found: string,
    /** The known word it was probably meant to be. */
    readonly nearest: string | undefined,
    /** Everything that would have been known. */
    readonly known: readonly string[],
    what: string,
  ) {
    const hint = nearest === undefined ? `known are ${known.join(', ')}` : `did you mean ${nearest}?`;
    super(`no ${what} ${JSON.stringify(found)} in stock: ${hint}`);
  }
}

/**
 * What the tables know.
 *
 * @param kind one of `STOCK_KINDS`
 * @param name as on the box or in a machine file, case ignored (for a bearing also with its mark, such as `R4A
 * shielded`); part of a name gives all that hold it; without it everything of that kind
 * @throws UnknownStockError for a kind or name that is not in stock
 */
export function lookUp(kind: string, name?: string): readonly StockEntry[] {
  if (!isKind(kind)) {
    throw new UnknownStockError('kind', kind, nearest(kind, STOCK_KINDS), STOCK_KINDS, 'kind of stock');
  }
  const entries = ENTRIES[kind]();
  if (name === undefined) return entries;

  const wanted = name.trim().toLowerCase();
  const bearing = kind === 'bearing' ? findBearing(name)?.row.designation : undefined;
  const exact = entries.filter((entry) => entry.name === bearing || entry.name.toLowerCase() === wanted);
  if (exact.length > 0) return exact;
  const holding = wanted === '' ? [] : entries.filter((entry) => entry.name.toLowerCase().includes(wanted));
  if (holding.length > 0) return holding;
  const known = entries.map((entry) => entry.name);
  throw new UnknownStockError('name', name, nearest(name, known), known, kind);
}

function isKind(kind: string): kind is StockKind {
  return (STOCK_KINDS as readonly string[]).includes(kind);
}
