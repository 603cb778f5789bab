// Brings a clone to where the program runs: installs the packages the lock file names and builds, each only when needed.
// Plain JavaScript, because it runs before anything is installed or built.
import { spawnSync } from 'node:child_process';
import { existsSync, readdirSync, renameSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = join(dirname(fileURLToPath(import.meta.url)), '..');
const modules = join(root, 'node_modules');
const stamp = join(root, 'dist', '.built');

function run(command, args, undo = () => {}) {
  const { status, error } = spawnSync(command, args, {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32',
  });
  if (error || status !== 0) {
    undo();
    console.error(`tubewright: "${command} ${args.join(' ')}" failed${error ? `: ${error.message}` : ''}`);
    process.exit(3);
  }
}

const changed = (path) => (existsSync(path) ? statSync(path).mtimeMs : 0);

/** The latest change among the sources that are compiled. */
function latest(folder) {
  return readdirSync(folder, { withFileTypes: true }).reduce((time, entry) => {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) return Math.max(time, latest(path));
    return /\.(ts|tsx|css|html|js)$/.test(entry.name) ? Math.max(time, changed(path)) : time;
  }, changed(folder));
}

function install() {
  const installed = join(modules, '.package-lock.json');
  if (existsSync(installed) && changed(installed) >= changed(join(root, 'package-lock.json'))) return;
  console.error('Installing packages ...');
  run('npm', ['ci', '--no-audit', '--no-fund']);
}

function build() {
  const sources = ['parts', 'cli', 'viewer', 'test/bench', 'test/field-cases']
    .map((folder) => join(root, folder))
    .filter(existsSync);
  const time = Math.max(...sources.map(latest), changed(join(root, 'tsconfig.json')));
  if (changed(stamp) >= time && !process.argv.includes('--build')) return;
  console.error('Building ...');
  // Built beside and then exchanged: a source that was renamed does not live on, and a program that runs meanwhile
  // finds its files all but always.
  const next = join(root, `.dist-${process.pid}`);
  const compile = [join(modules, 'typescript', 'bin', 'tsc'), '-p', 'cli', '--outDir', next];
  const undo = () => rmSync(next, { recursive: true, force: true });
  run(process.execPath, compile, undo);
  run(process.execPath, [join(root, 'viewer', 'bundle.js'), join(next, 'viewer')], undo);
  writeFileSync(join(next, '.built'), '');
  rmSync(join(root, 'dist'), { recursive: true, force: true });
  renameSync(next, join(root, 'dist'));
}

install();
build();
