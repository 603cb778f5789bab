import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { keyNotes } from '../../parts/machine/key-notes.js';
import { readMachineFile } from '../../parts/machine/read.js';
import { annotate, commentedTemplate } from '../../parts/machine/template.js';
import { SKETCH, sketchWith } from './sketch.js';

const STARTERS = new URL('../../cli/starters/', import.meta.url);
const starter = (name: string) => readFileSync(new URL(name, STARTERS), 'utf8');
const valuesOf = (text: string) => {
  const read = readMachineFile(text, 'm.yaml');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.values;
};

it('puts meaning and unit beside each key', () => {
  const lines = annotate(
    'machine: Mine\nbelt:\n  width: 45\n  stretch: 8 # mine\nrollers: { lower: 3 }\n',
  ).split('\n');
  expect(lines).toEqual([
    'machine: Mine # name of the machine, as it stands on its papers (text)',
    'belt: # the charging belt',
    '  width: 45 # width',
    '  stretch: 8 # mine',
    'rollers: { lower: 3 } # what the belt runs on',
    '',
  ]);
});

it('tells readings and own units', () => {
  expect(annotate('column:\n  tube:\n    wall: 3\nsite:\n  altitude: 3\n')).toBe(
    'column: # the insulating column\n  tube: # the tube, measured before cutting\n    wall: 3 # wall thickness (one or a list of readings)\nsite: # where the machine stands\n  altitude: 3 # height over the sea (m)\n',
  );
});

it('leaves alone what a comment would break', () => {
  const spread =
    'machine: "a\n  b"\nsite: {\n  \n  altitude:\n    3 }\nbelt: >\n  folded\n  text\nunknown: 1\n';
  expect(annotate(spread)).toBe(spread);
  expect(annotate('site: {\n  altitude: 3,\n  room: 4 }\n')).toBe(
    'site: {\n  altitude: 3, # height over the sea (m)\n  room: 4 } # volume of the room, for ozone (m3)\n',
  );
  const json = sketchWith({});
  expect(annotate(json)).toBe(json);
  expect(commentedTemplate(json)).toBe(json);
});

it('takes a # in a text for no comment', () => {
  expect(annotate('machine: "No #1"\n')).toBe(
    'machine: "No #1" # name of the machine, as it stands on its papers (text)\n',
  );
});

const TEXTS: readonly (readonly [name: string, text: string])[] = [
  ['sketch', SKETCH],
  ...readdirSync(STARTERS).map((name) => [name, starter(name)] as const),
];

describe.each(TEXTS)('%s', (_name, text) => {
  it('means the same with its comments', () => {
    expect(valuesOf(annotate(text))).toEqual(valuesOf(text));
    expect(valuesOf(commentedTemplate(text))).toEqual(valuesOf(text));
  });

  it('has a comment in every line that has a key', () => {
    for (const line of annotate(text)
      .split('\n')
      .filter((each) => /^\s*\w/.test(each)))
      expect(line).toContain(' # ');
  });

  it('is commented once', () => expect(annotate(annotate(text))).toBe(annotate(text)));

  it('lists exactly the keys that it leaves out', () => {
    const read = readMachineFile(text, 'm.yaml');
    const stated = read.ok ? read.lines : new Map<string, number>();
    const listed = [...commentedTemplate(text).matchAll(/^# {3}([\w.]+): /gm)].map(([, key]) => key);
    expect(listed).toEqual(
      keyNotes()
        .map(({ key }) => key)
        .filter((key) => !stated.has(key)),
    );
  });
});
