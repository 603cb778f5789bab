import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { defaultFolder, withFolder } from '../../cli/folder.js';
import { type Tools, type Wanted, writeParts } from '../../cli/write-parts.js';
import { ordersFor } from '../../parts/printed/catalog.js';
import { printabilityOfStl } from '../../parts/sheets/printed-file.js';
import { openWorkshop, type Workshop } from '../../parts/sheets/workshop.js';
import { starterMachine } from '../helpers/machines.js';
import { contentsOf, SLOW, temporaryFolder } from '../helpers/program.js';

const machine = starterMachine('travelling-demonstrator');
const orders = ordersFor(machine).filter(({ part }) => part.id.startsWith('comb-'));
const IDS = orders.map(({ part }) => part.id);
const wanted: Wanted = {
  machine: 'M',
  orders,
  measure: (order, bytes) => printabilityOfStl(machine, order, bytes),
  sheet: () => 'notes\n',
  only: undefined,
};

let workshop: Workshop;
beforeAll(async () => {
  workshop = await openWorkshop();
});

/** A workshop that does one part in its own way. */
function toolsWith(id: string, instead: (bytes: () => Uint8Array) => Uint8Array): Tools {
  const stlOf: Workshop['stlOf'] = (order) =>
    order.part.id === id ? instead(() => workshop.stlOf(order)) : workshop.stlOf(order);
  return { openWorkshop: async () => ({ stlOf }), progress: () => {} };
}
const soundTools = (): Tools => ({ openWorkshop: async () => workshop, progress: () => {} });
const run = (folder: string, tools: Tools, what = wanted) =>
  withFolder(
    folder,
    (names) => names.includes('ledger.json'),
    () => writeParts(folder, what, tools),
  );

const HEADER = 84;
const TRIANGLE = 50;

const FAULTS: readonly (readonly [fault: string, said: RegExp, of: (bytes: Uint8Array) => Uint8Array])[] = [
  [
    'a triangle is missing',
    /open edges/,
    (bytes) => {
      const less = bytes.slice(0, bytes.length - TRIANGLE);
      new DataView(less.buffer).setUint32(HEADER - 4, (less.length - HEADER) / TRIANGLE, true);
      return less;
    },
  ],
  ['the file is cut', /an STL of \d+ triangles has \d+ bytes/, (bytes) => bytes.slice(0, bytes.length / 2)],
  ['the file is empty', /at least 84 bytes/, () => new Uint8Array()],
  ['it holds no triangle', /no triangle/, () => new Uint8Array(HEADER)],
  [
    'a corner is not a number',
    /not finite/,
    (bytes) => {
      const bad = bytes.slice();
      new DataView(bad.buffer).setFloat32(HEADER + 12, Number.NaN, true);
      return bad;
    },
  ],
  [
    'it is inside out',
    /inside out/,
    (bytes) => {
      const turned = bytes.slice();
      for (let at = HEADER; at < turned.length; at += TRIANGLE) {
        turned.copyWithin(at + 24, at + 36, at + 48);
        turned.set(bytes.subarray(at + 24, at + 36), at + 36);
      }
      return turned;
    },
  ],
  ['it is another part', /spans|volume|tunnels/, () => workshop.stlOf(orders[0]!)],
];

