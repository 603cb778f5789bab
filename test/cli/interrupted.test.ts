import { spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { sha256 } from '../../cli/files.js';
import { LOCK, takeLock } from '../../cli/lock.js';
import { ordersFor } from '../../parts/printed/catalog.js';
import { type Ledger, parseLedger } from '../../parts/sheets/ledger.js';
import { starterMachine } from '../helpers/machines.js';
import {
  bytesOf,
  contentsOf,
  machineFile,
  SLOW,
  start,
  swap,
  temporaryFolder,
  tubewright,
  tubewrightIn,
} from '../helpers/program.js';

/** Parts of the machine that is made. */
const COUNT = ordersFor(starterMachine('travelling-demonstrator')).length;
const FATTER = swap('[79.6, 80.3, 79.8, 80.2]', '[80.2, 80.9, 80.4, 80.8]');

/** The ledger of a folder that is whole: it can be read, every file it names is there as it says, and nothing is unfinished. */
function wholeLedger(folder: string): Ledger {
  const ledger = parseLedger(readFileSync(join(folder, 'ledger.json'), 'utf8'));
  for (const { file, sha256: hash } of ledger.parts)
    expect(sha256(readFileSync(join(folder, file))), file).toBe(hash);
  const expected = ['build.txt', 'ledger.json', ...ledger.parts.map(({ file }) => file)];
  expect(readdirSync(folder).sort()).toEqual(expected.sort());
  return ledger;
}

/** Kills a run without warning as soon as it has written `files` unfinished files. */
async function killedRun(args: readonly string[], folder: string, files: number): Promise<void> {
  const { child, ended } = start(args);
  const isUnfinished = (name: string) => name.startsWith('.unfinished-');
  const enough = () => existsSync(folder) && readdirSync(folder).filter(isUnfinished).length >= files;
  while (child.exitCode === null && !enough()) await new Promise((resolve) => setTimeout(resolve, 2));
  child.kill('SIGKILL');
  const { status } = await ended;
  expect(status, 'it was killed before its end').toBe(null);
}

describe('a run that is killed', { timeout: SLOW }, () => {
  it.each([1, 6])('in an empty folder, after %i files: the next run makes everything', async (files) => {
    const folder = temporaryFolder();
    const out = join(folder, 'out');
    const file = machineFile(folder);
    await killedRun(['make', '--no-ways', file, '--out', out], out, files);
    const left = readdirSync(out);
    expect(left.filter((name) => !name.startsWith('.'))).toEqual([]);
    expect(left).toContain(LOCK);

    expect(tubewright(['make', '--no-ways', file, '--out', out]).status).toBe(0);
    expect(wholeLedger(out).parts).toHaveLength(COUNT);
  });

  it('in a folder made before: nothing of it is lost, and the next run goes on', async () => {
    const folder = temporaryFolder();
    const out = join(folder, 'out');
    const file = machineFile(folder);
    tubewright(['make', '--no-ways', file, '--out', out]);
    const before = contentsOf(out);
    machineFile(folder, 'travelling-demonstrator', FATTER);
    await killedRun(['make', '--no-ways', file, '--out', out], out, 1);
    const { [LOCK]: lock, ...after } = contentsOf(out);
    expect(lock).toBeDefined();
    expect(Object.fromEntries(Object.entries(after).filter(([name]) => !name.startsWith('.')))).toEqual(
      before,
    );

    expect(tubewright(['make', '--no-ways', file, '--out', out]).status).toBe(0);
    expect(wholeLedger(out).made).toHaveLength(COUNT + 3);
  });

  it('while files took their names: the lock shows that the folder is ours', () => {
    const folder = temporaryFolder();
    const out = join(folder, 'out');
    const file = machineFile(folder);
    tubewright(['make', '--no-ways', file, '--out', out]);
    const whole = bytesOf(out);
    // The ledger takes its name last, so this is what a kill before that leaves in a folder that was empty.
    rmSync(join(out, 'ledger.json'));
    rmSync(join(out, 'rim-ring.stl'));
    writeFileSync(join(out, '.unfinished-0123456789ab'), 'half');
    writeFileSync(join(out, LOCK), `${deadProcess()} 1`);
    expect(tubewright(['make', '--no-ways', file, '--out', out]).status).toBe(0);
    expect(bytesOf(out)).toEqual(whole);
  });
});

/** Number of a process that has ended. */
function deadProcess(): number {
  return spawnSync(process.execPath, ['-e', '0']).pid;
}

describe('two runs on one folder', { timeout: SLOW }, () => {
  it('at once: one of them works, and the folder is whole', async () => {
    const folder = temporaryFolder();
    const out = join(folder, 'out');
    const file = machineFile(folder);
    const runs = [1, 2, 3].map(() => start(['make', '--no-ways', file, '--out', out]).ended);
    const outcomes = await Promise.all(runs);
    const statuses = outcomes.map(({ status }) => status);
    expect(statuses).toContain(0);
    for (const { status, stderr } of outcomes) {
      if (status === 0) continue;
      expect(status).toBe(3);
      expect(stderr).toMatch(/is in use by another run/);
    }
    expect(wholeLedger(out).parts).toHaveLength(COUNT);
  });

  it('while one holds it: the other says so and touches nothing', () => {
    const folder = temporaryFolder();
    const out = join(folder, 'out');
    const file = machineFile(folder);
    tubewright(['make', '--no-ways', file, '--out', out, '--only', 'comb-bar-upper']);
    const release = takeLock(out);
    const before = contentsOf(out);
    const { status, stderr } = tubewright(['make', '--no-ways', file, '--out', out]);
    expect(status).toBe(3);
    expect(stderr).toContain(`in use by another run (process ${process.pid})`);
    expect(contentsOf(out)).toEqual(before);
    release();
    expect(tubewright(['make', '--no-ways', file, '--out', out, '--only', 'comb-bar-lower']).status).toBe(0);
    expect(wholeLedger(out).parts).toHaveLength(2);
  });

  it('waits for a lock whose owner is still being written', () => {
    const out = temporaryFolder();
    writeFileSync(join(out, LOCK), '');
    expect(() => takeLock(out)).toThrow('in use by another run');
  });

  it.each([
    ['whose process is gone', () => `${deadProcess()}`],
    ['whose process number belongs to another process now', () => `${process.ppid} 1`],
    ['that names no process', () => 'scrawl'],
  ])('a lock %s is taken over', (_, text) => {
    const out = temporaryFolder();
    writeFileSync(join(out, LOCK), text());
    const release = takeLock(out);
    expect(readFileSync(join(out, LOCK), 'utf8')).toMatch(new RegExp(`^${process.pid}\\b`));
    release();
    expect(readdirSync(out)).toEqual([]);
  });

  it('a lock that another run took meanwhile is left to it', () => {
    const out = temporaryFolder();
    const release = takeLock(out);
    writeFileSync(join(out, LOCK), `${process.ppid}`);
    release();
    expect(readdirSync(out)).toEqual([LOCK]);
  });
});

describe('where nothing can be written', { timeout: SLOW }, () => {
  it('refuses a folder that it did not make', () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const before = contentsOf(folder);
    const { status, stderr } = tubewright(['make', '--no-ways', file, '--out', folder]);
    expect(status).toBe(3);
    expect(stderr).toContain('was not made by tubewright');
    expect(contentsOf(folder)).toEqual(before);
  });

  it.each([
    ['{ not a ledger', 'JSON'],
    ['{}', '"kind" is not'],
    ['{"kind": "tubewright ledger", "version": 1, "machine": "M", "parts": [{}], "made": []}', 'parts[0]'],
  ])('leaves a ledger it cannot read as it is: %s', (text, said) => {
    const folder = temporaryFolder();
    const out = join(folder, 'out');
    mkdirSync(out);
    writeFileSync(join(out, 'ledger.json'), text);
    const before = contentsOf(out);
    const { status, stderr } = tubewright(['make', '--no-ways', machineFile(folder), '--out', out]);
    expect(status).toBe(3);
    expect(stderr).toContain(said);
    expect(stderr).toContain('nothing was written');
    expect(contentsOf(out)).toEqual(before);
  });

  it('says that a file stands where the folder should be, or above it', () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const at = tubewright(['make', '--no-ways', file, '--out', file]);
    expect(at.status).toBe(3);
    expect(at.stderr).toContain('is a file, not a folder');
    const below = tubewright(['make', '--no-ways', file, '--out', join(file, 'out')]);
    expect(below.status).toBe(3);
    expect(below.stderr).toContain('is not a folder');
    expect(readdirSync(folder)).toEqual(['machine.yaml']);
  });

  it('says that a folder must not be written to', () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const locked = join(folder, 'locked');
    mkdirSync(locked);
    chmodSync(locked, 0o555);
    // Nothing is forbidden to root, except in the kernel's own folders.
    const out = process.getuid?.() === 0 ? '/proc/sys' : locked;
    for (const target of [join(out, 'out'), out]) {
      const { status, stderr } = tubewright(['make', '--no-ways', file, '--out', target]);
      expect(status).toBe(3);
      expect(stderr).toContain(target);
    }
    chmodSync(locked, 0o755);
    expect(readdirSync(locked)).toEqual([]);
  });

  it('leaves nothing of a first run that the disk did not take', () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const out = join(folder, 'new', 'out');
    // No file may grow beyond 100 KiB: some parts fit, then one does not.
    const { status, stderr } = tubewrightIn('ulimit -f 100; exec "$@"', [
      'make',
      '--no-ways',
      file,
      '--out',
      out,
    ]);
    expect(status).toBe(3);
    expect(stderr).toMatch(/\.stl could not be written: larger than files may be here/);
    expect(readdirSync(folder)).toEqual(['machine.yaml']);
  });

  it('keeps all of an earlier run when the disk does not take the next one', () => {
    const folder = temporaryFolder();
    const out = join(folder, 'out');
    const file = machineFile(folder);
    tubewright(['make', '--no-ways', file, '--out', out]);
    const before = contentsOf(out);
    machineFile(folder, 'travelling-demonstrator', FATTER);
    const { status } = tubewrightIn('ulimit -f 400; exec "$@"', ['make', '--no-ways', file, '--out', out]);
    expect(status).toBe(3);
    expect(contentsOf(out)).toEqual(before);
    wholeLedger(out);
  });

  it('says so when something else bears the name of a part', () => {
    const folder = temporaryFolder();
    const out = join(folder, 'out');
    const file = machineFile(folder);
    tubewright(['make', '--no-ways', file, '--out', out, '--only', 'comb-bar-upper']);
    const ledger = readFileSync(join(out, 'ledger.json'), 'utf8');
    mkdirSync(join(out, 'comb-bar-lower.stl', 'something'), { recursive: true });
    const { status, stderr } = tubewright([
      'make',
      '--no-ways',
      file,
      '--out',
      out,
      '--only',
      'comb-bar-lower',
    ]);
    expect(status).toBe(3);
    expect(stderr).toMatch(/comb-bar-lower\.stl could not be written: is a folder/);
    expect(readFileSync(join(out, 'ledger.json'), 'utf8')).toBe(ledger);
    expect(readdirSync(out).filter((name) => name.startsWith('.'))).toEqual([]);
  });
});
