import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { severityOfEnergy, voltageForEnergy } from '../../parts/checks/energy.js';
import { findingsOf } from '../../parts/checks/index.js';
import { motorToRoller, supplyDistance, supplyDistanceFor } from '../../parts/checks/supply.js';
import { storedEnergy } from '../../parts/field/energy.js';
import { starterMachine } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');

describe('what a supply feeds', () => {
  // IEC 60664-1, Tables F.5 and F.8 (verified in open transcriptions): 12.5 V, group III, degree 2: 0.42 mm; 400 V: 4.0 mm.
  it.each([
    [12, 0.42],
    [400, 4.0],
  ])('at %d V keeps %f mm', (volts, distance) =>
    expect(supplyDistanceFor(volts, 350).distance).toBe(distance),
  );

  it('never asks less for more voltage or altitude', () => {
    const volts = fc.double({ min: 0, max: 70_000, noNaN: true });
    const altitude = fc.double({ min: -430, max: 19_000, noNaN: true });
    fc.assert(
      fc.property(volts, volts, altitude, altitude, (u, v, h, k) => {
        const less = supplyDistanceFor(Math.min(u, v), Math.min(h, k)).distance;
        const more = supplyDistanceFor(Math.max(u, v), Math.max(h, k)).distance;
        if (more !== undefined) expect(less).toBeLessThanOrEqual(more);
      }),
      { seed: 20_261_129, numRuns: 500 },
    );
  });

  it('says when it leaves the table', () => {
    expect(supplyDistanceFor(70_000, 0)).toMatchObject({ distance: undefined });
    expect(supplyDistanceFor(70_000, 0).note).toContain('no published value');
  });

  it('passes a motor with room and fails one that touches the plate', () => {
    expect(supplyDistance(A)).toMatchObject({ severity: 'ok', status: 'verified' });
    const large = variant('travelling-demonstrator', { drive: { motor: { body: { diameter: 72 } } } });
    expect(supplyDistance(large).severity).toBe('danger');
  });
});

it('keeps the motor 40 mm off the belt', () => {
  expect(motorToRoller(A).severity).toBe('ok');
  const near = {
    ...A,
    drive: { ...A.drive, motor: { ...A.drive.motor, at: [-60, 0, A.rollers.lower.axisZ] as const } },
  };
  expect(motorToRoller(near).severity).toBe('caution');
});

describe('stored energy', () => {
  it.each([
    [0.34, 'ok'],
    [0.35, 'caution'],
    [5, 'caution'],
    [5.01, 'danger'],
  ] as const)('%f J: %s', (joules, severity) => expect(severityOfEnergy(joules)).toBe(severity));

  it('gives the voltage for an energy', () => {
    expect(storedEnergy(15e-12, voltageForEnergy(15e-12, 0.35))).toBeCloseTo(0.35, 12);
    // 150 pF reach 350 mJ at 68 kV and 0.5 J at 82 kV (computed).
    expect(voltageForEnergy(150e-12, 0.35) / 1e3).toBeCloseTo(68, 0);
    expect(voltageForEnergy(150e-12, 0.5) / 1e3).toBeCloseTo(82, 0);
  });

  const energy = (id: string, voltage: number) =>
    findingsOf(variant('lecture-hall', { target: { voltage } })).find((finding) => finding.id === id)!;

  it('is graded alone, and always stated with a person beside it', () => {
    expect(energy('energy/alone', 150e3).severity).toBe('ok');
    expect(energy('energy/alone', 270e3).severity).toBe('caution');
    expect(energy('energy/alone', 700e3).severity).toBe('danger');
    for (const voltage of [150e3, 270e3, 700e3])
      expect(energy('energy/alone', voltage).basis).toContain('person of 100 to 300 pF');
    expect(energy('energy/with-person', 270e3).severity).toBe('caution');
  });

  it('its remedy’s target clears it', () => {
    const kilovolts = Number(/at most (\d+) kV/.exec(energy('energy/alone', 270e3).remedy)![1]);
    expect(energy('energy/alone', kilovolts * 1e3).severity).toBe('ok');
    expect(energy('energy/alone', (kilovolts + 1) * 1e3).severity).toBe('caution');
  });
});

describe('the target', () => {
  const target = (voltage: number | undefined) =>
    findingsOf(variant('travelling-demonstrator', { target: { voltage } })).find(
      ({ id }) => id === 'target/voltage',
    );
  it('is reached, perhaps reached, or not', () => {
    expect(target(100e3)!.severity).toBe('ok');
    expect(target(170e3)!.severity).toBe('caution');
    expect(target(170e3)!.margin).toBeGreaterThan(0);
    expect(target(400e3)!.severity).toBe('caution');
    expect(target(400e3)!.margin).toBeLessThan(0);
  });
  it('is not judged where there is none', () => expect(target(undefined)).toBeUndefined());
});
