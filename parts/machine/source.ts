import {
  CST,
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  Lexer,
  LineCounter,
  type Node,
  type Pair,
  parseAllDocuments,
  type Scalar,
  type YAMLMap,
} from 'yaml';
import { type Problem, quote } from './problem.js';

/** A place in the file, from 1. */
export interface Place {
  readonly line: number;
  readonly column: number;
}

export interface SourceEntry extends Place {
  readonly value: SourceNode;
}
export interface SourceMap extends Place {
  readonly kind: 'map';
  readonly entries: ReadonlyMap<string, SourceEntry>;
}
export interface SourceList extends Place {
  readonly kind: 'list';
  readonly items: readonly SourceNode[];
}
export interface SourceScalar extends Place {
  readonly kind: 'scalar';
  readonly value: string | number | boolean | null;
  /** As written; for a string its content. */
  readonly text: string;
}
export type SourceNode = SourceMap | SourceList | SourceScalar;

export interface Source {
  /** Undefined when nothing usable could be read. */
  readonly root: SourceMap | undefined;
  readonly problems: readonly Problem[];
}

/** More than any machine file needs, little enough to read at once. */
export const LARGEST_FILE = 256 * 1024;
export const DEEPEST_NESTING = 12;
/** Names that would reach JavaScript's own machinery. */
const RESERVED_KEYS = ['__proto__', 'constructor', 'prototype'];
const START: Place = { line: 1, column: 1 };
/** What a file should be, for messages. */
export interface SourceWords {
  readonly keys: string;
  readonly single: string;
}
const MACHINE_WORDS: SourceWords = {
  keys: 'keys such as "machine: My machine" (YAML or JSON)',
  single: 'one machine a file',
};

/**
 * Reads the text of a machine file (YAML, JSON being a part of it) into a tree that knows its lines. Plain values, lists
 * and maps only: anchors, aliases, merge keys, tags, duplicate keys and several documents are refused.
 */
export function readSource(text: string, file: string, words: SourceWords = MACHINE_WORDS): Source {
  const plain = text.replace(/^\uFEFF/, '');
  const lines = new LineCounter();
  const place = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const refused = (at: Place, found: string, expected: string): Source => ({
    root: undefined,
    problems: [{ file, ...at, key: '', found, expected }],
  });
  const size = new TextEncoder().encode(text).length;
  if (size > LARGEST_FILE) {
    return refused(START, `a file of ${Math.ceil(size / 1024)} KiB`, `at most ${LARGEST_FILE / 1024} KiB`);
  }
  const tooDeep = deepestLine(plain);
  if (tooDeep !== undefined) {
    return refused(
      { line: tooDeep, column: 1 },
      'values nested too deeply',
      `at most ${DEEPEST_NESTING} levels`,
    );
  }

  const documents = parseAllDocuments(plain, {
    lineCounter: lines,
    prettyErrors: false,
    uniqueKeys: false,
    merge: false,
    version: '1.2',
    logLevel: 'silent',
  });
  const [document, second] = documents;
  if (!document) return refused(START, 'an empty file', words.keys);
  const syntax = syntaxProblems(documents as readonly Document.Parsed[], file, place);
  if (syntax.length > 0) return { root: undefined, problems: syntax };
  if (second) {
    return refused(place(second.contents?.range?.[0] ?? plain.length), 'a second document', words.single);
  }
  if (!hasValue(document.contents)) return refused(START, 'an empty file', words.keys);
  const tree = new TreeReader(file, place);
  const root = tree.node(document.contents, '', 1);
  if (root && root.kind !== 'map') {
    const found = root.kind === 'list' ? 'a list' : `only ${quote(root.text)}`;
    return {
      root: undefined,
      problems: [
        ...tree.problems,
        { file, line: root.line, column: root.column, key: '', found, expected: words.keys },
      ],
    };
  }
  return { root, problems: tree.problems };
}

/**
 * The first line that nests brackets or dashes beyond measure, found before parsing because the parser is recursive.
 * Nesting by indentation alone can't get deep in a file of this size; the tree reader refuses it.
 */
function deepestLine(text: string): number | undefined {
  let line = 1;
  let brackets = 0;
  let dashes = 0;
  for (const token of new Lexer().lex(text)) {
    const type = CST.tokenType(token);
    if (type === 'flow-seq-start' || type === 'flow-map-start') brackets++;
    else if (type === 'flow-seq-end' || type === 'flow-map-end') brackets--;
    else if (type === 'seq-item-ind' || type === 'explicit-key-ind') dashes++;
    if (brackets > DEEPEST_NESTING || dashes > DEEPEST_NESTING) return line;
    const breaks = token.split('\n').length - 1;
    line += breaks;
    if (breaks > 0) dashes = 0;
  }
  return undefined;
}

