import type { Machine } from '../machine/machine.js';
import { coronaWay } from './corona-ways.js';

/** Voltage (V) at which a machine is meant to discharge: its target, else where its terminal itself likely does. */
export function dischargeOf(machine: Machine): number {
  return machine.targetVoltage ?? coronaWay(machine, 'body')!.voltage.likely;
}
