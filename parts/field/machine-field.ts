import type { Machine } from '../machine/machine.js';
import type { Drive, Problem } from './boundary/problem.js';
import { type Peak, Solution } from './boundary/solution.js';
import { type Effort, solve } from './boundary/solve.js';
import { BODY, type Bound, type Ground, IDEALISED, machineProblem } from './machine-problem.js';
import { beadHeight, terminalShape } from './terminal-shape.js';

/** The field of a machine in one bound of its column. SI units. */
export interface BoundField {
  readonly bound: Bound;
  readonly problem: Problem;
  /** Terminal at 1 V, belt without charge. */
  readonly terminal: Solution;
  /** Terminal at 0 V, 1 C on each metre of the belt's way, net. */
  readonly belt: Solution;
  /** F, of the terminal and what is bonded to it. */
  readonly capacitance: number;
  /** Estimated error of the capacitance and of the greatest field on the terminal, as shares; solves twice more when first asked. */
  error(): { readonly capacitance: number; readonly field: number };
  readonly unknowns: number;
}

const HELD: readonly string[] = [BODY.terminal, BODY.upperComb, BODY.upperMetal];
const TERMINAL: Drive = { sources: 0 };
/** The belt’s charge alone, everything else at ground. */
const beltAlone = ({ bodies }: Problem): Drive => ({
  sources: 1,
  graded: 0,
  potentials: Object.fromEntries(
    HELD.filter((name) => bodies.some((body) => body.name === name)).map((name) => [name, 0]),
  ),
});

/** On machines of this kind: capacitance within 0.01 %, fields at lip and body within 0.2 %. Far within what is idealised. */
const EFFORT = { order: 4, tolerance: 0.3 } as const satisfies Effort;

/** Solved fields by what they were solved for: edits that move nothing solve nothing. */
const SOLVED = new Map<string, BoundField>();
const MOST_KEPT = 24;

/** The field of a machine, solved once for each shape. */
export function boundField(machine: Machine, bound: Bound, ground: Ground = 'bench'): BoundField {
  const problem = machineProblem(machine, bound, ground);
  // Functions are left out of the key: what they depend on is in the profiles.
  const key = JSON.stringify(problem);
  const known = SOLVED.get(key);
  if (known) {
    SOLVED.delete(key);
    SOLVED.set(key, known);
    return known;
  }
  const solved = solve(problem, EFFORT, [TERMINAL, beltAlone(problem)]);
  const [terminal, belt] = solved.solutions as [Solution, Solution];
  const charge = (solution: Solution) =>
    HELD.filter((name) => problem.bodies.some((body) => body.name === name)).reduce(
      (sum, name) => sum + solution.chargeOf(name),
      0,
    );
  const capacitance = charge(terminal);
  const greatest = (solution: Solution) => solution.peakOn(BODY.terminal)!.field;
  const field: BoundField = {
    bound,
    problem,
    terminal,
    belt,
    capacitance,
    error: () => ({
      capacitance: solved.estimate(charge) / capacitance,
      field: solved.estimate(greatest) / greatest(terminal),
    }),
    unknowns: solved.unknowns,
  };
  SOLVED.set(key, field);
  if (SOLVED.size > MOST_KEPT) SOLVED.delete(SOLVED.keys().next().value!);
  return field;
}

/** The field (V, V/m) with the terminal at a voltage (V) and a charge (C/m) on the belt’s way. */
export function fieldWith({ terminal, belt }: BoundField, voltage: number, lineCharge: number): Solution {
  const { system } = terminal;
  const coefficients = terminal.coefficients.map(
    (each, i) => voltage * each + lineCharge * belt.coefficients[i]!,
  );
  return new Solution(system, coefficients, lineCharge * belt.sources);
}

/** Places where air may give way first. */
export const PLACES = ['body', 'lip', 'upperComb', 'upperMetal', 'lowerComb', 'baseEdge'] as const;
export type PlaceName = (typeof PLACES)[number];

/** The place of greatest field on a part of the machine's metal; undefined where the machine has no such part. */
export function worstPlace(machine: Machine, { terminal }: BoundField, name: PlaceName): Peak | undefined {
  const shape = terminalShape(machine);
  const [rim, height] = [shape.rim, beadHeight(shape)];
  const fromBead = (r: number, z: number) => Math.hypot(r - rim, z - height) - shape.bead;
  switch (name) {
    case 'lip':
      return terminal.peakOn(BODY.terminal, (r, z) => fromBead(r, z) <= 1e-3 * shape.bead);
    case 'body':
      return terminal.peakOn(BODY.terminal, (_, z) => z >= shape.centre);
    case 'upperComb':
      return terminal.peakOn(BODY.upperComb);
    case 'upperMetal':
      return terminal.peakOn(BODY.upperMetal);
    case 'lowerComb':
      return terminal.peakOn(BODY.lowerComb);
    case 'baseEdge':
      return terminal.peakOn(
        BODY.plate,
        (r) => r >= (machine.plate.diameter / 2 - machine.plate.thickness) / 1000,
      );
  }
}

export { IDEALISED };