describe('a part that is not what it should be', { timeout: SLOW }, () => {
  it.each(FAULTS)('%s: nothing is written, and the message names part and reason', async (_, said, of) => {
    const folder = join(temporaryFolder(), 'out');
    const id = IDS.at(-1)!;
    const failure = run(
      folder,
      toolsWith(id, (bytes) => of(bytes())),
    );
    await expect(failure).rejects.toThrow(`${id}.stl is not the part it should be, nothing was written`);
    await expect(failure).rejects.toThrow(said);
    await expect(failure).rejects.toMatchObject({ exit: 3 });
    expect(existsSync(folder)).toBe(false);
  });

  it('keeps what was made before', async () => {
    const folder = join(temporaryFolder(), 'out');
    await run(folder, soundTools(), { ...wanted, orders: orders.slice(1) });
    const before = contentsOf(folder);
    await expect(
      run(
        folder,
        toolsWith(IDS[0]!, () => new Uint8Array(HEADER)),
      ),
    ).rejects.toThrow('no triangle');
    expect(contentsOf(folder)).toEqual(before);
  });

  it('names a part that could not be built', async () => {
    const folder = join(temporaryFolder(), 'out');
    const broken = toolsWith(IDS[1]!, () => {
      throw new RangeError('the bar is shorter than its screws');
    });
    await expect(run(folder, broken)).rejects.toThrow(
      `${IDS[1]} could not be built, nothing was written: the bar is shorter than its screws`,
    );
    expect(existsSync(folder)).toBe(false);
  });
});

describe('what is made', { timeout: SLOW }, () => {
  it('tells each part before it is built, and opens no workshop when there is nothing to build', async () => {
    const folder = join(temporaryFolder(), 'out');
    const told: string[] = [];
    const progress: Tools['progress'] = (id, number, of) => told.push(`${id} ${number}/${of}`);
    const { made } = await run(folder, { ...soundTools(), progress });
    expect(told).toEqual(IDS.map((id, i) => `${id} ${i + 1}/${IDS.length}`));
    expect(made.map(({ id, verdict, written, closed }) => [id, verdict, written, closed])).toEqual(
      IDS.map((id) => [id, 'new', true, true]),
    );
    const idle: Tools = { openWorkshop: () => Promise.reject(new Error('opened')), progress };
    const again = await run(folder, idle);
    expect(again.made.every(({ verdict, written, closed }) => verdict === 'keep' && !written && closed)).toBe(
      true,
    );
    expect(told).toHaveLength(IDS.length);
  });

  it('says how many more copies to print, once, and writes no file for them', async () => {
    const folder = join(temporaryFolder(), 'out');
    await run(folder, soundTools());
    const before = contentsOf(folder);
    const more = { ...wanted, orders: orders.map((order, i) => ({ ...order, copies: order.copies + i })) };
    const idle: Tools = { ...soundTools(), openWorkshop: () => Promise.reject(new Error('opened')) };
    const { made } = await run(folder, idle, more);
    expect(made.map(({ verdict, more: copies, written }) => [verdict, copies, written])).toEqual(
      orders.map((_, i) => [i === 0 ? 'keep' : 'print more', i, false]),
    );
    const changed = Object.entries(contentsOf(folder)).filter(
      ([name, { bytes }]) => before[name]?.bytes !== bytes,
    );
    expect(changed.map(([name]) => name)).toEqual(['ledger.json']);
    expect((await run(folder, idle, more)).made.every(({ verdict }) => verdict === 'keep')).toBe(true);
    expect((await run(folder, idle)).made.every(({ verdict }) => verdict === 'keep')).toBe(true);
  });

  it('keeps its rows in the order in which parts go together, whatever was made first', async () => {
    const base = temporaryFolder();
    const [one, other] = [join(base, 'one'), join(base, 'other')];
    await run(one, soundTools());
    await run(other, soundTools(), { ...wanted, only: IDS.at(-1) });
    await run(other, soundTools());
    const rows = async (folder: string) => (await run(folder, soundTools())).ledger.parts;
    expect(await rows(other)).toEqual(await rows(one));
    expect(readdirSync(other).sort()).toEqual(readdirSync(one).sort());
  });
});

it('names the default folder after the file', () => {
  expect(defaultFolder(join('a', 'mine.yaml'))).toBe(join('a', 'mine'));
  expect(defaultFolder('mine.v2.json')).toBe('mine.v2');
  expect(defaultFolder(join('.', 'a', 'mine'))).toBe(join('a', 'mine-parts'));
  expect(defaultFolder('.mine')).toBe('.mine-parts');
});
