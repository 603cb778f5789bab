import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { readMachineFile } from '../../parts/machine/read.js';
import { resolveMachine } from '../../parts/machine/resolve.js';
import { ordersFor, type PartOrder } from '../../parts/printed/catalog.js';
import { writeStl } from '../../parts/sheets/stl.js';
import type { Kernel } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { bareKernel } from './bare-kernel.js';
import { jscadKernel } from './jscad-kernel.js';

// Ratios, each measured side by side in one run: the machine's own speed falls out.

const root = packageRoot(dirname(fileURLToPath(import.meta.url)));
const STARTER = join(root, 'cli', 'starters', 'travelling-demonstrator.yaml');
const ROUNDS = 5;
const PROCESS_ROUNDS = 11;

function packageRoot(from: string): string {
  return existsSync(join(from, 'package.json')) ? from : packageRoot(dirname(from));
}

function demoOrders(): PartOrder[] {
  const read = readMachineFile(readFileSync(STARTER, 'utf8'), STARTER);
  if (!read.ok) throw new Error('the demo machine does not read');
  return ordersFor(resolveMachine(read.values, read.assumed));
}

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
    '<= 5',
    `${median(times).toFixed(0)} ms`,
  );
}

console.log(`${'ratio (medians)'.padEnd(58)} measured`);
processes();
await building();
