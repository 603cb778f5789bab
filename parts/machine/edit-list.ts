import { isScalar, type Node, type YAMLSeq } from 'yaml';
import { type EditedText, endOf, lineEnd, lineStart, type Splice, startOf } from './edit-text.js';

/** How an item is written between brackets or behind a dash, over the item that stood there. */
export type WrittenItem = (item: string, flow: boolean, over: Node | undefined) => string;

/**
 * Puts other items into a list that is there, item by item, so that its layout and comments stay. Undefined where that
 * can't be done: the list is empty or is to be, or holds more than plain values.
 */
export function listChanged(
  edited: EditedText,
  list: YAMLSeq,
  items: readonly string[],
  written: WrittenItem,
): Splice[] | undefined {
  const { text } = edited;
  const nodes = list.items as Node[];
  if (nodes.length === 0 || items.length === 0 || !nodes.every(isScalar)) return undefined;
  const flow = list.flow === true;
  const dash = flow ? '' : text.slice(lineStart(text, startOf(nodes[0]!)), startOf(nodes[0]!));
  if (!flow && !/^\s*-\s+$/.test(dash)) return undefined;

  const kept = nodes.slice(0, items.length);
  const [last, end] = [kept.at(-1)!, nodes.at(-1)!];
  const over = kept.flatMap((node, at): Splice[] => {
    const item = items[at]!;
    const now =
      isScalar(node) && typeof node.value === 'string' ? node.value : text.slice(...span(node, text));
    return now === item
      ? []
      : [{ from: startOf(node), to: endOf(node, text), put: written(item, flow, node) }];
  });
  const place = (node: Node) => (flow ? endOf(node, text) : lineEnd(text, endOf(node, text)));
  const before = flow ? comma(edited, nodes) : `${edited.lineBreak}${dash}`;
  const more = items.slice(nodes.length).map((item) => `${before}${written(item, flow, undefined)}`);
  const tail: Splice = {
    from: place(last),
    to: place(nodes.length > kept.length ? end : last),
    put: more.join(''),
  };
  return [...over, tail];
}

const span = (node: Node, text: string): [number, number] => [startOf(node), endOf(node, text)];

/** What stands between the items of a list in brackets. */
function comma({ text, blank }: EditedText, nodes: readonly Node[]): string {
  const [first, second] = nodes;
  const between = first && second ? text.slice(endOf(first, text), startOf(second)) : '';
  return /^\s*,\s*$/.test(between) ? between : `,${blank}`;
}
