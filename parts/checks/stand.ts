import type { Machine } from '../machine/machine.js';
import { fastener } from '../stock/fasteners.js';
import { attempt, lengthDown, lengthText, lengthUp, withValues } from './change.js';
import type { Check } from './check.js';
import type { Finding, Trial } from './finding.js';
import { judge, meets } from './judge.js';
import { practice } from './practice.js';

export const BENCH_ROOM = practice(
  10,
  'mm',
  'room between what hangs under the plate and the bench, for a cable and a hand',
);
export const MOTOR_ROOM = practice(
  2,
  'mm',
  'room between the motor’s body and what is screwed under the plate',
);

/** What stands on the plate and hangs under it: mechanical room, before any voltage. */
export const checkStand: Check = (machine) => [
  underPlateToBench(machine),
  collarOnPlate(machine),
  motorToBracket(machine),
];

/** What hangs lowest under the plate, and how low, mm. */
export function lowestUnderPlate({ rollers: { lower }, belt, drive, combs }: Machine): {
  readonly what: string;
  readonly z: number;
} {
  const { at, bodyDiameter } = drive.motor;
  const comb = combs.lower;
  const hanging = [
    {
      what: 'belt on the lower roller',
      z: lower.axisZ - lower.outer.high / 2 - lower.crown - belt.thickness,
    },
    { what: 'motor', z: at[2] - bodyDiameter / 2 },
    { what: 'motor bracket', z: at[2] - drive.bracket.down },
    {
      what: 'drive pulley',
      z: at[2] - Math.max(drive.pulley.motor.rimRadius, drive.pulley.roller.rimRadius),
    },
    {
      what: 'screws of the lower comb’s bar',
      z: comb.plane - comb.bracket.barHeight - fastener('M3').headHeight,
    },
  ];
  return hanging.reduce((low, each) => (each.z < low.z ? each : low));
}

/** mm between what hangs lowest and the bench. */
const roomUnder = (machine: Machine) =>
  lowestUnderPlate(machine).z + machine.plate.thickness + machine.plate.feet;

/** The belt runs above the bench, and nothing stands on it but the feet. */
export function underPlateToBench(machine: Machine): Finding {
  const { plate } = machine;
  const { what, z } = lowestUnderPlate(machine);
  const bench = -(plate.thickness + plate.feet);
  const measured = roomUnder(machine);
  return judge({
    id: 'clearance/roller-to-bench',
    title: `Room under the plate, ${what} to the bench`,
    measured,
    required: BENCH_ROOM.value,
    unit: 'mm',
    sense: 'min',
    basis: `feet of ${plate.feet} mm from the plate’s underside; ${BENCH_ROOM.meaning}, ${BENCH_ROOM.source}`,
    status: BENCH_ROOM.status,
    grave: measured <= 0,
    remedy: () => {
      const feet = lengthUp(plate.feet + BENCH_ROOM.value - measured);
      const changes = { 'base.feet': feet };
      const left = roomUnder(withValues(machine, changes));
      return {
        text: `feet of at least ${lengthText(machine, feet)} instead of ${lengthText(machine, plate.feet)}, which leave ${lengthText(machine, left)}`,
        tries: attempt(machine, `feet of ${lengthText(machine, feet)}`, changes, (tried) =>
          meets(roomUnder(tried), BENCH_ROOM.value, 'min'),
        ),
      };
    },
    at: {
      path: [
        [0, 0, z],
        [0, 0, bench],
      ],
      surfaces: [what, 'bench'],
    },
  });
}

/** Collar and skirt lie on the plate with their whole width. */
export function collarOnPlate(machine: Machine): Finding {
  const { base, plate } = machine;
  const { flangeRadius, height } = base.collar;
  return judge({
    id: 'clearance/collar-to-plate-edge',
    title: 'Collar on the base plate, radius against the plate’s',
    measured: flangeRadius,
    required: plate.diameter / 2,
    unit: 'mm',
    sense: 'max',
    basis: 'geometry: what stands over the edge is not clamped',
    status: 'computed',
    remedy: () => {
      const diameter = lengthUp(2 * flangeRadius);
      return {
        text: `a plate of at least ${lengthText(machine, diameter)} diameter`,
        tries: attempt(
          machine,
          `a plate of ${lengthText(machine, diameter)}`,
          { 'base.plate.diameter': diameter },
          (tried) => meets(tried.base.collar.flangeRadius, tried.plate.diameter / 2, 'max'),
        ),
      };
    },
    at: { point: [flangeRadius, 0, height] },
  });
}

/** mm of air between the motor's body and its bracket's flange. */
function overMotor({ plate, drive: { motor, bracket } }: Machine): number {
  return -(plate.thickness + bracket.flangeThickness) - (motor.at[2] + motor.bodyDiameter / 2);
}

/** mm across a motor's body that reaches less high by so much: it stays at its axis. */
export function thinnerBody({ drive }: Machine, by: number): number {
  return lengthDown(drive.motor.bodyDiameter - 2 * by);
}

/** A motor that reaches less high by so much (mm), as a trial. */
export function thinnerMotor(
  machine: Machine,
  by: number,
  holds: (tried: Machine) => boolean,
): readonly Trial[] {
  const diameter = thinnerBody(machine, by);
  const what = `a motor of ${lengthText(machine, diameter)} diameter`;
  return attempt(machine, what, { 'drive.motor.body.diameter': diameter }, holds);
}

/** The motor clears what it hangs from. */
export function motorToBracket(machine: Machine): Finding {
  const { drive } = machine;
  const [x, , z] = drive.motor.at;
  const radius = drive.motor.bodyDiameter / 2;
  const measured = overMotor(machine);
  return judge({
    id: 'clearance/motor-to-bracket',
    title: 'Motor’s body under its bracket’s flange',
    measured,
    required: MOTOR_ROOM.value,
    unit: 'mm',
    sense: 'min',
    basis: `axis of the motor at the lower roller’s height; ${MOTOR_ROOM.meaning}, ${MOTOR_ROOM.source}`,
    status: MOTOR_ROOM.status,
    grave: measured <= 0,
    remedy: () => ({
      text: `a motor of at most ${lengthText(machine, thinnerBody(machine, MOTOR_ROOM.value - measured))} diameter: its axis lies at the lower roller’s height`,
      tries: thinnerMotor(machine, MOTOR_ROOM.value - measured, (tried) =>
        meets(overMotor(tried), MOTOR_ROOM.value, 'min'),
      ),
    }),
    at: { point: [x, 0, z + radius] },
  });
}
