import type { Machine } from '../machine/machine.js';
import { altitudeFactor, clearanceSteady, creepage } from '../stock/iec60664.js';
import { lengthText } from './change.js';
import type { Check } from './check.js';
import type { Finding } from './finding.js';
import { judge, meets } from './judge.js';
import { practice } from './practice.js';
import { thinnerBody, thinnerMotor } from './stand.js';

/** mm, from the design of such machines: less, and sparks find the motor. */
export const MOTOR_TO_ROLLER = practice(40, 'mm', 'air between motor and roller');

export const checkSupply: Check = (machine) => [motorToRoller(machine), supplyDistance(machine)];

export function motorToRoller(machine: Machine): Finding {
  const { drive, rollers, belt } = machine;
  const { at, bodyDiameter } = drive.motor;
  const roller = rollers.lower.outer.high / 2 + belt.thickness;
  const measured = Math.hypot(at[0], at[2] - rollers.lower.axisZ) - bodyDiameter / 2 - roller;
  return judge({
    id: 'clearance/motor-to-roller',
    title: 'Air between the motor’s body and the belt on the lower roller',
    measured,
    required: MOTOR_TO_ROLLER.value,
    unit: 'mm',
    sense: 'min',
    basis: `${MOTOR_TO_ROLLER.meaning}, ${MOTOR_TO_ROLLER.source}`,
    status: MOTOR_TO_ROLLER.status,
    remedy: () => `move the motor out by ${lengthText(machine, MOTOR_TO_ROLLER.value - measured)}`,
    at: {
      path: [
        [-roller, 0, rollers.lower.axisZ],
        [at[0] + bodyDiameter / 2, at[1], at[2]],
      ],
      surfaces: ['belt', 'motor'],
    },
  });
}

/**
 * Distance (mm) that IEC 60664-1 asks around what a supply feeds: the larger of creepage at pollution degree 2, material
 * group IIIa, and steady clearance in an inhomogeneous field, corrected for altitude. Undefined where its tables end,
 * which `note` then says. Never falls as the voltage rises.
 * @param volts d.c., not negative
 * @param altitude m, -430 to 20000
 */
export function supplyDistanceFor(
  volts: number,
  altitude: number,
): { readonly distance: number | undefined; readonly note: string } {
  const along = creepage(volts, 2, 'IIIa');
  const through = clearanceSteady(volts / 1000, 'A');
  const thin = altitudeFactor(altitude);
  const missing = [along, through, thin].find(({ inTable }) => !inTable);
  if (along.distance === undefined || through.distance === undefined || thin.factor === undefined) {
    return { distance: undefined, note: `IEC 60664-1: ${missing?.note ?? 'no published value'}` };
  }
  const clearance = through.distance * thin.factor;
  return {
    distance: Math.max(along.distance, clearance),
    note: `IEC 60664-1:2020: creepage ${along.distance} mm (${along.note}, row ${along.row}), clearance ${clearance.toFixed(3)} mm (${through.note}, row ${through.row}, times ${thin.factor} for altitude); for a supply isolated from the mains`,
  };
}

/** mm of air between the motor’s body and the plate. */
function motorUnderPlate({ plate, drive: { motor } }: Machine): number {
  return -plate.thickness - (motor.at[2] + motor.bodyDiameter / 2);
}

/** The motor's supply against the grounded plate above it. What the belt feeds is judged by its ways instead. */
export function supplyDistance(machine: Machine): Finding {
  const { drive, plate, site } = machine;
  const { supply, at, bodyDiameter } = drive.motor;
  const { distance, note } = supplyDistanceFor(supply, site.altitude);
  const measured = motorUnderPlate(machine);
  const required = distance ?? MOTOR_TO_ROLLER.value;
  return judge({
    id: 'supply/motor-to-plate',
    title: `Distance of the motor, fed with ${supply} V, from the base plate`,
    measured,
    required,
    unit: 'mm',
    sense: 'min',
    basis: distance === undefined ? `${note}; ${MOTOR_TO_ROLLER.value} mm are asked instead` : note,
    status: distance === undefined ? 'common-practice' : 'verified',
    remedy: () => ({
      text: `a motor of at most ${lengthText(machine, thinnerBody(machine, required - measured))} diameter, or one hung lower`,
      tries: thinnerMotor(machine, required - measured, (tried) =>
        meets(motorUnderPlate(tried), required, 'min'),
      ),
    }),
    at: {
      path: [
        [at[0], at[1], at[2] + bodyDiameter / 2],
        [at[0], at[1], -plate.thickness],
      ],
      surfaces: ['motor', 'base plate'],
    },
  });
}
