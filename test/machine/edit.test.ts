import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse, parseDocument } from 'yaml';
import { MACHINE_FILE } from '../../parts/machine/declarations.js';
import { type Leaf, leavesOf } from '../../parts/machine/declare.js';
import { withValue, withWritten, writtenValues } from '../../parts/machine/edit.js';
import { readMachineFile } from '../../parts/machine/read.js';
import { commentedTemplate, inBlocks } from '../../parts/machine/template.js';
import { DECIMAL_TEXT } from '../../parts/machine/units.js';
import { STARTERS, starterText } from '../helpers/machines.js';
import { setKey, type Tree } from './sketch.js';

const SEED = 20_261_125;
/** For each of the texts below. */
const RUNS = 20;
const itemsOf = (text: string, key: string) => writtenValues(text).get(key)?.items;

describe('what a file states', () => {
  it('is read item by item, without quotes, with the line of its key', () => {
    const text =
      'machine: "A: b"\ncolumn:\n  tube: { outer: [79.60, \'3 1/2 in\'], length: 24 in } # cut\n  other: 1\n';
    const values = writtenValues(text);
    expect([...values.keys()]).toEqual(['machine', 'column.tube.outer', 'column.tube.length']);
    expect(values.get('machine')).toEqual({ items: ['A: b'], list: false, line: 1 });
    expect(values.get('column.tube.outer')).toEqual({ items: ['79.60', '3 1/2 in'], list: true, line: 3 });
    expect(values.get('column.tube.length')).toEqual({ items: ['24 in'], list: false, line: 3 });
  });

  it.each(['', '# nothing', '- 1', 'a', 'a: [', 'a: 1\n---\nb: 2', '['.repeat(10_000)])(
    'is nothing in %j',
    (text) => {
      expect(writtenValues(text).size).toBe(0);
    },
  );

  it('counts a key with nothing behind it as stated', () => {
    expect(itemsOf('units:\nmachine: a', 'units')).toEqual(['']);
  });
});

/** Before, key, items, after. */
type Case = readonly [
  what: string,
  before: string,
  key: string,
  items: readonly string[] | undefined,
  after: string,
];

