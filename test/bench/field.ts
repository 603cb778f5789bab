import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { factor } from '../../parts/field/boundary/lu.js';
import { firstMesh, halved, type Meshed } from '../../parts/field/boundary/mesh.js';
import type { Problem } from '../../parts/field/boundary/problem.js';
import { type Effort, solve } from '../../parts/field/boundary/solve.js';
import { System } from '../../parts/field/boundary/system.js';
import { type Case, readCases } from '../field-cases/case.js';
import { compare } from '../field-cases/compare.js';
import { problemOf } from '../field-cases/geometry.js';

// The field solver on a machine like the demo's whose field is known: what a solve costs beside factoring one matrix of
// its size, how the error falls with the unknowns, and how the cost grows with them.

/** A 300 mm sphere with a 5 mm lip on a plate on the floor. */
const CASE = 'c3';
const ROUNDS = 9;
const EFFORTS: readonly Effort[] = [
  { order: 3, tolerance: 0.2 },
  { order: 4, tolerance: 0.05 },
  {},
  { order: 6, tolerance: 0.005 },
  { order: 8, tolerance: 0.001 },
];
/** Unknowns on a panel, and how often every panel is halved: about 100 to 1,600 unknowns. */
const MESHES = [
  [2, 0],
  [3, 0],
  [5, 0],
  [4, 1],
  [7, 1],
  [5, 2],
] as const;

export type Report = (what: string, ratio: number, aim: string, detail: string) => void;

function caseOf(root: string): Case {
  const cases = readCases(readFileSync(join(root, 'test', 'field-cases', 'converged.json'), 'utf8'));
  const found = cases.find(({ input }) => input.name === CASE);
  if (!found) throw new Error(`no case ${CASE}`);
  return found;
}

function bestOf(rounds: number, work: () => void): number {
  let best = Number.POSITIVE_INFINITY;
  for (let i = 0; i < rounds; i++) {
    const start = performance.now();
    work();
    best = Math.min(best, performance.now() - start);
  }
  return best;
}

/** A matrix without pattern whose factors exist. */
function anyMatrix(size: number): Float64Array {
  const matrix = Float64Array.from({ length: size * size }, (_, i) => Math.sin(i * 12.9898) % 1);
  for (let i = 0; i < size; i++) matrix[i * size + i]! += 4;
  return matrix;
}

export function benchField(root: string, report: Report): void {
  const one = caseOf(root);
  const problem = problemOf(one.input);
  for (const effort of EFFORTS) {
    const { rows, unknowns } = compare(one, effort);
    const time = bestOf(ROUNDS, () => solve(problem, effort));
    const plain = anyMatrix(unknowns);
    const alone = bestOf(ROUNDS, () => factor(plain.slice(), unknowns));
    const errorOf = (key: string) => (100 * rows.find((row) => row.key === key)!.error).toFixed(4);
    report(
      `field: solving with ${unknowns} unknowns over one factoring`,
      time / alone,
      'none',
      `${time.toFixed(0)} ms over ${alone.toFixed(1)} ms; C off ${errorOf('C_pF')} %, lip ${errorOf('Emax_lip')} %`,
    );
  }
  growth(problem, report);
}

/** Exponent of the time for filling and factoring over the unknowns, by least squares of the logarithms. */
function growth(problem: Problem, report: Report): void {
  const points = MESHES.map(([order, times]) => {
    let mesh: Meshed[] = firstMesh(problem, order);
    for (let i = 0; i < times; i++) mesh = mesh.flatMap(halved);
    let size = 0;
    const time = bestOf(3, () => {
      const system = new System(problem, mesh);
      system.solve();
      size = system.size;
    });
    return [Math.log(size), Math.log(time)] as const;
  });
  const mean = (index: 0 | 1) => points.reduce((sum, point) => sum + point[index], 0) / points.length;
  const [x, y] = [mean(0), mean(1)];
  const slope =
    points.reduce((sum, point) => sum + (point[0] - x) * (point[1] - y), 0) /
    points.reduce((sum, point) => sum + (point[0] - x) ** 2, 0);
  const told = points.map(([size, time]) => `${Math.round(Math.exp(size))}: ${Math.exp(time).toFixed(0)} ms`);
  report('field: exponent of time over unknowns', slope, '<= 3', told.join(', '));
}
