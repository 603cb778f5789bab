import { expect, it } from 'vitest';
import {
  collarOnPlate,
  lowestUnderPlate,
  motorToBracket,
  underPlateToBench,
} from '../../parts/checks/stand.js';
import { starterMachine } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');
const onFeet = (feet: number) => variant('travelling-demonstrator', { base: { feet } });
const withMotor = (diameter: number) =>
  variant('travelling-demonstrator', { drive: { motor: { body: { diameter } } } });

it('finds what hangs lowest', () => {
  expect(lowestUnderPlate(A)).toEqual({ what: 'motor', z: -60 });
  const slim = withMotor(20);
  // The motor's screws stand 12.5 mm off its axis; head and wall go around them.
  expect(lowestUnderPlate(slim).what).toBe('motor bracket');
  expect(lowestUnderPlate(slim).z).toBeCloseTo(-40 - (12.5 + 6.72 / 2 + 4), 6);
  const thick = variant('travelling-demonstrator', {
    belt: { thickness: 8 },
    drive: { motor: { body: { diameter: 20 } } },
  });
  expect(lowestUnderPlate(thick)).toEqual({
    what: 'belt on the lower roller',
    z: thick.rollers.lower.axisZ - 28.13 / 2 - 8,
  });
});

// The motor's underside at -60, the plate's at -4.
it.each([
  [90, 34, 'ok'],
  [66, 10, 'ok'],
  [65, 9, 'caution'],
  [56, 0, 'danger'],
  [50, -6, 'danger'],
] as const)('feet of %f mm leave %f mm over the bench: %s', (feet, left, severity) => {
  const finding = underPlateToBench(onFeet(feet));
  expect(finding.measured).toBeCloseTo(left, 6);
  expect(finding.severity).toBe(severity);
});

it('its remedy is the least height of the feet that does', () => {
  const { remedy } = underPlateToBench(onFeet(50));
  const feet = Number(/feet of at least ([\d.]+) mm/.exec(remedy)![1]);
  expect(feet).toBe(66);
  expect(remedy).toContain('leave 10 mm');
  expect(underPlateToBench(onFeet(feet)).severity).toBe('ok');
});

it('takes a collar that stands over the plate’s edge for a danger', () => {
  expect(collarOnPlate(A).severity).toBe('ok');
  const small = { ...A, plate: { ...A.plate, diameter: 2 * A.base.collar.flangeRadius - 1 } };
  expect(collarOnPlate(small)).toMatchObject({ severity: 'danger', measured: A.base.collar.flangeRadius });
});

// Axis of the motor at -40, underside of its bracket's flange at -12.
it.each([
  [40, 'ok'],
  [53, 'caution'],
  [57, 'danger'],
] as const)('a motor of %f mm under its bracket: %s', (diameter, severity) => {
  const finding = motorToBracket(withMotor(diameter));
  expect(finding.severity).toBe(severity);
  expect(finding.measured).toBeCloseTo(28 - diameter / 2, 9);
});
