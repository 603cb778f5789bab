import { describe, expect, it } from 'vitest';
import { arc, line, type Segment } from '../../../parts/field/boundary/curve.js';
import { type Body, type Problem, ProblemError } from '../../../parts/field/boundary/problem.js';
import { solve } from '../../../parts/field/boundary/solve.js';
import { ball, conductor, hollow, ring } from './bodies.js';

const box = (r0: number, r1: number, z0: number, z1: number): Segment[] => [
  line([r0, z0], [r1, z0]),
  line([r1, z0], [r1, z1]),
  line([r1, z1], [r0, z1]),
  line([r0, z1], [r0, z0]),
];
const dielectric = (name: string, profile: readonly Segment[], permittivity = 3): Body => ({
  kind: 'dielectric',
  name,
  profile,
  permittivity,
});
const sheet = (name: string, profile: readonly Segment[], potential = 0): Body => ({
  kind: 'sheet',
  name,
  profile,
  potential,
});
const sphere = conductor('sphere', ball(0.1));
const point = (at: readonly [number, number], charge = 1e-9): Body => ({
  kind: 'ring-charge',
  name: 'charge',
  at,
  charge,
});
const alone = (...bodies: readonly Body[]): Problem => ({ bodies });

/** What is wrong, the problem, the body that is told, and the message. */
const REFUSED: readonly (readonly [string, Problem, string, RegExp])[] = [
  ['no bodies', alone(), 'the problem', /no bodies/],
  ['two of a name', alone(sphere, conductor('sphere', ball(0.1, 1))), 'sphere', /two bodies of this name/],
  ['an empty profile', alone(conductor('sphere', [])), 'sphere', /profile is empty/],
  [
    'zero radius',
    alone(conductor('sphere', ball(0))),
    'sphere',
    /an arc of radius 0 m; a radius must be above 0/,
  ],
  ['negative radius', alone(conductor('sphere', ball([0.1, -0.1]))), 'sphere', /an arc of radius -0.1 m/],
  ['a radius that is none', alone(conductor('sphere', ball(Number.NaN))), 'sphere', /an arc of radius NaN m/],
  [
    'an endless radius',
    alone(conductor('sphere', ball(Number.POSITIVE_INFINITY))),
    'sphere',
    /an arc of radius Infinity m/,
  ],
  [
    'more than a turn',
    alone(conductor('ring', [arc([1, 0], 0.1, 0, 7)])),
    'ring',
    /an arc of 7 rad; a whole turn is the most/,
  ],
  [
    'a place that is none',
    alone(conductor('sphere', ball(0.1, Number.NaN))),
    'sphere',
    /a coordinate is not a number/,
  ],
  [
    'a point for a line',
    alone(conductor('box', [line([0.1, 0], [0.1, 0])])),
    'box',
    /a piece of no length at r 100 mm, z 0 mm/,
  ],
  ['negative r', alone(conductor('ring', ring(0.05, 0.06))), 'ring', /crosses the axis: r -10 mm, z 0 mm/],
  [
    'a gap',
    alone(
      conductor('box', [line([0, 0], [0.1, 0]), line([0.1, 0.001], [0.1, 0.1]), line([0.1, 0.1], [0, 0.1])]),
    ),
    'box',
    /a gap at r 100 mm, z 0 mm/,
  ],
  [
    'an open profile',
    alone(conductor('cup', [line([0, 0], [0.1, 0])])),
    'cup',
    /ends in the open, at r 100 mm, z 0 mm/,
  ],
  ['an inverted profile', alone(conductor('sphere', hollow(0.1))), 'sphere', /the wrong way round/],
  [
    'a profile through itself',
    alone(
      conductor('bow', [
        line([0.1, 0], [0.2, 0.1]),
        line([0.2, 0.1], [0.2, 0]),
        line([0.2, 0], [0.1, 0.11]),
        line([0.1, 0.11], [0.1, 0]),
      ]),
    ),
    'bow',
    /crosses itself at r 1\d\d\.?\d* mm, z \d/,
  ],
  [
    'permittivity below 1',
    alone(dielectric('tube', ring(0.1, 0.01), 0.9)),
    'tube',
    /a relative permittivity of 0.9; it is at least 1/,
  ],
  [
    'no permittivity',
    alone(dielectric('tube', ring(0.1, 0.01), Number.NaN)),
    'tube',
    /a relative permittivity of NaN/,
  ],
  ['no potential', alone(conductor('sphere', ball(0.1), Number.NaN)), 'sphere', /its potential is NaN V/],
  [
    'no net charge',
    alone(conductor('sphere', ball(0.1), { net: 'a', charge: Number.NaN })),
    'sphere',
    /net a is given a charge of NaN C/,
  ],
  ['no charge', alone(sphere, point([0, 1], Number.NaN)), 'charge', /its charge is NaN C/],
  [
    'a charge beyond the axis',
    alone(sphere, point([-0.1, 1])),
    'charge',
    /its place is r -0.1 m, z 1 m; r is at least 0/,
  ],
  [
    'a graded potential that is none',
    alone({ kind: 'graded', name: 'film', profile: ball(0.1), potential: ([, z]) => Math.sqrt(z) }),
    'film',
    /it is given NaN V at r/,
  ],
  [
    'a density that is none',
    alone({ kind: 'surface-charge', name: 'belt', profile: ball(0.1), density: () => Number.NaN }),
    'belt',
    /it is given NaN C\/m2 at r/,
  ],
  ['no floor', { bodies: [sphere], floor: Number.NaN }, 'the problem', /the floor lies at NaN m/],
  [
    'no field',
    { bodies: [sphere], uniformField: Number.POSITIVE_INFINITY },
    'the problem',
    /the applied field is Infinity V\/m/,
  ],

  [
    'touching spheres',
    alone(sphere, conductor('other', ball(0.1, 0.2), 0)),
    'sphere',
    /touches other at r .*make them one profile, or leave a gap/,
  ],
  [
    'spheres closer than rounding',
    alone(sphere, conductor('other', ball(0.1, 0.2 + 1e-11), 0)),
    'sphere',
    /touches other/,
  ],
  [
    'spheres that overlap by a hair',
    alone(sphere, conductor('other', ball(0.1, 0.19999), 0)),
    'sphere',
    /cuts into other at r [\d.]+ mm, z 9/,
  ],
  [
    'rings that overlap between their chords',
    alone(
      conductor('one', ring(0.3, 0.05)),
      conductor('two', [arc([0.3, 0.0999], 0.05, 0.01, 0.01 + 2 * Math.PI)], 0),
    ),
    'one',
    /cuts into two/,
  ],
  [
    'plates face to face',
    alone(conductor('one', box(0.1, 0.2, 0, 0.1)), conductor('two', box(0.1, 0.2, 0.1, 0.2), 0)),
    'one',
    /touches two/,
  ],
  [
    'a tube that cuts into a bead',
    alone(conductor('bead', ring(0.11, 0.01)), dielectric('tube', box(0.09, 0.1001, -0.2, 0.2))),
    'bead',
    /cuts into tube at r 100.1 mm/,
  ],
  [
    'an ellipse that cuts into a tube',
    alone(conductor('shell', ball([0.2, 0.1])), dielectric('tube', box(0.1, 0.12, -0.3, -0.08))),
    'shell',
    /cuts into tube/,
  ],
  [
    'two dielectrics that overlap',
    alone(dielectric('one', box(0.1, 0.2, 0, 0.1)), dielectric('two', box(0.15, 0.25, 0.05, 0.2))),
    'one',
    /cuts into two at r/,
  ],
  [
    'the same place twice',
    alone(dielectric('one', ball(0.1)), dielectric('two', ball(0.1), 4)),
    'one',
    /overlaps two/,
  ],
  [
    'a conductor within a dielectric',
    alone(dielectric('ball', ball(0.2)), sphere),
    'sphere',
    /lies within ball, at r .*leave it room in that profile/,
  ],
  [
    'a dielectric within a conductor',
    alone(sphere, dielectric('core', ball(0.05))),
    'core',
    /lies within sphere/,
  ],
  [
    'a conductor within a conductor',
    alone(sphere, conductor('core', ball(0.05))),
    'core',
    /lies within sphere/,
  ],
  [
    'a sheet through a conductor',
    alone(sphere, sheet('disc', [line([0, 0], [0.2, 0])])),
    'sphere',
    /cuts into disc at r 100 mm, z 0 mm/,
  ],
  [
    'a sheet within a conductor',
    alone(sphere, sheet('disc', [line([0, 0], [0.05, 0])])),
    'disc',
    /lies within sphere/,
  ],
  [
    'sheets that meet at two potentials',
    alone(sheet('one', [line([0, 0], [0.1, 0])], 1), sheet('two', [line([0.1, 0], [0.2, 0])])),
    'one',
    /touches two at r 100 mm, z 0 mm: conductors that touch have one potential/,
  ],
  [
    'a charge on a surface',
    alone(sphere, point([0.06, 0.08])),
    'charge',
    /it lies on sphere: r 60 mm, z 80 mm/,
  ],
  [
    'a charge within a body',
    alone(dielectric('ball', ball(0.1)), point([0.01, 0])),
    'charge',
    /it lies within ball/,
  ],
  [
    'a charged surface on a body',
    alone(sphere, {
      kind: 'surface-charge',
      name: 'belt',
      profile: [line([0.1, 0], [0.1, 0.2])],
      density: () => 1,
    }),
    'sphere',
    /touches belt .*stays clear/,
  ],

  [
    'a body cut by the floor',
    { bodies: [sphere], floor: 0 },
    'sphere',
    /reaches below the floor: r 0 mm, z -100 mm/,
  ],
  [
    'a live body on the floor',
    { bodies: [sphere], floor: -0.1 },
    'sphere',
    /touches the grounded floor at r 0 mm, z -100 mm, so that it cannot have 1 V/,
  ],
  [
    'a floating body on the floor',
    { bodies: [conductor('boss', [arc([0, 0], 0.1, 0, Math.PI / 2)], { net: 'boss' })], floor: 0 },
    'boss',
    /touches the grounded floor .*a potential of its own/,
  ],
  [
    'a charge below the floor',
    { bodies: [sphere, point([0, -2])], floor: -1 },
    'charge',
    /not above the floor/,
  ],
];

