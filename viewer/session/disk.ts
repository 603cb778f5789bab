import { type FileState, type WrittenValue, withWritten, writtenValues } from '../../parts/index.js';

// What becomes of the page's own text when the file on disk changes, and of the file when the page saves.

/** How far the page’s own text and the file on disk have come apart. */
export interface Disk extends FileState {
  /** What the page’s edits rest on: differs from `text` while nobody has said which of two changes counts. */
  readonly base: string;
  /** Why the file can’t be read just now. */
  readonly gone: string | undefined;
}

/** The file as the page knows it, and the page’s own text. */
export interface Sides {
  readonly disk: Disk;
  readonly mine: string;
}

/** One key that a text states otherwise than another: what is written, as the builder wrote it. */
export interface KeyChange {
  readonly key: string;
  /** Undefined where the key is not stated. */
  readonly from: string | undefined;
  readonly to: string | undefined;
}

/** How a page’s text and the file on disk have come apart since they were the same. */
export interface Divergence {
  readonly mine: readonly KeyChange[];
  readonly theirs: readonly KeyChange[];
  /** Keys that both changed, and not to the same. */
  readonly both: readonly string[];
  /** Texts in which no value can be read; what was changed in them, key by key, is then unknown. */
  readonly unreadable: readonly ('base' | 'mine' | 'theirs')[];
  /** Whether the page’s edits can be put on top of the file: only when all of it can be read. */
  readonly canJoin: boolean;
}

/**
 * What hearing the file on disk leads to. The page goes along where it has no edits of its own to lose.
 * @param sending the text that is being saved just now
 */
export function heard({ disk, mine }: Sides, word: FileState, sending?: string): Sides {
  const now = { text: word.text, sha256: word.sha256, gone: undefined };
  const agreed = word.text === disk.base || word.text === mine || word.text === sending;
  if (agreed) return { disk: { ...now, base: word.text }, mine };
  const isNews = word.text !== disk.text;
  if (isNews && mine === disk.base) return { disk: { ...now, base: word.text }, mine: word.text };
  return { disk: { ...now, base: disk.base }, mine };
}

/**
 * After the file was written.
 * @param order what was written, and the hash of the file that it took the place of
 * @param sha256 hash of what was written
 */
export function saved(
  { disk, mine }: Sides,
  order: { readonly text: string; readonly base: string },
  sha256: string,
): Sides {
  const isNewest = disk.sha256 === order.base || disk.sha256 === sha256;
  if (isNewest) return { disk: { text: order.text, sha256, base: order.text, gone: undefined }, mine };
  // It has changed again while the answer was on its way.
  return mine === order.text
    ? { disk: { ...disk, base: disk.text }, mine: disk.text }
    : { disk: { ...disk, base: order.text }, mine };
}

/** After an edit on the page: one that makes the two the same ends the question. */
export function agreed({ disk, mine }: Sides): Disk {
  return mine === disk.text && disk.base !== disk.text ? { ...disk, base: disk.text } : disk;
}

/** Both sides changed, and nobody has said yet which counts. */
export function clashOf({ disk, mine }: Sides): Divergence | undefined {
  return disk.base === disk.text || mine === disk.text ? undefined : divergence(disk.base, mine, disk.text);
}

export function divergence(base: string, mine: string, theirs: string): Divergence {
  const [own, other] = [changesBetween(base, mine), changesBetween(base, theirs)];
  const both = own.filter(({ key, to }) => other.some((change) => change.key === key && change.to !== to));
  const texts = { base, mine, theirs };
  const unreadable = (['base', 'mine', 'theirs'] as const).filter(
    (side) => writtenValues(texts[side]).size === 0,
  );
  return {
    mine: own,
    theirs: other,
    both: both.map(({ key }) => key),
    unreadable,
    canJoin: unreadable.length === 0,
  };
}

/** Every key that two texts state differently; none when one of them can’t be read. */
export function changesBetween(before: string, after: string): KeyChange[] {
  return changedKeys(writtenValues(before), writtenValues(after));
}

export function changedKeys(
  from: ReadonlyMap<string, WrittenValue>,
  to: ReadonlyMap<string, WrittenValue>,
): KeyChange[] {
  if (from.size === 0 || to.size === 0) return [];
  return [...new Set([...from.keys(), ...to.keys()])]
    .map((key) => ({ key, from: shown(from.get(key)), to: shown(to.get(key)) }))
    .filter((change) => change.from !== change.to);
}

/**
 * The file on disk with the page’s edits on top; where both changed a key, the page’s counts.
 * @throws RangeError when one of the texts can’t be read
 */
export function onTop(base: string, mine: string, theirs: string): string {
  if (!divergence(base, mine, theirs).canJoin) throw new RangeError('a text whose values can’t be read');
  const written = writtenValues(mine);
  return changesBetween(base, mine).reduce(
    (text, { key }) => withWritten(text, key, written.get(key)?.items),
    theirs,
  );
}

const shown = (value: WrittenValue | undefined) => value?.items.join(', ');
