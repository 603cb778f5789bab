import { describe, expect, it } from 'vitest';
import {
  cantileverStrain,
  fingerFibre,
  roundingStress,
  thickWallHoop,
} from '../../parts/checks/mechanics.js';

describe('thick-walled cylinder (Lame)', () => {
  // Hearn, Mechanics of Materials, example 10.1 (from memory; the formula gives the same).
  it('works a textbook example: 100/150 mm, 60 MPa inside, 30 MPa outside', () => {
    const wall = { inner: 100, outer: 150, inside: 60, outside: 30 };
    expect(thickWallHoop(wall, 100)).toBeCloseTo(48, 9);
    expect(thickWallHoop(wall, 150)).toBeCloseTo(18, 9);
  });

  // Greatest hoop stress under inside pressure, p (ro2 + ri2)/(ro2 - ri2): exam site (verified).
  it('agrees with the formula for inside pressure', () => {
    expect(thickWallHoop({ inner: 3, outer: 5, inside: 7, outside: 0 }, 3)).toBeCloseTo(
      (7 * (25 + 9)) / (25 - 9),
      12,
    );
  });

  // 50/44 mm acrylic tube, 1 MPa outside: -8.865 MPa at the bore, -7.865 MPa outside (computed).
  it('squeezes an acrylic tube', () => {
    const tube = { inner: 22, outer: 25, inside: 0, outside: 1 };
    expect(thickWallHoop(tube, 22)).toBeCloseTo(-8.865, 3);
    expect(thickWallHoop(tube, 25)).toBeCloseTo(-7.865, 3);
  });
});

// Inner radius 40, 3 mm thick, 35 mm long, slots of 2 mm, pushed 0.7 mm: strain by the arc section (computed apart).
describe('fingers cut from a tube are arcs', () => {
  it.each([
    [6, 0.81],
    [8, 0.56],
    [12, 0.39],
    [16, 0.33],
  ])('%d fingers: %f %%', (count, percent) => {
    const fibre = fingerFibre({ inner: 40, thickness: 3, count, slot: 2 });
    expect(100 * cantileverStrain(0.7, 35, 0, fibre)).toBeCloseTo(percent, 2);
  });

  // Handbook formula for a flat cantilever, 3 h y/(2 L2) (Bayer, Snap-Fit Joints for Plastics; verified).
  it('come close to a flat strip when there are many', () => {
    const flat = (1.5 * 3 * 0.7) / 35 ** 2;
    const many = cantileverStrain(0.7, 35, 0, fingerFibre({ inner: 40, thickness: 3, count: 400, slot: 0 }));
    expect(many / flat).toBeCloseTo(1, 1);
    expect(100 * flat).toBeCloseTo(0.26, 2);
  });
});

// Extruded acrylic, 3 mm wall on 38.5 mm mean radius, 0.7 mm out of round: 1.75 to 5.0 MPa (computed apart).
it('stresses an oval tube that is held round', () => {
  const { low, high } = roundingStress({ modulus: 3300, wall: 3, radius: 38.5, spread: 0.7 });
  expect(low).toBeCloseTo(1.75, 2);
  expect(high).toBeCloseTo(5.0, 1);
});
