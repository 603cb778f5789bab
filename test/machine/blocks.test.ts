import { expect, it } from 'vitest';
import { readMachineFile } from '../../parts/machine/read.js';
import { inBlocks } from '../../parts/machine/template.js';
import { STARTERS, starterText } from '../helpers/machines.js';
import { SKETCH, sketchWith } from './sketch.js';

it('gives each key a line, and leaves lists and their comments alone', () => {
  const text =
    '# head\nsite: { altitude: 350, room: 50 } # m, m3\ncolumn:\n  # measured\n  tube: { outer: [1, 2.0], wall: "3 mm" }\n';
  expect(inBlocks(text)).toBe(
    '# head\nsite:\n  altitude: 350\n  room: 50\ncolumn:\n  # measured\n  tube:\n    outer: [1, 2.0]\n    wall: "3 mm"\n',
  );
});

it('leaves alone what is no block of keys', () => {
  for (const text of ['', '[1, 2]\n', sketchWith({}), 'site: {}\n']) expect(inBlocks(text)).toBe(text);
});

const TEXTS: readonly (readonly [name: string, text: string])[] = [
  ['sketch', SKETCH],
  ...STARTERS.map((name) => [name, starterText(name)] as const),
];

it.each(TEXTS)('%s means the same in blocks', (_, text) => {
  const values = (source: string) => {
    const read = readMachineFile(source, 'm.yaml');
    return read.ok ? read.values : read.problems;
  };
  expect(inBlocks(text)).not.toMatch(/[{}]/);
  expect(values(inBlocks(text))).toEqual(values(text));
});
