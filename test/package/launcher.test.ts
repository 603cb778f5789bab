import { spawnSync } from 'node:child_process';
import { cpSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { expect, it } from 'vitest';
import { LAUNCHER, SLOW, temporaryFolder } from '../helpers/program.js';

const ROOT = fileURLToPath(new URL('../../', import.meta.url));

/** What the launcher says in a folder that holds it and what else is copied there, and no packages. */
function launchedWith(...folders: readonly string[]) {
  const clone = temporaryFolder();
  mkdirSync(join(clone, 'cli'));
  const launcher = join(clone, 'cli', 'tubewright.js');
  cpSync(LAUNCHER, launcher);
  for (const name of ['package.json', ...folders])
    cpSync(join(ROOT, name), join(clone, name), { recursive: true });
  return spawnSync(process.execPath, [launcher, '--version'], { encoding: 'utf8' });
}

it('says what to run before the program is built', { timeout: SLOW }, () => {
  const { status, stderr } = launchedWith('cli/setup.js');
  expect(status).toBe(3);
  expect(stderr).toContain('not built yet');
  expect(stderr).toContain('node cli/setup.js');
});

it('says what to run when packages are missing', { timeout: SLOW }, () => {
  const { status, stderr } = launchedWith('cli/setup.js', 'dist');
  expect(status).toBe(3);
  expect(stderr).toContain("Cannot find package 'commander'");
  expect(stderr).toContain('node cli/setup.js');
});

it('speaks of no set-up where none came with it', { timeout: SLOW }, () => {
  const { status, stderr } = launchedWith('dist');
  expect(status).toBe(3);
  expect(stderr).toContain('Install it again');
  expect(stderr).not.toContain('setup.js');
});