const CHANGES: readonly Case[] = [
  ['a number in a block', 'belt:\n  width: 45\n', 'belt.width', ['44.50'], 'belt:\n  width: 44.50\n'],
  [
    'a comment after the value',
    'belt:\n  width: 45   # measured\n  thickness: 1\n',
    'belt.width',
    ['46'],
    'belt:\n  width: 46   # measured\n  thickness: 1\n',
  ],
  [
    'braces',
    'belt: { width: 45, thickness: 1.2 }',
    'belt.width',
    ['3 1/2 in'],
    'belt: { width: 3 1/2 in, thickness: 1.2 }',
  ],
  [
    'braces across lines',
    'belt: {\n  width: 45, # w\n  thickness: 1.2\n}\n',
    'belt.thickness',
    ['1.3'],
    'belt: {\n  width: 45, # w\n  thickness: 1.3\n}\n',
  ],
  ['JSON', '{"belt":{"width":45}}', 'belt.width', ['3 1/2 in'], '{"belt":{"width":"3 1/2 in"}}'],
  ['a number as JSON has it', '{"belt":{"width":45}}', 'belt.width', ['+.5'], '{"belt":{"width":0.5}}'],
  ['inch marks in JSON', '{"belt":{"width":45}}', 'belt.width', ['5"'], '{"belt":{"width":"5\\""}}'],
  [
    'a number for a text',
    'rollers: { lower: { bearing: R4A } }',
    'rollers.lower.bearing',
    ['696'],
    'rollers: { lower: { bearing: "696" } }',
  ],
  [
    'a text for a quoted number',
    'rollers:\n  lower:\n    bearing: "696"\n',
    'rollers.lower.bearing',
    ['R4A shielded'],
    'rollers:\n  lower:\n    bearing: R4A shielded\n',
  ],
  [
    'quotes out of habit',
    'belt: { width: "2 in" }',
    'belt.width',
    ['3 1/2 in'],
    'belt: { width: "3 1/2 in" }',
  ],
  ['single quotes out of habit', "machine: 'One'", 'machine', ["Bob's"], "machine: 'Bob''s'"],
  ['a name that YAML takes for something else', 'machine: a', 'machine', ['true'], 'machine: "true"'],
  ['a name with a colon', 'machine: a', 'machine', ['a: b'], 'machine: "a: b"'],
  ['a name with a comment’s mark', 'machine: a', 'machine', ['No #1 # x'], 'machine: "No #1 # x"'],
  ['foot and inch marks', 'belt: {width: 1}', 'belt.width', ['5\' 2"'], 'belt: {width: 5\' 2"}'],
  ['a comma between braces', 'belt: {width: 1}', 'belt.width', ['1,5'], 'belt: {width: "1,5"}'],
  ['a comma in a block', 'belt:\n  width: 1', 'belt.width', ['1,5'], 'belt:\n  width: 1,5'],
  ['an inch mark first', 'machine: a', 'machine', ['"A"'], 'machine: \'"A"\''],
  ['nothing', 'belt:\n  width: 1\n', 'belt.width', [''], 'belt:\n  width: ""\n'],
  ['a number of another base', 'belt:\n  width: 1\n', 'belt.width', ['0x1F'], 'belt:\n  width: "0x1F"\n'],
  ['a line break', 'machine: a\n', 'machine', ['a\nunits: in'], 'machine: "a\\nunits: in"\n'],
  ['yes or no', 'print: { conductive: false }', 'print.conductive', ['true'], 'print: { conductive: true }'],
  [
    'several readings for one',
    'terminal: { diameter: 250, insertion: 50 }',
    'terminal.diameter',
    ['249.4', '250.8'],
    'terminal: { diameter: [249.4, 250.8], insertion: 50 }',
  ],
  [
    'one reading for several',
    'terminal: { diameter: [249.4, 250.8] }',
    'terminal.diameter',
    ['250'],
    'terminal: { diameter: 250 }',
  ],
  [
    'more and fewer readings in brackets',
    'column: { tube: { outer: [1,2 , 3], wall: [1,2] } }',
    'column.tube.wall',
    ['1', '4', '5 in'],
    'column: { tube: { outer: [1,2 , 3], wall: [1,4,5 in] } }',
  ],
  [
    'fewer readings in brackets over lines',
    'terminal:\n  diameter: [\n    1, # a\n    2, # b\n    3\n  ]\n',
    'terminal.diameter',
    ['1', '9'],
    'terminal:\n  diameter: [\n    1, # a\n    9\n  ]\n',
  ],
  [
    'a list with dashes',
    'terminal:\n  diameter: # two ways\n    - 1 # a\n    - 2 # b\n  insertion: 5\n',
    'terminal.diameter',
    ['1', '7', '8'],
    'terminal:\n  diameter: # two ways\n    - 1 # a\n    - 7 # b\n    - 8\n  insertion: 5\n',
  ],
  [
    'fewer in a list with dashes',
    'terminal:\n  diameter:\n  - 1 # a\n  - 2 # b\n  - 3 # c\n  insertion: 5\n',
    'terminal.diameter',
    ['1', '2'],
    'terminal:\n  diameter:\n  - 1 # a\n  - 2 # b\n  insertion: 5\n',
  ],
  [
    'one value for a list with dashes',
    'terminal:\n  diameter: # two ways\n    - 1 # a\n    - 2 # b\n  # next\n  insertion: 5\n',
    'terminal.diameter',
    ['7'],
    'terminal:\n  diameter: 7 # two ways\n  # next\n  insertion: 5\n',
  ],
  ['an empty list', 'terminal: { diameter: 5 }', 'terminal.diameter', [], 'terminal: { diameter: [] }'],
  [
    'line breaks of two characters',
    'units: mm\r\nmachine: a\r\n',
    'units',
    ['in'],
    'units: in\r\nmachine: a\r\n',
  ],
  ['a byte order mark', '\uFEFFunits: mm\n', 'units', ['in'], '\uFEFFunits: in\n'],
  [
    'a key with nothing behind it',
    'units: # which\nmachine: a',
    'units',
    ['in'],
    'units: in # which\nmachine: a',
  ],
  ['a text over lines', 'machine: |\n  A\nunits: mm\n', 'machine', ['B'], 'machine: B\nunits: mm\n'],
  [
    'a group where a value should be',
    'units:\n  a: 1\nmachine: a\n',
    'units',
    ['in'],
    'units: in\nmachine: a\n',
  ],
  ['an anchor, which is refused', 'units: &u mm\n', 'units', ['in'], 'units: in\n'],
  ['a key in question form', '? units\nmachine: a\n', 'machine', ['b'], '? units\nmachine: b\n'],
];

