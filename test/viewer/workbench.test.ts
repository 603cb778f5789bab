import { strFromU8, unzipSync } from 'fflate';
import { describe, expect, it } from 'vitest';
import {
  assembly,
  fieldPicture,
  isTool,
  LEDGER_FILE,
  ledgerText,
  nextLedger,
  openWorkshop,
  ordersFor,
  proveStl,
  stlFile,
} from '../../parts/index.js';
import type { Order, Word } from '../../viewer/worker/messages.js';
import { Workbench } from '../../viewer/worker/workbench.js';
import { starterMachine, starterText } from '../helpers/machines.js';
import { swap } from '../helpers/program.js';

const text = starterText('travelling-demonstrator');
const fatter = swap('79.6, 80.3, 79.8, 80.2', '80.0, 80.7, 80.2, 80.6')(text);
const order = (over: Partial<Extract<Order, { kind: 'work' }>> = {}): Extract<Order, { kind: 'work' }> => ({
  kind: 'work',
  revision: 1,
  text,
  file: 'machine.yaml',
  ledger: null,
  opened: text,
  ...over,
});

/** Works an order off and gives back all that was said. */
async function told(bench: Workbench, work: Extract<Order, { kind: 'work' }>): Promise<Word[]> {
  const words: Word[] = [];
  await bench.work(
    work,
    (word) => words.push(word),
    async () => {},
    () => false,
  );
  return words;
}
const found = <K extends Word['kind']>(words: readonly Word[], kind: K) =>
  words.find((word) => word.kind === kind) as Extract<Word, { kind: K }> | undefined;
const nameOf = (key: string) => (key.startsWith('[') ? (JSON.parse(key) as [string])[0] : key.split(' ')[0]!);
const rebuilt = (words: readonly Word[]) => [...found(words, 'built')!.meshes.keys()].map(nameOf).sort();

