import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Machine } from '../../parts/machine/machine.js';
import { readMachineFile } from '../../parts/machine/read.js';
import { resolveMachine } from '../../parts/machine/resolve.js';
import { ordersFor, type PartOrder } from '../../parts/printed/catalog.js';
import { writeStl } from '../../parts/sheets/stl.js';
import type { Kernel } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { bareKernel } from './bare-kernel.js';
import { benchField } from './field.js';
import { jscadKernel } from './jscad-kernel.js';
import { benchMachine } from './machine-field.js';
import { benchMechanics } from './mechanics.js';
import { timePage } from './viewer.js';
import { benchWays } from './ways.js';

// Ratios, each measured side by side in one run: the machine's own speed falls out.

const root = packageRoot(dirname(fileURLToPath(import.meta.url)));
const STARTER = join(root, 'cli', 'starters', 'travelling-demonstrator.yaml');
const LARGEST = join(root, 'cli', 'starters', 'lecture-hall.yaml');
const ROUNDS = 5;
const PROCESS_ROUNDS = 11;

function packageRoot(from: string): string {
  return existsSync(join(from, 'package.json')) ? from : packageRoot(dirname(from));
}

function machineOf(text: string): Machine {
  const read = readMachineFile(text, STARTER);
  if (!read.ok) throw new Error('the demo machine does not read');
  return resolveMachine(read.values, read.assumed);
}

const demoOrders = (): PartOrder[] => ordersFor(machineOf(readFileSync(STARTER, 'utf8')));

function timed(work: () => void): number {
  const start = performance.now();
  work();
  return performance.now() - start;
}

const median = (values: readonly number[]): number =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;
const buildAll = (orders: readonly PartOrder[], kernel: Kernel): number =>
  timed(() =>
    kernel.scope(() => {
      for (const { part, dimensions } of orders) kernel.mesh(part.build(dimensions, kernel));
    }),
  );

function report(what: string, ratio: number, aim: string, detail: string): void {
  console.log(`${what.padEnd(58)} ${ratio.toFixed(2).padStart(7)}   aim ${aim.padEnd(10)} ${detail}`);
}

async function building(): Promise<void> {
  const orders = demoOrders();
  const [house, bare, jscad] = await Promise.all([loadKernel(), bareKernel(), jscadKernel()]);
  buildAll(orders, house);
  buildAll(orders, bare);
  const ours: number[] = [];
  const direct: number[] = [];
  const ratios: number[] = [];
  for (let i = 0; i < ROUNDS; i++) {
    ours.push(buildAll(orders, house));
    direct.push(buildAll(orders, bare));
    ratios.push(ours[i]! / direct[i]!);
  }
  const booleans = buildAll(orders, jscad);
  const writing = timed(() => {
    house.scope(() => {
      for (const { part, dimensions } of orders) writeStl(house.mesh(part.build(dimensions, house)));
    });
  });
  const own = median(ours);
  report(
    'all parts: JSCAD’s own 3D booleans over ours',
    booleans / own,
    '>= 5',
    `${booleans.toFixed(0)} ms over ${own.toFixed(0)} ms`,
  );
  report(
    'all parts: ours over bare Manifold calls',
    median(ratios),
    '<= 1.5',
    `${own.toFixed(0)} ms over ${median(direct).toFixed(0)} ms`,
  );
  report(
    'writing all STL files over building all parts',
    (writing - own) / own,
    'none',
    `${(writing - own).toFixed(0)} ms over ${own.toFixed(0)} ms`,
  );
}

function processes(): void {
  const run = (args: readonly string[]) =>
    timed(() => {
      const { status } = spawnSync(process.execPath, args, { stdio: 'ignore', cwd: root });
      if (status !== 0) throw new Error(`node ${args.join(' ')} ended with ${status}`);
    });
  const check = ['cli/tubewright.js', 'check', STARTER];
  const nothing = ['-e', '0'];
  run(check);
  run(nothing);
  const ratios: number[] = [];
  const times: number[] = [];
  for (let i = 0; i < PROCESS_ROUNDS; i++) {
    times.push(run(check));
    ratios.push(times[i]! / run(nothing));
  }
  report(
    '`check` over `node -e 0`, whole processes',
    median(ratios),
    'none',
    `${median(times).toFixed(0)} ms`,
  );
}

/** The page against building the same parts plainly: all of them for the first picture, the changed ones for an edit. */
async function page(): Promise<void> {
  const text = readFileSync(STARTER, 'utf8');
  const fatter = [0.1, 0.2, 0.3].map((by) =>
    text.replace(/79\.6, 80\.3, 79\.8, 80\.2/, (list) =>
      list
        .split(', ')
        .map((value) => (Number(value) + by).toFixed(1))
        .join(', '),
    ),
  );
  const kernel = await loadKernel();
  const all = ordersFor(machineOf(text));
  const changed = ordersFor(machineOf(fatter[0]!)).filter(
    ({ code }) => !all.some((each) => each.code === code),
  );
  buildAll(all, kernel);
  const [whole, part] = [all, changed].map((orders) =>
    median(Array.from({ length: ROUNDS }, () => buildAll(orders, kernel))),
  ) as [number, number];
  const write = (folder: string) => {
    const args = ['cli/tubewright.js', 'view', STARTER, '--export', folder];
    const { status } = spawnSync(process.execPath, args, {
      cwd: root,
      stdio: ['ignore', 'ignore', 'inherit'],
    });
    if (status !== 0) throw new Error('the page could not be written');
  };
  const times = await timePage(write, fatter, 3);
  const first = median(times.map((each) => each.first));
  const edit = median(times.map((each) => each.edit));
  report(
    'page: first picture over building all parts',
    first / whole,
    'none',
    `${first.toFixed(0)} ms over ${whole.toFixed(0)} ms`,
  );
  report(
    'page: an edit’s new picture over building what changed',
    edit / part,
    '<= 2',
    `${edit.toFixed(0)} ms over ${part.toFixed(0)} ms (${changed.map(({ part: { id } }) => id).join(', ')})`,
  );
}

console.log(`${'ratio (medians)'.padEnd(58)} measured`);
processes();
benchField(root, report);
benchMachine(machineOf(readFileSync(STARTER, 'utf8')), report);
await building();
const [smallest, largest] = [STARTER, LARGEST].map((path) => machineOf(readFileSync(path, 'utf8'))) as [
  Machine,
  Machine,
];
benchMechanics(smallest, largest, await loadKernel(), report);
await benchWays(smallest, largest, await loadKernel(), report);
await page();