const ADDITIONS: readonly Case[] = [
  [
    'a block, behind its last comment',
    'base:\n  feet: 90 # high\n\nbelt: 1\n',
    'base.bench',
    ['750'],
    'base:\n  feet: 90 # high\n  bench: 750\n\nbelt: 1\n',
  ],
  [
    'a block whose last key is a group',
    'base:\n  plate:\n    thickness: 4\n# end\n',
    'base.feet',
    ['90'],
    'base:\n  plate:\n    thickness: 4\n  feet: 90\n# end\n',
  ],
  ['a file that ends without a line break', 'machine: a', 'units', ['in'], 'machine: a\nunits: in'],
  ['braces', 'base: { feet: 90 }', 'base.bench', ['750'], 'base: { feet: 90, bench: 750 }'],
  ['tight braces', 'base: {feet: 90}', 'base.bench', ['750'], 'base: {feet: 90, bench: 750}'],
  ['empty braces', 'base: {}', 'base.bench', ['750'], 'base: { bench: 750 }'],
  [
    'braces with a comma at their end',
    'base: { feet: 90, }',
    'base.bench',
    ['750'],
    'base: { feet: 90, bench: 750, }',
  ],
  [
    'braces over lines',
    'base: {\n  feet: 90,\n  bench: 1 # x\n}\n',
    'base.plate.thickness',
    ['4'],
    'base: {\n  feet: 90,\n  bench: 1, plate: { thickness: 4 } # x\n}\n',
  ],
  ['JSON in one line', '{"units":"mm"}', 'base.feet', ['90'], '{"units":"mm","base":{"feet":90}}'],
  [
    'JSON over lines',
    '{\n  "units": "mm",\n  "base": {\n    "feet": 90\n  }\n}\n',
    'base.bench',
    ['30 in'],
    '{\n  "units": "mm",\n  "base": {\n    "feet": 90,\n    "bench": "30 in"\n  }\n}\n',
  ],
  [
    'a missing group, where it is declared',
    'machine: a\nunits: mm\n\n# what\ntarget:\n  voltage: 100\n',
    'site.altitude',
    ['350'],
    'machine: a\nunits: mm\nsite:\n  altitude: 350\n\n# what\ntarget:\n  voltage: 100\n',
  ],
  [
    'a missing group in a file of braces',
    'machine: a\nbase: { feet: 90 }\n',
    'print.bed.x',
    ['300'],
    'machine: a\nbase: { feet: 90 }\nprint: { bed: { x: 300 } }\n',
  ],
  [
    'groups missing in groups, in the file’s indentation',
    'machine: a\nbase:\n    feet: 90\n',
    'print.bed.x',
    ['300'],
    'machine: a\nbase:\n    feet: 90\nprint:\n    bed:\n        x: 300\n',
  ],
  [
    'a heading with nothing below',
    'machine: a\nsite: # where\n  # altitude: 1\nunits: mm\n',
    'site.altitude',
    ['5'],
    'machine: a\nsite: # where\n  altitude: 5\n  # altitude: 1\nunits: mm\n',
  ],
  [
    'an empty group in braces',
    '{ site: , units: mm }',
    'site.altitude',
    ['5'],
    '{ site: { altitude: 5 } , units: mm }',
  ],
  [
    'a name alone in braces',
    '{ site, units: mm }',
    'site.altitude',
    ['5'],
    '{ site: { altitude: 5 }, units: mm }',
  ],
  ['a group that says null', 'site: ~ # x\n', 'site.altitude', ['5'], 'site: { altitude: 5 } # x\n'],
  [
    'a group that is a number',
    'site: 5\nunits: mm',
    'site.altitude',
    ['5'],
    'site: { altitude: 5 }\nunits: mm',
  ],
  [
    'line breaks of two characters',
    'machine: a\r\nbase:\r\n  feet: 90\r\n',
    'base.plate.thickness',
    ['4'],
    'machine: a\r\nbase:\r\n  feet: 90\r\n  plate:\r\n    thickness: 4\r\n',
  ],
];

