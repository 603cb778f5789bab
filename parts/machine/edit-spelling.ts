import { isMap, isScalar, isSeq, parseDocument } from 'yaml';
import type { Leaf } from './declare.js';
import { DECIMAL_TEXT } from './units.js';

/** Where a value is going to stand in the text. */
export interface Setting {
  /** Between braces or brackets, where commas and brackets end a plain word. */
  readonly flow: boolean;
  /** In a file that is JSON and has to stay so. */
  readonly json: boolean;
  /** The quotes around what stands there now. */
  readonly quote?: '"' | "'" | undefined;
}

const JSON_NUMBER = /^-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?$/;

/**
 * How an item is written so that it is read back as the same thing: what is a number to the builder as a number where a
 * number is wanted, everything else as a text, without quotes where it can stand without.
 */
export function spell(item: string, leaf: Leaf, setting: Setting): string {
  if (leaf.kind === 'quantity' || leaf.kind === 'reading') {
    const number = numberText(item.trim(), setting.json);
    if (number !== undefined) return number;
  }
  if (leaf.kind === 'boolean' && (item === 'true' || item === 'false')) return item;
  return textIn(item, setting);
}

/** A key's name as it is written in a file of this kind. */
export function spellKey(name: string, json: boolean): string {
  return json ? JSON.stringify(name) : name;
}

function numberText(item: string, json: boolean): string | undefined {
  if (!DECIMAL_TEXT.test(item)) return undefined;
  if (!json || JSON_NUMBER.test(item)) return item;
  const value = Number(item);
  return Number.isFinite(value) ? JSON.stringify(value) : undefined;
}

function textIn(item: string, { flow, json, quote }: Setting): string {
  if (json || quote === '"') return inDoubleQuotes(item);
  const visible = !/[\p{C}\p{Zl}\p{Zp}]/u.test(item);
  if (quote !== "'" && visible && readsAsItself(item, flow)) return item;
  // A text with inch marks or backslashes reads better between single quotes.
  const single = quote === "'" || /["\\]/.test(item);
  return single && visible ? `'${item.replaceAll("'", "''")}'` : inDoubleQuotes(item);
}

function inDoubleQuotes(item: string): string {
  const escaped = (character: string) => `\\u${character.charCodeAt(0).toString(16).padStart(4, '0')}`;
  return JSON.stringify(item).replace(/[\u007f-\u009f\u2028\u2029\ufeff]/g, escaped);
}

/** Whether YAML takes this for a text with the same content when it stands there without quotes. */
function readsAsItself(item: string, flow: boolean): boolean {
  const places = flow ? `{ a: [${item}, 1], b: ${item} }` : `a:\n  - ${item} # c\nb: ${item} # c\n`;
  const { contents, errors, warnings } = parseDocument(places, { logLevel: 'silent', prettyErrors: false });
  if (errors.length + warnings.length > 0 || !isMap(contents) || contents.items.length !== 2) return false;
  const list = contents.get('a', true);
  const one = contents.get('b', true);
  if (!isSeq(list) || list.items.length !== (flow ? 2 : 1)) return false;
  return [list.items[0], one].every((node) => isScalar(node) && node.type === 'PLAIN' && node.value === item);
}
