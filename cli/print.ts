/** Text for people: tables that line up, marks that do not depend on colour. */

const COLOURS = { red: 31, yellow: 33, green: 32, bold: 1, dim: 2 } as const;
export type Colour = keyof typeof COLOURS;

/** Columns a line may take. */
export const WIDTH = 100;

/** Colour only on a terminal, and never when NO_COLOR is set. */
export function paint(text: string, colour: Colour): string {
  const wanted = process.stdout.isTTY && !process.env.NO_COLOR;
  return wanted ? `\u001b[${COLOURS[colour]}m${text}\u001b[0m` : text;
}

const widthOf = (text: string) => [...text].length;

/**
 * Lines up columns, two spaces in: numbers to the right where every cell below the heading is one. The last column wraps
 * within the width of a line. Without a heading (all of it empty) the rows stand alone.
 */
export function table(heading: readonly string[], rows: readonly (readonly string[])[]): string {
  const titled = heading.some((title) => title !== '');
  const all = titled ? [heading, ...rows] : rows;
  const last = heading.length - 1;
  const widths = heading.map((_, i) => Math.max(0, ...all.map((row) => widthOf(row[i] ?? ''))));
  const numeric = heading.map((_, i) => rows.every((row) => /^-?[\d.]*$/.test(row[i] ?? '')));
  const before = widths.slice(0, last).reduce((sum, width) => sum + width + 2, 2);
  const line = (row: readonly string[]) => {
    const cells = row.map((cell, i) => {
      const gap = ' '.repeat(widths[i]! - Math.min(widths[i]!, widthOf(cell)));
      if (numeric[i]) return gap + cell;
      return i === last ? wrap(cell, before) : cell + gap;
    });
    return `  ${cells.join('  ')}`.trimEnd();
  };
  return all.map(line).join('\n');
}

/** Wraps a paragraph to the width of a line, later lines indented. The first line is taken to start at the indent. */
export function wrap(text: string, indent = 0, width = WIDTH): string {
  const room = Math.max(20, width - indent);
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    if (line && widthOf(line) + 1 + widthOf(word) > room) {
      lines.push(line);
      line = word;
    } else line = line ? `${line} ${word}` : word;
  }
  lines.push(line);
  return lines.join(`\n${' '.repeat(indent)}`);
}

/** Several paragraphs, each wrapped and indented alike. */
export function block(paragraphs: readonly string[], indent: number): string {
  const pad = ' '.repeat(indent);
  return paragraphs.map((paragraph) => pad + wrap(paragraph, indent)).join('\n');
}

/** Sections for people, an empty line between them. */
export function printText(sections: readonly string[]): void {
  process.stdout.write(`${sections.join('\n\n')}\n`);
}

/** One object for programs. */
export function printJson(value: unknown): void {
  process.stdout.write(`${JSON.stringify(value, null, 1)}\n`);
}