/** One problem a place: what follows there follows from the first. */
function syntaxProblems(
  documents: readonly Document.Parsed[],
  file: string,
  place: (offset: number) => Place,
): Problem[] {
  const byOffset = new Map<number, Problem>();
  for (const error of documents.flatMap((each) => [...each.errors, ...each.warnings])) {
    const [offset] = error.pos;
    const found = `what is no YAML: ${error.message.replace(/\s+/g, ' ')}`;
    const problem = { file, ...place(offset), key: '', found, expected: 'valid YAML or JSON' };
    if (!byOffset.has(offset)) byOffset.set(offset, problem);
  }
  return [...byOffset.values()];
}

class TreeReader {
  readonly problems: Problem[] = [];

  constructor(
    private readonly file: string,
    private readonly place: (offset: number) => Place,
  ) {}

  /** Undefined for what was refused; the reason is among the problems. */
  node(node: Node, key: string, depth: number): SourceNode | undefined {
    const at = this.placeOf(node);
    if (depth > DEEPEST_NESTING) {
      return this.refuse(at, key, 'values nested too deeply', `at most ${DEEPEST_NESTING} levels`);
    }
    if (isAlias(node)) return this.refuse(at, key, `the alias *${node.source}`, 'the value itself');
    if ('anchor' in node && node.anchor)
      return this.refuse(at, key, `the anchor &${node.anchor}`, 'a plain value');
    if (node.tag) return this.refuse(at, key, `the tag ${node.tag}`, 'a plain value');
    if (isMap(node)) return this.map(node, at, key, depth);
    if (isSeq(node)) {
      const items = node.items.map((item) => this.node(item as Node, key, depth + 1));
      return items.every((item) => item !== undefined) ? { kind: 'list', ...at, items } : undefined;
    }
    return isScalar(node) ? this.scalar(node, at, key) : undefined;
  }

  private map(map: YAMLMap, at: Place, key: string, depth: number): SourceMap {
    const entries = new Map<string, SourceEntry>();
    for (const pair of map.items as Pair<Node, Node | null>[]) {
      const keyAt = this.placeOf(pair.key);
      const name = this.keyName(pair, keyAt, key);
      if (name === undefined) continue;
      const full = key ? `${key}.${name}` : name;
      const first = entries.get(name);
      if (first) {
        this.refuse(keyAt, full, `the key a second time (first in line ${first.line})`, 'each key once');
        continue;
      }
      const value = pair.value ? this.node(pair.value, full, depth + 1) : emptyAt(keyAt);
      // Refused values stay in the tree, so that they do not count as missing.
      entries.set(name, { ...keyAt, value: value ?? REFUSED });
    }
    return { kind: 'map', ...at, entries };
  }

  private keyName(pair: Pair<Node, Node | null>, at: Place, parent: string): string | undefined {
    const { key } = pair;
    if (!isScalar(key) || key.anchor || key.tag)
      return this.refuse(at, parent, 'a key that is no plain word', 'a key by name');
    if (typeof key.value === 'number' && !hasValue(pair.value)) {
      const found = `the number ${key.source} where a key should be`;
      return this.refuse(
        at,
        parent,
        found,
        `a key by name; if ${key.source} is a decimal part, use a point, not a comma`,
      );
    }
    if (typeof key.value !== 'string')
      return this.refuse(at, parent, `the key ${key.source || 'nothing'}`, 'a key by name');
    const full = parent ? `${parent}.${key.value}` : key.value;
    if (key.value === '<<') return this.refuse(at, full, 'a merge key', 'the keys themselves');
    if (RESERVED_KEYS.includes(key.value))
      return this.refuse(at, full, 'a key of JavaScript’s own', 'a key of the machine file');
    return key.value;
  }

  private scalar(node: Scalar, at: Place, key: string): SourceNode | undefined {
    const { value } = node;
    const text = typeof value === 'string' ? value : (node.source ?? '');
    if (
      value === null ||
      typeof value === 'string' ||
      typeof value === 'number' ||
      typeof value === 'boolean'
    ) {
      return { kind: 'scalar', ...at, value, text };
    }
    return this.refuse(at, key, quote(text), 'a plain value');
  }

  private placeOf(node: Node | null | undefined): Place {
    return this.place(node?.range?.[0] ?? 0);
  }

  private refuse(at: Place, key: string, found: string, expected: string): undefined {
    this.problems.push({ file: this.file, line: at.line, column: at.column, key, found, expected });
    return undefined;
  }
}

/** Stands for a value that was refused; its problem is already told. */
export const REFUSED: SourceScalar = { kind: 'scalar', line: 0, column: 0, value: null, text: '' };

function emptyAt(at: Place): SourceScalar {
  return { kind: 'scalar', line: at.line, column: at.column, value: null, text: '' };
}

function hasValue(value: Node | null): value is Node {
  return value !== null && !(isScalar(value) && value.value === null);
}
