import { ROUND_STRETCH } from '../machine/allowances.js';
import { skirtRadius } from '../machine/base.js';
import { skirtInserts } from '../machine/carrier.js';
import { INSERT_TO_EDGE } from '../machine/comb.js';
import { BASE } from '../machine/declarations-pieces.js';
import { travelWanted } from '../machine/drive.js';
import { footToDrive } from '../machine/feet.js';
import type { Machine } from '../machine/machine.js';
import { degrees, radians } from '../solid/vector.js';
import { attempt, lengthDown, lengthText, lengthUp, nearestThatHolds, withValues } from './change.js';
import type { Check } from './check.js';
import type { Finding, Point, Remedy } from './finding.js';
import { fitFinding } from './fits.js';
import { judge, meets } from './judge.js';
import { motorPower } from './motor.js';
import { motorBracketHolds, motorShaft } from './motor-mount.js';
import { practice } from './practice.js';

export const LEAST_WRAP = practice(120, 'degrees', 'least wrap of a round belt on the smaller pulley');
export const LEAST_MESH = practice(6, '', 'least number of a toothed belt’s teeth in the smaller pulley');
export const MOST_RATIO = practice(5, '', 'most that one belt gears up or down');
export const PULLEY_ROOM = practice(2, 'mm', 'room between a pulley’s rim and what stands still over it');
export const FOOT_ROOM = practice(3, 'mm', 'room between a foot and what hangs beside it');

/** From the motor to the lower axle: belt, pulleys, bracket; and the feet around them. */
export const checkDriveTrain: Check = (machine, context) => [
  motorPower(machine, context),
  motorShaft(machine),
  motorBracketHolds(machine),
  beltLength(machine),
  driveRatio(machine),
  driveWrap(machine),
  tensionTravel(machine),
  pulleysUnderSkirt(machine),
  bracketOnPlate(machine),
  feetOnPlate(machine),
  ...driveFits(machine),
];

const atMotor = ({ drive: { motor, place } }: Machine): Point => [motor.at[0], place.belt, motor.at[2]];

/** The drive belt is long enough for motor and bracket to clear skirt and roller; and how long it is. */
export function beltLength(machine: Machine): Finding {
  const { boughtLength, leastLength, pitch, kind } = machine.drive.belt;
  const what =
    kind === 'round'
      ? `as it lies free; ${ROUND_STRETCH.meaning}: ${ROUND_STRETCH.value} %, ${ROUND_STRETCH.source}`
      : `on the pitch line, ${Math.round(boughtLength / pitch)} teeth`;
  return judge({
    id: 'drive/belt-length',
    title: 'Length of the drive belt to buy',
    measured: boughtLength,
    required: leastLength,
    unit: 'mm',
    sense: 'min',
    basis: `${what}; open belt, exact (textbook); required: the bracket clears the skirt and the motor keeps its air to the roller`,
    status: 'computed',
    remedy: () => {
      const teeth = Math.ceil(leastLength / (pitch || 1));
      const longer = kind === 'round' ? lengthUp(leastLength) : teeth * pitch;
      const shown = lengthText(machine, longer);
      return {
        text: `a drive belt of at least ${shown}`,
        tries: attempt(machine, `a drive belt of ${shown}`, { 'drive.belt_length': longer }, (tried) =>
          meets(tried.drive.belt.boughtLength, tried.drive.belt.leastLength, 'min'),
        ),
      };
    },
    at: { point: atMotor(machine) },
  });
}

export function driveRatio(machine: Machine): Finding {
  const { motor, roller } = machine.drive.pulleys;
  const speed = (machine.drive.motor.speed * motor) / roller;
  return judge({
    id: 'drive/ratio',
    title: 'Ratio of the drive pulleys, larger over smaller',
    measured: Math.max(roller / motor, motor / roller),
    required: MOST_RATIO.value,
    unit: '',
    sense: 'max',
    basis: `pitch diameters ${motor.toFixed(2)} and ${roller.toFixed(2)} mm: the roller turns at ${speed.toFixed(0)} rpm; ${MOST_RATIO.meaning}, ${MOST_RATIO.source}`,
    status: MOST_RATIO.status,
    remedy: () => 'pulleys closer in size, and a geared or slower motor',
    at: { point: atMotor(machine) },
  });
}

/** Degrees of wrap, or teeth in mesh, on the smaller pulley. */
export function onSmaller({ drive }: Machine): number {
  const { wraps, kind } = drive.belt;
  const wrap = Math.min(...wraps);
  const smaller = drive.pulleys.motor <= drive.pulleys.roller ? drive.pulley.motor : drive.pulley.roller;
  return kind === 'round' ? degrees(wrap) : Math.floor((smaller.teeth * wrap) / (2 * Math.PI));
}

export function driveWrap(machine: Machine): Finding {
  const round = machine.drive.kind === 'round';
  const required = round ? LEAST_WRAP : LEAST_MESH;
  return judge({
    id: 'drive/wrap',
    title: round
      ? 'Wrap of the drive belt on the smaller pulley'
      : 'Teeth of the drive belt in the smaller pulley',
    measured: onSmaller(machine),
    required: required.value,
    unit: required.unit,
    sense: 'min',
    basis: `open belt over ${machine.drive.belt.centreDistance.toFixed(1)} mm of centres; ${required.meaning}, ${required.source}`,
    status: required.status,
    remedy: () => 'a larger smaller pulley, or pulleys closer in size',
    at: { point: atMotor(machine) },
  });
}

