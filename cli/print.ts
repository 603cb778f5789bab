/** Text for people: tables that line up, marks that do not depend on colour. */

const COLOURS = { red: 31, yellow: 33, green: 32, bold: 1, dim: 2 } as const;

/** Colour only on a terminal, and never when NO_COLOR is set. */
export function paint(text: string, colour: keyof typeof COLOURS): string {
  const wanted = process.stdout.isTTY && !process.env.NO_COLOR;
  return wanted ? `\u001b[${COLOURS[colour]}m${text}\u001b[0m` : text;
}

/** Lines up columns; numbers to the right where every cell below the heading is one. */
export function table(heading: readonly string[], rows: readonly (readonly string[])[]): string {
  const all = [heading, ...rows];
  const widths = heading.map((_, i) => Math.max(...all.map((row) => [...(row[i] ?? '')].length)));
  const numeric = heading.map((_, i) => rows.every((row) => /^-?[\d.]*$/.test(row[i] ?? '')));
  const line = (row: readonly string[]) =>
    row
      .map((cell, i) => {
        const gap = ' '.repeat(widths[i]! - [...cell].length);
        return numeric[i] ? gap + cell : cell + gap;
      })
      .join('  ')
      .trimEnd();
  return [line(heading), line(widths.map((width) => '-'.repeat(width))), ...rows.map(line)].join('\n');
}

/** A number with no more digits than it deserves. */
export function number(value: number, digits = 3): string {
  if (!Number.isFinite(value)) return value > 0 ? 'infinite' : String(value);
  if (value === 0) return '0';
  const size = Math.floor(Math.log10(Math.abs(value)));
  return value.toFixed(Math.min(4, Math.max(0, digits - 1 - size)));
}

/** Wraps a paragraph to the terminal’s usual width, later lines indented. */
export function wrap(text: string, indent = 0, width = 100): string {
  const pad = ' '.repeat(indent);
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(/\s+/)) {
    if (line && line.length + 1 + word.length > width - indent) {
      lines.push(line);
      line = word;
    } else line = line ? `${line} ${word}` : word;
  }
  lines.push(line);
  return lines.join(`\n${pad}`);
}
