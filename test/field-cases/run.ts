import { readFileSync } from 'node:fs';
import { ProblemError } from '../../parts/field/boundary/problem.js';
import { CaseError, readCases } from './case.js';
import { type Compared, compare, isOutside, type Row } from './compare.js';

// Solves machines whose field is known and tells how far off the solver is: npm run field-cases -- FILE. Exit status: 0
// all within their bars, 1 one is outside, 2 the file can't be used.

const HEAD = `${'quantity'.padEnd(28)}${['value', 'reference', 'error', 'estimate', 'bar'].map((word) => word.padStart(14)).join('')}`;

const percent = (share: number) => `${(100 * share).toFixed(5)} %`;

function told(row: Row): string {
  const { key, value, reference, error, estimate, bar, judged } = row;
  const numbers = [value.toPrecision(8), reference.toPrecision(8), percent(error), percent(estimate)];
  const verdict = isOutside(row)
    ? '  OUTSIDE'
    : judged
      ? ''
      : error <= bar
        ? '  (shown only)'
        : '  (shown only, farther off)';
  return `${key.padEnd(28)}${[...numbers, `${100 * bar} %`].map((word) => word.padStart(14)).join('')}${verdict}`;
}

function show(name: string, note: string | undefined, { rows, unknowns, time, left }: Compared): void {
  console.log(`\n${name}${note === undefined ? '' : `: ${note}`}`);
  console.log(`${unknowns} unknowns, ${time.toFixed(0)} ms`);
  console.log(HEAD);
  for (const row of rows) console.log(told(row));
  if (left.length > 0) console.log(`not compared: ${left.join(', ')}`);
}

function run(files: readonly string[]): number {
  const [file] = files;
  if (file === undefined || files.length > 1)
    throw new CaseError('expected one file: npm run field-cases -- FILE');
  const cases = readCases(readFileSync(file, 'utf8'));
  let outside = 0;
  for (const [i, each] of cases.entries()) {
    // Once for the engine to warm up; the time of the second is told.
    if (i === 0) compare(each);
    const compared = compare(each);
    show(each.input.name, each.input.note, compared);
    outside += compared.rows.filter(isOutside).length;
  }
  console.log(`\n${outside === 0 ? 'all' : `${outside} not`} within their bars`);
  return outside === 0 ? 0 : 1;
}

try {
  process.exitCode = run(process.argv.slice(2));
} catch (error) {
  const file = process.argv[2];
  const isExpected =
    error instanceof CaseError ||
    error instanceof ProblemError ||
    (error as { code?: string }).code !== undefined;
  if (!isExpected) throw error;
  console.error(`${file === undefined ? '' : `${file}: `}${(error as Error).message}`);
  process.exitCode = 2;
}