/** The bracket's slots take up the belt's stretch. */
export function tensionTravel(machine: Machine): Finding {
  const { bracket, belt } = machine.drive;
  const required = travelWanted(belt, belt.boughtLength);
  return judge({
    id: 'drive/tension-travel',
    title: 'Travel of the motor bracket to either side',
    measured: bracket.travel,
    required,
    unit: 'mm',
    sense: 'min',
    basis: `${belt.kind === 'round' ? 'a round belt’s stretch between 5 and 10 %' : 'a tooth and a half of slack'}, half of it on each run; common practice, no source`,
    status: 'common-practice',
    remedy: () => 'a shorter drive belt',
    at: { point: atMotor(machine) },
  });
}

/** mm of air between the larger rim, belt on it, and the skirt. */
export function overPulley({ drive, plate, base }: Machine): number {
  const rim = Math.max(
    ...[drive.pulley.motor, drive.pulley.roller].map(({ rimRadius, pitchRadius }) =>
      Math.max(rimRadius, pitchRadius + (drive.kind === 'round' ? drive.belt.section / 2 : 0)),
    ),
  );
  return -(plate.thickness + base.skirt.thickness) - (drive.motor.at[2] + rim);
}

export function pulleysUnderSkirt(machine: Machine): Finding {
  const measured = overPulley(machine);
  const { motor, roller } = machine.drive.pulleys;
  return judge({
    id: 'clearance/pulley-to-skirt',
    title: 'Larger drive pulley with its belt, under the skirt',
    measured,
    required: PULLEY_ROOM.value,
    unit: 'mm',
    sense: 'min',
    basis: `axes at the lower roller’s height; ${PULLEY_ROOM.meaning}, ${PULLEY_ROOM.source}`,
    status: PULLEY_ROOM.status,
    grave: measured <= 0,
    remedy: () =>
      `a larger pulley of at most ${lengthText(machine, lengthDown(Math.max(motor, roller) - 2 * (PULLEY_ROOM.value - measured)))}, the other in the same ratio`,
    at: { point: [0, machine.drive.place.belt, machine.drive.motor.at[2]] },
  });
}

/** Distance (mm) from the column's axis of the bracket's farthest corner, slid all the way out. */
export function bracketReach({ drive: { bracket, motor } }: Machine): number {
  const x = motor.at[0] - bracket.half - bracket.travel;
  const y = Math.max(Math.abs(bracket.face), Math.abs(bracket.face - bracket.depth));
  return Math.hypot(x, y);
}

/** A plate large enough for something, as a remedy. */
function largerPlate(machine: Machine, holds: (tried: Machine) => boolean): Remedy {
  const plate = (diameter: number) => withValues(machine, { 'base.plate.diameter': diameter });
  const { max } = BASE.keys.plate.keys.diameter.range;
  const found = nearestThatHolds(machine.plate.diameter, max, 1, (each) => holds(plate(each)));
  if (found === undefined) return { text: 'a smaller motor', tries: [] };
  const shown = lengthText(machine, found);
  return {
    text: `a plate of at least ${shown} diameter`,
    tries: attempt(machine, `a plate of ${shown}`, { 'base.plate.diameter': found }, holds),
  };
}

export function bracketOnPlate(machine: Machine): Finding {
  const { drive, plate } = machine;
  return judge({
    id: 'clearance/motor-bracket-to-plate-edge',
    title: 'Motor bracket under the base plate, its farthest corner against the plate’s radius',
    measured: bracketReach(machine),
    required: plate.diameter / 2,
    unit: 'mm',
    sense: 'max',
    basis: 'geometry, bracket slid out; what stands over the edge is not clamped',
    status: 'computed',
    remedy: () =>
      largerPlate(machine, (tried) => meets(bracketReach(tried), tried.plate.diameter / 2, 'max')),
    at: { point: [drive.motor.at[0], drive.bracket.face, -plate.thickness] },
  });
}

/** Least room (mm) between a foot's pad and what hangs beside it: skirt, motor, bracket, pulleys. */
export function besideFeet(machine: Machine): number {
  const { feet, drive, base, combs, carriers } = machine;
  const skirt = skirtRadius(base, skirtInserts(combs.lower, carriers.lower), INSERT_TO_EDGE);
  const toDrive = feet.angles.map((angle) =>
    footToDrive(drive, [feet.radius * Math.cos(radians(angle)), feet.radius * Math.sin(radians(angle))]),
  );
  return Math.min(feet.radius - skirt, ...toDrive) - feet.padRadius;
}

export function feetOnPlate(machine: Machine): Finding {
  const measured = besideFeet(machine);
  const { feet, plate } = machine;
  return judge({
    id: 'clearance/feet-to-drive',
    title: 'Room beside the feet: skirt, motor, bracket, pulleys',
    measured,
    required: FOOT_ROOM.value,
    unit: 'mm',
    sense: 'min',
    basis: `${feet.angles.length} feet ${feet.radius.toFixed(1)} mm from the axis; ${FOOT_ROOM.meaning}, ${FOOT_ROOM.source}`,
    status: FOOT_ROOM.status,
    grave: measured <= 0,
    remedy: () => largerPlate(machine, (tried) => meets(besideFeet(tried), FOOT_ROOM.value, 'min')),
    at: { point: [feet.radius * Math.SQRT1_2, feet.radius * Math.SQRT1_2, -plate.thickness] },
  });
}

/** Pulleys on shaft and axle, and the motor's pilot in its bracket. */
function driveFits(machine: Machine): Finding[] {
  const { drive, rollers } = machine;
  const axis = rollers.lower.axisZ;
  const where: Readonly<Record<string, Point>> = {
    'fit/pulley-on-motor-shaft': atMotor(machine),
    'fit/pulley-on-lower-axle': [0, drive.place.belt, axis],
    'fit/motor-pilot-in-bracket': [drive.motor.at[0], drive.bracket.face, axis],
  };
  return drive.fits.map((fit) => fitFinding(machine, fit, where[fit.id]!));
}
