import { describe, expect, it } from 'vitest';
import type { Solution } from '../../../parts/field/boundary/solution.js';
import { solve } from '../../../parts/field/boundary/solve.js';
import { randomProblem } from './random-problem.js';

const FIRST_SEED = 70_000;
const BODIES = 200;
/** What further refinement would change is far below the errors looked at. */
const REFINED = { order: 8, tolerance: 1e-3, mostUnknowns: 1600 } as const;

interface Seen {
  readonly seed: number;
  readonly kind: string;
  readonly error: number;
  readonly estimate: number;
}

const median = (values: readonly number[]) => [...values].sort((a, b) => a - b)[values.length >> 1]!;

describe(`estimates of error, ${BODIES} random bodies from seed ${FIRST_SEED} on`, () => {
  const charge: Seen[] = [];
  const field: Seen[] = [];

  it('solves each, and again until it no longer changes', { timeout: 300_000 }, () => {
    for (let seed = FIRST_SEED; seed < FIRST_SEED + BODIES; seed++) {
      const { kind, problem, live } = randomProblem(seed);
      const [plain, refined] = [solve(problem), solve(problem, REFINED)];
      const look = (seen: Seen[], of: (solution: Solution) => number) => {
        const exact = of(refined.solutions[0]!);
        const error = Math.abs(of(plain.solutions[0]!) / exact - 1);
        seen.push({ seed, kind, error, estimate: plain.estimate(of) / exact });
      };
      look(charge, (solution) => solution.chargeOf(live));
      look(field, (solution) => solution.peakOn(live)!.field);
    }
    expect([charge.length, field.length]).toEqual([BODIES, BODIES]);
  });

  it.each([
    ['charge', charge],
    ['greatest field', field],
  ])('%s: the error is below it in 95 %%, and it is at most ten times the error in the median', (_, seen) => {
    const over = seen.filter(({ error, estimate }) => error > estimate);
    expect(over.length, JSON.stringify(over)).toBeLessThanOrEqual(0.05 * BODIES);
    expect(median(seen.map(({ error, estimate }) => estimate / Math.max(error, 1e-15)))).toBeLessThanOrEqual(
      10,
    );
    expect(median(seen.map(({ estimate }) => estimate))).toBeLessThanOrEqual(
      10 * median(seen.map(({ error }) => error)),
    );
  });

  it('charge within 0.1 % and greatest field within 0.5 % on all', () => {
    expect(charge.filter(({ error }) => error > 0.001)).toEqual([]);
    expect(field.filter(({ error }) => error > 0.005)).toEqual([]);
  });
});