describe('the workbench', () => {
  it('measures ways on what was built last, and leaves off when another order comes', async () => {
    const bench = new Workbench(() => openWorkshop());
    const calm = async () => {};
    await expect(bench.ways(calm, () => false)).rejects.toThrow(RangeError);
    await told(bench, order());
    let breaths = 0;
    const counted = async () => {
      breaths++;
    };
    const left = await bench.ways(counted, () => breaths > 20);
    expect(left).toBeUndefined();
    expect(breaths).toBe(21);
    const { findings, metal } = (await bench.ways(calm, () => false))!;
    expect(findings.map(({ id }) => id)).toContain('surface/terminal-to-collar-screw');
    for (const { at } of findings) expect(at && 'path' in at && at.surfaces.length).toBeGreaterThan(1);
    // Every way ends on what is shown: a piece, or a screw beside it with its mesh.
    const shown = assembly(starterMachine('travelling-demonstrator'));
    const titles = new Set([...shown, ...metal.pieces].map(({ title }) => title));
    const ends = findings.flatMap(({ id, at }) =>
      !id.startsWith('line/') && at && 'path' in at ? [at.surfaces[0]!, at.surfaces.at(-1)!] : [],
    );
    expect(ends.length).toBeGreaterThan(8);
    for (const end of ends) expect(titles).toContain(end);
    for (const { key } of metal.pieces) expect(metal.meshes.has(key), key).toBe(true);
    expect(new Set(metal.pieces.map(({ id }) => id)).size).toBe(metal.pieces.length);
  }, 120_000);

  it('builds everything once, and after an edit only what it touches', async () => {
    const bench = new Workbench(() => openWorkshop());
    const first = await told(bench, order());
    const orders = ordersFor(starterMachine('travelling-demonstrator'));
    const pieces = orders.filter(({ part }) => !isTool(part)).map(({ part }) => part.id);
    expect(rebuilt(first)).toEqual(expect.arrayContaining([...pieces, 'tube', 'plate', 'belt']));
    // Tools have no place in the picture.
    const tools = orders.filter(({ part }) => isTool(part)).map(({ part }) => part.id);
    expect(rebuilt(first).filter((id) => tools.includes(id))).toEqual([]);
    const { machine } = found(first, 'judged')!;
    expect(machine.parts.filter(({ tool }) => tool).map(({ id }) => id)).toEqual(tools);
    expect(found(first, 'judged')!.machine.parts.every(({ change }) => change.verdict === 'keep')).toBe(true);

    const second = await told(bench, order({ revision: 2, text: fatter }));
    expect(rebuilt(second)).toEqual(['rim-ring', 'tube', 'tube-mount']);
    const again = found(second, 'judged')!.machine.parts.filter(
      ({ change }) => change.verdict === 'print again',
    );
    expect(again.map(({ id }) => id).sort()).toEqual(['rim-ring', 'tube-end-guide', 'tube-mount']);
    expect(again[0]!.changes.join()).toMatch(/->/);
    expect(found(second, 'judged')!.machine.against).toBe('opened');
    // What is not built is not on its way either.
    expect(second.filter(({ kind }) => kind === 'progress')).toHaveLength(3);

    // And back: what was built for the first is not kept for ever.
    expect(rebuilt(await told(bench, order({ revision: 3 })))).toEqual(['rim-ring', 'tube', 'tube-mount']);
    expect(rebuilt(await told(bench, order({ revision: 4 })))).toEqual([]);
  });

  it('judges the first machine before it is built, and later ones after', async () => {
    const bench = new Workbench(() => openWorkshop());
    const kinds = (words: readonly Word[]) =>
      words.map(({ kind }) => kind).filter((kind) => kind !== 'progress');
    expect(kinds(await told(bench, order()))).toEqual(['judged', 'built']);
    const second = await told(bench, order({ revision: 2, text: fatter }));
    expect(kinds(second)).toEqual(['placed', 'built', 'judged']);
    expect(found(second, 'placed')!.machine.parts).toEqual(found(second, 'judged')!.machine.parts);
    expect(found(second, 'placed')!.machine).not.toHaveProperty('findings');
  });

  it('builds nothing for a value that no shape depends on', async () => {
    const bench = new Workbench(() => openWorkshop());
    await told(bench, order());
    const words = await told(bench, order({ revision: 2, text: swap('humidity: 45', 'humidity: 60')(text) }));
    expect(rebuilt(words)).toEqual([]);
    // A longer tube moves what is above it, and changes tube and belt.
    const longer = await told(bench, order({ revision: 3, text: swap('length: 640', 'length: 700')(text) }));
    expect(rebuilt(longer)).toEqual(['belt', 'tube']);
    const { pieces } = found(longer, 'judged')!.machine;
    expect(pieces.find(({ id }) => id === 'rim-ring')!.placement.move[2]).toBeCloseTo(
      starterMachine('travelling-demonstrator').tube.rimZ + 60 + 7.5,
    );
  });

  it('refuses what the command line refuses, and keeps the last good machine on the bench', async () => {
    const bench = new Workbench(() => openWorkshop());
    await told(bench, order());
    const words = await told(bench, order({ revision: 2, text: swap('length: 640', 'length: 64O')(text) }));
    expect(words).toHaveLength(1);
    const [problem] = found(words, 'refused')!.problems;
    expect(problem).toMatchObject({ key: 'column.tube.length', file: 'machine.yaml', found: '"64O"' });
    expect(bench.section(0).faces.find(({ piece }) => piece === 'tube')!.loops).toHaveLength(2);
  });

  it('measures how the parts print, once each, and gives way to a later order', async () => {
    const bench = new Workbench(() => openWorkshop());
    await expect(
      bench.prints(
        async () => {},
        () => false,
      ),
    ).rejects.toThrow(RangeError);
    await told(bench, order());
    const machine = starterMachine('travelling-demonstrator');
    let breaths = 0;
    const overtaken = await bench.prints(
      async () => void breaths++,
      () => breaths > 3,
    );
    expect(overtaken).toBeUndefined();
    const prints = (await bench.prints(
      async () => {},
      () => false,
    ))!;
    expect(prints.map(({ part }) => part)).toEqual(ordersFor(machine).map(({ part }) => part.id));
    expect(prints.flatMap(({ open }) => open)).toEqual([]);
    const solid = ordersFor(machine).find(({ part }) => part.id === 'tube-mount')!.stated.volume;
    const mount = prints.find(({ part }) => part === 'tube-mount')!;
    expect(mount.estimate.deposited).toBeLessThan(solid);
    expect(mount.estimate.deposited).toBeGreaterThan(solid / 3);

    // Another nozzle: the same meshes, another judgement.
    await told(bench, order({ revision: 2, text: swap('nozzle: 0.4', 'nozzle: 0.8')(text) }));
    const coarse = (await bench.prints(
      async () => {},
      () => false,
    ))!;
    expect(coarse.flatMap(({ open }) => open.map(({ id }) => id))).toContain('print/wall-axle-spacer');
  });

  it('gives way to a later order between two pieces, and then builds what is left', async () => {
    const bench = new Workbench(() => openWorkshop());
    let breaths = 0;
    const words: Word[] = [];
    await bench.work(
      order(),
      (word) => words.push(word),
      async () => {
        breaths++;
      },
      () => breaths > 3,
    );
    expect(found(words, 'built')).toBeUndefined();
    expect(() => bench.section(0)).toThrow(RangeError);
    const rest = await told(bench, order({ revision: 2 }));
    // The pieces that were done are not done again, but are shown.
    expect(rest.filter(({ kind }) => kind === 'progress').length).toBeLessThan(rebuilt(rest).length);
    expect(rebuilt(rest)).toContain('base-skirt');
  });

  it('compares with the ledger where there is one, and lives with a broken one', async () => {
    const machine = starterMachine('travelling-demonstrator', () => fatter);
    const rows = ordersFor(machine).map(({ part, code, dimensions }) => ({
      id: part.id,
      revision: part.revision,
      code,
      dimensions,
      file: stlFile(part.id),
      sha256: '0'.repeat(64),
    }));
    const gone = { ...rows[0]!, id: 'old-part', file: 'old-part.stl' };
    const ledger = ledgerText(nextLedger(machine.name, undefined, [...rows, gone]));
    const bench = new Workbench(() => openWorkshop());
    const { machine: view } = found(await told(bench, order({ ledger })), 'judged')!;
    expect(view.against).toBe('ledger');
    expect(view.gone).toEqual(['old-part']);
    expect(
      view.parts
        .filter(({ change }) => change.verdict === 'print again')
        .map(({ id }) => id)
        .sort(),
    ).toEqual(['rim-ring', 'tube-end-guide', 'tube-mount']);
    const broken = found(await told(bench, order({ revision: 2, ledger: '{' })), 'judged')!;
    expect(broken.machine.against).toBe('opened');
    expect(LEDGER_FILE).toBe('ledger.json');
  });

  it('writes the files that the workshop writes, one or all', async () => {
    const bench = new Workbench(() => openWorkshop());
    await told(bench, order());
    const { stlOf } = await openWorkshop();
    const orders = ordersFor(starterMachine('travelling-demonstrator'));
    const bar = orders.find(({ part }) => part.id === 'comb-bar-upper')!;
    const one = await bench.files('comb-bar-upper');
    expect(one.name).toBe('comb-bar-upper.stl');
    expect(Buffer.from(one.bytes).equals(Buffer.from(stlOf(bar)))).toBe(true);
    expect(proveStl(one.bytes, bar.stated).complaints).toEqual([]);

    const all = await bench.files(undefined);
    const files = unzipSync(all.bytes);
    expect(Object.keys(files).sort()).toEqual(orders.map(({ part }) => stlFile(part.id)).sort());
    for (const each of orders) {
      expect(Buffer.from(files[stlFile(each.part.id)]!).equals(Buffer.from(stlOf(each)))).toBe(true);
    }
    expect((await bench.files(undefined)).bytes).toEqual(all.bytes);
    expect(strFromU8(all.bytes.slice(0, 2))).toBe('PK');
    await expect(bench.files('comb-bar')).rejects.toThrow(RangeError);
  });

  it('solves the field of what was built last, for a voltage and a bound of the column', async () => {
    const bench = new Workbench(() => openWorkshop());
    const at100 = { voltage: 100_000, bound: 'polarised' } as const;
    expect(() => bench.field(at100)).toThrow(RangeError);
    await told(bench, order());
    const first = bench.field(at100);
    expect(first).toEqual(fieldPicture(starterMachine('travelling-demonstrator'), at100));
    const { grid } = first;
    expect(grid.share).toHaveLength(grid.columns * grid.rows);
    expect(grid.share.some((each) => each > 0.05)).toBe(true);
    expect(bench.field({ ...at100, bound: 'graded' }).grid.share).not.toEqual(grid.share);
    await told(bench, order({ revision: 2, text: swap('length: 640', 'length: 700')(text) }));
    expect(bench.field(at100).grid.top - grid.top).toBeCloseTo(60);
  });

  it('cuts pieces where they stand', async () => {
    const bench = new Workbench(() => openWorkshop());
    await told(bench, order());
    const loopsOf = (placements?: Parameters<Workbench['section']>[1]) =>
      bench.section(90, placements).faces.find(({ piece }) => piece === 'tube')!.loops;
    const lifted = loopsOf(new Map([['tube', { turn: [0, 0, 0], move: [0, 0, 105] }]]));
    const lowest = (loops: typeof lifted) => Math.min(...loops.flat().map(([, z]) => z));
    expect(lowest(lifted) - lowest(loopsOf())).toBeCloseTo(100, 4);
    // Aside, the plane misses it.
    expect(loopsOf(new Map([['tube', { turn: [0, 0, 0], move: [90, 0, 5] }]]))).toEqual([]);
  });
});
