import { describe, expect, it } from 'vitest';
import { arc, line, type Place, type Segment } from '../../../parts/field/boundary/curve.js';
import type { Body, Problem } from '../../../parts/field/boundary/problem.js';
import type { Solution } from '../../../parts/field/boundary/solution.js';
import { solve } from '../../../parts/field/boundary/solve.js';
import { VACUUM_PERMITTIVITY } from '../../../parts/stock/air.js';
import { ball, conductor, FOUR_PI_EPSILON, ring, within } from './bodies.js';

// Solutions that follow by images or spherical harmonics from textbook formulas, worked out here.
const CHARGE = 2e-5;
const FIELD = 1e-3;
const solved = (problem: Problem): Solution => solve(problem).solutions[0]!;

/** V of a ring of charge, by the mean over the ring: independent of the solver's elliptic integrals. */
function ringVoltage(charge: number, [ringR, ringZ]: Place, r: number, z: number): number {
  const STEPS = 400;
  let sum = 0;
  for (let i = 0; i < STEPS; i++) {
    const angle = (2 * Math.PI * i) / STEPS;
    sum += 1 / Math.sqrt(r * r + ringR * ringR - 2 * r * ringR * Math.cos(angle) + (z - ringZ) ** 2);
  }
  return (charge * sum) / (STEPS * FOUR_PI_EPSILON);
}

/** Charges near a sphere of 0.1 m around the origin: ring radius, height. */
const NEAR_BY: readonly (readonly [string, Place])[] = [
  ['ring around it', [0.15, 0.02]],
  ['ring above it', [0.05, 0.14]],
  ['ring close to it', [0.07, 0.075]],
  ['point above it', [0, 0.13]],
  ['point below it', [0, -0.4]],
];
const RADIUS = 0.1;
const CHARGE_NEAR = 1e-9;

describe.each(NEAR_BY)('sphere with a charged %s', (_, at) => {
  const distance = Math.hypot(...at);
  const source: Body = { kind: 'ring-charge', name: 'ring', at, charge: CHARGE_NEAR };
  // Kelvin's image: at the inverse place, smaller by radius over distance.
  const share = RADIUS / distance;
  const image: Place = [at[0] * share * share, at[1] * share * share];

  it('earthed: induced charge and potential around', () => {
    const solution = solved({ bodies: [conductor('sphere', ball(RADIUS), 0), source] });
    within(solution.chargeOf('sphere'), -CHARGE_NEAR * share, CHARGE);
    for (const [r, z] of [
      [0.12, 0.08],
      [0, 0.2],
      [0.3, -0.1],
    ] as const) {
      const exact = ringVoltage(CHARGE_NEAR, at, r, z) - ringVoltage(CHARGE_NEAR * share, image, r, z);
      within(solution.potentialAt(r, z), exact, FIELD);
    }
  });

  it('floating: its potential is that of the charge at its centre', () => {
    const { solutions } = solve(
      { bodies: [conductor('sphere', ball(RADIUS), { net: 'sphere', charge: 3e-10 }), source] },
      {},
      [{ sources: 1 }, { sources: 2 }],
    );
    const exact = CHARGE_NEAR / (FOUR_PI_EPSILON * distance) + 3e-10 / (FOUR_PI_EPSILON * RADIUS);
    within(solutions[0]!.potentialOfNet('sphere'), exact, CHARGE);
    within(solutions[1]!.potentialOfNet('sphere'), 2 * exact, CHARGE);
    within(solutions[0]!.chargeOf('sphere'), 3e-10, CHARGE);
  });
});

it('an uncharged floating sphere in a uniform field takes the field’s potential at its centre', () => {
  const height = 0.3;
  const bodies = [conductor('sphere', ball(0.1, height), { net: 'sphere' })];
  const solution = solved({ bodies, uniformField: 1000 });
  within(solution.potentialOfNet('sphere'), -1000 * height, CHARGE);
  expect(Math.abs(solution.chargeOf('sphere'))).toBeLessThan(1e-8 * FOUR_PI_EPSILON * 0.1 * 1000 * height);
  // Outside: the field's potential and the dipole that keeps the sphere at one potential.
  const [r, z] = [0.1, 0.15];
  const distance = Math.hypot(r, z);
  within(solution.potentialAt(r, height + z), -1000 * (height + z - z * (0.1 / distance) ** 3), CHARGE);
});

