import { describe, expect, it } from 'vitest';
import { formatProblem } from '../../parts/machine/problem.js';
import { readMachineFile } from '../../parts/machine/read.js';
import { LARGEST_FILE, readSource } from '../../parts/machine/source.js';
import { SKETCH } from './sketch.js';

const problems = (text: string) => {
  const read = readMachineFile(text, 'm.yaml');
  return read.ok ? [] : read.problems;
};
const messages = (text: string) => problems(text).map(formatProblem).join('\n');

describe('refuses, with its line', () => {
  it.each<[string, string, number, string]>([
    ['an empty file', '', 1, 'an empty file'],
    ['a file of comments', '# nothing\n', 1, 'an empty file'],
    ['a bare document mark', '---\n', 1, 'an empty file'],
    ['a list', '- a\n- b\n', 1, 'found a list'],
    ['a word', 'hello', 1, 'found only "hello"'],
    ['broken YAML', 'machine: [1, 2\nunits: mm\n', 2, 'what is no YAML'],
    ['an open quote', 'machine: "abc\n', 2, 'what is no YAML'],
    ['a tab as indentation', 'site:\n\taltitude: 3\n', 2, 'what is no YAML'],
    ['a second document', 'machine: a\n---\nmachine: b\n', 3, 'a second document'],
    ['a duplicate key', `${SKETCH}units: in\n`, 18, 'the key a second time (first in line 2)'],
    ['an anchor', SKETCH.replace('width: 45', 'width: &w 45'), 8, 'the anchor &w'],
    ['an unknown alias', SKETCH.replace('width: 45', 'width: *w'), 8, 'w'],
    ['a merge key', `${SKETCH}<<: { a: 1 }\n`, 18, 'a merge key'],
    ['a tag', SKETCH.replace('width: 45', 'width: !!str 45'), 8, 'the tag'],
    ['a tag of its own', SKETCH.replace('width: 45', 'width: !run 45'), 8, '!run'],
    ['a tagged group', SKETCH.replace('site: {', 'site: !!map {'), 3, 'the tag'],
    ['__proto__', `${SKETCH}__proto__: { polluted: true }\n`, 18, 'a key of JavaScript’s own'],
    ['constructor', SKETCH.replace('stretch: 8', 'constructor: 8'), 8, 'a key of JavaScript’s own'],
    ['prototype', SKETCH.replace('stretch: 8', 'prototype: 8'), 8, 'a key of JavaScript’s own'],
    ['a key that is a list', `${SKETCH}? [a]\n: 3\n`, 18, 'a key that is no plain word'],
    ['a key that is a number', `${SKETCH}12: 3\n`, 18, 'the key 12'],
    ['a key that is nothing', `${SKETCH}: 3\n`, 18, 'the key nothing'],
    ['deep brackets', `${SKETCH}assume: ${'['.repeat(13)}${']'.repeat(13)}\n`, 18, 'nested too deeply'],
    [
      'deep indentation',
      `a:\n${Array.from({ length: 20 }, (_, i) => `${' '.repeat(i + 1)}b:`).join('\n')}\n`,
      13,
      'nested too deeply',
    ],
  ])('%s', (_what, text, line, message) => {
    expect(messages(text)).toContain(message);
    expect(problems(text).map((problem) => problem.line)).toContain(line);
  });

  it('an alias to what is known, with its anchor', () => {
    const text = SKETCH.replace('width: 45', 'width: &w 45').replace('bench: 750', 'bench: *w');
    expect(messages(text)).toMatch(/m\.yaml:8:\d+: belt\.width: found the anchor &w/);
    expect(messages(text)).toMatch(/m\.yaml:16:\d+: base\.bench: found the alias \*w/);
  });
});

it('does not expand a bomb of aliases', () => {
  const levels = Array.from(
    { length: 9 },
    (_, i) => `l${i + 1}: &l${i + 1} [${Array(9).fill(`*l${i}`).join(', ')}]`,
  );
  const text = `l0: &l0 [x, x, x]\n${levels.join('\n')}\n`;
  expect(messages(text)).toContain('the anchor &l9');
});

it.each(['[', '{a: ', '- ', '? '])('survives %j without end', (piece) => {
  expect(messages(piece.repeat(50_000))).toContain('nested too deeply');
});

it('refuses a file that is too large, in bytes', () => {
  expect(messages(`# ${'x'.repeat(LARGEST_FILE)}`)).toContain('at most 256 KiB');
  expect(messages(`# ${'é'.repeat(LARGEST_FILE / 2)}`)).toContain('at most 256 KiB');
  expect(problems(`${SKETCH}# ${'x'.repeat(LARGEST_FILE - SKETCH.length - 10)}\n`)).toEqual([]);
});

it('reads what other systems write', () => {
  expect(problems(SKETCH.replaceAll('\n', '\r\n'))).toEqual([]);
  expect(problems(`\uFEFF${SKETCH}`)).toEqual([]);
  expect(problems(`---\n${SKETCH}...\n`)).toEqual([]);
});

it('leaves JavaScript’s own objects alone', () => {
  readMachineFile('__proto__: { polluted: 1 }\nconstructor: { prototype: { polluted: 1 } }\n', 'm.yaml');
  expect(({} as { polluted?: number }).polluted).toBeUndefined();
});

it('keeps a refused value from counting as missing', () => {
  expect(problems(SKETCH.replace('width: 45', 'width: &w 45')).map(({ key }) => key)).toEqual(['belt.width']);
});

it('knows where each value stands', () => {
  const { root } = readSource('a:\n  b: [1,\n    2]\n', 'm.yaml');
  const a = root?.entries.get('a');
  if (a?.value.kind !== 'map') throw new Error('a is no map');
  const b = a.value.entries.get('b');
  if (b?.value.kind !== 'list') throw new Error('b is no list');
  expect([a.line, a.column, b.line, b.column]).toEqual([1, 1, 2, 3]);
  expect(b.value.items.map(({ line, column }) => [line, column])).toEqual([
    [2, 7],
    [3, 5],
  ]);
});

it('escapes what would disturb a terminal', () => {
  const text = SKETCH.replace('material: neoprene', 'material: "\\e[31mred\\u202e"');
  expect(messages(text)).toContain('found "\\u001b[31mred\\u{202e}"');
});
