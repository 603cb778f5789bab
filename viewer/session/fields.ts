import {
  bareUnitOf,
  convert,
  type Group,
  keyNotes,
  LENGTH_UNITS,
  type Leaf,
  type LengthUnit,
  MACHINE_FILE,
  type Problem,
  parseQuantity,
  type QuantityLeaf,
  short,
  type WrittenValue,
} from '../../parts/index.js';

// What a field of the machine file is called, asks for and stands for: all of it follows from the declarations.

export type Written = ReadonlyMap<string, WrittenValue>;

/** What the declarations say about each key, in words. */
export const NOTES = new Map(keyNotes().map((note) => [note.key, note]));

/** The groups that are measured on the pieces, in the order in which they are measured. */
const MEASURED = ['terminal', 'column', 'belt', 'rollers', 'combs', 'base'];

/** One fold of the stock. */
export interface Fold {
  readonly name: string;
  readonly meaning: string;
  readonly open: boolean;
  readonly group: Group;
  /** Before the keys of the group. */
  readonly prefix: string;
}

/** All values of the machine file: the measured pieces first, then the other groups, then what stands in none. */
export function foldsOf(file: Group = MACHINE_FILE): readonly Fold[] {
  const groups = Object.entries(file.keys).flatMap(([name, group]): Fold[] =>
    group.kind === 'group'
      ? [{ name, meaning: group.meaning, open: MEASURED.includes(name), group, prefix: `${name}.` }]
      : [],
  );
  const loose = Object.entries(file.keys).filter(([, declaration]) => declaration.kind !== 'group');
  const rest: Fold = {
    name: 'name and units',
    meaning: 'of the machine and of its bare lengths',
    open: false,
    group: { kind: 'group', meaning: file.meaning, keys: Object.fromEntries(loose) },
    prefix: '',
  };
  const place = ({ name }: Fold) => (MEASURED.includes(name) ? MEASURED.indexOf(name) : MEASURED.length);
  return [...groups.sort((a, b) => place(a) - place(b)), rest];
}

/** `rollers.lower.bearing_outer` is labelled "bearing outer"; its groups stand around it. */
export function labelOf(key: string): string {
  return inWords(key.slice(key.lastIndexOf('.') + 1));
}

export const inWords = (name: string): string => name.replaceAll('_', ' ');

/**
 * The id of a key’s field.
 * @param number of the reading, from 1; fields with one value have none
 */
export function fieldId(key: string, number?: number): string {
  return `value-${key.replaceAll('.', '-')}${number === undefined ? '' : `-${number}`}`;
}

export const isQuantity = (leaf: Leaf): leaf is Extract<Leaf, QuantityLeaf> =>
  leaf.kind === 'quantity' || leaf.kind === 'reading';

/** The file’s unit of bare lengths; mm where it states none, or none that there is. */
export function unitsOf(written: Written): LengthUnit {
  return LENGTH_UNITS.find((unit) => unit === written.get('units')?.items[0]) ?? 'mm';
}

/** The unit that an item does not state itself; empty where it does, or where it has none. */
export function unitShown(leaf: Leaf, item: string, units: LengthUnit): string {
  return isQuantity(leaf) && !/[^\d\s.,eE+-]/.test(item) ? bareUnitOf(leaf, units) : '';
}

/** What a key stands for while the file does not state it. */
export interface Unstated {
  /** As it would be written; undefined where nothing is taken in its place. */
  readonly item: string | undefined;
  /** The same in the unit of the key’s declaration. */
  readonly value: string | number | boolean | undefined;
  readonly why: string;
}

export function unstated(key: string, leaf: Leaf, written: Written): Unstated {
  const { presence } = leaf;
  switch (presence.kind) {
    case 'default':
      return taken(leaf, presence.value, presence.why, written);
    case 'default-by': {
      const choice = besideOf(key, presence.key, written) ?? '';
      const value = Object.hasOwn(presence.values, choice) ? presence.values[choice] : undefined;
      return taken(leaf, value, presence.why, written);
    }
    case 'optional':
      return taken(leaf, undefined, presence.without, written);
    case 'required':
    case 'only-when':
      return taken(leaf, undefined, '', written);
  }
}

function taken(leaf: Leaf, value: Unstated['value'], why: string, written: Written): Unstated {
  if (typeof value !== 'number' || !isQuantity(leaf))
    return { value, why, item: value === undefined ? undefined : String(value) };
  const unit = bareUnitOf(leaf, unitsOf(written));
  const bare = leaf.dimension === 'number' ? value : convert(value, leaf.dimension, leaf.unit, unit);
  return { value, why, item: short(bare) };
}

/** Whether a key has a place in this file at all: not when another choice beside it rules it out. */
export function isWanted(key: string, { presence }: Leaf, written: Written): boolean {
  return presence.kind !== 'only-when' || besideOf(key, presence.key, written) === presence.is;
}

/** Whether a key that is stated can be left out. */
export function canBeLeftOut(key: string, leaf: Leaf, written: Written): boolean {
  const { kind } = leaf.presence;
  return kind === 'only-when' ? !isWanted(key, leaf, written) : kind !== 'required';
}

/** What is chosen for a key beside this one, stated or by default. */
function besideOf(key: string, name: string, written: Written): string | undefined {
  const beside = `${key.slice(0, key.lastIndexOf('.') + 1)}${name}`;
  const stated = written.get(beside)?.items[0];
  if (stated !== undefined) return stated;
  const leaf = leafAt(beside);
  return leaf?.presence.kind === 'default' ? String(leaf.presence.value) : undefined;
}

function leafAt(key: string): Leaf | undefined {
  let at: Group | Leaf | undefined = MACHINE_FILE;
  for (const name of key.split('.')) at = at?.kind === 'group' ? at.keys[name] : undefined;
  return at?.kind === 'group' ? undefined : at;
}

/** The item with what was probably meant in it, where that can be put in; undefined where it can’t. */
export function mended(leaf: Leaf, items: readonly string[], { nearest }: Problem): string | undefined {
  const [item] = items;
  if (nearest === undefined || item === undefined || items.length !== 1) return undefined;
  if (leaf.kind === 'choice' || leaf.kind === 'bearing') return nearest;
  if (!isQuantity(leaf)) return undefined;
  const unit = /\s*[^\d\s./-]+$/.exec(item.trim());
  const put = unit && `${item.trim().slice(0, unit.index)} ${nearest}`;
  return put && parseQuantity(put, leaf.dimension, leaf.unit).ok ? put : undefined;
}
