import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { solve } from '../../parts/field/boundary/solve.js';
import { readCases } from './case.js';
import { compare, isOutside } from './compare.js';
import { problemOf } from './geometry.js';
import { quantitiesOf } from './quantities.js';

const ROOT = fileURLToPath(new URL('../..', import.meta.url));
const CONVERGED = join(ROOT, 'test', 'field-cases', 'converged.json');
const cases = readCases(readFileSync(CONVERGED, 'utf8'));

describe.each(cases.map((each) => [each.input.name, each] as const))('converged case %s', (_, each) => {
  it('is met within its bars, with usual effort', () => {
    const { rows, left } = compare(each);
    expect(rows.filter(isOutside)).toEqual([]);
    expect(left).toEqual([]);
    expect(rows.map(({ key }) => key)).toEqual(
      expect.arrayContaining(['C_pF', 'Emax_terminal', 'Emax_lip', 'E_sphere_top', 'Emax_base']),
    );
    expect(rows.some(({ key }) => key.startsWith('columnProfile'))).toBe(true);
  });

  it('is met within 1e-5 and 0.1 % with more effort', () => {
    const { rows } = compare(each, { order: 7, tolerance: 0.004 });
    const errorOf = (key: string) => rows.find((row) => row.key === key)!.error;
    expect(errorOf('C_pF')).toBeLessThan(1e-5);
    for (const key of ['Emax_terminal', 'Emax_lip', 'E_sphere_top', 'Emax_base'])
      expect(errorOf(key), key).toBeLessThan(0.001);
  });

  it('has estimates that cover the error of capacitance and lip', () => {
    const { rows } = compare(each);
    for (const key of ['C_pF', 'Emax_lip']) {
      const { error, estimate } = rows.find((row) => row.key === key)!;
      // What the reference itself may be off: 1e-6 and 2e-4.
      expect(error - (key === 'C_pF' ? 1e-6 : 2e-4), key).toBeLessThanOrEqual(estimate);
    }
  });
});

/** Variations on one case: what else the format holds, and small clearances, walls and lips. */
const VARIED: readonly (readonly [string, object])[] = [
  [
    'collars',
    {
      collars: [
        { outerRadius: 62, z0: 0, z1: 30, epsr: 2.6 },
        { outerRadius: 52, z0: 180, z1: 200, epsr: 5 },
      ],
    },
  ],
  [
    'collars on each other',
    {
      collars: [
        { outerRadius: 62, z0: 0, z1: 30, epsr: 2 },
        { outerRadius: 52, z0: 30, z1: 60, epsr: 6 },
      ],
    },
  ],
  ['a comb ring', { combRing: { ringRadius: 22, z: 395, minorRadius: 1 } }],
  ['a small lip', { terminal: { lipRadius: 0.3 } }],
  ['a thick shell', { terminal: { lipRadius: 2, shell: 6 } }],
  ['a close tube', { column: { outerRadius: 49.9 } }],
  ['a thin wall', { column: { wall: 0.2 } }],
  ['a gap of 1 mm under the plate', { base: { floorGap: 1 } }],
  ['a gap of 200 mm under the plate', { base: { floorGap: 200 } }],
  ['a disc below the plate', { base: { floorGap: 40, groundPlaneRadius: 300 } }],
  ['a disc smaller than the plate', { base: { floorGap: 40, groundPlaneRadius: 80 } }],
  ['a plate on a disc', { base: { groundPlaneRadius: 300 } }],
  ['a plate on a smaller disc', { base: { groundPlaneRadius: 80 } }],
  ['no floor', { base: { floor: false } }],
];

const sketch = JSON.parse(readFileSync(CONVERGED, 'utf8')).cases[1].input as Record<string, object>;
const variedBy = (change: object): Record<string, unknown> => {
  const merged = Object.entries(change).map(([key, value]) =>
    Array.isArray(value) ? [key, value] : [key, { ...sketch[key], ...value }],
  );
  return { ...sketch, ...Object.fromEntries(merged) };
};
const fileOf = (input: unknown, result: unknown = { C_pF: 20 }) =>
  JSON.stringify({ cases: [{ input, result }] });

describe.each(VARIED)('with %s', (_, change) => {
  it('usual effort gives what far more effort gives', () => {
    const { input } = readCases(fileOf(variedBy(change)))[0]!;
    const problem = problemOf(input);
    const [usual, more] = [{}, { order: 8, tolerance: 0.003, mostUnknowns: 1400 }].map(
      (effort) => solve(problem, effort).solutions[0]!,
    ) as [ReturnType<typeof solve>['solutions'][number], ReturnType<typeof solve>['solutions'][number]];
    for (const { key, judged, bar, of } of quantitiesOf(input)) {
      const [value, reference] = [of(usual), of(more)];
      expect(Number.isFinite(value) && value > 0, key).toBe(true);
      if (judged) expect(Math.abs(value / reference - 1), key).toBeLessThan(bar);
    }
    const radius = input.column.outerRadius / 1000;
    const heights = Array.from({ length: 20 }, (_, i) => 0.01 + i * 0.02).filter(
      (z) => !input.collars.some(({ z0, z1 }) => [z0, z1].some((at) => Math.abs(z - at / 1000) < 0.002)),
    );
    const profile = (solution: typeof usual) => heights.map((z) => solution.fieldAt(radius, z)[1]);
    const [plain, refined] = [profile(usual), profile(more)];
    const greatest = Math.max(...refined.map(Math.abs));
    for (const [i, field] of plain.entries())
      expect(Math.abs(field - refined[i]!) / greatest, `z ${heights[i]}`).toBeLessThan(0.005);
  });
});

