import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { ordersFor } from '../../parts/printed/catalog.js';
import { starterMachine, starterPath } from '../helpers/machines.js';
import { contentsOf, machineFile, SLOW, swap, temporaryFolder, tubewright } from '../helpers/program.js';

const READINGS = [79.6, 80.3, 79.8, 80.2];
const tubeFatter = (by: number) =>
  swap(`[${READINGS.join(', ')}]`, `[${READINGS.map((reading) => (reading + by).toFixed(1)).join(', ')}]`);

interface Said {
  readonly made: readonly {
    readonly id: string;
    readonly verdict: string;
    readonly written: boolean;
    readonly changes: readonly { readonly key: string; readonly from: unknown; readonly to: unknown }[];
  }[];
}

/** Makes the demonstrator, then again with another tube, in one folder. */
function madeAgain(change: (text: string) => string) {
  const folder = temporaryFolder();
  const out = join(folder, 'out');
  tubewright(['make', '--no-ways', machineFile(folder), '--out', out]);
  const before = contentsOf(out);
  const file = machineFile(folder, 'travelling-demonstrator', change);
  const compared = tubewright(['compare', file, join(out, 'ledger.json')]);
  const { status, stdout } = tubewright(['make', '--no-ways', file, '--out', out, '--json']);
  const identified = tubewright(['identify', codeBefore('tube-mount'), file, '--out', out]);
  const said: Said = JSON.parse(stdout);
  return { folder, out, file, before, after: contentsOf(out), compared, status, said, identified };
}

const before = ordersFor(starterMachine('travelling-demonstrator'));
const codeBefore = (id: string) => before.find(({ part }) => part.id === id)!.code;

describe('a tube 0.6 mm fatter', { timeout: SLOW }, () => {
  let run: ReturnType<typeof madeAgain>;
  const after = ordersFor(starterMachine('travelling-demonstrator', tubeFatter(0.6)));
  const again = () => run.said.made.filter(({ verdict }) => verdict === 'print again');

  // In a test of its own, since the folder lives as long as the test that asked for it.
  it('prints again exactly the parts that lie against the tube', () => {
    run = madeAgain(tubeFatter(0.6));
    expect(run.status).toBe(0);
    expect(again().map(({ id }) => id)).toEqual(['tube-mount', 'rim-ring', 'tube-end-guide']);
    expect(run.said.made.filter(({ verdict }) => verdict === 'keep')).toHaveLength(before.length - 3);
  });

  it('names each dimension that changed, from what to what, and no other', () => {
    for (const { id, changes } of again()) {
      const of = (orders: typeof before) => orders.find(({ part }) => part.id === id)!.dimensions;
      const [old, now] = [of(before), of(after)];
      const expected = Object.keys(now)
        .filter((key) => JSON.stringify(now[key]) !== JSON.stringify(old[key]))
        .map((key) => ({ key, from: old[key], to: now[key] }));
      expect(changes.map(({ key, from, to }) => ({ key, from, to }))).toEqual(expected);
      expect(expected.length).toBeGreaterThan(0);
    }
    const pilot = again()[0]!.changes.find(({ key }) => key === 'pilotRadius')!;
    // The bore follows the tube: half of 0.6 mm more in the radius.
    expect((pilot.to as number) - (pilot.from as number)).toBeCloseTo(0.3, 3);
  });

  it('says so in words', () => {
    const { stdout, status } = run.compared;
    expect(status).toBe(0);
    expect(stdout).toContain(`: 3 of ${before.length} parts to print\n`);
    expect(stdout).toMatch(/^ {2}keep +base-collar /m);
    expect(stdout).toMatch(
      new RegExp(`^ {2}print again +tube-mount +[0-9A-Z]{8}, was ${codeBefore('tube-mount')}$`, 'm'),
    );
    expect(stdout).toMatch(/^ +pilot bore, radius 40\.\d+ -> 40\.\d+ mm$/m);
  });

  it('leaves every other file as it was', () => {
    const changed = Object.keys(run.after).filter(
      (name) => run.after[name]!.bytes !== run.before[name]?.bytes,
    );
    expect(changed).toEqual([
      'build.txt',
      'ledger.json',
      'rim-ring.stl',
      'tube-end-guide.stl',
      'tube-mount.stl',
    ]);
    for (const name of ['base-collar.stl', 'lock-ring.stl', 'base-skirt.stl']) {
      expect(run.after[name]).toEqual(run.before[name]);
    }
    expect(run.said.made.filter(({ written }) => written).map(({ id }) => id)).toEqual([
      'tube-mount',
      'rim-ring',
      'tube-end-guide',
    ]);
  });

  it('still knows the old print by its code, and that it is no longer right', () => {
    const { status, stdout } = run.identified;
    expect(status).toBe(0);
    expect(stdout).toContain(`${codeBefore('tube-mount')} is a tube-mount`);
    expect(stdout).toMatch(/pilot bore, radius +40\.29\d* mm/);
    expect(stdout).toContain('No longer right for');
    expect(stdout).toMatch(/pilot bore, radius 40\.\d+ -> 40\.\d+ mm/);
  });
});

