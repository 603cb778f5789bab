import { isMap, isScalar, type YAMLMap } from 'yaml';
import { MACHINE_FILE } from './declarations.js';
import type { Group } from './declare.js';
import { spellKey } from './edit-spelling.js';
import {
  colonEnd,
  type EditedText,
  type Entry,
  endOf,
  entriesOf,
  entryEnd,
  indentOf,
  isEmpty,
  lineEnd,
  type Splice,
  startOf,
  valueStart,
} from './edit-text.js';

/** What is to be written behind a key, for the place it gets. */
export type Written = (flow: boolean) => string;

/**
 * Puts a key that is not there into a group, with the groups that are missing on the way to it: a key at the group's end,
 * a group behind the one that is declared before it.
 * @param names the missing names from `map` down to the key
 * @param path names of the groups that `map` stands in
 */
export function inserted(
  edited: EditedText,
  map: YAMLMap,
  path: readonly string[],
  names: readonly string[],
  written: Written,
): Splice {
  const before = names.length > 1 ? lastDeclaredBefore(map, path, names[0]!) : undefined;
  const after = before ?? entriesOf(map).at(-1);
  if (map.flow) return inBraces(edited, map, after, braced(edited, names, written));
  const indent = indentOf(map, edited.text);
  const lines =
    names.length > 1 && groupsInBraces(edited.root)
      ? [`${indent}${braced(edited, names, written)}`]
      : blockLines(edited, indent, names, written);
  // A block map has at least one key.
  return asLines(edited, lineEnd(edited.text, entryEnd(after!, edited.text)), lines);
}

/** Puts keys below a heading that has none: nothing stands behind it, or something that is no group. */
export function filled(
  edited: EditedText,
  map: YAMLMap,
  heading: Entry,
  names: readonly string[],
  written: Written,
): Splice[] {
  const { text } = edited;
  if (isEmpty(heading.value) && !map.flow) {
    const indent = indentOf(map, text) + ' '.repeat(edited.step);
    const lines = blockLines(edited, indent, names, written);
    return [asLines(edited, lineEnd(text, colonEnd(heading)), lines)];
  }
  return behindKey(edited, heading, `{ ${braced(edited, names, written)} }`);
}

/** Puts one line's text behind a key in place of what stands there; the comment in the key's line stays. */
export function behindKey({ text }: EditedText, entry: Entry, put: string): Splice[] {
  const { value } = entry;
  const colon = colonEnd(entry);
  const gap = text[colon - 1] === ':' ? ' ' : ': ';
  if (value === null || isEmpty(value)) return [{ from: colon, to: colon, put: `${gap}${put}` }];
  const end = endOf(value, text);
  const start = valueStart(entry);
  // What begins below its key leaves with the lines it stood in.
  if (text.slice(colon, start).includes('\n'))
    return [
      { from: colon, to: colon, put: `${gap}${put}` },
      { from: lineEnd(text, colon), to: lineEnd(text, end), put: '' },
    ];
  return [{ from: start, to: end, put }];
}

/** The stated key that comes last before this one in the declarations. */
function lastDeclaredBefore(map: YAMLMap, path: readonly string[], name: string): Entry | undefined {
  const declared = path.reduce<Group>((group, each) => group.keys[each] as Group, MACHINE_FILE);
  const names = Object.keys(declared.keys);
  const earlier = names.slice(0, names.indexOf(name));
  const stated = new Map(
    entriesOf(map).map((entry) => [isScalar(entry.key) ? entry.key.value : '', entry] as const),
  );
  const last = earlier.findLast((each) => stated.has(each));
  return last === undefined ? undefined : stated.get(last);
}

/** Whether this file writes groups in braces where they are short. */
function groupsInBraces(root: YAMLMap): boolean {
  return entriesOf(root).some(({ value }) => isMap(value) && value.flow && value.items.length > 0);
}

/** `tube: { length: 640 }` without the outermost braces. */
function braced(edited: EditedText, names: readonly string[], written: Written): string {
  const { blank, json } = edited;
  return names.reduceRight((inner, name, at) => {
    const value = at === names.length - 1 ? inner : `{${blank}${inner}${blank}}`;
    return `${spellKey(name, json)}:${blank}${value}`;
  }, written(true));
}

function blockLines(
  { step }: EditedText,
  indent: string,
  names: readonly string[],
  written: Written,
): string[] {
  return names.map((name, at) => {
    const value = at === names.length - 1 ? ` ${written(false)}` : '';
    return `${indent}${' '.repeat(at * step)}${name}:${value}`;
  });
}

function asLines({ lineBreak }: EditedText, at: number, lines: readonly string[]): Splice {
  return { from: at, to: at, put: lines.map((line) => `${lineBreak}${line}`).join('') };
}

function inBraces(edited: EditedText, map: YAMLMap, after: Entry | undefined, put: string): Splice {
  const { text, blank } = edited;
  if (!after) {
    const at = startOf(map) + 1;
    return { from: at, to: at, put: `${blank}${put}${/\s/.test(text[at] ?? '') ? '' : blank}` };
  }
  const at = entryEnd(after, text);
  return { from: at, to: at, put: `${commaBefore(edited, map, after)}${put}` };
}

/** A comma, and then what the entries of these braces have between them: a blank, or a new line. */
function commaBefore(edited: EditedText, map: YAMLMap, after: Entry): string {
  const { text, blank } = edited;
  const start = startOf(after.key);
  const previous = entriesOf(map)[entriesOf(map).indexOf(after) - 1];
  const between = previous
    ? text.slice(entryEnd(previous, text), start)
    : `,${text.slice(startOf(map) + 1, start)}`;
  // A comment stays in the line of its own key.
  const commented = text.slice(entryEnd(after, text), lineEnd(text, entryEnd(after, text))).includes('#');
  return /^,\s*$/.test(between) && between.includes('\n') && !commented ? between : `,${blank}`;
}