const REMOVALS: readonly Case[] = [
  [
    'its line, with its comment',
    'units: mm # u\n# next\nmachine: a\n',
    'units',
    undefined,
    '# next\nmachine: a\n',
  ],
  ['the last line', 'machine: a\nunits: mm', 'units', undefined, 'machine: a'],
  ['the first in braces', 'base: { feet: 90, bench: 7 }', 'base.feet', undefined, 'base: { bench: 7 }'],
  ['the last in braces', 'base: { feet: 90, bench: 7 }', 'base.bench', undefined, 'base: { feet: 90 }'],
  [
    'the last in braces, and no comment before it',
    'base: {\n  feet: 90, # f\n  bench: 7\n}',
    'base.bench',
    undefined,
    'base: {\n  feet: 90 # f\n  \n}',
  ],
  [
    'a group that it leaves empty',
    'machine: a\nprint:\n  bed:\n    x: 300 # wide\nunits: mm\n',
    'print.bed.x',
    undefined,
    'machine: a\nunits: mm\n',
  ],
  [
    'a group in braces that it leaves empty',
    'print: { bed: { x: 300 }, layer: 0.2 }',
    'print.bed.x',
    undefined,
    'print: { layer: 0.2 }',
  ],
  [
    'no group that has to be there',
    'base:\n  feet: 90\nunits: mm\n',
    'base.feet',
    undefined,
    'base:\nunits: mm\n',
  ],
  ['no braces that have to be there', 'base: { feet: 90 }', 'base.feet', undefined, 'base: {}'],
  ['nothing where there is nothing', 'base: { feet: 90 }', 'base.bench', undefined, 'base: { feet: 90 }'],
  [
    'a list',
    'terminal:\n  diameter:\n    - 1\n    - 2\n  shell: 1\n',
    'terminal.diameter',
    undefined,
    'terminal:\n  shell: 1\n',
  ],
  ['in JSON', '{"units":"mm","base":{"feet":90}}', 'units', undefined, '{"base":{"feet":90}}'],
];

describe.each([
  ['changes', CHANGES],
  ['adds to', ADDITIONS],
  ['takes out', REMOVALS],
] as const)('%s', (_, cases) => {
  it.each(cases)('%s', (_what, before, key, items, after) => {
    expect(withWritten(before, key, items)).toBe(after);
    if (before.startsWith('{"')) expect(() => JSON.parse(after)).not.toThrow();
  });
});

it('refuses a key that no machine file has, and a text that is no map', () => {
  expect(() => withWritten('units: mm', 'belt.colour', ['red'])).toThrow(RangeError);
  expect(() => withWritten('units: mm', 'belt', ['red'])).toThrow(RangeError);
  expect(() => withWritten('- 1', 'units', ['mm'])).toThrow(RangeError);
  expect(() => withWritten('', 'units', ['mm'])).toThrow(RangeError);
  expect(() => withValue('units: mm', 'belt.width', Number.NaN)).toThrow(RangeError);
});

