import type { Boundary } from './boundaries.js';
import { lengthOf } from './curve.js';
import { firstMesh, halved, type Meshed } from './mesh.js';
import { Panel } from './panel.js';
import type { Drive, Problem } from './problem.js';
import { Solution } from './solution.js';
import { System } from './system.js';
import { validate } from './validate.js';

export interface Effort {
  /** Unknowns for each panel, 3 to 10. */
  readonly order?: number;
  /** What a panel may leave out, as a share of its body’s greatest field, above 0. */
  readonly tolerance?: number;
  /** No further halving from here on. */
  readonly mostUnknowns?: number;
}

/** Enough for capacitance within 0.01 % and fields within 0.1 % on machines of this kind. */
export const USUAL_EFFORT = { order: 5, tolerance: 0.03, mostUnknowns: 1200 } as const satisfies Effort;

const MOST_ROUNDS = 14;

export interface Solved {
  /** One for each drive, all on the same panels. */
  readonly solutions: readonly Solution[];
  readonly unknowns: number;
  /** Whether every panel met the tolerance. */
  readonly converged: boolean;
  /** Estimated error of a quantity: by how much it changes with fewer unknowns on the same panels. */
  estimate(of: (solution: Solution) => number, drive?: number): number;
}

/**
 * Solves for the charge on all surfaces, on panels that are halved where it is not yet smooth enough.
 * @param drives of the same bodies at other potentials and charges: each costs little more
 * @throws ProblemError for what has no solution
 */
export function solve(problem: Problem, effort: Effort = {}, drives: readonly Drive[] = [{}]): Solved {
  validate(problem);
  const { order, tolerance, mostUnknowns } = { ...USUAL_EFFORT, ...effort };
  let mesh = firstMesh(problem, order);
  let system = new System(problem, mesh);
  for (let round = 1; ; round++) {
    const solutions = solveAll(system, drives);
    const marks = marksOf(system, solutions, tolerance);
    const converged = Math.max(...marks) <= 1;
    if (converged || round >= MOST_ROUNDS || system.size >= mostUnknowns) {
      const coarse = lazily(() => solveAll(new System(problem, coarser(mesh)), drives));
      return {
        solutions,
        unknowns: system.size,
        converged,
        estimate: (of, drive = 0) => Math.abs(of(solutions[drive]!) - of(coarse()[drive]!)),
      };
    }
    mesh = mesh.flatMap((one, i) => (marks[i]! > 1 ? halved(one) : [one]));
    system = new System(problem, mesh, system);
  }
}

function solveAll(system: System, drives: readonly Drive[]): Solution[] {
  return drives.map((drive) => new Solution(system, system.solve(drive), drive.sources ?? 1));
}

const FEWER = 2;

function coarser(mesh: readonly Meshed[]): Meshed[] {
  return mesh.map(([panel, boundary]) => [
    new Panel(boundary, panel.from, panel.to, Math.max(1, panel.order - FEWER)),
    boundary,
  ]);
}

function lazily<T>(make: () => T): () => T {
  let made: { readonly it: T } | undefined;
  return () => {
    made ??= { it: make() };
    return made.it;
  };
}

/**
 * What is wrong at a corner is felt only there: its panels count less the shorter they are, and not at all once they are
 * this share of their segment. Much shorter panels would also bring out the rounding of their neighbours' integrals.
 */
const CORNER_SHARE = 0.02;
const CORNER_LEAST = 0.002;
/** Least share of the greatest field anywhere that a body’s own greatest field counts as. */
const WEAK_BODY = 0.01;
/** Charge adds up: a panel may leave out this share of what it may leave out of the field. */
const CHARGE_SHARE = 0.03;

function weightAt(panel: Panel, { segment, kind, cornerStart, cornerEnd }: Boundary): number {
  const atCorner = (cornerStart && panel.from === 0) || (cornerEnd && panel.to === 1);
  if (atCorner && panel.to - panel.from < CORNER_LEAST) return 0;
  if (kind === 'dielectric') return panel.length / (panel.length + 0.002 * panel.r);
  return atCorner ? panel.length / (panel.length + CORNER_SHARE * lengthOf(segment)) : 1;
}

/** How far each panel is over its tolerance, by the size of its two last coefficients; 1 just meets it. */
function marksOf(system: System, solutions: readonly Solution[], tolerance: number): number[] {
  const marks = system.placed.map(() => 0);
  for (const { coefficients } of solutions) {
    const most = new Map<string, number>();
    let charge = 0;
    for (const { panel, boundary, at } of system.placed) {
      const size = Math.abs(coefficients[at]!);
      charge += size * areaOf(panel);
      if (boundary.kind === 'dielectric') continue;
      most.set(boundary.body.name, Math.max(most.get(boundary.body.name) ?? 0, size));
    }
    const anywhere = Math.max(...most.values());
    for (const [i, { panel, boundary, at }] of system.placed.entries()) {
      const tail = Math.hypot(coefficients[at + panel.order - 1]!, coefficients[at + panel.order - 2]!);
      const own =
        boundary.kind === 'dielectric'
          ? anywhere
          : Math.max(most.get(boundary.body.name)!, WEAK_BODY * anywhere);
      const ofField = (weightAt(panel, boundary) * tail) / own;
      const ofCharge = (tail * areaOf(panel)) / charge;
      marks[i] = Math.max(marks[i]!, ofField / tolerance, ofCharge / (CHARGE_SHARE * tolerance));
    }
  }
  return marks;
}

const areaOf = (panel: Panel) => 2 * Math.PI * panel.r * panel.length;
