import { isMap, isScalar, isSeq, LineCounter, type Node } from 'yaml';
import { MACHINE_FILE } from './declarations.js';
import { bareUnitOf, type Leaf, leavesOf, type QuantityLeaf } from './declare.js';
import { behindKey, filled, inserted } from './edit-insert.js';
import { listChanged } from './edit-list.js';
import { removed, type Step } from './edit-remove.js';
import { spell } from './edit-spelling.js';
import {
  type EditedText,
  type Entry,
  entryNamed,
  isEmpty,
  openText,
  type Splice,
  spliced,
  startOf,
} from './edit-text.js';
import { convert, DECIMAL_TEXT, DIMENSIONS, LENGTH_UNITS, type LengthUnit } from './units.js';

// Edits of a machine file's text. What is not edited stays as it is, byte for byte.

const LEAVES: ReadonlyMap<string, Leaf> = new Map(leavesOf(MACHINE_FILE));

/** What a file states for a key. */
export interface WrittenValue {
  /** As written, without quotes: one item, or one for each reading. */
  readonly items: readonly string[];
  /** Whether they stand in a list. */
  readonly list: boolean;
  /** Line of the key, from 1. */
  readonly line: number;
}

/**
 * What the text states, key by key (`column.tube.outer`); only keys that a machine file has. Empty for a text that is no
 * YAML map, also for one that is no YAML at all. Whether the values are any good is not asked.
 */
export function writtenValues(text: string): ReadonlyMap<string, WrittenValue> {
  const edited = openText(text);
  const values = new Map<string, WrittenValue>();
  if (!edited) return values;
  const lines = lineCounterOf(edited.text);
  for (const key of LEAVES.keys()) {
    const { steps, missing } = stepsTo(edited, key.split('.'));
    const entry = steps.at(-1)?.entry;
    if (!entry || missing.length > 0) continue;
    const { value } = entry;
    const list = isSeq(value);
    const items = isSeq(value) ? (value.items as Node[]) : [value];
    values.set(key, {
      items: items.map((item) => contentOf(item, edited.text)),
      list,
      line: lines.linePos(startOf(entry.key)).line,
    });
  }
  return values;
}

/**
 * The text with a key stating something else.
 *
 * @param key full key, `column.tube.outer`
 * @param items what is written for it, one item as a single value, several as a list; undefined takes the key out, so that
 *   its default applies, together with a group that it leaves empty and that the file need not have
 * @throws RangeError for a key that no machine file has, and for a text that is no YAML map
 */
export function withWritten(text: string, key: string, items: readonly string[] | undefined): string {
  const leaf = leafOf(key);
  const edited = openText(text);
  if (!edited) throw new RangeError('no machine file: a text that is no YAML map');
  const mark = text.slice(0, text.length - edited.text.length);
  return mark + spliced(edited.text, changes(edited, key.split('.'), leaf, items));
}

/**
 * The text with a key stating a value, written in the unit in which the key is written now.
 *
 * @param value in the unit of the key's declaration (mm, V, ...); as a bare number where the key was not stated. A value
 *   that has to be converted gets six significant digits. Several readings become one.
 * @throws RangeError as `withWritten`, and for a number that is not finite
 */
export function withValue(text: string, key: string, value: number | string | boolean): string {
  const leaf = leafOf(key);
  if (typeof value !== 'number' || !isQuantity(leaf)) return withWritten(text, key, [String(value)]);
  if (!Number.isFinite(value)) throw new RangeError(`no finite number for ${key}: ${value}`);
  const written = writtenValues(text);
  const units = LENGTH_UNITS.find((unit) => unit === written.get('units')?.items[0]) ?? 'mm';
  return withWritten(text, key, [quantityLike(written.get(key)?.items[0], leaf, value, units)]);
}

function leafOf(key: string): Leaf {
  const leaf = LEAVES.get(key);
  if (!leaf) throw new RangeError(`no key of a machine file: ${key}`);
  return leaf;
}

const isQuantity = (leaf: Leaf): leaf is Extract<Leaf, QuantityLeaf> =>
  leaf.kind === 'quantity' || leaf.kind === 'reading';

/** Significant digits of a converted value: 0.001 mm in a metre. */
const CONVERTED_DIGITS = 6;

function quantityLike(
  before: string | undefined,
  leaf: QuantityLeaf,
  value: number,
  units: LengthUnit,
): string {
  const own = before === undefined ? undefined : unitBehind(before, leaf);
  const unit = own?.unit ?? bareUnitOf(leaf, units);
  const converted =
    leaf.dimension === 'number' || unit === leaf.unit
      ? value
      : Number(convert(value, leaf.dimension, leaf.unit, unit).toPrecision(CONVERTED_DIGITS));
  return `${converted}${own ? `${own.gap}${own.unit}` : ''}`;
}