describe('a value in the unit that is written', () => {
  it.each([
    ['bare in mm', 'belt: { width: 45 }', 'belt.width', 44.123456789, '44.123456789'],
    ['bare in the file’s inches', 'units: in\nbelt: { width: 2 }', 'belt.width', 25.4, '1'],
    ['six digits of what is converted', 'units: in\nbelt: { width: 2 }', 'belt.width', 653, '25.7087'],
    ['an inch of its own', 'belt: { width: 24 in }', 'belt.width', 914.4, '36 in'],
    ['a fraction', 'belt: { width: 3 1/2 in }', 'belt.width', 95.25, '3.75 in'],
    ['inch marks', 'belt: { width: 3-1/2" }', 'belt.width', 95.25, '3.75"'],
    ['feet and inches', 'belt: { width: 1 ft 2 in }', 'belt.width', 304.8, '12 in'],
    ['mm in a file of inches', 'units: in\nbelt: { width: 46 mm }', 'belt.width', 47.5, '47.5 mm'],
    ['kilovolts bare', 'target: { voltage: 170 }', 'target.voltage', 150_000, '150'],
    ['kilovolts', 'target: { voltage: 170 kV }', 'target.voltage', 151_500, '151.5 kV'],
    ['volts', 'target: { voltage: 170000 V }', 'target.voltage', 151_500, '151500 V'],
    ['Fahrenheit', 'site: { temperature: 68 F }', 'site.temperature', 0, '32 F'],
    ['a unit that ends in a digit', 'site: { room: 50 m3 }', 'site.room', 60, '60 m3'],
    ['a plain number', 'assume: { friction_low: 0.1 }', 'assume.friction_low', 0.123456789, '0.123456789'],
    ['what was not stated', 'units: in\nmachine: a', 'belt.width', 50.8, '2'],
    ['a printer’s millimetres', 'units: in\nmachine: a', 'print.nozzle', 0.4, '0.4'],
    ['what was no quantity', 'belt: { width: wide }', 'belt.width', 50, '50'],
    ['several readings', 'terminal: { diameter: [1 in, 2 in] }', 'terminal.diameter', 50.8, '2 in'],
    ['a word', 'fits: { pilot: snug }', 'fits.pilot', 'slide', 'slide'],
    ['yes', 'machine: a', 'print.conductive', true, 'true'],
  ] as const)('%s', (_, text, key, value, written) => {
    expect(itemsOf(withValue(text, key, value), key)).toEqual([written]);
  });
});

const LEAVES = leavesOf(MACHINE_FILE);
const NONSENSE = [
  ...['', ' ', 'a: b', 'x # y', '# x', 'true', 'null', '~', '0x1F', '.5', '+5', '5.', '007', '1e3'],
  ...['[1, 2', '{a}', '"', "'", "'a", '5\' 2"', '- 1', '-', '?', '1,5', '1, 5', 'é', '%', '@a', '&a', '*a'],
  ...[
    '!a',
    '|',
    '>',
    '---',
    '...',
    'a\nb',
    'a\\b',
    'a\tb',
    '\u2028',
    '\u0085',
    '\ufeff',
    'NaN',
    '.inf',
    '<<',
  ],
];

