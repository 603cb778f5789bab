import type { Machine } from '../machine/machine.js';
import { LOAD_RATINGS } from '../stock/bearing-ratings.js';
import type { BearingRow } from '../stock/bearings.js';
import type { Constant } from '../stock/row.js';
import {
  ratingLife,
  rodMoment,
  slopeAtLoads,
  slopeAtSupports,
  slopeByOverhang,
  type TwoLoads,
} from './bending.js';
import type { Check } from './check.js';
import type { Finding } from './finding.js';
import { judge } from './judge.js';
import { DRIVE_PULL, drivePull } from './motor.js';
import { practice } from './practice.js';

type End = 'lower' | 'upper';

export const STEEL_MODULUS: Constant = {
  value: 205_000,
  unit: 'MPa',
  meaning: 'Young’s modulus of a steel axle',
  source: 'handbooks, from memory',
  status: 'from-memory',
};
export const BEARING_SLOPE: Constant = {
  value: 0.0029,
  unit: 'rad',
  meaning: 'slope that a deep-groove ball bearing bears: 2 to 10 minutes of arc by its clearance',
  source: 'bearing makers’ advice, from memory',
  status: 'from-memory',
};
export const BEARING_LIFE = practice(1000, 'h', 'rating life of a bearing in a machine for shows');

export const checkAxles: Check = (machine) =>
  (['lower', 'upper'] as const).flatMap((end) => [axleSlope(machine, end), bearingLife(machine, end)]);

/** N on each of a roller's bearings from the charging belt: both runs pull, and the two bearings share it. */
export const runLoad = ({ belt }: Machine): number => belt.tension;

/** Half the distance of the axle's two supports, mm. */
const supportAt = ({ carriers }: Machine, end: End) =>
  (carriers[end].innerFace + carriers[end].outerFace) / 2;

/** mm from the lower axle's nearer bearing out to the drive's belt. */
const overhangOf = (machine: Machine) => machine.drive.place.belt - supportAt(machine, 'lower');

/**
 * N on the more loaded bearing of a roller. The drive's belt hangs outside the lower axle's bearings and pulls sideways:
 * the nearer bearing bears more than all of it, at right angles to the charging belt's pull.
 */
export function bearingLoad(machine: Machine, end: End): number {
  if (machine.hubs[end].dead) return runLoad(machine);
  const span = 2 * supportAt(machine, end);
  return Math.hypot(runLoad(machine), (drivePull(machine) * (span + overhangOf(machine))) / span);
}

/** The axle as a rod: the upper one carries its bearings and lies in blocks, the lower one carries hubs and turns in bearings. */
function rod(machine: Machine, end: End): TwoLoads {
  const { rollers, hubs } = machine;
  const { axle, length } = rollers[end];
  const support = supportAt(machine, end);
  const { dead, spigotLength } = hubs[end];
  const loaded = dead
    ? length / 2 + hubs[end].flangeThickness - dead.seatDepth / 2
    : length / 2 - spigotLength / 2;
  return {
    load: runLoad(machine),
    span: 2 * support,
    arm: support - loaded,
    modulus: STEEL_MODULUS.value,
    moment: rodMoment(axle.diameter),
  };
}

/** Slope (rad) of the axle at its bearings under the charging belt's pull, and at the lower end the drive belt's beside it. */
export function slopeAtBearings(machine: Machine, end: End): number {
  const bent = rod(machine, end);
  if (machine.hubs[end].dead) return slopeAtLoads(bent);
  const load = drivePull(machine);
  return Math.hypot(slopeAtSupports(bent), slopeByOverhang({ ...bent, load, overhang: overhangOf(machine) }));
}

/** What pulls at an axle, in words. */
function pulls(machine: Machine, end: End): string {
  const belt = `${(2 * runLoad(machine)).toFixed(0)} N from the belt`;
  if (machine.hubs[end].dead) return belt;
  const { kind } = machine.drive;
  return `${belt}, ${drivePull(machine).toFixed(0)} N from the drive’s belt ${overhangOf(machine).toFixed(0)} mm outside the bearing (${DRIVE_PULL[kind].value} times the force at the motor’s rated torque, ${DRIVE_PULL[kind].source})`;
}

export function axleSlope(machine: Machine, end: End): Finding {
  const { axle, axisZ } = machine.rollers[end];
  return judge({
    id: `strength/axle-slope-${end}`,
    title: `Slope of the ${end} axle at its bearings under the belts’ pull`,
    measured: 1000 * slopeAtBearings(machine, end),
    required: 1000 * BEARING_SLOPE.value,
    unit: 'mrad',
    sense: 'max',
    basis: `rod of ${axle.diameter} mm on two supports, ${pulls(machine, end)}; ${BEARING_SLOPE.meaning}, ${BEARING_SLOPE.source}`,
    status: BEARING_SLOPE.status,
    remedy: () => 'a thicker axle with its bearing, or less stretch of the belt',
    at: { point: [0, axle.to, axisZ] },
  });
}

/** Where a bearing has no rating in stock, the lowest of all ratings stands in: larger bearings bear more. */
function ratingOf({ ratings, designation }: BearingRow): { readonly dynamic: number; readonly told: string } {
  if (ratings) return { dynamic: ratings.dynamic, told: `C ${ratings.dynamic} kN (${ratings.source})` };
  const [name, least] = Object.entries(LOAD_RATINGS).reduce((low, each) =>
    each[1].dynamic < low[1].dynamic ? each : low,
  );
  return {
    dynamic: least.dynamic,
    told: `no rating of ${designation} in stock, that of the weakest bearing there taken: ${name}, C ${least.dynamic} kN (${least.source})`,
  };
}

export function bearingLife(machine: Machine, end: End): Finding {
  const { bearing, axle, axisZ, outer } = machine.rollers[end];
  const { dynamic, told } = ratingOf(bearing.row);
  const speed = (60_000 * machine.belt.speed) / (Math.PI * (outer.mean + machine.belt.thickness));
  return judge({
    id: `strength/bearing-life-${end}`,
    title: `Rating life of the ${end} roller’s bearings (${bearing.row.designation})`,
    measured: ratingLife(1000 * dynamic, bearingLoad(machine, end), speed),
    required: BEARING_LIFE.value,
    unit: 'h',
    sense: 'min',
    basis: `ISO 281, ${told}, ${bearingLoad(machine, end).toFixed(1)} N on the more loaded one, ${speed.toFixed(0)} rpm; ${BEARING_LIFE.meaning}, ${BEARING_LIFE.source}`,
    status: BEARING_LIFE.status,
    remedy: () => 'a larger bearing, or less stretch of the belt',
    at: { point: [0, axle.to, axisZ] },
  });
}
