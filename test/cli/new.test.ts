import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { starterNames } from '../../cli/commands/new.js';
import { readMachineFile } from '../../parts/machine/read.js';
import { STARTERS, starterPath } from '../helpers/machines.js';
import { SLOW, temporaryFolder, tubewright } from '../helpers/program.js';

describe('new', { timeout: SLOW }, () => {
  it('knows the starters', () => {
    expect(starterNames()).toEqual([...STARTERS].sort());
  });

  it.each(STARTERS)('writes a commented file like %s that means the same', (starter) => {
    const file = join(temporaryFolder(), 'mine.yaml');
    const { status, stdout } = tubewright(['new', file, '--like', starter]);
    expect(status).toBe(0);
    expect(stdout).toContain(`tubewright check ${file}`);
    const text = readFileSync(file, 'utf8');
    expect(text).toMatch(/outer: .* # outside diameter/);
    const values = (source: string) => {
      const read = readMachineFile(source, 'm.yaml');
      return read.ok ? read.values : read.problems;
    };
    expect(values(text)).toEqual(values(readFileSync(starterPath(starter), 'utf8')));
    const checked = (path: string) => tubewright(['check', path]);
    expect(checked(file)).toEqual(checked(starterPath(starter)));
  });

  it('begins like the travelling demonstrator when nothing is said', () => {
    const file = join(temporaryFolder(), 'mine.yaml');
    expect(tubewright(['new', file]).status).toBe(0);
    expect(readFileSync(file, 'utf8')).toContain('machine: Travelling demonstrator');
  });

  it('never writes over a file', () => {
    const file = join(temporaryFolder(), 'mine.yaml');
    writeFileSync(file, 'mine');
    const { status, stderr } = tubewright(['new', file]);
    expect(status).toBe(3);
    expect(stderr).toContain('exists already');
    expect(readFileSync(file, 'utf8')).toBe('mine');
  });

  it('names the starter that was probably meant', () => {
    const file = join(temporaryFolder(), 'mine.yaml');
    const { status, stderr } = tubewright(['new', file, '--like', 'lecture-hal']);
    expect(status).toBe(2);
    expect(stderr).toContain('did you mean lecture-hall?');
  });

  it('says why it cannot write', () => {
    const { status, stderr } = tubewright(['new', join(temporaryFolder(), 'no', 'such', 'folder.yaml')]);
    expect(status).toBe(3);
    expect(stderr).toContain('no such file or folder');
  });
});