it.each(REFUSED)('refuses %s', (_, problem, body, message) => {
  const error = (() => {
    try {
      solve(problem);
    } catch (thrown) {
      return thrown;
    }
    return undefined;
  })();
  expect(error).toBeInstanceOf(ProblemError);
  expect((error as ProblemError).body).toBe(body);
  expect((error as ProblemError).message).toMatch(message);
  expect((error as ProblemError).message.startsWith(`${body}: `)).toBe(true);
});

describe('a drive', () => {
  const problem = alone(sphere, conductor('other', ball(0.1, 1), { net: 'other' }));
  it.each([
    [{ potentials: { sphere: Number.NaN } }, /sphere: a drive gives it NaN V/],
    [{ potentials: { spere: 1 } }, /spere: .*no such conductor at a given potential; nearest: sphere/],
    [{ potentials: { other: 1 } }, /other: .*no such conductor/],
    [{ sources: Number.NaN }, /factor on prescribed charges is NaN/],
    [{ graded: Number.NaN }, /factor on graded potentials is NaN/],
  ])('%o is refused', (drive, message) => {
    expect(() => solve(problem, {}, [drive])).toThrow(message);
  });
});

it.each([
  [{ order: 2 }, /order 2; it is a whole number from 3 to 10/],
  [{ order: 4.5 }, /order 4.5/],
  [{ tolerance: 0 }, /tolerance 0; it is above 0/],
  [{ tolerance: Number.NaN }, /tolerance NaN/],
  [{ mostUnknowns: 0 }, /most unknowns 0; it is at least 1/],
])('effort %o is refused', (effort, message) => {
  expect(() => solve(alone(sphere), effort)).toThrow(message);
});