it('two spheres on one net share potential and charge', () => {
  // Computed by image series: total capacitance over 4 pi eps0 radius of two spheres a radius apart is 1.51440875.
  const net = { net: 'pair', charge: 1e-9 };
  const bodies = [
    conductor('lower', ball(0.05, -0.075), net),
    conductor('upper', ball(0.05, 0.075), { net: 'pair' }),
  ];
  const solution = solved({ bodies });
  within(solution.potentialOfNet('pair'), 1e-9 / (1.51440875 * FOUR_PI_EPSILON * 0.05), CHARGE);
  within(solution.chargeOf('lower'), 0.5e-9, CHARGE);
  within(solution.chargeOf('upper'), 0.5e-9, CHARGE);
});

describe('prescribed along a surface', () => {
  it('potential cos(theta) on a sphere: the field of a dipole outside, a uniform one within', () => {
    const body: Body = {
      kind: 'graded',
      name: 'film',
      profile: ball(0.1),
      potential: ([r, z]) => z / Math.hypot(r, z),
    };
    const solution = solved({ bodies: [body] });
    within(solution.fieldAt(0.04, 0.03)[1], -10, CHARGE);
    within(solution.potentialAt(0.12, 0.16), (0.1 / 0.2) ** 2 * 0.8, CHARGE);
    const [er, ez] = solution.fieldAt(0, 0.2);
    within(ez, (2 * 0.1 ** 2) / 0.2 ** 3, CHARGE);
    expect(Math.abs(er)).toBeLessThan(1e-9);
  });

  // Separation of variables: within a cylinder whose wall has the potential sin(k z) the potential on the axis is that
  // over I0(k R). A film of many half-waves is as good as an endless one in its middle.
  it('potential sin(k z) on a cylinder', () => {
    const [radius, k, half] = [0.05, Math.PI / 0.1, 0.4];
    const body: Body = {
      kind: 'graded',
      name: 'film',
      profile: [line([radius, -half], [radius, half])],
      potential: ([, z]) => Math.sin(k * z),
    };
    let [term, besselI0] = [1, 1];
    for (let n = 1; n < 30; n++) {
      term *= ((k * radius) / (2 * n)) ** 2;
      besselI0 += term;
    }
    within(solved({ bodies: [body] }).potentialAt(0, 0.05), 1 / besselI0, 1e-4);
  });

  it('charge cos(theta) per area on a sphere', () => {
    const density = 1e-6;
    const body: Body = {
      kind: 'surface-charge',
      name: 'charge',
      profile: ball(0.1),
      density: ([r, z]) => (density * z) / Math.hypot(r, z),
    };
    // A small uncharged sphere far off makes it a problem to solve.
    const probe = conductor('probe', ball(0.001, 3), { net: 'probe' });
    const solution = solved({ bodies: [body, probe] });
    const inside = -density / (3 * VACUUM_PERMITTIVITY.value);
    within(solution.fieldAt(0.04, 0.03)[1], inside, CHARGE);
    within(solution.fieldAt(0.06, -0.0799)[1], inside, FIELD);
    within(solution.potentialAt(0, 0.2), (-inside * 0.1 ** 3) / 0.2 ** 2, CHARGE);
    within(solution.potentialOfNet('probe'), (-inside * 0.1 ** 3) / 9, 1e-4);
  });

  it('charge along a line of rings above the floor has its images', () => {
    const profile = [line([0.05, 0.2], [0.05, 0.5])];
    const body: Body = { kind: 'surface-charge', name: 'belt', profile, density: () => 1e-6 };
    const probe = conductor('probe', ball(0.001, 5), { net: 'probe' });
    const solution = solved({ bodies: [body, probe], floor: 0 });
    let exact = 0;
    const STEPS = 300;
    for (let i = 0; i < STEPS; i++) {
      const z = 0.2 + (0.3 * (i + 0.5)) / STEPS;
      const charge = (1e-6 * 2 * Math.PI * 0.05 * 0.3) / STEPS;
      exact += ringVoltage(charge, [0.05, z], 0.1, 0.1) - ringVoltage(charge, [0.05, -z], 0.1, 0.1);
    }
    within(solution.potentialAt(0.1, 0.1), exact, 1e-4);
    expect(Math.abs(solution.potentialAt(0.3, 0))).toBeLessThan(1e-9 * exact);
  });
});

