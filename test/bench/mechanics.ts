import { checkMachine } from '../../parts/checks/index.js';
import { printability } from '../../parts/checks/printability.js';
import type { Machine } from '../../parts/machine/machine.js';
import { ordersFor, type PartOrder } from '../../parts/printed/catalog.js';
import { reachOf } from '../../parts/printed/tool-reach.js';
import type { Kernel, Mesh } from '../../parts/solid/kernel.js';
import { overlaps } from '../helpers/mating.js';
import type { Report } from './field.js';

// What the whole machine costs beside the parts that the first release began with, and how that grows from the smallest
// demo machine to the largest.

const ROUNDS = 5;
/** The parts that there were before carriers, seat and drive. */
const FIRST_PARTS = [
  'base-skirt',
  'tube-mount',
  'base-collar',
  'lock-ring',
  'roller-hub-lower',
  'roller-hub-upper',
  'rim-ring',
  'comb-bracket-lower',
  'comb-bracket-upper',
  'comb-bar-lower',
  'comb-bar-upper',
];

function medianOf(work: () => void): number {
  const times = Array.from({ length: ROUNDS }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[Math.floor(ROUNDS / 2)]!;
}

interface Costs {
  /** ms */
  readonly first: number;
  readonly build: number;
  readonly measure: number;
  readonly triangles: number;
}

function costs(machine: Machine, kernel: Kernel): Costs {
  const orders = ordersFor(machine);
  const meshes = (some: readonly PartOrder[]): Mesh[] =>
    kernel.scope(() => some.map(({ part, dimensions }) => kernel.mesh(part.build(dimensions, kernel))));
  const beginning = orders.filter(({ part }) => FIRST_PARTS.includes(part.id));
  const built = meshes(orders);
  return {
    first: medianOf(() => meshes(beginning)),
    build: medianOf(() => meshes(orders)),
    measure: medianOf(() => orders.forEach((order, i) => void printability(machine, order, built[i]!))),
    triangles: built.reduce((sum, { triangles }) => sum + triangles.length / 3, 0),
  };
}

/** @param smaller and @param larger demo machine: the smallest and the largest there are */
export function benchMechanics(smaller: Machine, larger: Machine, kernel: Kernel, report: Report): void {
  const [own, big] = [costs(smaller, kernel), costs(larger, kernel)];
  const over = (time: number, base: number) => `${time.toFixed(0)} ms over ${base.toFixed(0)} ms`;
  report(
    'parts: all of them over the first eleven',
    own.build / own.first,
    'none',
    over(own.build, own.first),
  );
  const checks = medianOf(() => void checkMachine(smaller));
  report(
    'mechanics: every finding, field kept, over building',
    checks / own.build,
    'none',
    over(checks, own.build),
  );
  report(
    'mechanics: how all parts print, over building',
    own.measure / own.build,
    'none',
    over(own.measure, own.build),
  );
  const fits = medianOf(() => kernel.scope(() => void overlaps(smaller, kernel)));
  report('mechanics: every pair of pieces, over building', fits / own.build, 'none', over(fits, own.build));
  const reach = medianOf(() => kernel.scope(() => void reachOf(smaller, kernel)));
  report('mechanics: tools to every screw, over building', reach / own.build, 'none', over(reach, own.build));
  const grown = big.triangles / own.triangles;
  const growth = (of: 'build' | 'measure') => big[of] / own[of] / grown;
  const detail = `${own.triangles.toFixed(0)} to ${big.triangles.toFixed(0)} triangles`;
  report('growth: building, per triangle, largest over smallest', growth('build'), '<= 1.5', detail);
  report('growth: measuring, per triangle, largest over smallest', growth('measure'), '<= 1.5', detail);
}
