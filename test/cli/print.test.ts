import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { block, paint, table, wrap } from '../../cli/print.js';
import { Progress } from '../../cli/progress.js';
import { number } from '../../parts/index.js';

const isTTY = process.stdout.isTTY;
afterEach(() => {
  process.stdout.isTTY = isTTY;
  vi.unstubAllEnvs();
});

describe('colour', () => {
  it.each([
    ['on a terminal', true, '', '\u001b[31mdanger\u001b[0m'],
    ['not on a terminal with NO_COLOR', true, '1', 'danger'],
    ['not in a pipe', false, '', 'danger'],
  ])('%s', (_, terminal, noColour, expected) => {
    process.stdout.isTTY = terminal;
    vi.stubEnv('NO_COLOR', noColour);
    expect(paint('danger', 'red')).toBe(expected);
  });
});

describe('tables', () => {
  it('line up, numbers to the right', () => {
    const text = table(
      ['part', 'mm'],
      [
        ['a', '1.5'],
        ['longer', '12'],
      ],
    );
    expect(text.split('\n')).toEqual(['  part     mm', '  a       1.5', '  longer   12']);
  });

  it('wrap the last column within a hundred columns', () => {
    const lines = table(['', ''], [['key', 'word '.repeat(60).trim()]]).split('\n');
    expect(lines.length).toBeGreaterThan(2);
    for (const line of lines) expect(line.length).toBeLessThanOrEqual(100);
    for (const line of lines.slice(1)) expect(line).toMatch(/^ {7}word/);
  });

  it('count characters, not their parts', () => {
    expect(
      table(
        ['', ''],
        [
          ['𝛥', 'a'],
          ['xx', 'b'],
        ],
      ).split('\n'),
    ).toEqual(['  𝛥   a', '  xx  b']);
  });
});

it('wraps paragraphs, and breaks no word', () => {
  expect(wrap('one two three', 0, 25)).toBe('one two three');
  expect(wrap('one two three four five six', 2, 22)).toBe('one two three four\n  five six');
  expect(wrap('x'.repeat(200))).toBe('x'.repeat(200));
  expect(block(['a', 'b'], 3)).toBe('   a\n   b');
});

it('shows no more digits than a number deserves', () => {
  expect(
    [0, 0.00001, -0.00001, 0.12345, 1.2345, 12.345, 123.45, 12345.6, -2.5].map((value) => number(value)),
  ).toEqual(['0', '0', '0', '0.123', '1.23', '12.3', '123', '12346', '-2.50']);
  expect(number(Number.POSITIVE_INFINITY)).toBe('no limit');
});

describe('progress', () => {
  beforeEach(() => {
    vi.useFakeTimers();
  });
  afterEach(() => {
    vi.useRealTimers();
  });

  function noted(terminal: boolean, work: (progress: Progress) => void): string {
    let text = '';
    const stream = { isTTY: terminal, write: (chunk: string) => (text += chunk) };
    work(new Progress(stream as unknown as NodeJS.WriteStream));
    return text;
  }

  it('is told on a terminal, once the work has taken a second, and wiped at the end', () => {
    const text = noted(true, (progress) => {
      progress.step('base-skirt', 1, 11);
      vi.advanceTimersByTime(1100);
      progress.step('lock-ring', 7, 11);
      progress.end();
    });
    expect(text).toBe('\r\u001b[Kbuilding lock-ring 7/11\r\u001b[K');
  });

  it('is not told elsewhere, nor of quick work', () => {
    const slow = (progress: Progress) => {
      vi.advanceTimersByTime(5000);
      progress.step('lock-ring', 7, 11);
      progress.end();
    };
    expect(noted(false, slow)).toBe('');
    expect(noted(true, (progress) => progress.end())).toBe('');
  });
});
