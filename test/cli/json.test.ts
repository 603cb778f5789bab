import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { machineFileSchema } from '../../parts/machine/schema.js';
import { ordersFor } from '../../parts/printed/catalog.js';
import { STOCK_KINDS } from '../../parts/stock/lookup.js';
import { STARTERS, starterMachine, starterPath } from '../helpers/machines.js';
import { machineFile, type Outcome, SLOW, swap, temporaryFolder, tubewright } from '../helpers/program.js';
import { against, SCHEMAS, schemaOf } from '../helpers/schemas.js';

const DEMO = starterPath('travelling-demonstrator');

const WRITE_ANEW = [
  'node cli/setup.js',
  `node -e "import('./dist/parts/index.js').then((parts) => require('fs').writeFileSync('cli/schemas/machine-file.schema.json', JSON.stringify(parts.machineFileSchema())))"`,
  'npx biome format --write cli/schemas',
].join(' && ');

/** One object and nothing else on the output, as its schema says. */
function objectOf(schema: string, { stdout }: Outcome): Record<string, never> {
  const value = JSON.parse(stdout);
  expect(against(schema, value)).toEqual([]);
  return value;
}

/** Every object in a schema lists what it takes and refuses the rest. */
function openObjects(schema: unknown, path = ''): string[] {
  if (typeof schema !== 'object' || schema === null) return [];
  const { type, additionalProperties } = schema as Record<string, unknown>;
  const own = type === 'object' && additionalProperties === undefined ? [path] : [];
  return [...own, ...Object.entries(schema).flatMap(([key, value]) => openObjects(value, `${path}/${key}`))];
}

describe('schemas', () => {
  it('there is one for each verb, and for errors, ledgers and machine files', () => {
    expect(SCHEMAS).toEqual(
      [
        'check',
        'compare',
        'coupon',
        'error',
        'identify',
        'ledger',
        'machine-file',
        'make',
        'new',
        'stock',
        'view',
        'ways',
      ].sort(),
    );
  });

  it.each(SCHEMAS)('%s is draft 2020-12 and leaves no object open', (name) => {
    const schema = schemaOf(name);
    expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
    expect(openObjects(schema)).toEqual([]);
  });

  it('the one for machine files is what the declarations say', () => {
    expect(schemaOf('machine-file'), `out of date; write it anew:\n${WRITE_ANEW}\n`).toEqual(
      JSON.parse(JSON.stringify(machineFileSchema())),
    );
  });
});

describe('--json', { timeout: SLOW }, () => {
  it.each(STARTERS)('check %s', (starter) => {
    const outcome = tubewright(['check', starterPath(starter), '--json']);
    const report = objectOf('check', outcome);
    expect(outcome.status).toBe(starter === 'inch-built' ? 1 : 0);
    expect(against('check', { ...report, more: 1 })).toEqual([' must NOT have additional properties']);
    const { findings: _, ...less } = report;
    expect(against('check', less)).toEqual(
      ["must have required property 'findings'"].map((text) => ` ${text}`),
    );
  });

  it('new', () => {
    const file = join(temporaryFolder(), 'm.yaml');
    expect(objectOf('new', tubewright(['new', file, '--json']))).toEqual({
      file,
      like: 'travelling-demonstrator',
    });
  });

  it('make, its ledger, make again, make refused, compare, identify', () => {
    const folder = temporaryFolder();
    const out = join(folder, 'out');
    const file = machineFile(folder);
    const count = ordersFor(starterMachine('travelling-demonstrator')).length;
    const first = objectOf('make', tubewright(['make', '--no-ways', file, '--out', out, '--json']));
    expect(first).toMatchObject({ folder: out, ledger: { parts: count, made: count } });
    const ledger = JSON.parse(readFileSync(join(out, 'ledger.json'), 'utf8'));
    expect(against('ledger', ledger)).toEqual([]);
    expect(against('ledger', { ...ledger, parts: [{ ...ledger.parts[0], file: '../x.stl' }] })).not.toEqual(
      [],
    );

    machineFile(
      folder,
      'travelling-demonstrator',
      swap('[79.6, 80.3, 79.8, 80.2]', '[80.2, 80.9, 80.4, 80.8]'),
    );
    const compared = objectOf('compare', tubewright(['compare', file, join(out, 'ledger.json'), '--json']));
    const code = ledger.parts.find(({ id }: { id: string }) => id === 'tube-mount').code;
    const identified = objectOf('identify', tubewright(['identify', code, file, '--out', out, '--json']));
    expect(identified).toMatchObject({ code, part: 'tube-mount', good: false });
    objectOf('make', tubewright(['make', '--no-ways', file, '--out', out, '--json']));
    expect(compared.parts).toEqual(
      expect.arrayContaining([
        expect.objectContaining({ id: 'tube-mount', verdict: 'print again', oldCode: code }),
      ]),
    );

    const refused = tubewright([
      'make',
      '--no-ways',
      starterPath('inch-built'),
      '--out',
      join(folder, 'no'),
      '--json',
    ]);
    expect(refused.status).toBe(1);
    expect(objectOf('make', refused)).toMatchObject({ folder: null, made: [], ledger: null });
  });

  it.each(STOCK_KINDS)('stock %s', (kind) => {
    objectOf('stock', tubewright(['stock', kind, '--json']));
  });

  it.each([
    ['an unknown verb', ['chek', '--json'], 2],
    ['an unknown option', ['check', DEMO, '--json', '--fast'], 2],
    ['a file that is not there', ['check', 'none.yaml', '--json'], 2],
    ['an unknown starter', ['new', 'x.yaml', '--like', 'nothing', '--json'], 2],
    ['an unknown part', ['make', '--no-ways', DEMO, '--only', 'nothing', '--json'], 2],
    ['an unknown code', ['identify', 'ZZZZZZZZ', DEMO, '--json'], 2],
    ['an unknown stock name', ['stock', 'bearing', 'nothing', '--json'], 2],
    ['a folder of somebody else', ['make', '--no-ways', DEMO, '--out', join(DEMO, '..'), '--json'], 3],
    ['a file that is there already', ['new', DEMO, '--json'], 3],
  ])('%s is one error object too', (_, args, status) => {
    const outcome = tubewright(args);
    expect(outcome.status).toBe(status);
    expect(objectOf('error', outcome)).toMatchObject({ exit: status, problems: [] });
    expect(outcome.stderr).not.toBe('');
  });

  it('a bad machine file gives all its problems', () => {
    const file = join(temporaryFolder(), 'm.yaml');
    const text = readFileSync(DEMO, 'utf8').replace('width: 45,', 'width: 4500,').replace('"696"', '"6966"');
    writeFileSync(file, text.replace('shape: sphere', 'shap: sphere'));
    const outcome = tubewright(['check', file, '--json']);
    expect(outcome.status).toBe(2);
    const { problems } = objectOf('error', outcome) as unknown as { problems: { key: string }[] };
    const keys = problems.map(({ key }) => key);
    expect(keys).toEqual(expect.arrayContaining(['terminal.shap', 'belt.width', 'rollers.lower.bearing']));
  });
});
