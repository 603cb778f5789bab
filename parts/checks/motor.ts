import type { Machine } from '../machine/machine.js';
import { chargingPower, motorTurn, RUNNING_TORQUE, rollerTurn } from './belt-load.js';
import type { Context } from './check.js';
import type { Finding } from './finding.js';
import { judge } from './judge.js';
import { practice } from './practice.js';

export const DRIVE_EFFICIENCY = practice(
  0.85,
  '',
  'share of the motor’s power that its belt brings to the roller',
);
export const DRIVE_PULL = {
  round: practice(2.5, '', 'pull of a round belt on its shafts over the force that it transmits'),
  toothed: practice(1.5, '', 'pull of a toothed belt on its shafts over the force that it transmits'),
};

/** N m that the motor gives at its rated power and speed. */
export const ratedTorque = (machine: Machine): number => machine.drive.motor.power / motorTurn(machine);

/** N with which the drive's belt pulls axle and motor together, transmitting all that the motor gives. */
export function drivePull(machine: Machine): number {
  const { kind, pulleys } = machine.drive;
  return (DRIVE_PULL[kind].value * ratedTorque(machine)) / (pulleys.motor / 2000);
}

/** W at the motor's shaft: friction of the belt and its rollers, and the charge lifted against the field. */
export function powerNeeded(machine: Machine, electrical: number): number {
  const running = RUNNING_TORQUE.value * rollerTurn(machine);
  return (running + electrical) / DRIVE_EFFICIENCY.value;
}

/** The motor turns the belt and lifts its charge, at the most that the belt may bring. */
export function motorPower(machine: Machine, { prediction, discharge }: Context): Finding {
  const { drive } = machine;
  const lifted = (current: number) => chargingPower(discharge, current);
  const needs = (current: number) => powerNeeded(machine, lifted(current));
  const { likely, high } = prediction.current;
  const measured = needs(likely);
  return judge({
    id: 'drive/motor-power',
    title: 'Power at the motor’s shaft, with the belt’s charge lifted',
    measured,
    worst: needs(high),
    required: drive.motor.power,
    unit: 'W',
    sense: 'max',
    basis: `${RUNNING_TORQUE.value} N m at the roller’s ${((rollerTurn(machine) * 30) / Math.PI).toFixed(0)} rpm, ${lifted(likely).toFixed(2)} W (at most ${lifted(high).toFixed(2)} W) to lift ${likely.toFixed(1)} uA to ${(discharge / 1000).toFixed(0)} kV, ${DRIVE_EFFICIENCY.value} through the drive; ${((1000 * measured) / motorTurn(machine)).toFixed(0)} of the motor’s ${(1000 * ratedTorque(machine)).toFixed(0)} mN m; ${RUNNING_TORQUE.source}`,
    status: RUNNING_TORQUE.status,
    remedy: () =>
      `a motor of at least ${Math.ceil(needs(high))} W at this speed, or a slower one with these pulleys`,
    at: { point: drive.motor.at },
  });
}
