import { MACHINE_FILE } from './declarations.js';
import { type Declaration, type Group, type Leaf, leavesOf, type QuantityLeaf } from './declare.js';
import { convert, short } from './units.js';

/** What a declaration says about one key, in words: for comments in a file and for the table of keys. */
export interface KeyNote {
  readonly key: string;
  readonly meaning: string;
  /** Unit of a bare number, or the kind of value. */
  readonly unit: string;
  readonly default: string;
  readonly bounds: string;
}

export const FOLLOWS_UNITS = 'as `units`';

/** Every key of the machine file, in the order of declaration. */
export function keyNotes(): readonly KeyNote[] {
  return leavesOf(MACHINE_FILE).map(([key, leaf]) => ({
    key,
    meaning: leaf.meaning,
    unit: unitOf(leaf),
    default: defaultOf(leaf),
    bounds: boundsOf(leaf),
  }));
}

/** Markdown table of all keys. */
export function keysTable(): string {
  const cells = (row: readonly string[]) =>
    `| ${row.map((cell) => cell.replaceAll('|', '\\|')).join(' | ')} |`;
  const rows = keyNotes().map((note) =>
    cells([`\`${note.key}\``, note.unit, note.default, note.bounds, note.meaning]),
  );
  return `${[cells(['key', 'unit', 'default', 'bounds', 'meaning']), '| --- | --- | --- | --- | --- |', ...rows].join('\n')}\n`;
}

/** The declaration under a full key; undefined for an unknown one. */
export function declarationOf(key: string): Declaration | undefined {
  let found: Declaration | undefined = MACHINE_FILE;
  for (const name of key.split('.')) {
    const keys: Group['keys'] | undefined = found?.kind === 'group' ? found.keys : undefined;
    found = keys && Object.hasOwn(keys, name) ? keys[name] : undefined;
  }
  return found;
}

function unitOf(leaf: Leaf): string {
  switch (leaf.kind) {
    case 'quantity':
    case 'reading': {
      const unit = leaf.bare === 'machine' ? FOLLOWS_UNITS : leaf.bare || 'number';
      return leaf.kind === 'reading' ? `${unit}, one or a list of readings` : unit;
    }
    case 'choice':
      return leaf.choices.join(', ');
    case 'boolean':
      return 'true, false';
    case 'text':
      return 'text';
    case 'bearing':
      return 'name in stock';
  }
}

const isQuantity = (leaf: Leaf): leaf is Extract<Leaf, QuantityLeaf> =>
  leaf.kind === 'quantity' || leaf.kind === 'reading';
const withUnit = (value: unknown, leaf: Leaf) =>
  `${value}${isQuantity(leaf) && leaf.unit ? ` ${leaf.unit}` : ''}`;

function defaultOf(leaf: Leaf): string {
  const { presence } = leaf;
  switch (presence.kind) {
    case 'required':
      return 'required';
    case 'default':
      return `${withUnit(presence.value, leaf)} (${presence.why})`;
    case 'default-by': {
      const values = Object.entries(presence.values).map(
        ([is, value]) => `${withUnit(value, leaf)} with ${is}`,
      );
      return `${values.join(', ')} (${presence.why})`;
    }
    case 'optional':
      return `none: ${presence.without}`;
    case 'only-when':
      return `required with ${presence.key} ${presence.is}, else not allowed`;
  }
}

function boundsOf(leaf: Leaf): string {
  if (leaf.kind === 'text') return `1 to ${leaf.maxLength} characters, no parts of a path`;
  if (!isQuantity(leaf)) return '';
  const unit = leaf.bare === 'machine' ? leaf.unit : leaf.bare;
  const shown = (value: number) =>
    short(leaf.dimension === 'number' ? value : convert(value, leaf.dimension, leaf.unit, unit));
  return `${shown(leaf.range.min)} to ${shown(leaf.range.max)}${unit && ` ${unit}`}: ${leaf.range.why}`;
}
