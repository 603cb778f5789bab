import { structuredPatch } from 'diff';

/** One line of a difference; a fold stands for lines that are the same on both sides. */
export type ChangedLine =
  | { readonly kind: 'same' | 'out' | 'in'; readonly text: string }
  | { readonly kind: 'fold'; readonly lines: number };

/** Lines around a change that are shown with it. */
const AROUND = 2;

/** The difference between two texts, line by line; long unchanged stretches are folded. Empty when there is none. */
export function lineChanges(before: string, after: string): readonly ChangedLine[] {
  const { hunks } = structuredPatch('', '', before, after, '', '', { context: AROUND });
  if (hunks.length === 0) return [];
  const total = before.split('\n').length - (before.endsWith('\n') || before === '' ? 1 : 0);
  const lines: ChangedLine[] = [];
  let next = 1;
  const foldTo = (line: number) => {
    if (line > next) lines.push({ kind: 'fold', lines: line - next });
  };
  for (const hunk of hunks) {
    // A hunk that takes nothing out is counted from the line before it.
    const start = hunk.oldLines === 0 ? hunk.oldStart + 1 : hunk.oldStart;
    foldTo(start);
    for (const line of hunk.lines) {
      const kind = KINDS[line[0]!];
      if (kind) lines.push({ kind, text: line.slice(1) });
    }
    next = start + hunk.oldLines;
  }
  foldTo(total + 1);
  return lines;
}

/** Other marks are notes about line ends. */
const KINDS: Readonly<Record<string, 'same' | 'out' | 'in' | undefined>> = {
  ' ': 'same',
  '-': 'out',
  '+': 'in',
};