describe('a tube a step of the series fatter', { timeout: SLOW }, () => {
  it('prints the collar again as well', () => {
    const change = (text: string) =>
      swap('opening: { diameter: 96', 'opening: { diameter: 106')(tubeFatter(5)(text));
    const { status, said } = madeAgain(change);
    expect(status).toBe(0);
    const again = said.made.filter(({ verdict }) => verdict === 'print again').map(({ id }) => id);
    // The wider opening lets a wider seat through.
    const seat = ['terminal-seat-leg', 'terminal-seat-head'];
    // So do the tools for cutting and drilling: new tube, new holes, new opening.
    const tools = ['tube-end-guide', 'drill-jig', 'drill-jig-arm', 'opening-jig'];
    const base = ['base-skirt', 'tube-mount', 'base-collar', 'lock-ring', 'rim-ring'];
    expect(again).toEqual([...base, ...seat, ...tools]);
  });
});

describe('identify and compare', { timeout: SLOW }, () => {
  let file: string;
  beforeAll(() => {
    file = new URL('../../cli/starters/travelling-demonstrator.yaml', import.meta.url).pathname;
  });

  it('knows a code that was never made from the file itself, in small letters too', () => {
    const { status, stdout } = tubewright(['identify', codeBefore('rim-ring').toLowerCase(), file]);
    expect(status).toBe(0);
    expect(stdout).toContain(`${codeBefore('rim-ring')} is a rim-ring`);
    expect(stdout).toContain('Still good for');
  });

  it('names the code that was probably meant', () => {
    const code = codeBefore('rim-ring');
    const { status, stderr } = tubewright(['identify', `${code.slice(0, 7)}0`, file]);
    expect(status).toBe(2);
    expect(stderr).toContain(`did you mean ${code}?`);
  });

  it('says which values and findings changed between two machine files', () => {
    const folder = temporaryFolder();
    const short = machineFile(folder, 'inch-built');
    const longer = starterPath('inch-built-longer-tube');
    const { stdout, status } = tubewright(['compare', longer, short]);
    expect(status).toBe(0);
    expect(stdout).toContain('column.tube.length: 609.6 -> 914.4 mm');
    expect(stdout).toMatch(/way\/column-outer: danger -> (caution|ok)/);
    expect(stdout).not.toContain('rollers.');
    const { values, findings } = JSON.parse(tubewright(['compare', longer, short, '--json']).stdout);
    expect(values.map(({ key }: { key: string }) => key)).toEqual(['machine', 'column.tube.length']);
    expect(findings[0].id).toMatch(/\w+\/\w+/);
  });

  it('finds nothing to print between a file and itself', () => {
    expect(tubewright(['compare', file, file]).stdout).toContain(
      `: none of ${before.length} parts to print\n`,
    );
  });

  it.each([
    ['{"kind": "something else"}', '"kind" is not'],
    ['{"kind": "tubewright ledger", "version": 2}', 'version 2'],
    ['[', 'found'],
  ])('takes %s for no ledger and no machine file', (text, said) => {
    const folder = temporaryFolder();
    const other = machineFile(folder, 'travelling-demonstrator', () => text);
    const { status, stderr } = tubewright(['compare', file, other]);
    expect(status).toBe(2);
    expect(stderr).toContain(said);
    expect(readFileSync(other, 'utf8')).toBe(text);
  });
});
