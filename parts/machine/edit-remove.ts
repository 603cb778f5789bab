import { isMap, type YAMLMap } from 'yaml';
import { MACHINE_FILE } from './declarations.js';
import { type Declaration, type Group, isRequired } from './declare.js';
import {
  type EditedText,
  type Entry,
  entriesOf,
  entryEnd,
  lineStart,
  nextLine,
  type Splice,
  startOf,
} from './edit-text.js';

/** A key that is stated: the group it stands in, and its entry there. */
export interface Step {
  readonly map: YAMLMap;
  readonly entry: Entry;
}

/**
 * Takes a key out, and with it every group that the file need not have and that is left without keys.
 * @param steps from the root down to the key
 * @param names the names of these steps
 */
export function removed(edited: EditedText, steps: readonly Step[], names: readonly string[]): Splice[] {
  let at = steps.length - 1;
  while (at > 0 && steps[at]!.map.items.length === 1 && !isRequired(declaredAt(names.slice(0, at)))) at--;
  const { map, entry } = steps[at]!;
  return map.flow ? outOfBraces(edited, map, entry) : outOfLines(edited, entry);
}

function declaredAt(path: readonly string[]): Declaration {
  return path.reduce<Declaration>((group, name) => (group as Group).keys[name]!, MACHINE_FILE);
}

function outOfLines({ text }: EditedText, entry: Entry): Splice[] {
  const from = lineStart(text, startOf(entry.key));
  const to = nextLine(text, entryEnd(entry, text));
  // The last line of a file that ends without a line break takes the break before it along.
  const before = to === text.length && !text.endsWith('\n') ? text.slice(0, from) : '';
  return [{ from: from - (/\r?\n$/.exec(before)?.[0].length ?? 0), to, put: '' }];
}

function outOfBraces({ text }: EditedText, map: YAMLMap, entry: Entry): Splice[] {
  const all = entriesOf(map);
  const at = all.indexOf(entry);
  const [before, after] = [all[at - 1], all[at + 1]];
  const [from, to] = [startOf(entry.key), entryEnd(entry, text)];
  if (after) return [{ from, to: startOf(after.key), put: '' }];
  if (!before) return [{ from: startOf(map) + 1, to: closingBrace(text, map), put: '' }];
  const end = entryEnd(before, text);
  const between = text.slice(end, from);
  if (/^\s*,\s*$/.test(between)) return [{ from: end, to, put: '' }];
  // A comment between the two belongs to the one that stays.
  const comma = end + between.indexOf(',');
  return [
    { from: comma, to: comma + 1, put: '' },
    { from, to, put: '' },
  ];
}

function closingBrace(text: string, map: YAMLMap): number {
  return isMap(map) && map.range ? text.lastIndexOf('}', map.range[1] - 1) : 0;
}
