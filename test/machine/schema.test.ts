import { readdirSync, readFileSync } from 'node:fs';
import { Ajv2020 } from 'ajv/dist/2020.js';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { MACHINE_FILE } from '../../parts/machine/declarations.js';
import { leavesOf, text as textLeaf } from '../../parts/machine/declare.js';
import { keyNotes, keysTable } from '../../parts/machine/key-notes.js';
import { readLeaf } from '../../parts/machine/read-leaf.js';
import { type JsonSchema, machineFileSchema } from '../../parts/machine/schema.js';
import { SKETCH, setKey, sketchTree } from './sketch.js';

const ajv = new Ajv2020({ allErrors: true, allowUnionTypes: true });
const schema = machineFileSchema();
const valid = ajv.compile(schema);
const STARTERS = new URL('../../cli/starters/', import.meta.url);
const leaves = leavesOf(MACHINE_FILE);

const accepts = (changes: Readonly<Record<string, unknown>>) => {
  const tree = sketchTree();
  for (const [key, value] of Object.entries(changes)) setKey(tree, key, value);
  return valid(tree);
};

function leafSchemas(group: JsonSchema, prefix = ''): [string, JsonSchema][] {
  return Object.entries(group.properties as Record<string, JsonSchema>).flatMap(([name, each]) =>
    each.properties ? leafSchemas(each, `${prefix}${name}.`) : [[`${prefix}${name}`, each]],
  );
}

it('is a schema of draft 2020-12', () => {
  expect(schema.$schema).toBe('https://json-schema.org/draft/2020-12/schema');
  expect(ajv.validateSchema(schema)).toBe(true);
});

it('accepts the sketch', () => {
  expect(valid(parse(SKETCH))).toBe(true);
});

it.each(readdirSync(STARTERS))('accepts the starter %s', (name) => {
  expect(valid(parse(readFileSync(new URL(name, STARTERS), 'utf8'))), JSON.stringify(valid.errors)).toBe(
    true,
  );
});

describe('accepts', () => {
  it.each<[string, unknown]>([
    ['column.tube.length', '25-1/4 in'],
    ['column.tube.outer', ['3 1/2 in', 80.3]],
    ['rollers.lower.bearing', 696],
    ['site.temperature', '68 F'],
    ['assume', null],
    ['assume', { side_push: '20 N', surface_factor: 0.7 }],
    ['terminal', { ...(sketchTree().terminal as object), shape: 'shell', height: 200 }],
  ])('%s: %j', (key, value) => expect(accepts({ [key]: value })).toBe(true));
});

describe('refuses', () => {
  it.each<[string, unknown]>([
    ['machine', undefined],
    ['machine', ''],
    ['machine', 'x'.repeat(61)],
    ['machine', '../up'],
    ['units', 'furlong'],
    ['unknown', 1],
    ['belt.strech', 8],
    ['belt.width', undefined],
    ['belt.width', [45, 46]],
    ['belt.width', '45'],
    ['belt.width', '4,5 mm'],
    ['belt.width', '45 kV'],
    ['belt.width', true],
    ['belt.width', null],
    ['belt.stretch', 400],
    ['belt', null],
    ['column.tube.outer', []],
    ['column.tube.outer', ['abc']],
    ['site.humidity', -1],
    ['print.conductive', 'yes'],
    ['print.layer', 3],
    ['terminal.height', 200],
    ['terminal.shape', 'shell'],
    ['rollers.upper.axle.kind', 'loose'],
  ])('%s: %j', (key, value) => expect(accepts({ [key]: value })).toBe(false));
});

describe('declarations, schema and table', () => {
  const keys = leaves.map(([key]) => key);

  it('have the same keys in the same order', () => {
    expect(leafSchemas(schema).map(([key]) => key)).toEqual(keys);
    expect(keyNotes().map(({ key }) => key)).toEqual(keys);
    const rows = keysTable().trimEnd().split('\n').slice(2);
    expect(rows.map((row) => /^\| `([^`]+)` \|/.exec(row)?.[1])).toEqual(keys);
  });

  it('say the same of each', () => {
    const rows = keysTable().split('\n');
    for (const [key, leaf] of leaves) {
      const row = rows.find((each) => each.startsWith(`| \`${key}\` |`));
      expect(row).toContain(leaf.meaning);
      expect(row?.split('|')).toHaveLength(7);
      expect(leafSchemas(schema).find(([name]) => name === key)?.[1].description).toBe(leaf.meaning);
      if (leaf.presence.kind === 'default') expect(row).toContain(String(leaf.presence.value));
    }
  });

  it('agree on what must be stated', () => {
    for (const [key, leaf] of leaves) {
      const tree = sketchTree();
      setKey(tree, key, undefined);
      expect(valid(tree), key).toBe(leaf.presence.kind !== 'required');
    }
  });

  it.each(leafSchemas(schema).filter(([, each]) => 'default' in each))(
    '%s would take its default',
    (_key, each) => {
      expect(ajv.validate(each, each.default)).toBe(true);
    },
  );
});

it('takes the names that are read, and no other', () => {
  const leaf = textLeaf('name', 12);
  const pattern = new RegExp(leaf.pattern, 'u');
  const measured = { units: 'mm', caliperError: 0 } as const;
  const name = fc.oneof(
    fc.string({ unit: 'binary', maxLength: 8 }),
    fc.stringMatching(/^[ a./\\é\u200b]{0,8}$/u),
  );
  fc.assert(
    fc.property(name, (value) => {
      const node = { kind: 'scalar', line: 1, column: 1, value, text: value } as const;
      expect(readLeaf(leaf, node, measured)?.ok).toBe(value.length > 0 && pattern.test(value));
    }),
    { seed: 22, numRuns: 500 },
  );
});