function itemFor([, leaf]: readonly [string, Leaf]): fc.Arbitrary<string> {
  const odd = fc.oneof(fc.constantFrom(...NONSENSE), fc.string({ maxLength: 8 }));
  if (leaf.kind === 'choice') return fc.oneof(fc.constantFrom(...leaf.choices), odd);
  if (leaf.kind === 'boolean') return fc.oneof(fc.constantFrom('true', 'false'), odd);
  if (leaf.kind === 'bearing') return fc.oneof(fc.constantFrom('696', '608', 'R4A shielded', '6000'), odd);
  if (leaf.kind === 'text') return fc.oneof(fc.constantFrom('A machine', '12', 'No. 7: b'), odd);
  const number = fc
    .double({ min: leaf.range.min, max: leaf.range.max, noNaN: true })
    .map((value) => String(Number(value.toPrecision(5))));
  const units = leaf.dimension === 'length' ? ['mm', 'in', '"', 'cm'] : leaf.unit ? [leaf.unit] : [];
  const withUnit = fc.tuple(number, fc.constantFrom(' mm', ...units.map((unit) => ` ${unit}`)));
  return fc.oneof(
    number,
    withUnit.map(([value, unit]) => value + unit),
    odd,
  );
}

/** What a file in JSON would state instead of these items. */
function plainValue(leaf: Leaf, items: readonly string[]): unknown {
  const one = (item: string) => {
    if ((leaf.kind === 'quantity' || leaf.kind === 'reading') && DECIMAL_TEXT.test(item.trim()))
      return Number(item);
    return leaf.kind === 'boolean' && /^(?:true|false)$/.test(item) ? item === 'true' : item;
  };
  return items.length === 1 ? one(items[0]!) : items.map(one);
}

const TEXTS: Readonly<Record<string, string>> = Object.fromEntries(
  STARTERS.flatMap((name) => {
    const text = starterText(name);
    return [
      [name, text],
      [`${name}, as new writes it`, commentedTemplate(inBlocks(text))],
      [`${name}, CRLF`, text.replaceAll('\n', '\r\n')],
      [`${name}, JSON`, JSON.stringify(parse(text))],
      [`${name}, JSON over lines`, JSON.stringify(parse(text), null, 2)],
    ];
  }),
);

const edit = fc.constantFrom(...LEAVES).chain((entry) =>
  fc.record({
    key: fc.constant(entry[0]),
    leaf: fc.constant(entry[1]),
    items: fc.oneof(
      { weight: 4, arbitrary: fc.array(itemFor(entry), { minLength: 1, maxLength: 1 }) },
      { weight: 2, arbitrary: fc.array(itemFor(entry), { minLength: 2, maxLength: 5 }) },
      { weight: 1, arbitrary: fc.constant(undefined) },
    ),
  }),
);

/** Lines of a text that the value of a key takes, headings of its groups that end with it included; none if it is missing. */
function linesTaken(text: string, key: string): number {
  const names = key.split('.');
  let lines = 0;
  for (let depth = 1; depth <= names.length; depth++) {
    const node = parseDocument(text).getIn(names.slice(0, depth), true) as { range?: number[] } | undefined;
    if (depth === names.length && node?.range)
      lines += text.slice(...(node.range as [number, number])).split('\n').length;
  }
  return lines;
}

/** How many lines at start and end of two texts are the same. */
function linesTouched(before: string, after: string): { readonly from: number; readonly count: number } {
  const [a, b] = [before.split('\n'), after.split('\n')];
  const most = Math.min(a.length, b.length);
  let from = 0;
  while (from < most && a[from] === b[from]) from++;
  let end = 0;
  while (end < most - from && a.at(-1 - end) === b.at(-1 - end)) end++;
  return { from, count: a.length - end - from };
}

