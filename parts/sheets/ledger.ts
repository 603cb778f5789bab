import type { PartOrder } from '../printed/catalog.js';
import { CODE_ALPHABET, CODE_LENGTH, type Dimension, type Dimensions } from '../printed/identity.js';
import type { Field } from '../printed/part.js';

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
  /** Most that a machine of this folder ever asked for; undefined in a ledger that does not say. */
  readonly copies?: number;
}

export interface LedgerRow extends MadePart {
  readonly file: string;
  /** SHA-256 of the file as written, hexadecimal. */
  readonly sha256: string;
}

export const LEDGER_FILE = 'ledger.json';
/** Name of a part’s file. */
export const stlFile = (id: string): string => `${id}.stl`;
export const LEDGER_KIND = 'tubewright ledger';

export type Verdict = 'keep' | 'print again' | 'print more' | 'new' | 'no longer needed';

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
  /** Copies to print beside those that stay. */
  readonly more: number;
}

/** Whether something of a part has to be printed. */
export const isToPrint = ({ verdict }: Pick<PartChange, 'verdict'>): boolean =>
  verdict !== 'keep' && verdict !== 'no longer needed';

/** A part as a ledger records it. */
export function madePart({ part, dimensions, code, copies }: PartOrder): MadePart {
  return { id: part.id, revision: part.revision, code, dimensions, copies };
}

/** Part by part: what a machine asks for against what was made before. */
export function compareOrders(before: readonly MadePart[], orders: readonly PartOrder[]): PartChange[] {
  const old = new Map(before.map((row) => [row.id, row]));
  const now = orders.map((order): PartChange => {
    const previous = old.get(order.part.id);
    old.delete(order.part.id);
    const base = { id: order.part.id, code: order.code, more: 0 };
    if (!previous) return { ...base, verdict: 'new', changes: [], revised: false };
    if (previous.code === order.code) {
      const more = Math.max(0, order.copies - (previous.copies ?? order.copies));
      return { ...base, verdict: more > 0 ? 'print more' : 'keep', changes: [], revised: false, more };
    }
    return {
      ...base,
      verdict: 'print again',
      oldCode: previous.code,
      changes: differences(order, previous.dimensions),
      revised: previous.revision !== order.part.revision,
    };
  });
  const gone = [...old.values()].map(
    (row): PartChange => ({
      id: row.id,
      verdict: 'no longer needed',
      code: row.code,
      changes: [],
      revised: false,
      more: 0,
    }),
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
        unit: unitShown(field?.unit),
        from: before[key],
        to: order.dimensions[key],
      };
    });
}

/** A dimension’s unit in print: words and counts have none. */
export function unitShown(unit: Field['unit'] | undefined): string {
  return unit === 'mm' || unit === 'degrees' ? unit : '';
}

/** A dimension in print. */
export function showDimension(value: Dimension | undefined): string {
  if (value === undefined) return 'nothing';
  return typeof value === 'object' ? `[${value.join(' ')}]` : String(value);
}

/** One change in words: "pilot bore, radius 40.365 -> 40.665 mm". */
export function describeChange({ meaning, from, to, unit }: DimensionChange): string {
  return `${meaning} ${showDimension(from)} -> ${showDimension(to)} ${unit}`.trimEnd();
}

/** The ledger after a run: rows by part, and everything ever made with no code twice. Copies once printed are not forgotten. */
export function nextLedger(
  machine: string,
  previous: Ledger | undefined,
  rows: readonly LedgerRow[],
): Ledger {
  const made = new Map((previous?.made ?? []).map((part) => [`${part.id} ${part.code}`, part]));
  const parts = rows.map((row) => {
    const copies = Math.max(row.copies ?? 0, made.get(`${row.id} ${row.code}`)?.copies ?? 0);
    return copies > 0 ? { ...row, copies } : row;
  });
  for (const { file: _, sha256: __, ...part } of parts) made.set(`${part.id} ${part.code}`, part);
  return { kind: LEDGER_KIND, version: 1, machine, parts, made: [...made.values()] };
}

