/** One thing that is wrong with a file. */
export interface Problem {
  readonly file: string;
  /** From 1. */
  readonly line: number;
  readonly column: number;
  /** Full key, `column.tube.outer`; empty when the file as a whole is meant. */
  readonly key: string;
  readonly found: string;
  readonly expected: string;
  /** Known key, name or unit that was probably meant. */
  readonly nearest?: string;
  /** Name of the rule between values that was broken. */
  readonly rule?: string;
}

/** `machine.yaml:7:12: column.tube.outer: found "7l mm", expected a length ...; did you mean ...?` */
export function formatProblem(problem: Problem): string {
  const { file, line, column, key, found, expected, nearest, rule } = problem;
  const where = `${file}:${line}:${column}: ${key ? `${key}: ` : ''}`;
  const meant = nearest === undefined ? '' : `; did you mean ${nearest}?`;
  return printable(
    `${where}found ${found}, expected ${expected}${meant}${rule === undefined ? '' : ` (${rule})`}`,
  );
}

export function byPlace(a: Problem, b: Problem): number {
  return a.line - b.line || a.column - b.column;
}

const LONGEST_QUOTE = 40;

/** A piece of the file for a message: quoted, cut when long. */
export function quote(text: string): string {
  const characters = [...text];
  return JSON.stringify(
    characters.length > LONGEST_QUOTE ? `${characters.slice(0, LONGEST_QUOTE).join('')}…` : text,
  );
}

/** Control and invisible characters and line separators, escaped: what a file holds must not steer a terminal. */
function printable(text: string): string {
  return text.replace(/[\p{C}\p{Zl}\p{Zp}]/gu, (character) => {
    return `\\u{${character.codePointAt(0)?.toString(16)}}`;
  });
}
