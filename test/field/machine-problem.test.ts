import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { endOf, startOf } from '../../parts/field/boundary/curve.js';
import { firstMesh } from '../../parts/field/boundary/mesh.js';
import { validate } from '../../parts/field/boundary/validate.js';
import { boundField } from '../../parts/field/machine-field.js';
import { BODY, BOUNDS, machineProblem } from '../../parts/field/machine-problem.js';
import { beadHeight, shellProfile, terminalShape } from '../../parts/field/terminal-shape.js';
import { RIGID_MATERIALS } from '../../parts/machine/declarations-making.js';
import { withWritten } from '../../parts/machine/edit.js';
import { readMachineFile } from '../../parts/machine/read.js';
import { resolveMachine } from '../../parts/machine/resolve.js';

import { STARTERS, starterMachine, starterText } from '../helpers/machines.js';
import { randomMachine } from '../helpers/random-machine.js';

const SEED = 20_261_130;
const lengths = (min: number, max: number) => fc.integer({ min, max }).map((mm) => [`${mm} mm`]);
const oneOf = (...texts: readonly string[]) => fc.constantFrom(...texts.map((text) => [text]));

/** Values that bring pieces close to each other, or into each other. */
const stretched = fc.record(
  {
    'terminal.insertion': lengths(0, 200),
    'terminal.opening.lip': lengths(1, 30),
    'terminal.opening.diameter': lengths(70, 200),
    'terminal.shell': oneOf('0.5 mm', '3 mm'),
    'column.tube.length': lengths(60, 1200),
    'base.feet': lengths(20, 120),
    'base.plate.thickness': lengths(1, 40),
    'base.plate.diameter': lengths(80, 500),
    'base.plate.material': oneOf('plywood', 'acrylic-cast', 'aluminium'),
    'combs.upper.gap': oneOf('1 mm', '8 mm'),
    'print.conductive': oneOf('true', 'false'),
    'rollers.upper.length': lengths(30, 90),
    'belt.thickness': oneOf('0.5 mm', '4 mm'),
  },
  { requiredKeys: [] },
);

it.each(RIGID_MATERIALS)('has a permittivity for a foot printed of %s', (material) => {
  const text = withWritten(starterText('travelling-demonstrator'), 'print.material', [material]);
  const read = readMachineFile(text, 'm.yaml');
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const bodies = machineProblem(resolveMachine(read.values, read.assumed), 'polarised', 'bench').bodies;
  const foot = bodies.find(({ name }) => name === BODY.foot);
  expect(foot).toMatchObject({ kind: 'dielectric' });
  expect((foot as { permittivity: number }).permittivity).toBeGreaterThan(2);
});

it(`makes a problem that has a solution of every machine that a file may hold, seed ${SEED}`, () => {
  const text = fc.oneof(
    fc.constantFrom(...STARTERS).map((name) => starterText(name)),
    randomMachine.map((machine) => machine.text),
  );
  fc.assert(
    fc.property(text, stretched, (before, changes) => {
      const after = Object.entries(changes).reduce(
        (so, [key, items]) => withWritten(so, key, items as string[]),
        before,
      );
      const read = readMachineFile(after, 'm.yaml');
      fc.pre(read.ok);
      const machine = resolveMachine(read.values, read.assumed);
      for (const bound of BOUNDS) {
        const problem = machineProblem(machine, bound, 'bench');
        expect(() => validate(problem, []), bound).not.toThrow();
        expect(firstMesh(problem, 3).length).toBeGreaterThan(30);
      }
    }),
    { seed: SEED, numRuns: 120 },
  );
});

describe('the terminal’s profile', () => {
  it.each(STARTERS)('%s: ends at the lip’s plane below and at its top above, closed in itself', (name) => {
    const { terminal } = starterMachine(name);
    const shape = terminalShape(starterMachine(name));
    expect((beadHeight(shape) - shape.bead) * 1000).toBeCloseTo(terminal.lipZ, 6);
    const profile = shellProfile(shape);
    expect(endOf(profile.at(-1)!)[1] * 1000).toBeCloseTo(terminal.topZ, 6);
    for (const [i, segment] of profile.slice(1).entries()) {
      const [r, z] = endOf(profile[i]!);
      const [nextR, nextZ] = startOf(segment);
      expect(Math.hypot(r - nextR, z - nextZ)).toBeLessThan(1e-9);
    }
  });
});

it('is solved where the upper metal collides with the terminal, whose findings tell of it', () => {
  const tight = {
    'terminal.opening.diameter': '82 mm',
    'terminal.opening.lip': '26 mm',
    'terminal.insertion': '20 mm',
  };
  const text = Object.entries(tight).reduce(
    (so, [key, value]) => withWritten(so, key, [value]),
    starterText('travelling-demonstrator'),
  );
  const read = readMachineFile(text, 'm.yaml');
  if (!read.ok) throw new Error('refused');
  const machine = resolveMachine(read.values, read.assumed);
  const names = machineProblem(machine, 'polarised', 'bench').bodies.map(({ name }) => name);
  expect(names).not.toContain(BODY.upperMetal);
  expect(boundField(machine, 'polarised').capacitance).toBeGreaterThan(5e-12);
});

describe('the bodies', () => {
  it('are those of the machine, an insulating plate over its ground electrode', () => {
    const names = (change: string) => {
      const read = readMachineFile(
        withWritten(starterText('travelling-demonstrator'), 'base.plate.material', [change]),
        'm',
      );
      if (!read.ok) throw new Error('refused');
      return machineProblem(resolveMachine(read.values, read.assumed), 'polarised', 'bench').bodies.map(
        ({ name }) => name,
      );
    };
    expect(names('aluminium')).toEqual(
      expect.arrayContaining([
        BODY.terminal,
        BODY.plate,
        BODY.tube,
        BODY.foot,
        BODY.upperComb,
        BODY.lowerComb,
        BODY.belt,
      ]),
    );
    expect(names('plywood')).toContain('board');
  });

  it('stand over the bench, or over the floor', () => {
    const machine = starterMachine('travelling-demonstrator');
    const { plate } = machine;
    expect(machineProblem(machine, 'graded', 'bench').floor! * 1000).toBeCloseTo(
      -plate.thickness - plate.feet,
      9,
    );
    expect(machineProblem(machine, 'graded', 'floor').floor! * 1000).toBeCloseTo(
      -plate.thickness - plate.feet - plate.bench,
      9,
    );
  });
});