describe('allows', () => {
  const sum = (problem: Problem) => solve(problem).solutions[0]!;

  it('a dielectric that touches conductors and dielectrics along whole or part edges', () => {
    const plate = conductor(
      'plate',
      [line([0, 0], [0.2, 0]), line([0.2, 0], [0.2, 0.01]), line([0.2, 0.01], [0, 0.01])],
      0,
    );
    const solution = sum(
      alone(
        plate,
        dielectric('tube', box(0.1, 0.11, 0.01, 0.3)),
        dielectric('collar', box(0.11, 0.15, 0.01, 0.05), 2),
      ),
    );
    expect(Number.isFinite(solution.potentialAt(0.105, 0.02))).toBe(true);
  });

  it('a sheet that ends on a conductor of its potential: as if it were one body', () => {
    const joined = sum(alone(sphere, sheet('brim', [line([0.1, 0], [0.2, 0])], 1)));
    const apart = sum(alone(sphere, sheet('brim', [line([0.1 + 1e-5, 0], [0.2, 0])], 1)));
    const total = (each: typeof joined) => each.chargeOf('sphere') + each.chargeOf('brim');
    expect(Math.abs(total(joined) / total(apart) - 1)).toBeLessThan(1e-4);
  });

  it('a graded film from conductor to conductor', () => {
    const film: Body = {
      kind: 'graded',
      name: 'film',
      profile: [line([0.05, 0], [0.05, 0.3])],
      potential: ([, z]) => z / 0.3,
    };
    const solution = sum(
      alone(
        film,
        conductor('top', box(0.04, 0.06, 0.3, 0.31)),
        conductor('bottom', box(0.04, 0.06, -0.01, 0), 0),
      ),
    );
    expect(Math.abs(solution.potentialAt(0, 0.15) - 0.5)).toBeLessThan(1e-3);
  });

  it('sharp edges, which greatest fields leave out', () => {
    const solution = sum(alone(conductor('box', box(0.1, 0.2, 0, 0.1))));
    const { r, z } = solution.peakOn('box')!;
    const toEdge = Math.min(
      ...[0.1, 0.2].flatMap((edgeR) => [0, 0.1].map((edgeZ) => Math.hypot(r - edgeR, z - edgeZ))),
    );
    expect(toEdge).toBeGreaterThanOrEqual(0.02 * 0.1 * (1 - 1e-9));
  });
});
