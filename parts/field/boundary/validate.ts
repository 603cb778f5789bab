import { nearest } from '../../stock/nearest.js';
import { sizeOf } from './places.js';
import { type Drive, type Problem, ProblemError } from './problem.js';
import { validateShape } from './validate-shape.js';
import { validateTogether } from './validate-together.js';
import { validateValues } from './validate-values.js';

/**
 * Refuses what has no solution, is put in the wrong way round, or the method is not made for.
 * @throws ProblemError
 */
export function validate(problem: Problem, drives: readonly Drive[]): void {
  const { bodies, floor } = problem;
  validateValues(problem);
  const size = sizeOf(bodies);
  for (const body of bodies) validateShape(body, size, floor);
  validateTogether(problem, size);
  for (const drive of drives) validateDrive(drive, problem);
}

function validateDrive({ potentials = {}, sources = 1, graded = 1 }: Drive, { bodies }: Problem): void {
  for (const [what, factor] of [
    ['prescribed charges', sources],
    ['graded potentials', graded],
  ] as const)
    if (!Number.isFinite(factor)) throw new ProblemError('a drive', `its factor on ${what} is ${factor}`);
  const held = bodies.filter(
    (body) => (body.kind === 'conductor' || body.kind === 'sheet') && typeof body.potential === 'number',
  );
  for (const [name, value] of Object.entries(potentials)) {
    if (!Number.isFinite(value)) throw new ProblemError(name, `a drive gives it ${value} V`);
    if (held.some((body) => body.name === name)) continue;
    const meant = nearest(
      name,
      held.map((body) => body.name),
    );
    throw new ProblemError(
      name,
      `a drive gives it a potential, but there is no such conductor at a given potential${meant === undefined ? '' : `; nearest: ${meant}`}`,
    );
  }
}
