import type { PartOrder } from '../printed/catalog.js';
import type { Dimension, Dimensions } from '../printed/identity.js';

/** The record, in an output folder, of what was made from which dimensions. */
export interface Ledger {
  readonly kind: 'tubewright ledger';
  readonly version: 1;
  readonly machine: string;
  /** What the folder holds now. */
  readonly parts: readonly LedgerRow[];
  /** Every set ever made here, oldest first: what a code found on an old print is looked up in. */
  readonly made: readonly MadePart[];
}

export interface MadePart {
  readonly id: string;
  readonly revision: number;
  readonly code: string;
  readonly dimensions: Dimensions;
}

export interface LedgerRow extends MadePart {
  readonly file: string;
  /** SHA-256 of the file as written, hexadecimal. */
  readonly sha256: string;
}

export const LEDGER_FILE = 'ledger.json';
export const LEDGER_KIND = 'tubewright ledger';

export type Verdict = 'keep' | 'print again' | 'new' | 'no longer needed';

/** One dimension that differs. Values as in the part’s dimensions. */
export interface DimensionChange {
  readonly key: string;
  readonly meaning: string;
  readonly unit: string;
  readonly from: Dimension | undefined;
  readonly to: Dimension | undefined;
}

export interface PartChange {
  readonly id: string;
  readonly verdict: Verdict;
  readonly code: string;
  readonly oldCode?: string;
  readonly changes: readonly DimensionChange[];
  /** The part’s own shape was revised, whatever its dimensions. */
  readonly revised: boolean;
}

/** Part by part: what a machine asks for against what was made before. */
export function compareOrders(before: readonly MadePart[], orders: readonly PartOrder[]): PartChange[] {
  const old = new Map(before.map((row) => [row.id, row]));
  const now = orders.map((order): PartChange => {
    const previous = old.get(order.part.id);
    old.delete(order.part.id);
    const base = { id: order.part.id, code: order.code };
    if (!previous) return { ...base, verdict: 'new', changes: [], revised: false };
    if (previous.code === order.code) return { ...base, verdict: 'keep', changes: [], revised: false };
    return {
      ...base,
      verdict: 'print again',
      oldCode: previous.code,
      changes: differences(order, previous.dimensions),
      revised: previous.revision !== order.part.revision,
    };
  });
  const gone = [...old.values()].map(
    (row): PartChange => ({ id: row.id, verdict: 'no longer needed', code: row.code, changes: [], revised: false }),
  );
  return [...now, ...gone];
}

/** Which dimensions of an order differ from those a part was made with. */
export function differences(order: PartOrder, before: Dimensions): DimensionChange[] {
  const keys = [...new Set([...Object.keys(order.dimensions), ...Object.keys(before)])];
  return keys
    .filter((key) => JSON.stringify(order.dimensions[key]) !== JSON.stringify(before[key]))
    .map((key) => {
      const field = order.part.fields[key];
      return {
        key,
        meaning: field?.meaning ?? key,
        unit: field?.unit === 'word' || field?.unit === 'count' ? '' : (field?.unit ?? ''),
        from: before[key],
        to: order.dimensions[key],
      };
    });
}

/** One change in words: "pilot bore, radius 40.365 -> 40.665 mm". */
export function describeChange(change: DimensionChange): string {
  const show = (value: Dimension | undefined): string =>
    value === undefined ? 'nothing' : typeof value === 'object' ? `[${value.join(' ')}]` : String(value);
  return `${change.meaning} ${show(change.from)} -> ${show(change.to)}${change.unit ? ` ${change.unit}` : ''}`;
}

/** The ledger after a run: rows by part, and everything ever made with no code twice. */
export function nextLedger(machine: string, previous: Ledger | undefined, rows: readonly LedgerRow[]): Ledger {
  const made = new Map((previous?.made ?? []).map((part) => [`${part.id} ${part.code}`, part]));
  for (const { id, revision, code, dimensions } of rows) made.set(`${id} ${code}`, { id, revision, code, dimensions });
  return { kind: LEDGER_KIND, version: 1, machine, parts: rows, made: [...made.values()] };
}

export function ledgerText(ledger: Ledger): string {
  return `${JSON.stringify(ledger, null, 1)}\n`;
}

/** @throws SyntaxError naming what is wrong when the text is not a ledger of ours */
export function parseLedger(text: string): Ledger {
  const value: unknown = JSON.parse(text);
  if (typeof value !== 'object' || value === null) throw new SyntaxError('a ledger is a JSON object');
  const ledger = value as Partial<Ledger>;
  if (ledger.kind !== LEDGER_KIND) throw new SyntaxError(`"kind" is not "${LEDGER_KIND}"`);
  if (ledger.version !== 1) throw new SyntaxError(`version ${String(ledger.version)} is not known, only 1`);
  const rows = [...asList(ledger.parts, 'parts'), ...asList(ledger.made, 'made')];
  for (const row of rows) {
    const { id, code, dimensions } = row as Partial<MadePart>;
    if (typeof id !== 'string' || typeof code !== 'string' || typeof dimensions !== 'object' || dimensions === null) {
      throw new SyntaxError('a row lacks its id, code or dimensions');
    }
  }
  return ledger as Ledger;
}

function asList(value: unknown, name: string): readonly unknown[] {
  if (!Array.isArray(value)) throw new SyntaxError(`"${name}" is not a list`);
  return value;
}
