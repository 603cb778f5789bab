import { describe, expect, it } from 'vitest';
import { formatProblem, readMachineFile } from '../../parts/index.js';
import { undoKey } from '../../viewer/panels/undo-keys.js';
import { lineChanges } from '../../viewer/session/line-changes.js';
import { excerptOf, problemAtField, problemInWords } from '../../viewer/session/problem-words.js';
import { saveInWords } from '../../viewer/session/save.js';
import { starterText } from '../helpers/machines.js';

describe('a problem', () => {
  const text = starterText('travelling-demonstrator').replace('width: 45', 'width: 45 mn');
  const read = readMachineFile(text, 'a.yaml');
  const problem = read.ok ? undefined : read.problems[0];

  it('is told in the words of the command line', () => {
    expect(formatProblem(problem!)).toBe(
      `a.yaml:${problem!.line}:${problem!.column}: ${problemInWords(problem!)}`,
    );
    expect(problemInWords(problem!)).toBe(`belt.width: ${problemAtField(problem!)}`);
    expect(problemAtField(problem!)).toMatch(/^found "45 mn", expected .*did you mean mm\?$/);
  });

  it('is shown at its place in the line', () => {
    const { line, caret } = excerptOf(text, problem!);
    expect(line.slice(caret.indexOf('^'), caret.indexOf('^') + 5)).toBe('45 mn');
    expect(line.length).toBeLessThan(50);
  });

  it('is shown at its place wherever that is', () => {
    const long = Array.from({ length: 30 }, (_, at) => `word${at}`).join(' ');
    for (let column = 1; column <= long.length + 1; column++) {
      const { line, caret } = excerptOf(`\uFEFFfirst\r\n${long}`, { line: 2, column });
      expect(line[caret.indexOf('^')], String(column)).toBe(long[column - 1]);
    }
    expect(excerptOf('a\n\tb', { line: 2, column: 2 })).toEqual({ line: ' b', caret: ' ^' });
    expect(excerptOf('a', { line: 9, column: 1 })).toEqual({ line: '', caret: '^' });
  });
});

describe('a difference line by line', () => {
  const lines = Array.from({ length: 20 }, (_, at) => `line ${at + 1}`);
  const text = (all: readonly string[]) => all.map((line) => `${line}\n`).join('');

  it('shows what goes and comes, and folds what stays', () => {
    expect(lineChanges(text(lines), text(lines.with(9, 'other')))).toEqual([
      { kind: 'fold', lines: 7 },
      { kind: 'same', text: 'line 8' },
      { kind: 'same', text: 'line 9' },
      { kind: 'out', text: 'line 10' },
      { kind: 'in', text: 'other' },
      { kind: 'same', text: 'line 11' },
      { kind: 'same', text: 'line 12' },
      { kind: 'fold', lines: 8 },
    ]);
  });

  it('accounts for every line of both texts', () => {
    for (const after of [
      lines.toSpliced(0, 1),
      lines.toSpliced(19, 1, 'x', 'y'),
      [...lines, 'z'],
      ['z', ...lines],
      [],
    ]) {
      const shown = lineChanges(text(lines), text(after));
      const count = (...kinds: string[]) =>
        shown.reduce(
          (sum, line) => sum + (kinds.includes(line.kind) ? 1 : 0) + (line.kind === 'fold' ? line.lines : 0),
          0,
        );
      expect(count('same', 'out')).toBe(20);
      expect(count('same', 'in')).toBe(after.length);
    }
  });

  it('is empty when there is none', () => {
    expect(lineChanges(text(lines), text(lines))).toEqual([]);
  });
});

describe('what came of saving', () => {
  it('is said in words', () => {
    const said = (reply: Parameters<typeof saveInWords>[0]) => saveInWords(reply, 'a.yaml');
    expect(said({ status: 200, body: { sha256: '' } })).toBe('written to a.yaml');
    expect(said({ status: 409, body: { text: '', sha256: '' } })).toMatch(/^not written: a.yaml was changed/);
    expect(said({ status: 409, body: { gone: 'no such file' } })).toBe('not written: no such file');
    expect(said({ status: 422, body: { problems: [] } })).toMatch(/^not written: 0 values/);
    expect(said({ status: 500, body: { error: 'disk full' } })).toBe('not written: disk full');
    expect(said({ status: 0, body: { error: 'stopped' } })).toBe('not written: stopped');
  });
});

describe('undo by key', () => {
  it('is asked for with Ctrl or Cmd, and with nothing else', () => {
    const press = (key: string, held: readonly string[]) =>
      undoKey({
        key,
        ctrlKey: held.includes('Ctrl'),
        metaKey: held.includes('Cmd'),
        shiftKey: held.includes('Shift'),
        altKey: held.includes('Alt'),
      });
    expect(press('z', ['Ctrl'])).toBe('undo');
    expect(press('z', ['Cmd'])).toBe('undo');
    expect(press('Z', ['Ctrl', 'Shift'])).toBe('redo');
    expect(press('Z', ['Cmd', 'Shift'])).toBe('redo');
    expect(press('y', ['Ctrl'])).toBe('redo');
    for (const [key, held] of [
      ['z', []],
      ['z', ['Alt', 'Ctrl']],
      ['y', ['Cmd']],
      ['y', ['Ctrl', 'Shift']],
      ['x', ['Ctrl']],
    ] as const)
      expect(press(key, held), `${held} ${key}`).toBeUndefined();
  });
});
