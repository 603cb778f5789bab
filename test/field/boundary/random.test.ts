import fc from 'fast-check';
import { expect, it } from 'vitest';
import type { Problem } from '../../../parts/field/boundary/problem.js';
import { solve } from '../../../parts/field/boundary/solve.js';
import { FOUR_PI_EPSILON } from './bodies.js';
import { randomProblem } from './random-problem.js';

const SEED = 20261125;
const RUNS = 120;

/** Names of the conductors at a given potential. */
const heldIn = ({ bodies }: Problem) =>
  bodies
    .filter((body) => body.kind === 'conductor' && typeof body.potential === 'number')
    .map(({ name }) => name);

const places = fc.array(
  fc.tuple(fc.double({ min: 0, max: 1, noNaN: true }), fc.double({ min: -1, max: 1, noNaN: true })),
  {
    minLength: 5,
    maxLength: 5,
  },
);

it(`random problems: everything finite, charges reciprocal and adding up, energy positive; seed ${SEED}`, () => {
  fc.assert(
    fc.property(fc.integer({ min: 0, max: 1e9 }), places, (seed, where) => {
      const { problem, live } = randomProblem(seed);
      const held = heldIn(problem);
      const drives = held.map((name) => ({
        potentials: Object.fromEntries(held.map((each) => [each, each === name ? 1 : 0])),
      }));
      const { solutions } = solve(problem, {}, drives);
      const matrix = solutions.map((solution) => held.map((name) => solution.chargeOf(name)));
      const scale = Math.max(...matrix.map((row, i) => row[i]!));
      for (const [i, row] of matrix.entries()) {
        expect(row[i]).toBeGreaterThan(0);
        for (const [j, charge] of row.entries()) {
          expect(Math.abs(charge - matrix[j]![i]!) / scale, 'reciprocal').toBeLessThan(1e-3);
          if (i !== j) expect(charge / scale, 'drawn by the other').toBeLessThan(1e-9);
        }
        // What leaves a body ends on the others or far away.
        expect(row.reduce((sum, charge) => sum + charge, 0) / scale).toBeGreaterThan(-1e-3);
      }
      // Energy of any potentials.
      if (held.length === 2)
        expect(matrix[0]![0]! * matrix[1]![1]!).toBeGreaterThan(matrix[0]![1]! * matrix[1]![0]!);

      const solution = solutions[held.indexOf(live)]!;
      const { floor } = problem;
      for (const [r, height] of where) {
        const z = floor === undefined ? height : floor + Math.abs(height);
        const values = [solution.potentialAt(r, z), ...solution.fieldAt(r, z)];
        expect(values.every(Number.isFinite), `${values}`).toBe(true);
        expect(values[0], 'between ground and the live body').toBeLessThan(1 + 1e-3);
        expect(values[0]).toBeGreaterThan(-1e-3);
      }
      // Far away it is the potential of all charge, floating and held; above a floor that of a dipole at most.
      if (floor === undefined) {
        const total = held.reduce((sum, name) => sum + solution.chargeOf(name), 0);
        const far = 1000;
        expect(Math.abs((solution.potentialAt(0, far) * far * FOUR_PI_EPSILON) / total - 1)).toBeLessThan(
          2e-3,
        );
      } else expect(Math.abs(solution.potentialAt(100, floor))).toBeLessThan(1e-12);
      expect(Number.isFinite(solution.peakOn(live)!.field)).toBe(true);
    }),
    { seed: SEED, numRuns: RUNS, endOnFailure: true },
  );
});