/** A change to the input, and what is said of it. */
const REFUSED: readonly (readonly [string, object, RegExp])[] = [
  [
    'an unknown key',
    { terminal: { lipRadus: 1 } },
    /cases\[0\]\.input\.terminal: unknown key "lipRadus"; nearest known "lipRadius"/,
  ],
  [
    'a text for a number',
    { column: { wall: '3' } },
    /input\.column\.wall: expected a number above 0, found "3"/,
  ],
  [
    'a lip without room',
    { terminal: { lipRadius: 60 } },
    /input\.terminal\.lipRadius: a bead of radius 60 around an opening of radius 50 finds no room/,
  ],
  [
    'a tube that does not pass',
    { column: { outerRadius: 50 } },
    /input\.column\.outerRadius: 50 does not pass an opening of radius 50/,
  ],
  [
    'a wall thicker than the tube',
    { column: { wall: 46 } },
    /input\.column\.wall: 46 in a tube of radius 45/,
  ],
  [
    'too deep an insertion',
    { column: { insertion: 450 } },
    /input\.column\.insertion: 450 of a column 450 long/,
  ],
  [
    'permittivity below 1',
    { column: { epsr: 0.5 } },
    /input\.column\.epsr: expected a number of at least 1, found 0.5/,
  ],
  [
    'a negative gap',
    { base: { floorGap: -1 } },
    /input\.base\.floorGap: expected a number of at least 0, found -1/,
  ],
  ['a floor that is a number', { base: { floor: 1 } }, /input\.base\.floor: expected true or false, found 1/],
  [
    'a collar upside down',
    { collars: [{ outerRadius: 60, z0: 30, z1: 20, epsr: 3 }] },
    /input\.collars\[0\]\.z1: from 30 to 20/,
  ],
  [
    'a collar within the tube',
    { collars: [{ outerRadius: 40, z0: 10, z1: 20, epsr: 3 }] },
    /input\.collars\[0\]\.outerRadius: 40 around a tube of radius 45/,
  ],
];

it.each(REFUSED)('refuses %s', (_, change, message) => {
  expect(() => readCases(fileOf(variedBy(change)))).toThrow(message);
});

it('refuses what is no file of cases', () => {
  expect(() => readCases('{')).toThrow(/^not JSON: /);
  expect(() => readCases('{"cases": [NaN]}')).toThrow(/^not JSON: /);
  expect(() => readCases('[]')).toThrow(/the file: expected an object/);
  expect(() => readCases('{}')).toThrow(/cases: expected a list of at least one case, found nothing/);
  const [one] = readCases(fileOf(sketch, { C_pF: 'much' }));
  expect(() => compare(one!)).toThrow(
    /case c3: C_pF: expected a number above 0, or one under "E", found "much"/,
  );
  const [none] = readCases(fileOf(sketch, {}));
  expect(() => compare(none!)).toThrow(/its result holds none of C_pF/);
});

describe('npm run field-cases', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'field-cases-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  const run = (file?: string) => {
    const script = join(ROOT, 'dist', 'test', 'field-cases', 'run.js');
    return spawnSync(process.execPath, file === undefined ? [script] : [script, file], { encoding: 'utf8' });
  };
  const write = (name: string, text: string) => {
    const path = join(folder, name);
    writeFileSync(path, text);
    return path;
  };

  it('ends with 0 where all is within its bars, and shows value, reference, error, estimate, unknowns and time', () => {
    const { status, stdout, stderr } = run(CONVERGED);
    expect(stderr).toBe('');
    expect(status).toBe(0);
    expect(stdout).toMatch(/^quantity +value +reference +error +estimate +bar$/m);
    expect(stdout).toMatch(/^C_pF +13\.2365\d* +13\.236543 +0\.\d+ % +0\.\d+ % +0\.1 %$/m);
    expect(stdout).toMatch(/^\d+ unknowns, \d+ ms$/m);
    expect(stdout).toMatch(/all within their bars/);
  });

  it('ends with 1 where one is outside, and names what it does not compare', () => {
    const { status, stdout } = run(
      write('off.json', fileOf(sketch, { C_pF: 19.4, Emax_lipp: { E: 15.59 } })),
    );
    expect(status).toBe(1);
    expect(stdout).toMatch(/^C_pF .*OUTSIDE$/m);
    expect(stdout).toMatch(/not compared: Emax_lipp \(nearest known Emax_lip\)/);
    expect(stdout).toMatch(/1 not within their bars/);
  });

  it('ends with 2 for a file that cannot be used, and says why', () => {
    for (const [file, message] of [
      [
        write('key.json', fileOf(variedBy({ base: { flor: true } }))),
        /key\.json: cases\[0\]\.input\.base: unknown key "flor"; nearest known "floor"/,
      ],
      [
        write('cut.json', fileOf(variedBy({ combRing: { ringRadius: 41, z: 395, minorRadius: 2 } }))),
        /cut\.json: tube: it cuts into comb at r 42 mm/,
      ],
      [join(folder, 'none.json'), /none\.json: ENOENT/],
      [undefined, /expected one file: npm run field-cases -- FILE/],
    ] as const) {
      const { status, stderr } = run(file);
      expect(status).toBe(2);
      expect(stderr.trim()).toMatch(message);
      expect(stderr.trim().split('\n')).toHaveLength(1);
    }
  });
});
