import { describe, expect, it } from 'vitest';
import { axleSlope, bearingLoad, runLoad } from '../../parts/checks/axles.js';
import { chargingPower } from '../../parts/checks/belt-load.js';
import {
  afterSet,
  fittingStretch,
  resonance,
  shakers,
  spanFrequency,
  stretchLeft,
} from '../../parts/checks/belt-running.js';
import { armStrain, pipeMoment, pushedAside, slopeByOverhang } from '../../parts/checks/bending.js';
import { withValues } from '../../parts/checks/change.js';
import { bending, bendingStress, sway, swayOf } from '../../parts/checks/column.js';
import { checkMachine } from '../../parts/checks/index.js';
import { clickIn, clickTravel, fingerJoining, ringThread, threadShear } from '../../parts/checks/joints.js';
import { drivePull, powerNeeded, ratedTorque } from '../../parts/checks/motor.js';
import { seatTilt, tiltOnSeat } from '../../parts/checks/seat.js';
import { changeOf, checkThermal, stretchChange } from '../../parts/checks/thermal.js';
import type { Machine } from '../../parts/machine/machine.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');
const context = { prediction: checkMachine(A).prediction, ways: [], discharge: 170_000 };

describe('beams', () => {
  // Acrylic tube 50/44, 400 mm, 20 N at its end, E 3300 MPa: I 122 812 mm4, 1.0528 mm, 1.629 MPa; rod of 8 mm, 100 mm, 50 N,
  // 205 GPa: 0.4044 mm. Beam formulas of handbooks (from memory), computed.
  it('a cantilever bends by its closed form', () => {
    expect(pipeMoment(50, 44)).toBeCloseTo(122_812, -1);
    const tube = { force: 20, length: 400, beyond: 0, modulus: 3300, moment: pipeMoment(50, 44) };
    expect(pushedAside(tube)).toBeCloseTo(1.0528, 4);
    expect((20 * 400 * 25) / pipeMoment(50, 44)).toBeCloseTo(1.629, 3);
    const rod = { force: 50, length: 100, beyond: 0, modulus: 205_000, moment: pipeMoment(8, 0) };
    expect(pushedAside(rod)).toBeCloseTo(0.4044, 4);
    // A stiff arm moves by end deflection and slope, with load and moment at the end.
    const arm = { ...rod, beyond: 40 };
    const ei = rod.modulus * rod.moment;
    const end = (50 * 100 ** 3) / (3 * ei) + (50 * 40 * 100 ** 2) / (2 * ei);
    const slope = (50 * 100 ** 2) / (2 * ei) + (50 * 40 * 100) / ei;
    expect(pushedAside(arm)).toBeCloseTo(end + 40 * slope, 9);
  });

  it('an overhanging load turns the nearer support', () => {
    const rod = { load: 10, overhang: 20, span: 60, modulus: 205_000, moment: pipeMoment(6, 0) };
    expect(slopeByOverhang(rod)).toBeCloseTo((10 * 20 * 60) / (3 * 205_000 * pipeMoment(6, 0)), 12);
  });

  // eps = 1.5 h y / L^2: h 2.5, y 2.5, L 15: 4.17 %; L 18: 2.89 % (engineering article on snap-fit joints); PLA h 1.6, y 0.8,
  // L 8.76: 2.5 % (article on printed snap joints).
  it.each([
    [2.5, 2.5, 15, 4.1667],
    [2.5, 2.5, 18, 2.8935],
    [1.6, 0.8, 8.7636, 2.5],
  ])('an arm of even thickness %f, pushed %f mm at %f mm, strains by %f %%', (h, y, length, strain) => {
    expect(100 * armStrain(y, length, () => h)).toBeCloseTo(strain, 1);
  });

  // Thickness from h at the root to h/2 at the tip: y = 1.09 eps L^2 / h (snap-fit handbook, Table 1).
  it('a tapered arm gives way as in the handbook', () => {
    const [h, length, y] = [3, 19, 2.4];
    const strain = armStrain(y, length, (at) => h * (1 - at / (2 * length)));
    expect(y / ((strain * length ** 2) / h)).toBeCloseTo(1.09, 1);
  });
});

