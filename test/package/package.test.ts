import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, readdirSync, readFileSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { STARTERS } from '../helpers/machines.js';
import { SLOW, temporaryFolder, tubewright } from '../helpers/program.js';
import { SCHEMAS } from '../helpers/schemas.js';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

/** What somebody gets who installs the package, unpacked in a folder of its own. */
function unpacked(): string {
  const folder = temporaryFolder();
  // `npm test` hands its own settings down; packing needs none of them.
  const env = Object.fromEntries(Object.entries(process.env).filter(([key]) => !key.startsWith('npm_')));
  const args = ['pack', '--ignore-scripts', '--silent', '--pack-destination', folder];
  execFileSync('npm', args, { cwd: ROOT, env, shell: process.platform === 'win32' });
  const archive = readdirSync(folder).find((name) => name.endsWith('.tgz'))!;
  execFileSync('tar', ['-xzf', archive], { cwd: folder });
  const home = join(folder, 'package');
  symlinkSync(join(ROOT, 'node_modules'), join(home, 'node_modules'), 'junction');
  return home;
}

function namesIn(folder: string, prefix = ''): string[] {
  return readdirSync(join(folder, prefix), { withFileTypes: true }).flatMap((entry) => {
    const name = prefix ? `${prefix}/${entry.name}` : entry.name;
    if (entry.isSymbolicLink()) return [];
    return entry.isDirectory() ? namesIn(folder, name) : [name];
  });
}

describe('the package', { timeout: SLOW }, () => {
  it('holds program, library, page, starters and schemas, works where it is unpacked, and holds nothing else', () => {
    const home = unpacked();
    const names = namesIn(home);
    for (const starter of STARTERS) expect(names).toContain(`cli/starters/${starter}.yaml`);
    for (const schema of SCHEMAS) expect(names).toContain(`cli/schemas/${schema}.schema.json`);
    expect(names).toEqual(expect.arrayContaining(['package.json', 'README.md', 'LICENSE', 'CHANGELOG.md']));
    const strange = names.filter(
      (name) => !/^(dist\/(cli|parts|viewer)|cli)\/|^[A-Za-z]+(\.md|\.json)?$/.test(name),
    );
    expect(strange).toEqual([]);
    expect(names.filter((name) => name.startsWith('dist/viewer/')).sort()).toEqual([
      'dist/viewer/page.html',
      'dist/viewer/viewer.css',
      'dist/viewer/viewer.js',
    ]);

    const work = join(home, 'work');
    mkdirSync(work);
    const file = join(work, 'mine.yaml');
    const run = (...args: string[]) =>
      spawnSync(process.execPath, [join(home, 'cli', 'tubewright.js'), ...args], { encoding: 'utf8' });
    expect(run('new', file)).toMatchObject({ status: 0, stderr: '' });
    expect(run('check', file).stdout).toBe(tubewright(['check', file]).stdout);
    expect(run('view', file, '--export', join(work, 'page'))).toMatchObject({ status: 0, stderr: '' });
    const made = run('make', file, '--only', 'comb-bar-upper');
    expect(made).toMatchObject({ status: 0, stderr: '' });
    expect(readdirSync(join(work, 'mine')).sort()).toEqual([
      'build.txt',
      'comb-bar-upper.stl',
      'ledger.json',
    ]);
  });

  it('names only files that are there', () => {
    const { bin, exports: doors } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8'));
    const home = unpacked();
    const names = namesIn(home);
    const targets = (value: unknown): string[] =>
      typeof value === 'string' ? [value] : Object.values(value as object).flatMap(targets);
    for (const target of [...targets(bin), ...targets(doors)]) {
      const [before, after] = target.replace(/^\.\//, '').split('*');
      const there = names.some(
        (name) =>
          name.startsWith(before!) && name.endsWith(after ?? '') && (after !== undefined || name === before),
      );
      expect(there, target).toBe(true);
    }
    const door = spawnSync(
      process.execPath,
      [
        '--input-type=module',
        '-e',
        "import { readMachineFile } from 'tubewright'; console.log(typeof readMachineFile)",
      ],
      { cwd: home, encoding: 'utf8' },
    );
    expect(door).toMatchObject({ status: 0, stdout: 'function\n' });
  });
});
