import {
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  parseDocument,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml';
import { readSource } from './source.js';

/** A pair of a map as the parser leaves it with its tokens. */
export type Entry = Pair<Node, Node | null>;

/** The text of a machine file with what an edit has to know of it. Offsets count in `text`. */
export interface EditedText {
  /** Without its byte order mark. */
  readonly text: string;
  readonly root: YAMLMap;
  readonly json: boolean;
  /** After colons and commas, where the file is JSON without blanks there is none. */
  readonly blank: '' | ' ';
  readonly lineBreak: '\n' | '\r\n';
  /** Blanks by which a group is indented in its parent. */
  readonly step: number;
}

/** Puts `put` in place of what stands from `from` to `to`. */
export interface Splice {
  readonly from: number;
  readonly to: number;
  readonly put: string;
}

/** Undefined for what the reader takes for no map. */
export function openText(source: string): EditedText | undefined {
  if (!readSource(source, '').root) return undefined;
  const text = source.replace(/^\uFEFF/, '');
  const { contents: root } = parseDocument(text, {
    keepSourceTokens: true,
    uniqueKeys: false,
    merge: false,
    version: '1.2',
    logLevel: 'silent',
    prettyErrors: false,
  });
  if (!isMap(root)) return undefined;
  const json = isJson(text);
  const map = root as YAMLMap;
  return {
    text,
    root: map,
    json,
    blank: json && !/[{[,:]\s/.test(text.replace(/"(?:[^"\\]|\\.)*"/g, '""')) ? '' : ' ',
    lineBreak: text.includes('\r\n') ? '\r\n' : '\n',
    step: indentStep(map, text) ?? 2,
  };
}

function isJson(text: string): boolean {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
}

function indentStep(map: YAMLMap, text: string): number | undefined {
  for (const { value } of entriesOf(map)) {
    if (!isMap(value) || value.flow || value.items.length === 0) continue;
    const step = indentOf(value, text).length - indentOf(map, text).length;
    if (step > 0) return step;
  }
  return undefined;
}

/** What stands before the keys of a block map. */
export function indentOf(map: YAMLMap, text: string): string {
  const first = entriesOf(map)[0];
  const at = first ? startOf(first.key) : 0;
  return /^\s*/.exec(text.slice(lineStart(text, at), at))![0];
}

/** Splices must not overlap; of two that begin at the same place the one given first comes first. */
export function spliced(text: string, splices: readonly Splice[]): string {
  const pieces: string[] = [];
  let at = 0;
  for (const { from, to, put } of [...splices].sort((a, b) => a.from - b.from)) {
    pieces.push(text.slice(at, from), put);
    at = to;
  }
  return pieces.join('') + text.slice(at);
}

export const entriesOf = (map: YAMLMap): readonly Entry[] => map.items as Entry[];

export function entryNamed(map: YAMLMap, name: string): Entry | undefined {
  return entriesOf(map).find(({ key }) => isScalar(key) && key.value === name);
}

export const startOf = (node: Node): number => node.range?.[0] ?? 0;

/** Where nothing stands behind a key. */
export function isEmpty(value: Node | null): value is null {
  return value === null || (isScalar(value) && value.type === 'PLAIN' && value.source === '');
}

export const isBlock = (value: Node | null): value is YAMLMap | YAMLSeq =>
  (isMap(value) || isSeq(value)) && !value.flow && value.items.length > 0;

/** End of the colon behind a key, or of the key where there is none. */
export function colonEnd({ key, srcToken }: Entry): number {
  const colon = srcToken?.sep?.find(({ type }) => type === 'map-value-ind');
  return colon ? colon.offset + 1 : (key.range?.[1] ?? 0);
}

/** Start of a value with its anchor and tag. */
export function valueStart({ value, srcToken }: Entry): number {
  const prefix = srcToken?.sep?.find(({ type }) => type === 'anchor' || type === 'tag');
  return prefix?.offset ?? (value ? startOf(value) : 0);
}

/** End of what is written of a value, without comments and line breaks behind it. */
export function endOf(node: Node, text: string): number {
  if (isBlock(node)) {
    const last = node.items.at(-1);
    return isMap(node) ? entryEnd(last as Entry, text) : endOf(last as Node, text);
  }
  const [from, to] = node.range ?? [0, 0];
  // Not trimEnd: to YAML only these are blank.
  return from + text.slice(from, to).replace(/[ \t\r\n]+$/, '').length;
}

export function entryEnd(entry: Entry, text: string): number {
  return isEmpty(entry.value) ? colonEnd(entry) : endOf(entry.value!, text);
}

export function lineStart(text: string, at: number): number {
  return text.lastIndexOf('\n', at - 1) + 1;
}

/** Where the line ends that `at` is in, before its line break. */
export function lineEnd(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  if (end < 0) return text.length;
  return end > at && text[end - 1] === '\r' ? end - 1 : end;
}

/** Start of the next line, or the end of the text. */
export function nextLine(text: string, at: number): number {
  const end = text.indexOf('\n', at);
  return end < 0 ? text.length : end + 1;
}
