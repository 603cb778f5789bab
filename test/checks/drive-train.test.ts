import { describe, expect, it } from 'vitest';
import {
  beltLength,
  besideFeet,
  bracketOnPlate,
  driveRatio,
  driveWrap,
  feetOnPlate,
  pulleysUnderSkirt,
  tensionTravel,
} from '../../parts/checks/drive-train.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');
const CHECKS = [
  beltLength,
  driveRatio,
  driveWrap,
  tensionTravel,
  pulleysUnderSkirt,
  bracketOnPlate,
  feetOnPlate,
];

it.each(STARTERS)('%s has a sound drive', (starter) => {
  const machine = starterMachine(starter);
  expect(CHECKS.map((check) => check(machine)).filter(({ severity }) => severity !== 'ok')).toEqual([]);
});

describe('a drive belt that is too short', () => {
  const short = variant('travelling-demonstrator', { drive: { belt_length: 250 } });
  it('is a danger, and its remedy goes', () => {
    const finding = beltLength(short);
    expect(finding).toMatchObject({ severity: 'danger', measured: 250 });
    const tried = variant('travelling-demonstrator', {
      drive: { belt_length: Number(finding.tries![0]!.values[0]!.value) },
    });
    expect(beltLength(tried).severity).toBe('ok');
  });
  it('brings the motor nearer by half of what it lacks', () => {
    const lack = A.drive.belt.fittedLength - short.drive.belt.fittedLength;
    expect(A.drive.belt.centreDistance - short.drive.belt.centreDistance).toBeCloseTo(lack / 2, 1);
  });
});

it.each([
  ['a ratio of 6', driveRatio, { drive: { pulleys: { motor: 15, roller: 90 } } }, 'caution'],
  ['a little wrap', driveWrap, { drive: { pulleys: { motor: 15, roller: 130 } } }, 'caution'],
  ['a wheel that grazes the skirt', pulleysUnderSkirt, { drive: { pulleys: { roller: 51 } } }, 'caution'],
  ['a wheel in the skirt', pulleysUnderSkirt, { drive: { pulleys: { roller: 60 } } }, 'danger'],
  ['a small plate', bracketOnPlate, { base: { plate: { diameter: 260 } } }, 'danger'],
  ['no room for feet', feetOnPlate, { base: { plate: { diameter: 180 } } }, 'danger'],
  ['a belt too long to be tightened', tensionTravel, { drive: { belt_length: 900 } }, 'caution'],
] as const)('%s is found', (_name, check, over, severity) => {
  expect(check(variant('travelling-demonstrator', over)).severity).toBe(severity);
});

it('tries the larger plate that it asks for', () => {
  for (const check of [bracketOnPlate, feetOnPlate]) {
    const finding = check(variant('travelling-demonstrator', { base: { plate: { diameter: 180 } } }));
    const diameter = Number(finding.tries![0]!.values[0]!.value);
    expect(check(variant('travelling-demonstrator', { base: { plate: { diameter } } })).severity).toBe('ok');
    const less = variant('travelling-demonstrator', { base: { plate: { diameter: diameter - 2 } } });
    expect(check(less).severity).not.toBe('ok');
  }
});

it('turns the rear feet where a square would hit the drive', () => {
  // A long motor reaches back to where the rear foot of a square would stand.
  const long = variant('travelling-demonstrator', { drive: { motor: { body: { length: 150 } } } });
  expect(long.feet.angles).not.toEqual(A.feet.angles);
  expect(besideFeet(long)).toBeGreaterThan(3);
});

it('counts teeth in mesh: half of the smaller pulley’s, less what the larger takes', () => {
  const toothed = variant('travelling-demonstrator', {
    drive: {
      kind: 'toothed',
      pitch: 2,
      belt_width: 6,
      pulleys: { motor: 60 / Math.PI, roller: 90 / Math.PI },
    },
  });
  // 30 teeth, 180 degrees less about 6: 14.6 of them.
  expect(driveWrap(toothed)).toMatchObject({ measured: 14, required: 6, severity: 'ok' });
});
