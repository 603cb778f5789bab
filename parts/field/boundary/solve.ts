import { isAtCorner, marksOf } from './marks.js';
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
export const USUAL_EFFORT = { order: 5, tolerance: 0.02, mostUnknowns: 1200 } as const satisfies Effort;

const MOST_ROUNDS = 14;

export interface Solved {
  /** One for each drive, all on the same panels. */
  readonly solutions: readonly Solution[];
  readonly unknowns: number;
  /** Whether all panels met the tolerance, but for few that miss it by little. */
  readonly converged: boolean;
  /** Estimated error of a quantity, in its unit: from how much it changes with fewer and with more unknowns on the same panels. */
  estimate(of: (solution: Solution) => number, drive?: number): number;
}

/**
 * Solves for the charge on all surfaces, on panels that are halved where it is not yet smooth enough.
 * @param drives of the same bodies at other potentials and charges: each costs little more
 * @throws ProblemError for what has no solution, RangeError for an effort out of its range
 */
export function solve(problem: Problem, effort: Effort = {}, drives: readonly Drive[] = [{}]): Solved {
  validate(problem, drives);
  const { order, tolerance, mostUnknowns } = checkedEffort({ ...USUAL_EFFORT, ...effort });
  let mesh = firstMesh(problem, order);
  let system = new System(problem, mesh);
  for (let round = 1; ; round++) {
    const solutions = solveAll(system, drives);
    const marks = marksOf(system, solutions, tolerance);
    const converged = isEnough(marks);
    if (converged || round >= MOST_ROUNDS || system.size >= mostUnknowns) {
      const [coarse, fine] = [-FEWER, MORE].map((by) =>
        lazily(() => solveAll(new System(problem, ofOrder(mesh, order + by)), drives)),
      ) as [() => Solution[], () => Solution[]];
      return {
        solutions,
        unknowns: system.size,
        converged,
        estimate: (of, drive = 0) => {
          const value = of(solutions[drive]!);
          const [less, more] = [coarse, fine].map((each) => Math.abs(of(each()[drive]!) - value)) as [
            number,
            number,
          ];
          return OF_MORE * more + OF_FEWER * less;
        },
      };
    }
    mesh = mesh.flatMap((one, i) => refined(one, marks[i]!));
    system = new System(problem, mesh, system);
  }
}

const LEAST_ORDER = 3;
const GREATEST_ORDER = 10;

function checkedEffort(effort: Required<Effort>): Required<Effort> {
  const { order, tolerance, mostUnknowns } = effort;
  if (!(Number.isInteger(order) && order >= LEAST_ORDER && order <= GREATEST_ORDER))
    throw new RangeError(`order ${order}; it is a whole number from ${LEAST_ORDER} to ${GREATEST_ORDER}`);
  if (!(tolerance > 0 && Number.isFinite(tolerance)))
    throw new RangeError(`tolerance ${tolerance}; it is above 0`);
  if (!(mostUnknowns >= 1)) throw new RangeError(`most unknowns ${mostUnknowns}; it is at least 1`);
  return effort;
}

/** Few panels may be over their tolerance by little: a further round costs more than it brings. */
const LITTLE = 1.4;
const FEW = 0.05;

function isEnough(marks: readonly number[]): boolean {
  const over = marks.filter((mark) => mark > 1);
  return over.length <= FEW * marks.length && over.every((mark) => mark <= LITTLE);
}

/** Halves a panel that is over its tolerance; towards a corner as often at once as it is over. */
function refined(one: Meshed, mark: number): Meshed[] {
  if (!(mark > 1)) return [one];
  return halved(one).flatMap((half) => (isAtCorner(...half) ? refined(half, mark / 2) : [half]));
}

function solveAll(system: System, drives: readonly Drive[]): Solution[] {
  return drives.map((drive) => new Solution(system, system.solve(drive), drive.sources ?? 1));
}

/** Unknowns on each panel that an estimate goes without, and with which it goes beyond. */
const FEWER = 1;
const MORE = 1;
/**
 * Shares of both changes that make up an estimate, computed: over 200 random bodies (other ones than those of the test)
 * the error was below it in 99 %, and it was 3 (charge) and 6 (field) times the error in the median.
 */
const OF_MORE = 5;
const OF_FEWER = 0.3;

function ofOrder(mesh: readonly Meshed[], order: number): Meshed[] {
  return mesh.map(([panel, boundary]) => [
    new Panel(boundary, panel.from, panel.to, Math.max(1, order)),
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
