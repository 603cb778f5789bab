import { BEARING_NAMES, findBearing } from '../stock/bearings.js';
import { nearest } from '../stock/nearest.js';
import { bareUnitOf, type ChoiceLeaf, type Leaf, type QuantityLeaf, type TextLeaf } from './declare.js';
import { quote } from './problem.js';
import { type Reading, readingOf } from './reading.js';
import type { Place, SourceNode, SourceScalar } from './source.js';
import { convert, DECIMAL_TEXT, example, type LengthUnit, parseQuantity, short } from './units.js';

export type LeafValue = string | number | boolean | Reading;

export interface Miss {
  readonly found: string;
  readonly expected: string;
  readonly nearest?: string;
  /** Where exactly, when it is one reading in a list. */
  readonly at?: Place;
}
export type Read<T> = { readonly ok: true; readonly value: T } | ({ readonly ok: false } & Miss);

/** What a bare number and a reading mean in this file. */
export interface Measured {
  /** Undefined when the file’s `units` could not be read: bare lengths then have no meaning. */
  readonly units: LengthUnit | undefined;
  /** mm */
  readonly caliperError: number;
}

/** Readings of one dimension differ by less than this share of their mean, or by `READINGS_APART`. Common practice, no source. */
export const READINGS_SHARE = 0.2;
/** mm */
export const READINGS_APART = 1;

const fail = (found: string, expected: string, meant?: string): { readonly ok: false } & Miss => ({
  ok: false,
  found,
  expected,
  ...(meant !== undefined && { nearest: meant }),
});

/** What stands there, for a message. */
export function describe(node: SourceNode): string {
  if (node.kind === 'list') return 'a list';
  if (node.kind === 'map') return 'a group of keys';
  if (node.value === null) return 'nothing';
  return typeof node.value === 'string' ? quote(node.text) : node.text;
}

/** What a leaf asks for, for a message. */
export function wanted(leaf: Leaf): string {
  switch (leaf.kind) {
    case 'quantity':
      return example(leaf.dimension);
    case 'reading':
      return `${example(leaf.dimension)}, or a list of readings`;
    case 'choice':
      return `one of ${leaf.choices.join(', ')}`;
    case 'boolean':
      return 'true or false';
    case 'text':
      return `a text of 1 to ${leaf.maxLength} characters`;
    case 'bearing':
      return 'the name of a bearing, such as "696" or "R4A shielded"';
  }
}

/** Undefined means: can’t be judged, because `units` is wrong. */
export function readLeaf(leaf: Leaf, node: SourceNode, measured: Measured): Read<LeafValue> | undefined {
  if (leaf.kind === 'reading') return readReadings(leaf, node, measured);
  if (node.kind !== 'scalar' || node.value === null) return fail(describe(node), wanted(leaf));
  switch (leaf.kind) {
    case 'quantity':
      return readNumber(leaf, node, measured.units);
    case 'choice':
      return readChoice(leaf, node);
    case 'boolean':
      return typeof node.value === 'boolean'
        ? { ok: true, value: node.value }
        : fail(describe(node), wanted(leaf));
    case 'text':
      return readText(leaf, node);
    case 'bearing':
      return readBearing(node);
  }
}

function readReadings(leaf: QuantityLeaf, node: SourceNode, measured: Measured): Read<Reading> | undefined {
  const items = node.kind === 'list' ? node.items : [node];
  if (items.length === 0) return fail('an empty list', wanted(leaf as Leaf));
  const values: number[] = [];
  for (const item of items) {
    if (item.kind !== 'scalar' || item.value === null) {
      return { ...fail(describe(item), example(leaf.dimension)), at: item };
    }
    const one = readNumber(leaf, item, measured.units);
    if (!one) return undefined;
    if (!one.ok) {
      const split =
        items.length > 1 && Number.isInteger(item.value) ? '; decimals with a point, not a comma' : '';
      return { ...one, expected: `${one.expected}${split}`, at: item };
    }
    values.push(one.value);
  }
  const reading = readingOf(values, measured.caliperError);
  const apart = Math.max(READINGS_APART, READINGS_SHARE * reading.mean);
  if (reading.spread > apart) {
    const differ = `readings that differ by ${short(reading.spread)} mm (${short(reading.min)} to ${short(reading.max)} mm)`;
    return fail(
      differ,
      `readings of one dimension, at most ${short(apart)} mm apart; decimals with a point, not a comma`,
    );
  }
  return { ok: true, value: reading };
}

function readNumber(
  leaf: QuantityLeaf,
  node: SourceScalar,
  units: LengthUnit | undefined,
): Read<number> | undefined {
  const { value, text } = node;
  if (typeof value === 'boolean' || value === null) return fail(describe(node), example(leaf.dimension));
  if (typeof value === 'number' && !DECIMAL_TEXT.test(text))
    return fail(text, `${example(leaf.dimension)}, in decimals`);
  if (typeof value === 'number' && leaf.bare === 'machine' && units === undefined) return undefined;
  const bareUnit = bareUnitOf(leaf, units ?? 'mm');
  const parsed = parseQuantity(value, leaf.dimension, bareUnit, leaf.unit);
  if (!parsed.ok) return fail(describe(node), parsed.expected, parsed.nearest);
  const { min, max, why } = leaf.range;
  if (parsed.value >= min && parsed.value <= max) return parsed;
  // Bounds are told in the unit the number was written in; a text carries its own beside it.
  const shown = (limit: number) => short(convertBack(limit, leaf, bareUnit));
  const read = `${shown(parsed.value)}${bareUnit && ` ${bareUnit}`}`;
  const found = typeof value === 'number' ? read : `${quote(text)} (${read})`;
  return fail(found, `${shown(min)} to ${shown(max)}${bareUnit && ` ${bareUnit}`}: ${why}`);
}

function convertBack(value: number, leaf: QuantityLeaf, unit: string): number {
  return leaf.dimension === 'number' ? value : convert(value, leaf.dimension, leaf.unit, unit);
}

function readChoice(leaf: ChoiceLeaf, node: SourceScalar): Read<string> {
  const { value } = node;
  if (typeof value === 'string' && leaf.choices.includes(value)) return { ok: true, value };
  return fail(describe(node), wanted(leaf as Leaf), nearest(node.text, leaf.choices));
}

function readText(leaf: TextLeaf, node: SourceScalar): Read<string> {
  const { value } = node;
  if (typeof value !== 'string') return fail(describe(node), `${wanted(leaf)}, in quotes`);
  const length = [...value].length;
  if (length < 1 || length > leaf.maxLength) return fail(`${length} characters`, wanted(leaf));
  if (value.trim() !== value) return fail(quote(value), 'no blank at either end');
  if (/\p{C}/u.test(value)) return fail(quote(value), 'a text without control or invisible characters');
  if (/[/\\]|\.\./.test(value)) return fail(quote(value), 'a name without parts of a path ("/", "\\", "..")');
  return { ok: true, value };
}

function readBearing(node: SourceScalar): Read<string> {
  // 608 without quotes is a number to YAML and a bearing to everybody else.
  const name = node.text.trim();
  if (typeof node.value !== 'boolean' && findBearing(name)) return { ok: true, value: name };
  const plain = name.replace(/[\s-]*(?:zz|2z|2rs\d?|shielded|sealed|open)$/i, '');
  return fail(
    describe(node),
    'the name of a bearing in stock, such as "696" or "R4A shielded"',
    nearest(plain, BEARING_NAMES),
  );
}
