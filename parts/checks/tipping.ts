import { BASE } from '../machine/declarations-pieces.js';
import type { Machine } from '../machine/machine.js';
import { degrees, radians, type Vec2 } from '../solid/vector.js';
import type { Constant } from '../stock/row.js';
import { attempt, lengthText, nearestThatHolds, withValues } from './change.js';
import type { Check } from './check.js';
import type { Finding, Remedy } from './finding.js';
import { judge, meets } from './judge.js';
import { MOTOR_DENSITY, massesOf, PRINT_FILL, together } from './masses.js';

export const TIP_ANGLE: Constant = {
  value: 10,
  unit: 'degrees',
  meaning: 'tilt in any direction that equipment stands without tipping',
  source: 'IEC 62368-1 ed. 3 as quoted on a list for standards',
  status: 'verified',
};
/** m/s2 */
export const GRAVITY = 9.81;

export const checkTipping: Check = (machine) => [tipAngle(machine), tipPush(machine)];

/** The machine as it stands: its weight, and how near to an edge between two feet it acts. */
export interface Stance {
  /** kg */
  readonly mass: number;
  /** Centre of mass over the bench, and its least distance from a line between neighbouring feet, mm. */
  readonly height: number;
  readonly toEdge: number;
}

const benchZ = ({ plate }: Machine) => -(plate.thickness + plate.feet);

export function stance(machine: Machine): Stance {
  const { feet } = machine;
  const { mass, at } = together(massesOf(machine));
  const corners = feet.angles.map(
    (angle): Vec2 => [feet.radius * Math.cos(radians(angle)), feet.radius * Math.sin(radians(angle))],
  );
  return { mass, height: at[2] - benchZ(machine), toEdge: distanceToEdge([at[0], at[1]], corners) };
}

/** Least distance of a point from the sides of a polygon (counter-clockwise): negative outside it. */
export function distanceToEdge([x, y]: Vec2, corners: readonly Vec2[]): number {
  return Math.min(
    ...corners.map(([ax, ay], i) => {
      const [bx, by] = corners[(i + 1) % corners.length]!;
      return ((bx - ax) * (y - ay) - (by - ay) * (x - ax)) / Math.hypot(bx - ax, by - ay);
    }),
  );
}

/** Tilt (degrees) at which the centre of mass stands over the line between two feet. */
export const tipsAt = ({ toEdge, height }: Pick<Stance, 'toEdge' | 'height'>): number =>
  degrees(Math.atan2(toEdge, height));

/** Sideways push (N) at a height (mm) that tips it: W r / h. */
export const pushThatTips = ({ mass, toEdge }: Stance, height: number): number =>
  (mass * GRAVITY * toEdge) / height;

const weighed = ({ mass, height, toEdge }: Stance) =>
  `${mass.toFixed(2)} kg, centre of mass ${height.toFixed(0)} mm over the bench and ${toEdge.toFixed(Math.abs(toEdge) < 10 ? 1 : 0)} mm inside the nearest line between two feet; prints at ${PRINT_FILL.value} of their volume, motor ${MOTOR_DENSITY.value} ${MOTOR_DENSITY.unit}, ${PRINT_FILL.source}`;

const largestPlate = BASE.keys.plate.keys.diameter.range.max;

/** A wider plate that lets something hold, within what a bench takes. */
function widerPlate(machine: Machine, beside: string, holds: (tried: Machine) => boolean): Remedy {
  const found = nearestThatHolds(
    machine.plate.diameter,
    Math.min(largestPlate, PLATE_ON_BENCH),
    1,
    (diameter) => holds(withValues(machine, { 'base.plate.diameter': diameter })),
  );
  if (found === undefined) return { text: beside, tries: [] };
  const shown = lengthText(machine, found);
  return {
    text: `a plate of at least ${shown} diameter, or ${beside}`,
    tries: attempt(machine, `a plate of ${shown}`, { 'base.plate.diameter': found }, holds),
  };
}
/** mm; a wider plate is no answer on a table. */
const PLATE_ON_BENCH = 600;

export function tipAngle(machine: Machine): Finding {
  const stands = stance(machine);
  const measured = tipsAt(stands);
  return judge({
    id: 'stand/tip-angle',
    title: 'Tilt at which the machine tips over',
    measured,
    required: TIP_ANGLE.value,
    unit: 'degrees',
    sense: 'min',
    basis: `${TIP_ANGLE.meaning}: ${TIP_ANGLE.source}; ${weighed(stands)}`,
    status: TIP_ANGLE.status,
    remedy: () =>
      widerPlate(machine, 'the plate clamped to the bench', (tried) =>
        meets(tipsAt(stance(tried)), TIP_ANGLE.value, 'min'),
      ),
    at: { point: [0, 0, stands.height + benchZ(machine)] },
  });
}

export function tipPush(machine: Machine): Finding {
  const { assume, terminal } = machine;
  const stands = stance(machine);
  const push = (each: Machine, so: Stance) => pushThatTips(so, each.terminal.centreZ - benchZ(each));
  return judge({
    id: 'stand/tip-push',
    title: 'Push at the middle of the terminal that tips the machine over',
    measured: push(machine, stands),
    required: assume.sidePush,
    unit: 'N',
    sense: 'min',
    basis: `statics, feet that do not slide; a push of ${assume.sidePush} N, common practice, no source; ${weighed(stands)}`,
    status: 'common-practice',
    remedy: () =>
      widerPlate(
        machine,
        'the plate clamped to the bench, so that a knock or a visitor’s hand does not throw it over',
        (tried) => meets(push(tried, stance(tried)), tried.assume.sidePush, 'min'),
      ),
    at: { point: [0, 0, terminal.centreZ] },
  });
}