describe('the column under a push', () => {
  it.each(STARTERS)('%s holds', (starter) => {
    const machine = starterMachine(starter);
    for (const finding of [bending(machine), sway(machine)]) expect(finding.severity).toBe('ok');
  });

  it('is in proportion to the push, and a long thin one gives way', () => {
    const hard = { ...A, assume: { ...A.assume, sidePush: 3 * A.assume.sidePush } };
    expect(bendingStress(hard)).toBeCloseTo(3 * bendingStress(A), 9);
    expect(swayOf(hard)).toBeCloseTo(3 * swayOf(A), 9);
    const harder = { ...A, assume: { ...A.assume, sidePush: 200 } };
    expect(bending(harder).severity).toBe('danger');
    expect(sway(harder).severity).toBe('caution');
  });
});

describe('the drive', () => {
  // A motor of 25 W at 5500 rpm gives 43.4 mN m.
  it('gives its torque, and pulls the lower axle sideways', () => {
    expect(ratedTorque(A)).toBeCloseTo(25 / ((5500 * 2 * Math.PI) / 60), 12);
    expect(drivePull(A)).toBeGreaterThan(0);
    expect(bearingLoad(A, 'lower')).toBeGreaterThan(Math.hypot(runLoad(A), drivePull(A)));
    expect(bearingLoad(A, 'upper')).toBe(runLoad(A));
    const strong = { ...A, drive: { ...A.drive, motor: { ...A.drive.motor, power: 800 } } };
    expect(axleSlope(strong, 'lower').severity).toBe('caution');
    expect(axleSlope(strong, 'upper').severity).toBe('ok');
  });

  // P = V I: 1 uA at 1 MV is 1 W.
  it('lifts the charge', () => {
    expect(chargingPower(1e6, 1)).toBeCloseTo(1, 12);
    expect(powerNeeded(A, 2) - powerNeeded(A, 1)).toBeCloseTo(1 / 0.85, 9);
  });

  it('is a caution with a motor that is too weak', () => {
    const finding = (machine: Machine) =>
      checkMachine(machine).findings.find(({ id }) => id === 'drive/motor-power')!;
    expect(finding(A).severity).toBe('ok');
    expect(finding(variant('travelling-demonstrator', { drive: { motor: { power: 5 } } })).severity).toBe(
      'caution',
    );
    expect(context.prediction.current.high).toBeGreaterThan(0);
  });
});

describe('the running belt', () => {
  it.each(STARTERS)(
    '%s is not shaken at its first frequency, keeps its grip and can be fitted',
    (starter) => {
      const machine = starterMachine(starter);
      for (const finding of [resonance(machine), afterSet(machine, context), fittingStretch(machine)])
        expect(finding.severity).toBe('ok');
    },
  );

  it('a span at rest swings as a string, and stands still where speed takes its tension', () => {
    const rest = { ...A, belt: { ...A.belt, speed: 0 } };
    const span = (A.rollers.upper.axisZ - A.rollers.lower.axisZ) / 1000;
    const mass = 1230 * A.belt.width * A.belt.thickness * 1e-6;
    expect(spanFrequency(rest)).toBeCloseTo(Math.sqrt(A.belt.tension / mass) / (2 * span), 6);
    expect(spanFrequency({ ...A, belt: { ...A.belt, speed: 1000 } })).toBe(0);
  });

  it('is a caution where a roller turns at its frequency', () => {
    const speed = (spanFrequency(A) * Math.PI * (A.rollers.lower.outer.mean + A.belt.thickness)) / 1000;
    const slow = { ...A, belt: { ...A.belt, speed } };
    expect(shakers(slow)[1]!.frequency).toBeGreaterThan(0);
    expect(resonance(slow).severity).toBe('caution');
  });

  it('flutters where its speed takes its tension, and a remedy leads out of that', () => {
    const fast = variant('travelling-demonstrator', { drive: { motor: { speed: 14_000 } } });
    expect(spanFrequency(fast)).toBe(0);
    const { severity, measured, tries } = resonance(fast);
    expect(severity).toBe('caution');
    expect(measured).toBe(0);
    for (const { values } of tries!) {
      const tried = withValues(fast, Object.fromEntries(values.map(({ key, value }) => [key, value])));
      expect(resonance(tried).severity).toBe('ok');
    }
  });

  it('loses what it sets and gains what the jack screws give', () => {
    expect(stretchLeft(A)).toBeLessThan(A.belt.stretch);
    const { upper } = A.carriers;
    const still = {
      ...A,
      carriers: { ...A.carriers, upper: { ...upper, travel: { ...upper.travel, up: 0 } } },
    };
    expect(stretchLeft(still)).toBeLessThan(stretchLeft(A));
    // 8 % less two fifths, over a belt that is longer by these: 1.08 / 1.032.
    expect(stretchLeft(still)).toBeCloseTo(100 * (1.08 / 1.032 - 1), 6);
    expect(afterSet(still, context).severity).toBe('caution');
  });
});