/** The unit that a text ends with, and the blank before it. */
function unitBehind(item: string, { dimension }: QuantityLeaf): { unit: string; gap: string } | undefined {
  const text = item.trim().replace(/\s+/g, ' ');
  if (DECIMAL_TEXT.test(text)) return undefined;
  const units = Object.keys(DIMENSIONS[dimension].units);
  const unit = units.find((each) => text.endsWith(each) && /[\d.] ?$/.test(text.slice(0, -each.length)));
  if (unit === undefined) return undefined;
  return { unit, gap: text.slice(0, -unit.length).endsWith(' ') ? ' ' : '' };
}

interface Found {
  /** The stated part of the way down to a key. */
  readonly steps: readonly Step[];
  /** Names on the way that are not stated. */
  readonly missing: readonly string[];
}

function stepsTo({ root }: EditedText, names: readonly string[]): Found {
  const steps: Step[] = [];
  let map: Node | null = root;
  for (const [at, name] of names.entries()) {
    const entry: Entry | undefined = isMap(map) ? entryNamed(map, name) : undefined;
    if (!isMap(map) || !entry) return { steps, missing: names.slice(at) };
    steps.push({ map, entry });
    map = entry.value;
  }
  return { steps, missing: [] };
}

function changes(
  edited: EditedText,
  names: readonly string[],
  leaf: Leaf,
  items: readonly string[] | undefined,
): Splice[] {
  const { steps, missing } = stepsTo(edited, names);
  if (items === undefined) return missing.length > 0 ? [] : removed(edited, steps, names);
  const whole = (flow: boolean) => wholeValue(edited, leaf, items, flow, undefined);
  const last = steps.at(-1);
  if (missing.length === 0 && last) return replaced(edited, last, leaf, items);
  if (!last) return [inserted(edited, edited.root, [], missing, whole)];
  const group = last.entry.value;
  return isMap(group)
    ? [inserted(edited, group, names.slice(0, steps.length), missing, whole)]
    : filled(edited, last.map, last.entry, missing, whole);
}

function replaced(edited: EditedText, { map, entry }: Step, leaf: Leaf, items: readonly string[]): Splice[] {
  const { value } = entry;
  const stays = items.length !== 1 || (leaf.kind === 'reading' && isSeq(value) && value.items.length === 1);
  if (isSeq(value) && stays) {
    const byItem = listChanged(edited, value, items, (item, flow, over) =>
      spell(item, leaf, { flow, json: edited.json, quote: quotesKept(over, leaf, flow) }),
    );
    if (byItem) return byItem;
  }
  const [item] = items;
  if (items.length === 1 && isScalar(value) && item === contentOf(value, edited.text) && !isEmpty(value))
    return [];
  return behindKey(edited, entry, wholeValue(edited, leaf, items, map.flow === true, value));
}

function wholeValue(
  { json, blank }: EditedText,
  leaf: Leaf,
  items: readonly string[],
  flow: boolean,
  over: Node | null | undefined,
): string {
  const [only] = items;
  if (items.length === 1 && only !== undefined)
    return spell(only, leaf, { flow, json, quote: quotesKept(over, leaf, flow) });
  return `[${items.map((item) => spell(item, leaf, { flow: true, json })).join(`,${blank}`)}]`;
}

/** The quotes around a value that could stand without: the builder's habit, which is kept. */
function quotesKept(node: Node | null | undefined, leaf: Leaf, flow: boolean): '"' | "'" | undefined {
  if (!isScalar(node) || typeof node.value !== 'string') return undefined;
  if (node.type !== 'QUOTE_DOUBLE' && node.type !== 'QUOTE_SINGLE') return undefined;
  const needed = spell(node.value, leaf, { flow, json: false }) !== node.value;
  return needed ? undefined : node.type === 'QUOTE_DOUBLE' ? '"' : "'";
}

/** What a value says, without quotes; of what is no plain value, its text. */
function contentOf(node: Node | null, text: string): string {
  if (isScalar(node)) return typeof node.value === 'string' ? node.value : (node.source ?? '');
  return node?.range ? text.slice(node.range[0], node.range[1]).trim() : '';
}

function lineCounterOf(text: string): LineCounter {
  const lines = new LineCounter();
  lines.addNewLine(0);
  for (let at = text.indexOf('\n'); at >= 0; at = text.indexOf('\n', at + 1)) lines.addNewLine(at + 1);
  return lines;
}
