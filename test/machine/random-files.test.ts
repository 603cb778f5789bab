import fc from 'fast-check';
import { expect, it } from 'vitest';
import { MACHINE_FILE } from '../../parts/machine/declarations.js';
import { type Leaf, leavesOf } from '../../parts/machine/declare.js';
import { formatProblem, type Problem } from '../../parts/machine/problem.js';
import { readMachineFile } from '../../parts/machine/read.js';
import { SKETCH, sketchWith } from './sketch.js';

const SEED = 2031;

// `units` decides what other numbers mean, and a sphere's height is refused for itself: both have tests of their own.
const LEAVES = leavesOf(MACHINE_FILE).filter(([key]) => key !== 'units' && key !== 'terminal.height');
const REQUIRED = LEAVES.filter(([, leaf]) => leaf.presence.kind === 'required').map(([key]) => key);
const GROUPS = [...new Set(LEAVES.map(([key]) => key.slice(0, Math.max(0, key.lastIndexOf('.')))))];

interface Mutation {
  readonly key: string;
  readonly value: unknown;
}

const wrongType = ([key, leaf]: readonly [string, Leaf]) => {
  const values: unknown[] = [{ a: 1 }, [[1]], '12abc', '1,5 mm', 'NaN', ''];
  if (leaf.kind !== 'boolean') values.push(true, false);
  // A name may well be "12abc" or "NaN".
  const wrong = leaf.kind === 'text' ? [{ a: 1 }, [[1]], '', true, 12] : values;
  return fc.constantFrom(...wrong).map((value): Mutation => ({ key, value }));
};
const absurd = ([key, leaf]: readonly [string, Leaf]) => {
  const { max } = 'range' in leaf ? leaf.range : { max: 0 };
  return fc.constantFrom(10 * max + 1, -10 * max - 1, 1e300).map((value): Mutation => ({ key, value }));
};
const list = ([key]: readonly [string, Leaf]): Mutation => ({ key, value: [1, 2] });

const mutation = fc.oneof(
  fc.constantFrom(...REQUIRED).map((key): Mutation => ({ key, value: undefined })),
  fc.constantFrom(...LEAVES).chain(wrongType),
  fc.constantFrom(...LEAVES.filter(([, leaf]) => 'range' in leaf)).chain(absurd),
  fc.constantFrom(...LEAVES.filter(([, leaf]) => leaf.kind !== 'reading')).map(list),
  fc
    .tuple(fc.constantFrom(...GROUPS), fc.stringMatching(/^[a-z]{1,12}$/))
    .map(([group, name]): Mutation => ({ key: `${group && `${group}.`}x_${name}`, value: 1 })),
);

function checkForm(problems: readonly Problem[], text: string): void {
  const lines = text.split('\n').length;
  expect(problems.length).toBeGreaterThan(0);
  for (const problem of problems) {
    expect(problem.line).toBeGreaterThanOrEqual(1);
    expect(problem.line).toBeLessThanOrEqual(lines);
    expect(problem.column).toBeGreaterThanOrEqual(1);
    expect(formatProblem(problem)).toMatch(/^m\.yaml:\d+:\d+: .*found .+, expected .+/);
    expect(formatProblem(problem)).not.toContain('\n');
  }
  const order = problems.map(({ line }) => line);
  expect(order).toEqual([...order].sort((a, b) => a - b));
}

/** The choice that decides whether a key may stand there at all: while it cannot be read, the key is not judged. */
const decidedBy = new Map(
  LEAVES.flatMap(([key, { presence }]) =>
    presence.kind === 'only-when'
      ? [[key, `${key.slice(0, key.lastIndexOf('.') + 1)}${presence.key}`] as const]
      : [],
  ),
);

it(`tells every one of several mistakes (seed ${SEED})`, () => {
  const several = fc.uniqueArray(mutation, { minLength: 1, maxLength: 5, selector: ({ key }) => key });
  fc.assert(
    fc.property(several, (mutations) => {
      const text = sketchWith(Object.fromEntries(mutations.map(({ key, value }) => [key, value])));
      const read = readMachineFile(text, 'm.yaml');
      if (read.ok) throw new Error(`accepted ${JSON.stringify(mutations)}`);
      checkForm(read.problems, text);
      const told = read.problems.filter(({ rule }) => rule === undefined).map(({ key }) => key);
      for (const { key } of mutations)
        if (!told.includes(decidedBy.get(key) ?? '')) expect(told).toContain(key);
      expect(new Set(told).size).toBe(told.length);
    }),
    { seed: SEED, numRuns: 500 },
  );
});

it(`never throws on a mistyped file (seed ${SEED})`, () => {
  const letters = fc.constantFrom(...' \n\t:,{}[]"\'#&*!|>%@`-?.0123456789azAZé\u0000\u2028\ud800');
  const edit = fc.tuple(
    fc.nat({ max: SKETCH.length }),
    fc.nat({ max: 4 }),
    fc.array(letters, { maxLength: 4 }),
  );
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 4 }), (edits) => {
      const text = edits.reduce(
        (so, [at, cut, put]) => so.slice(0, at) + put.join('') + so.slice(at + cut),
        SKETCH,
      );
      const read = readMachineFile(text, 'm.yaml');
      if (!read.ok) checkForm(read.problems, text);
    }),
    { seed: SEED, numRuns: 500 },
  );
});

it(`never throws on any text (seed ${SEED})`, () => {
  fc.assert(
    fc.property(fc.oneof(fc.string({ unit: 'binary', maxLength: 200 }), fc.json()), (text) => {
      const read = readMachineFile(text, 'm.yaml');
      if (read.ok) throw new Error(`accepted ${text}`);
      checkForm(read.problems, text);
    }),
    { seed: SEED, numRuns: 300 },
  );
});
