import { readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { starterText } from '../helpers/machines.js';
import { SLOW, temporaryFolder, tubewright } from '../helpers/program.js';

const LINES = starterText('lecture-hall').split('\n');
/** Lines that give a value of their own. */
const VALUES = LINES.flatMap((line, i) =>
  /^\s*[a-z]+: [^{#&>|]+$/.test(line) && !/^(units|machine):/.test(line) ? [i] : [],
);
const SEED = 20251;

/** Something that no key of a machine file takes. */
const bad = fc.constantFrom(
  '.nan',
  '.inf',
  '-1',
  '1e999',
  '"4,5"',
  '[]',
  '{}',
  '&a 1',
  '*a',
  '"<b>"',
  '12abc',
  '0x1F',
  '!!js x',
);

it(`random bad files are refused with a place, and nothing is written (seed ${SEED})`, {
  timeout: SLOW,
}, () => {
  expect(VALUES.length).toBeGreaterThan(10);
  const folder = temporaryFolder();
  const file = join(folder, 'machine.yaml');
  fc.assert(
    fc.property(fc.constantFrom(...VALUES), bad, fc.constantFrom('check', 'make'), (at, value, verb) => {
      const lines = LINES.map((line, i) => (i === at ? line.replace(/: .*/, `: ${value}`) : line));
      writeFileSync(file, lines.join('\n'));
      const { status, stdout, stderr } = tubewright([verb, file]);
      expect(status, `${lines[at]}\n${stderr}`).toBe(2);
      expect(stdout).toBe('');
      expect(stderr).toMatch(/^\S*machine\.yaml:\d+:\d+: .*found .*, expected /);
      expect(stderr).not.toMatch(/\n {4}at |fault of tubewright/);
      expect(readdirSync(folder)).toEqual(['machine.yaml']);
    }),
    { seed: SEED, numRuns: 25 },
  );
});
