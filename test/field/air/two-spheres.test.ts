import { describe, expect, it } from 'vitest';
import { betweenSpheres, gapProfile, sphereProfile } from '../../helpers/two-spheres.js';

const within = (measured: number, expected: number, share: number) =>
  expect(Math.abs(measured / expected - 1), `${measured} against ${expected}`).toBeLessThanOrEqual(share);

// Two equal spheres of radius 1 (computed by image series; two independent sums agree): gap, greatest field times the gap
// over the voltage for +V/2 and -V/2, and for (V, 0) at the live and at the earthed sphere.
const FACTORS = [
  [0.1, 1.0335578, 1.0335679, 1.0335477],
  [0.4, 1.13707394, 1.14984073, 1.12430715],
  [1, 1.35899633, 1.51698008, 1.20101258],
  [2, 1.77028119, 2.33844177, 1.20212062],
  [6, 3.63167956, 6.14313592, 1.12022321],
] as const;

describe('images of two equal spheres', () => {
  it.each(FACTORS)('gap %d: %d, %d and %d', (gap, symmetric, live, earthed) => {
    within(betweenSpheres(1, gap, [0.5, -0.5])(0) * gap, symmetric, 1e-8);
    within(betweenSpheres(1, gap, [1, 0])(0) * gap, live, 1e-8);
    within(betweenSpheres(1, gap, [1, 0])(gap) * gap, earthed, 1e-8);
  });

  it.each([0.1, 1, 6])('gap %d: the field along the axis adds up to the voltage', (gap) => {
    const field = betweenSpheres(1, gap, [1, 0]);
    const steps = 2000;
    let voltage = 0;
    for (let step = 0; step < steps; step++) {
      const [a, b] = [(gap * step) / steps, (gap * (step + 1)) / steps];
      voltage += ((b - a) / 6) * (field(a) + 4 * field((a + b) / 2) + field(b));
    }
    within(voltage, 1, 1e-10);
  });

  it('is the same from either sphere when they bear opposite voltages', () => {
    const { perVolt } = gapProfile(0.05, 0.03, 11);
    const fields = Array.from(perVolt);
    fields.forEach((field, index) => {
      within(field, fields[fields.length - 1 - index]!, 1e-12);
    });
  });

  it('goes over into a sphere alone when the other is far and earthed', () => {
    const field = betweenSpheres(0.1, 1e4, [1, 0]);
    const alone = sphereProfile(0.1, 0.2, 5);
    Array.from(alone.s).forEach((s, index) => {
      within(field(s), alone.perVolt[index]!, 1e-6);
    });
  });
});
