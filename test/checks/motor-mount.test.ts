import { describe, expect, it } from 'vitest';
import { drivePull } from '../../parts/checks/motor.js';
import {
  bracketSection,
  bracketStress,
  motorBracketHolds,
  motorShaft,
  shaftOverhang,
  shaftStress,
} from '../../parts/checks/motor-mount.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');

it.each(STARTERS)('%s: shaft and bracket of the motor hold', (starter) => {
  const machine = starterMachine(starter);
  expect(motorShaft(machine).severity).toBe('ok');
  expect(motorBracketHolds(machine).severity).toBe('ok');
});

describe('a motor’s shaft', () => {
  // 32 M / pi d^3 and 16 T / pi d^3 (textbook, from memory): 500 N mm on 5 mm, 40.74 MPa bent and 20.37 MPa twisted.
  it('is bent and twisted by its closed forms', () => {
    expect(shaftStress(5, 500, 0)).toBeCloseTo(40.74, 2);
    expect(shaftStress(5, 0, 500)).toBeCloseTo(Math.sqrt(3) * 20.37, 1);
    expect(shaftStress(5, 500, 500)).toBeCloseTo(Math.hypot(40.744, Math.sqrt(3) * 20.372), 2);
  });

  it('is a caution where it is thin, with the load that its maker has to allow', () => {
    const thin = variant('travelling-demonstrator', {
      drive: { motor: { face: { shaft: { diameter: 3 } } } },
    });
    const finding = motorShaft(thin);
    expect(finding.severity).toBe('caution');
    expect(finding.measured / motorShaft(A).measured).toBeCloseTo((5 / 3) ** 3, 1);
    expect(finding.basis).toContain(`${drivePull(thin).toFixed(0)} N from the drive’s belt`);
    expect(finding.basis).toContain(`${shaftOverhang(thin).toFixed(1)} mm from the motor’s face`);
  });
});

describe('the motor’s bracket', () => {
  it('has the section that counting small squares finds', () => {
    const { bracket } = A.drive;
    const height = bracket.up + bracket.down;
    const step = 0.05;
    const inside = (x: number, z: number) =>
      z < bracket.flangeThickness || Math.abs(x) > bracket.half - bracket.gusset;
    const cells: [x: number, z: number][] = [];
    for (let x = -bracket.half + step / 2; x < bracket.half; x += step)
      for (let z = step / 2; z < height; z += step) if (inside(x, z)) cells.push([x, z]);
    const centroid = cells.reduce((sum, [, z]) => sum + z, 0) / cells.length;
    const sum = (of: (x: number, z: number) => number) =>
      cells.reduce((total, [x, z]) => total + of(x, z), 0) * step ** 2;
    const { upright, level, fibre } = bracketSection(bracket);
    expect(upright / sum((x) => x ** 2)).toBeCloseTo(1, 2);
    expect(level / sum((_, z) => (z - centroid) ** 2)).toBeCloseTo(1, 2);
    expect(fibre).toBeCloseTo(Math.max(centroid, height - centroid), 1);
  });

  it('is a caution where a strong motor pulls at a small one', () => {
    const motor = { ...A.drive.motor, power: 30 * A.drive.motor.power };
    const strong = { ...A, drive: { ...A.drive, motor } };
    expect(motorBracketHolds(strong).severity).toBe('caution');
    expect(bracketStress(strong).twisted / bracketStress(A).twisted).toBeCloseTo(30, 9);
  });
});
