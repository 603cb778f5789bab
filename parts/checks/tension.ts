import { DRIVE } from '../machine/declarations-pieces.js';
import type { Machine } from '../machine/machine.js';
import { beltMaterial } from '../stock/belts.js';
import { attempt, nearestThatHolds, withValues } from './change.js';
import type { Trial } from './finding.js';

/** %, what a stretch in a remedy is rounded up to. */
const STRETCH_STEP = 0.1;

type Holds = (machine: Machine) => boolean;

/** The same machine with its belt fitted at another stretch (%). */
export function withStretch(machine: Machine, stretch: number): Machine {
  return withValues(machine, { 'belt.stretch': stretch });
}

/** The same machine with a motor that runs at another speed (rpm). */
export function withMotorSpeed(machine: Machine, speed: number): Machine {
  return withValues(machine, { 'drive.motor.speed': speed });
}

/**
 * Smallest stretch (%) above the belt's own, within what its material is usually fitted with, at which something holds;
 * undefined where only a stretch beyond that would do.
 */
export function stretchThatHolds(machine: Machine, holds: Holds): number | undefined {
  const { low, high } = beltMaterial(machine.belt.material).stretch;
  const { stretch } = machine.belt;
  if (stretch >= high) return undefined;
  const at = (percent: number) => holds(withStretch(machine, percent));
  if (stretch < low && at(low)) return low;
  const found = nearestThatHolds(Math.max(stretch, low), high, STRETCH_STEP, at);
  // A multiple of the step is not exact in binary.
  return found === undefined ? undefined : Number(found.toFixed(1));
}

/** Highest motor speed (whole rpm) below the motor's own at which something holds; undefined where no motor is so slow. */
export function motorSpeedThatHolds(machine: Machine, holds: Holds): number | undefined {
  const slowest = DRIVE.keys.motor.keys.speed.range.min;
  const { speed } = machine.drive.motor;
  if (speed <= slowest) return undefined;
  return nearestThatHolds(speed, slowest, 1, (rpm) => holds(withMotorSpeed(machine, rpm)));
}

/** Another stretch as a trial; none where there is none that holds. */
export function stretchTrial(machine: Machine, stretch: number | undefined, holds: Holds): readonly Trial[] {
  if (stretch === undefined) return [];
  return attempt(machine, `a stretch of ${stretch} %`, { 'belt.stretch': stretch }, holds);
}

/** Another motor speed as a trial; none where there is none that holds. */
export function motorSpeedTrial(machine: Machine, speed: number | undefined, holds: Holds): readonly Trial[] {
  if (speed === undefined) return [];
  return attempt(machine, `a motor of ${speed} rpm`, { 'drive.motor.speed': speed }, holds);
}

/** The branches of a remedy that lead somewhere. */
export function alternatives(...branches: readonly (string | false | undefined)[]): string {
  return branches.filter((branch) => branch).join(', or ');
}