describe('joints', () => {
  it.each(STARTERS)('%s: fingers close, bearings click in, the thread holds', (starter) => {
    const machine = starterMachine(starter);
    for (const finding of [fingerJoining(machine), clickIn(machine), ringThread(machine)])
      expect(finding.severity).toBe('ok');
  });

  it('a tight pocket or high bumps break the legs', () => {
    const { lower } = A.carriers;
    const tall = { ...A, carriers: { ...A.carriers, lower: { ...lower, bump: 0.4 } } };
    expect(clickTravel(tall)).toBeCloseTo(clickTravel(A) + 0.25, 9);
    expect(clickIn(tall).severity).toBe('caution');
  });

  it('the thread is sheared in proportion to the hand’s torque', () => {
    const strong = { ...A, assume: { ...A.assume, handTorque: 2 * A.assume.handTorque } };
    expect(threadShear(strong)).toBeCloseTo(2 * threadShear(A), 9);
  });
});

describe('heat and cold', () => {
  // 50 mm over 20 K: acrylic 0.070, ABS 0.090 mm (computed from their expansions).
  it('changes a fit by the difference of what both grow', () => {
    const twenty = variant('travelling-demonstrator', { site: { temperature: 15 } });
    expect(changeOf(twenty, 50, 70, 0)).toBeCloseTo(0.07, 9);
    expect(changeOf(twenty, 50, 90, 70)).toBeCloseTo(0.02, 9);
  });

  it.each(STARTERS)('%s bears it', (starter) => {
    const findings = checkThermal(starterMachine(starter), context);
    expect(findings).toHaveLength(6);
    for (const finding of findings) expect(finding.severity).toBe('ok');
  });

  it('is a caution for what grows otherwise on a large diameter, and for a belt with hardly any stretch', () => {
    const glass = { ...A, tube: { ...A.tube, material: 'borosilicate-glass' as const } };
    const cold = { ...glass, site: { ...glass.site, temperature: -10 } };
    const mount = checkThermal(cold, context).find(({ id }) => id === 'thermal/mount')!;
    expect(mount.severity).toBe('caution');
    expect(stretchChange({ ...A, belt: { ...A.belt, stretch: 0.3 } }).severity).toBe('caution');
  });
});

it('a terminal in loose guides tilts', () => {
  expect(seatTilt(A).severity).toBe('ok');
  const { guideFit } = A.rim;
  const loose = { ...guideFit, clearance: { ...guideFit.clearance, high: 8 } };
  const wide = { ...A, rim: { ...A.rim, guideFit: loose } };
  expect(tiltOnSeat(wide)).toBeGreaterThan(tiltOnSeat(A));
  expect(seatTilt(wide).severity).toBe('caution');
});
