import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
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
const EXPECTED_FILE = 'keys such as "machine: My machine" (YAML or JSON)';

/**
 * Reads the text of a machine file (YAML, JSON being a part of it) into a tree that knows its lines. Plain values, lists
 * and maps only: anchors, aliases, merge keys, tags, duplicate keys and several documents are refused.
 */
export function readSource(text: string, file: string): Source {
  const whole = (found: string, expected: string): Source => ({
    root: undefined,
    problems: [{ file, line: 1, column: 1, key: '', found, expected }],
  });
  const size = new TextEncoder().encode(text).length;
  if (size > LARGEST_FILE)
    return whole(`a file of ${Math.ceil(size / 1024)} KiB`, `at most ${LARGEST_FILE / 1024} KiB`);

  const lines = new LineCounter();
  let documents: readonly Document.Parsed[];
  try {
    const parsed = parseAllDocuments(text.replace(/^\uFEFF/, ''), {
      lineCounter: lines,
      prettyErrors: false,
      uniqueKeys: false,
      merge: false,
      version: '1.2',
      logLevel: 'silent',
    });
    documents = Array.isArray(parsed) ? parsed : [];
  } catch (error) {
    // The composer is recursive: nesting beyond all measure ends its stack.
    if (!(error instanceof RangeError)) throw error;
    return whole('values nested too deeply to read', `at most ${DEEPEST_NESTING} levels`);
  }

  const [document, second] = documents;
  if (!document) return whole('an empty file', EXPECTED_FILE);
  const place = (offset: number): Place => {
    const { line, col } = lines.linePos(offset);
    return { line: Math.max(1, line), column: Math.max(1, col) };
  };
  const syntax = documents
    .flatMap((each) => [...each.errors, ...each.warnings])
    .map((error) => {
      const found = `what is no YAML: ${error.message.replace(/\s+/g, ' ')}`;
      return { file, ...place(error.pos[0]), key: '', found, expected: 'valid YAML or JSON' };
    });
  if (syntax.length > 0) return { root: undefined, problems: syntax };
  if (second) {
    const at = place(second.contents?.range?.[0] ?? text.length);
    return {
      root: undefined,
      problems: [{ file, ...at, key: '', found: 'a second document', expected: 'one machine a file' }],
    };
  }
  if (!document.contents || (isScalar(document.contents) && document.contents.value === null)) {
    return whole('an empty file', EXPECTED_FILE);
  }
  const tree = new TreeReader(file, place);
  const root = tree.node(document.contents, '', 1);
  if (root && root.kind !== 'map') {
    const found = root.kind === 'list' ? 'a list' : `only ${quote(root.text)}`;
    return {
      root: undefined,
      problems: [
        ...tree.problems,
        { file, line: root.line, column: root.column, key: '', found, expected: EXPECTED_FILE },
      ],
    };
  }
  return { root, problems: tree.problems };
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
      return this.refuse(at, parent, `the key ${key.source ?? 'nothing'}`, 'a key by name');
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

function hasValue(value: Node | null): boolean {
  return value !== null && !(isScalar(value) && value.value === null);
}
