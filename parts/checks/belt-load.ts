import { beltCharge } from '../field/charge/belt.js';
import type { Machine } from '../machine/machine.js';
import type { Context } from './check.js';
import { practice } from './practice.js';

export const RUNNING_TORQUE = practice(0.05, 'N m', 'torque that a belt of this kind takes to run');

/** rad/s of the motor's shaft. */
export const motorTurn = ({ drive }: Machine): number => (2 * Math.PI * drive.motor.speed) / 60;
/** rad/s of the lower roller. */
export const rollerTurn = (machine: Machine): number =>
  (motorTurn(machine) * machine.drive.pulleys.motor) / machine.drive.pulleys.roller;

/** W that lifting the charge takes, at a voltage (V) and a current (uA). */
export const chargingPower = (voltage: number, current: number): number => voltage * current * 1e-6;

/**
 * N m at the lower roller that lift the most charge that the belt may carry against the field. Current and speed go
 * together: a slower belt is no lighter to turn.
 * @param voltage of the terminal, V
 */
export function liftingTorque(machine: Machine, voltage: number): number {
  return chargingPower(voltage, beltCharge(machine).current.high * 1e6) / rollerTurn(machine);
}

/** N m that the belt's grip on the lower roller has to bring. */
export const torqueWanted = (machine: Machine, { discharge }: Pick<Context, 'discharge'>): number =>
  RUNNING_TORQUE.value + liftingTorque(machine, discharge);

/** What that torque is made of, in words. */
export function torqueWantedTold(machine: Machine, { discharge }: Pick<Context, 'discharge'>): string {
  const lifting = liftingTorque(machine, discharge).toFixed(3);
  return `${RUNNING_TORQUE.meaning}: ${RUNNING_TORQUE.value} N m, ${RUNNING_TORQUE.source}; and ${lifting} N m to lift the most charge that it may carry to ${(discharge / 1000).toFixed(0)} kV`;
}