export function ledgerText(ledger: Ledger): string {
  return `${JSON.stringify(ledger, null, 1)}\n`;
}

/**
 * Reads a ledger back. Every field is checked: files are kept, written over and removed by what stands in it.
 * @throws SyntaxError naming what is wrong when the text is not a ledger of ours
 */
export function parseLedger(text: string): Ledger {
  const ledger = recordOf(JSON.parse(text), 'a ledger');
  if (ledger.kind !== LEDGER_KIND) throw new SyntaxError(`"kind" is not "${LEDGER_KIND}"`);
  if (ledger.version !== 1)
    throw new SyntaxError(`version ${JSON.stringify(ledger.version)} is not known, only 1`);
  const machine = textOf(ledger.machine, /./u, 'machine');
  const parts = listOf(ledger.parts, 'parts').map((row, i) => rowOf(row, `parts[${i}]`));
  const made = listOf(ledger.made, 'made').map((part, i) => partOf(part, `made[${i}]`));
  const twice = parts.find(({ id }, i) => parts.findIndex((row) => row.id === id) < i);
  if (twice) throw new SyntaxError(`"${twice.id}" stands twice in "parts"`);
  return { kind: LEDGER_KIND, version: 1, machine, parts, made };
}

function rowOf(value: unknown, where: string): LedgerRow {
  const part = partOf(value, where);
  const { file, sha256 } = recordOf(value, where);
  // A name with a path in it would reach outside the folder.
  return {
    ...part,
    file: textOf(file, /^[a-z0-9][a-z0-9-]*\.stl$/, `${where}.file`),
    sha256: textOf(sha256, /^[0-9a-f]{64}$/, `${where}.sha256`),
  };
}

function partOf(value: unknown, where: string): MadePart {
  const { id, revision, code, dimensions, copies } = recordOf(value, where);
  if (copies !== undefined && (!Number.isSafeInteger(copies) || (copies as number) < 1)) {
    throw new SyntaxError(`"${where}.copies" is not a whole number from 1`);
  }
  if (!Number.isSafeInteger(revision) || (revision as number) < 1) {
    throw new SyntaxError(`"${where}.revision" is not a whole number from 1`);
  }
  for (const [key, dimension] of Object.entries(recordOf(dimensions, `${where}.dimensions`))) {
    if (!isDimension(dimension)) throw new SyntaxError(`"${where}.dimensions.${key}" is no dimension`);
  }
  return {
    id: textOf(id, /^[a-z0-9][a-z0-9-]*$/, `${where}.id`),
    revision: revision as number,
    code: textOf(code, CODE, `${where}.code`),
    dimensions: dimensions as Dimensions,
    ...(copies !== undefined && { copies: copies as number }),
  };
}

const CODE = new RegExp(`^[${CODE_ALPHABET}]{${CODE_LENGTH}}$`);

function isDimension(value: unknown): value is Dimension {
  if (Array.isArray(value)) return value.every((item) => typeof item === 'number');
  return typeof value === 'number' || typeof value === 'string';
}

function recordOf(value: unknown, where: string): Record<string, unknown> {
  if (typeof value === 'object' && value !== null && !Array.isArray(value))
    return value as Record<string, unknown>;
  throw new SyntaxError(`${where} is not a JSON object`);
}

function listOf(value: unknown, where: string): readonly unknown[] {
  if (Array.isArray(value)) return value;
  throw new SyntaxError(`"${where}" is not a list`);
}

function textOf(value: unknown, form: RegExp, where: string): string {
  if (typeof value === 'string' && form.test(value)) return value;
  throw new SyntaxError(
    `"${where}" is ${value === undefined ? 'missing' : `not what it should be: ${JSON.stringify(value)?.slice(0, 40)}`}`,
  );
}