/** Something of everything, at a scale. */
function mixed(scale: number): Problem {
  const at = (profile: readonly Segment[]): Segment[] =>
    profile.map((segment) => {
      const by = ([r, z]: Place): Place => [r * scale, z * scale];
      return segment.kind === 'line'
        ? line(by(segment.from), by(segment.to))
        : arc(by(segment.centre), by(segment.radii), segment.start, segment.end);
    });
  const box = [
    line([0.05, 0], [0.06, 0]),
    line([0.06, 0], [0.06, 0.2]),
    line([0.06, 0.2], [0.05, 0.2]),
    line([0.05, 0.2], [0.05, 0]),
  ];
  return {
    bodies: [
      conductor('sphere', at(ball(0.1, 0.35))),
      conductor('ring', at(ring(0.12, 0.01, 0.1)), { net: 'ring' }),
      { kind: 'dielectric', name: 'tube', profile: at(box), permittivity: 3 },
      { kind: 'sheet', name: 'disc', profile: at([line([0, -0.05], [0.15, -0.05])]), potential: 0 },
      { kind: 'ring-charge', name: 'charge', at: [0.2 * scale, 0.2 * scale], charge: 1e-12 * scale },
    ],
    floor: -0.1 * scale,
  };
}

it.each([1e-3, 1e3])('a problem %d times as large differs by its scale alone', (scale) => {
  const [plain, scaled] = [solved(mixed(1)), solved(mixed(scale))];
  within(scaled.chargeOf('sphere'), plain.chargeOf('sphere') * scale, 1e-9);
  within(scaled.chargeOf('disc'), plain.chargeOf('disc') * scale, 1e-9);
  within(scaled.potentialOfNet('ring'), plain.potentialOfNet('ring'), 1e-9);
  within(scaled.peakOn('sphere')!.field * scale, plain.peakOn('sphere')!.field, 1e-9);
  within(scaled.potentialAt(0.03 * scale, 0.1 * scale), plain.potentialAt(0.03, 0.1), 1e-9);
  within(scaled.fieldAt(0.07 * scale, 0.1 * scale)[1] * scale, plain.fieldAt(0.07, 0.1)[1], 1e-9);
});

it('what several drives do adds up', () => {
  const { solutions } = solve(mixed(1), {}, [
    { potentials: { sphere: 1 }, sources: 0 },
    { potentials: { sphere: 0, disc: 1 }, sources: 0 },
    { potentials: { sphere: 0 }, sources: 1 },
    { potentials: { sphere: 2, disc: -3 }, sources: 0.5 },
  ]);
  const [first, second, third, all] = solutions as [Solution, Solution, Solution, Solution];
  const sum = (of: (solution: Solution) => number) => 2 * of(first) - 3 * of(second) + 0.5 * of(third);
  for (const of of [
    (solution: Solution) => solution.chargeOf('sphere'),
    (solution: Solution) => solution.potentialOfNet('ring'),
    (solution: Solution) => solution.potentialAt(0.02, 0.1),
    (solution: Solution) => solution.fieldAt(0.3, 0.3)[0],
  ])
    within(of(all), sum(of), 1e-9);
});

it('gives many fields as it gives each', () => {
  const solution = solved(mixed(1));
  const places = Float64Array.from([0.3, 0.3, 0, 0.1, 0.06, 0.1, 0.055, 0.05, 1, 2]);
  const fields = solution.fieldsAt(places);
  for (let i = 0; i < places.length; i += 2)
    expect([fields[i], fields[i + 1]]).toEqual([...solution.fieldAt(places[i]!, places[i + 1]!)]);
  expect(() => solution.fieldsAt(new Float64Array(3))).toThrow('3 numbers are no pairs of r and z');
});

it('the field is what the potential falls by, beside and between surfaces', () => {
  const solution = solved(mixed(1));
  const STEP = 1e-5;
  for (const [r, z] of [
    [0.055, 0.1],
    [0.0601, 0.15],
    [0.01, 0.24],
    [0.11, 0.12],
    [0.1, -0.049],
    [0.2, 0.5],
  ] as const) {
    const [er, ez] = solution.fieldAt(r, z);
    const size = Math.hypot(er, ez);
    const byR = (solution.potentialAt(r - STEP, z) - solution.potentialAt(r + STEP, z)) / (2 * STEP);
    const byZ = (solution.potentialAt(r, z - STEP) - solution.potentialAt(r, z + STEP)) / (2 * STEP);
    expect(Math.hypot(er - byR, ez - byZ) / size, `r ${r}, z ${z}`).toBeLessThan(1e-5);
  }
});
