import { CST, isMap, isScalar, Lexer, LineCounter, type Node, type Pair, parseDocument, visit } from 'yaml';
import type { Declaration } from './declare.js';
import { declarationOf, FOLLOWS_UNITS, type KeyNote, keyNotes } from './key-notes.js';

export { keysTable } from './key-notes.js';

/**
 * A machine file to start from: the given one with the meaning and unit of each key beside it, and a list of what it
 * leaves out and what is then taken, as comments at its end.
 *
 * @param text a machine file in YAML; one in JSON can't hold comments and comes back as it is
 */
export function commentedTemplate(text: string): string {
  const root = parseDocument(text).contents;
  if (!isMap(root) || root.flow) return text;
  const stated = new Set(keyPlaces(root as Node, '').map(({ key }) => key));
  const left = keyNotes().filter(({ key }) => !stated.has(key));
  const tail = left.map((note) => `#   ${note.key}: ${note.meaning}${unitNote(note)}; ${withoutIt(note)}`);
  const end =
    left.length > 0 ? ['', '# Keys not stated here, and what is taken without them:', ...tail, ''] : [];
  return `${annotate(text).trimEnd()}\n${end.join('\n')}`;
}

/**
 * Adds each key's meaning and unit as a comment at the end of its line, where the line has no comment yet. Where several
 * keys share a line the first one is told. Changes no value.
 */
export function annotate(text: string): string {
  const lineCounter = new LineCounter();
  const root = parseDocument(text, { lineCounter }).contents;
  if (!isMap(root) || root.flow) return text;
  const lines = text.split('\n');
  const commented = linesWithComments(text);
  const done = new Set<number>();
  for (const place of keyPlaces(root as Node, '')) {
    const from = lineCounter.linePos(place.from).line;
    const to = lineCounter.linePos(Math.max(place.from, place.to - 1)).line;
    const declaration = declarationOf(place.key);
    // A value that goes on in the next line would swallow the comment, or be cut by it.
    if (!declaration || from !== to || done.has(from) || commented.has(from)) continue;
    done.add(from);
    lines[from - 1] = `${(lines[from - 1] ?? '').trimEnd()} # ${commentFor(place.key, declaration)}`;
  }
  return lines.join('\n');
}

/**
 * A machine file with one key a line, so that each has room for its comment: values in braces are laid out as blocks,
 * lists stay as they are. A comment that stood behind a brace spoke of the line that is gone, and goes with it.
 */
export function inBlocks(text: string): string {
  const document = parseDocument(text);
  if (!isMap(document.contents) || document.contents.flow) return text;
  visit(document, {
    Map: (_, map) => {
      if (!map.flow || map.items.length === 0) return;
      map.flow = false;
      map.comment = null;
    },
  });
  return document.toString({ lineWidth: 0, flowCollectionPadding: false });
}

interface KeyPlace {
  readonly key: string;
  readonly from: number;
  /** End of what must stay on one line: of the key for a block of keys, else of the value. */
  readonly to: number;
}

function keyPlaces(node: Node, prefix: string): KeyPlace[] {
  if (!isMap(node)) return [];
  return (node.items as Pair<Node, Node | null>[]).flatMap(({ key, value }) => {
    if (!isScalar(key) || !key.range) return [];
    const full = prefix ? `${prefix}.${key.value}` : String(key.value);
    const block = isMap(value) && !value.flow;
    const to = block ? key.range[1] : (value?.range?.[1] ?? key.range[1]);
    return [{ key: full, from: key.range[0], to }, ...(value ? keyPlaces(value, full) : [])];
  });
}

function commentFor(key: string, declaration: Declaration): string {
  const note = keyNotes().find((each) => each.key === key);
  return note ? `${note.meaning}${unitNote(note)}` : declaration.meaning;
}

function unitNote({ unit }: KeyNote): string {
  const own = unit.replace(FOLLOWS_UNITS, '').replace(/^, /, '');
  return own && ` (${own})`;
}

function withoutIt({ default: taken }: KeyNote): string {
  return /^(?:none|required)/.test(taken) ? taken : `default ${taken}`;
}

function linesWithComments(text: string): ReadonlySet<number> {
  const found = new Set<number>();
  let line = 1;
  for (const token of new Lexer().lex(text)) {
    if (CST.tokenType(token) === 'comment') found.add(line);
    line += token.split('\n').length - 1;
  }
  return found;
}
