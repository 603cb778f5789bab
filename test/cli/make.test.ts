import { cpSync, existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkMachine } from '../../parts/checks/index.js';
import { ordersFor } from '../../parts/printed/catalog.js';
import type { Ledger } from '../../parts/sheets/ledger.js';
import { starterMachine, starterPath } from '../helpers/machines.js';
import {
  bytesOf,
  contentsOf,
  machineFile,
  SLOW,
  swap,
  temporaryFolder,
  tubewright,
} from '../helpers/program.js';

const IDS = ordersFor(starterMachine('travelling-demonstrator')).map(({ part }) => part.id);
const FILES = [...IDS.map((id) => `${id}.stl`), 'build.txt', 'ledger.json'].sort();
const ledgerOf = (folder: string): Ledger => JSON.parse(readFileSync(join(folder, 'ledger.json'), 'utf8'));
const dangersOf = (starter: 'inch-built') =>
  checkMachine(starterMachine(starter))
    .findings.filter(({ severity }) => severity === 'danger')
    .map(({ id }) => id);

describe('make', { timeout: SLOW }, () => {
  it('writes every part, the notes and the ledger into a folder beside the file', () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const { status, stdout, stderr } = tubewright(['make', '--no-ways', file]);
    expect({ status, stderr }).toEqual({ status: 0, stderr: '' });
    expect(readdirSync(join(folder, 'machine')).sort()).toEqual(FILES);
    for (const id of IDS) expect(stdout).toMatch(new RegExp(`^ {2}new +${id} `, 'm'));
    expect(stdout).toContain(`${IDS.length} of ${IDS.length} files written`);
    expect(ledgerOf(join(folder, 'machine')).parts.map(({ id }) => id)).toEqual(IDS);
  });

  it('puts the parts of a file without an ending beside it too', () => {
    const folder = temporaryFolder();
    const file = join(folder, 'mine');
    cpSync(starterPath('travelling-demonstrator'), file);
    expect(tubewright(['make', '--no-ways', file, '--only', 'comb-bar-upper']).status).toBe(0);
    expect(existsSync(join(folder, 'mine-parts', 'comb-bar-upper.stl'))).toBe(true);
  });

  it('gives the same bytes in every empty folder, and touches nothing when run again', () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const [one, other] = [join(folder, 'one'), join(folder, 'other')];
    tubewright(['make', '--no-ways', file, '--out', one]);
    tubewright(['make', '--no-ways', file, '--out', other]);
    expect(Object.keys(bytesOf(one))).toEqual(FILES);
    expect(bytesOf(other)).toEqual(bytesOf(one));

    const before = contentsOf(one);
    const again = tubewright(['make', '--no-ways', file, '--out', one]);
    expect(again.status).toBe(0);
    expect(again.stdout).toContain(`0 of ${IDS.length} files written`);
    for (const id of IDS) expect(again.stdout).toMatch(new RegExp(`^ {2}keep +${id} `, 'm'));
    expect(contentsOf(one)).toEqual(before);
  });

  it('makes a file that is missing or was altered as it was', () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const out = join(folder, 'out');
    tubewright(['make', '--no-ways', file, '--out', out]);
    const before = bytesOf(out);
    rmSync(join(out, 'comb-bar-lower.stl'));
    writeFileSync(join(out, 'comb-bar-upper.stl'), 'altered');
    const { stdout } = tubewright(['make', '--no-ways', file, '--out', out]);
    expect(stdout).toContain('made again as they were: comb-bar-lower.stl, comb-bar-upper.stl');
    expect(bytesOf(out)).toEqual(before);
  });

  it('makes one part alone, and leaves the files and rows of the others as they were', () => {
    const folder = temporaryFolder();
    const out = join(folder, 'out');
    const file = machineFile(folder);
    expect(tubewright(['make', '--no-ways', file, '--out', out, '--only', 'rim-ring']).status).toBe(0);
    expect(readdirSync(out).sort()).toEqual(['build.txt', 'ledger.json', 'rim-ring.stl']);
    expect(ledgerOf(out).parts.map(({ id }) => id)).toEqual(['rim-ring']);

    tubewright(['make', '--no-ways', file, '--out', out]);
    const before = contentsOf(out);
    const rowsBefore = ledgerOf(out).parts;
    machineFile(
      folder,
      'travelling-demonstrator',
      swap('[79.6, 80.3, 79.8, 80.2]', '[80.2, 80.9, 80.4, 80.8]'),
    );
    const { stdout } = tubewright(['make', '--no-ways', file, '--out', out, '--only', 'rim-ring']);
    expect(stdout).toContain('1 of 1 files written');
    const after = contentsOf(out);
    for (const name of FILES.filter((name) => name.endsWith('.stl') && name !== 'rim-ring.stl')) {
      expect(after[name], name).toEqual(before[name]);
    }
    expect(after['rim-ring.stl']?.bytes).not.toBe(before['rim-ring.stl']?.bytes);
    const others = (rows: Ledger['parts']) => rows.filter(({ id }) => id !== 'rim-ring');
    expect(others(ledgerOf(out).parts)).toEqual(others(rowsBefore));
    expect(
      ledgerOf(out)
        .made.map(({ id }) => id)
        .filter((id) => id === 'rim-ring'),
    ).toHaveLength(2);
  });

  it('says which part is no longer needed, and takes its file away unless somebody changed it', () => {
    const folder = temporaryFolder();
    const out = join(folder, 'out');
    const file = machineFile(folder);
    tubewright(['make', '--no-ways', file, '--out', out]);
    const ledger = ledgerOf(out);
    // As a version that knew another part would have left it.
    const old = (id: string) => ({ ...ledger.parts[0]!, id, file: `${id}.stl` });
    const parts = [...ledger.parts, old('belt-guard'), old('wand-clip')];
    writeFileSync(join(out, 'ledger.json'), JSON.stringify({ ...ledger, parts }));
    cpSync(join(out, ledger.parts[0]!.file), join(out, 'belt-guard.stl'));
    writeFileSync(join(out, 'wand-clip.stl'), 'changed by hand');
    const { status, stdout } = tubewright(['make', '--no-ways', file, '--out', out]);
    expect(status).toBe(0);
    expect(stdout).toMatch(/^ {2}no longer needed +belt-guard /m);
    expect(existsSync(join(out, 'belt-guard.stl'))).toBe(false);
    expect(readFileSync(join(out, 'wand-clip.stl'), 'utf8')).toBe('changed by hand');
    expect(ledgerOf(out)).toEqual(ledger);
  });
});

