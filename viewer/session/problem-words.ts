import { formatProblem, type Problem } from '../../parts/index.js';

/** A problem in the words of the command line, without file and place. */
export function problemInWords(problem: Problem): string {
  return formatProblem({ ...problem, file: '' }).replace(/^:\d+:\d+: /, '');
}

/** The same beside the field it is about, where the key goes without saying. */
export function problemAtField(problem: Problem): string {
  return problemInWords({ ...problem, key: '' });
}

/** A line of the text around a place, and the caret under it; both to be shown in letters of one width. */
export interface Excerpt {
  readonly line: string;
  readonly caret: string;
}

/** Characters shown before and behind the place. */
const BEFORE = 24;
const BEHIND = 18;

/** @param line and column from 1, as in a problem */
export function excerptOf(text: string, { line, column }: Pick<Problem, 'line' | 'column'>): Excerpt {
  const whole = (text.replace(/^\uFEFF/, '').split(/\r\n|\r|\n/)[line - 1] ?? '').replace(/[\t\p{C}]/gu, ' ');
  const at = Math.max(0, Math.min(column - 1, whole.length));
  const from = at > BEFORE + 1 ? at - BEFORE : 0;
  const to = whole.length - at > BEHIND + 1 ? at + BEHIND : whole.length;
  const head = from > 0 ? '…' : '';
  return {
    line: `${head}${whole.slice(from, to)}${to < whole.length ? '…' : ''}`,
    caret: `${' '.repeat(head.length + at - from)}^`,
  };
}