describe.each(Object.entries(TEXTS))('any edit of %s', (_, text) => {
  const tree = () => parse(text) as Tree;
  const json = text.startsWith('{');

  it(`is read as the same edit of its values (seed ${SEED})`, () => {
    fc.assert(
      fc.property(edit, ({ key, leaf, items }) => {
        const after = withWritten(text, key, items);
        const plain = tree();
        setKey(plain, key, items && plainValue(leaf, items));
        const [read, meant] = [after, JSON.stringify(plain)].map((each) => readMachineFile(each, 'm.yaml'));
        expect(read!.ok).toBe(meant!.ok);
        if (read!.ok && meant!.ok) expect(read!.values).toEqual(meant!.values);
        else if (!read!.ok && !meant!.ok && items)
          expect(read!.problems.map((problem) => problem.key)).toEqual(
            meant!.problems.map((problem) => problem.key),
          );
        if (json) expect(() => JSON.parse(after)).not.toThrow();

        const [was, is] = [writtenValues(text), writtenValues(after)];
        const others = (values: typeof was) =>
          [...values].flatMap(([each, { items: at }]) => (each === key ? [] : [[each, at]]));
        expect(others(is)).toEqual(others(was));
        if (items && !json) {
          const numeric = leaf.kind === 'quantity' || leaf.kind === 'reading';
          const kept = items.map((item) => (numeric && DECIMAL_TEXT.test(item.trim()) ? item.trim() : item));
          expect(is.get(key)!.items).toEqual(kept);
        }
        if (!items) expect(is.has(key)).toBe(false);
      }),
      { seed: SEED, numRuns: RUNS },
    );
  });

  it(`touches no other line (seed ${SEED})`, () => {
    fc.assert(
      fc.property(edit, ({ key, items }) => {
        const after = withWritten(text, key, items);
        if (after === text) return;
        const { from, count } = linesTouched(text, after);
        const line = writtenValues(text).get(key)?.line;
        // Beside the value's own lines: the line that a comma is put into, and groups that go with their last key.
        const allowed = items
          ? Math.max(1, linesTaken(text, key))
          : linesTaken(text, key) + 2 * key.split('.').length;
        expect(count).toBeLessThanOrEqual(allowed);
        if (line !== undefined && items) expect(from).toBeGreaterThanOrEqual(line - 1);
      }),
      { seed: SEED, numRuns: RUNS },
    );
  });

  it(`can be taken back (seed ${SEED})`, () => {
    const read = readMachineFile(text, 'm.yaml');
    fc.assert(
      fc.property(edit, ({ key, items }) => {
        const was = writtenValues(text).get(key);
        const after = withWritten(text, key, items);
        const back = withWritten(after, key, was?.items);
        const again = readMachineFile(back, 'm.yaml');
        expect(again.ok && again.values).toEqual(read.ok && read.values);
        const oneLine = !/\[\s*\n/.test(text);
        if (was && items && (oneLine || was.list === items.length > 1)) expect(back).toBe(text);
        expect(withWritten(text, key, was?.items)).toBe(text);
      }),
      { seed: SEED, numRuns: RUNS },
    );
  });

  it(`a value is read as that value (seed ${SEED})`, () => {
    const numbers = LEAVES.filter(([, leaf]) => leaf.kind === 'quantity' || leaf.kind === 'reading');
    const value = fc.constantFrom(...numbers).chain(([key, leaf]) =>
      fc.record({
        key: fc.constant(key),
        leaf: fc.constant(leaf),
        share: fc.double({ min: 0, max: 1, noNaN: true }),
      }),
    );
    fc.assert(
      fc.property(value, ({ key, leaf, share }) => {
        if (!('range' in leaf)) throw new Error('numbers only');
        const wanted = Number((leaf.range.min + share * (leaf.range.max - leaf.range.min)).toPrecision(9));
        const plain = tree();
        setKey(plain, key, leaf.dimension === 'number' ? wanted : `${wanted} ${leaf.unit}`);
        const [read, meant] = [withValue(text, key, wanted), JSON.stringify(plain)].map((each) =>
          readMachineFile(each, 'm.yaml'),
        );
        if (!read!.ok || !meant!.ok) return;
        const at = (values: object) =>
          key.split('.').reduce<unknown>((so, name) => (so as Tree)[name], values);
        const number = (found: unknown) =>
          typeof found === 'number' ? found : (found as { mean: number }).mean;
        const [got, asked] = [number(at(read!.values)), number(at(meant!.values))];
        expect(Math.abs(got - asked)).toBeLessThanOrEqual(5.1e-6 * Math.abs(asked) + 1e-9);
      }),
      { seed: SEED, numRuns: RUNS },
    );
  });
});