describe('make on a machine in danger', { timeout: SLOW }, () => {
  const dangers = dangersOf('inch-built');

  it('writes nothing, and says what would have to be accepted', () => {
    const folder = temporaryFolder();
    const file = machineFile(folder, 'inch-built');
    const { status, stdout } = tubewright(['make', '--no-ways', file]);
    expect(status).toBe(1);
    expect(dangers).toContain('way/column-outer');
    for (const id of dangers) expect(stdout).toContain(`--accept ${id}`);
    expect(readdirSync(folder)).toEqual(['machine.yaml']);
  });

  it('goes on once each danger is accepted by its id', () => {
    const folder = temporaryFolder();
    const file = machineFile(folder, 'inch-built');
    const accept = dangers.flatMap((id) => ['--accept', id]);
    expect(tubewright(['make', '--no-ways', file, ...accept.slice(2)]).status).toBe(1);
    expect(readdirSync(folder)).toEqual(['machine.yaml']);
    const { status, stdout } = tubewright(['make', '--no-ways', file, ...accept]);
    expect(status).toBe(0);
    expect(stdout).toContain('!! danger');
    expect(readdirSync(join(folder, 'machine')).sort()).toEqual(FILES);
  });

  it('says of parts left alone that their files are of another machine, on screen and in the notes', () => {
    const folder = temporaryFolder();
    const file = machineFile(folder);
    const out = join(folder, 'out');
    tubewright(['make', '--no-ways', file, '--out', out]);
    const before = ledgerOf(out).parts.find(({ id }) => id === 'rim-ring')!.code;
    machineFile(
      folder,
      'travelling-demonstrator',
      swap('[79.6, 80.3, 79.8, 80.2]', '[80.2, 80.9, 80.4, 80.8]'),
    );
    const { stdout } = tubewright(['make', '--no-ways', file, '--out', out, '--only', 'tube-mount']);
    expect(stdout).toContain('still to be made for this machine: rim-ring');
    const notes = () => readFileSync(join(out, 'build.txt'), 'utf8').replace(/\s+/g, ' ');
    expect(notes()).toContain(`THE FILE IS STILL ${before}: make it again`);
    tubewright(['make', '--no-ways', file, '--out', out]);
    expect(notes()).not.toContain('THE FILE IS STILL');

    const alone = join(folder, 'alone');
    tubewright(['make', '--no-ways', file, '--out', alone, '--only', 'comb-bar-upper']);
    expect(readFileSync(join(alone, 'build.txt'), 'utf8').match(/NOT\s+MADE\s+YET/g)).toHaveLength(
      IDS.length - 1,
    );
  });

  it('makes one part at a time with --only', () => {
    const folder = temporaryFolder();
    const only = ['--only', 'tube-mount', '--only', 'rim-ring'];
    const { status, stderr } = tubewright(['make', '--no-ways', machineFile(folder), ...only]);
    expect(status).toBe(2);
    expect(stderr).toContain('--only makes one part; given were tube-mount, rim-ring');
  });

  it('names what was accepted, on screen and in the notes', () => {
    const folder = temporaryFolder();
    const out = join(folder, 'out');
    const accepted = dangersOf('inch-built').flatMap((id) => ['--accept', id]);
    const { stdout } = tubewright([
      'make',
      '--no-ways',
      starterPath('inch-built'),
      '--out',
      out,
      ...accepted,
    ]);
    const notes = readFileSync(join(out, 'build.txt'), 'utf8');
    for (const id of dangersOf('inch-built')) {
      expect(stdout).toContain(`Made in spite of ${id}`);
      expect(notes).toContain(`DANGER, accepted: ${id}`);
    }
  });

  it('tells the builder of an insulating plate to put a ground electrode under it', () => {
    const folder = temporaryFolder();
    const notesFor = (material: string) => {
      const file = machineFile(
        folder,
        'travelling-demonstrator',
        swap('material: aluminium', `material: ${material}`),
      );
      const out = join(folder, material);
      expect(tubewright(['make', '--no-ways', file, '--out', out, '--only', 'comb-bar-upper']).status).toBe(
        0,
      );
      return readFileSync(join(out, 'build.txt'), 'utf8');
    };
    expect(notesFor('plywood')).toContain('Ground electrode, since the plate is plywood');
    expect(notesFor('plywood')).not.toContain('bare metal around it');
    expect(notesFor('steel')).not.toContain('Ground electrode');
  });
});
