import type { Machine } from '../machine/machine.js';
import { drawnDown } from '../printed/carrier-places.js';
import { beltMaterial } from '../stock/belts.js';
import { waveSpeed } from './belt.js';
import { torqueWanted, torqueWantedTold } from './belt-load.js';
import type { Check, Context } from './check.js';
import { slipTorque } from './drive.js';
import type { Finding, Point } from './finding.js';
import { judge, meets } from './judge.js';
import { practice } from './practice.js';
import { motorSpeedThatHolds, motorSpeedTrial, stretchThatHolds, stretchTrial } from './tension.js';

export const RESONANCE_ROOM = practice(
  0.2,
  '',
  'distance from a span’s first frequency, as a share of it, at which it is not shaken up',
);
export const BELT_SET = practice(
  0.4,
  '',
  'share of its stretch that a rubber belt loses in its first days: 0.2 to 0.4',
);
export const BRIEF_STRETCH = practice(
  1.5,
  '',
  'stretch that a belt bears for a moment, over the most that it is fitted with',
);

export const checkBeltRunning: Check = (machine, context) => [
  resonance(machine),
  afterSet(machine, context),
  fittingStretch(machine),
];

const middle = ({ rollers }: Machine): Point => [0, 0, (rollers.lower.axisZ + rollers.upper.axisZ) / 2];

/** Hz at which a span first swings: (c^2 - v^2) / (2 L c), a string that travels (textbook, from memory). */
export function spanFrequency(machine: Machine): number {
  const { belt, rollers } = machine;
  const wave = waveSpeed(machine);
  const span = (rollers.upper.axisZ - rollers.lower.axisZ) / 1000;
  return Math.max(0, (wave ** 2 - belt.speed ** 2) / (2 * span * wave));
}

/** What shakes the belt once a turn, and how often, Hz. */
export function shakers({ belt, rollers }: Machine): readonly { what: string; frequency: number }[] {
  const turning = ({ outer }: Machine['rollers']['lower']) =>
    (1000 * belt.speed) / (Math.PI * (outer.mean + belt.thickness));
  return [
    { what: 'the belt’s joint', frequency: (1000 * belt.speed) / belt.loopLength },
    { what: 'the lower roller', frequency: turning(rollers.lower) },
    { what: 'the upper roller', frequency: turning(rollers.upper) },
  ];
}

/** The shaker nearest to the span's first frequency, and how far from it as a share; 0 where a belt without tension left flutters. */
export function nearestShaker(machine: Machine) {
  const first = spanFrequency(machine);
  return shakers(machine)
    .map((each) => ({ ...each, off: first > 0 ? Math.abs(each.frequency / first - 1) : 0 }))
    .reduce((near, each) => (each.off < near.off ? each : near));
}

export function resonance(machine: Machine): Finding {
  const { what, frequency, off } = nearestShaker(machine);
  const calm = (tried: Machine) => meets(nearestShaker(tried).off, RESONANCE_ROOM.value, 'min');
  return judge({
    id: 'belt/resonance',
    title: `Distance of ${what} from the first frequency of the belt’s span`,
    measured: off,
    required: RESONANCE_ROOM.value,
    unit: '',
    sense: 'min',
    basis: `span ${spanFrequency(machine).toFixed(1)} Hz, ${what} ${frequency.toFixed(1)} Hz; string that travels; ${RESONANCE_ROOM.meaning}, ${RESONANCE_ROOM.source}`,
    status: RESONANCE_ROOM.status,
    remedy: () => {
      const slower = motorSpeedThatHolds(machine, calm);
      const tighter = stretchThatHolds(machine, calm);
      const told = [
        slower !== undefined && `a motor of ${slower} rpm`,
        tighter !== undefined && `${tighter} % of stretch`,
      ].filter((each) => each);
      return {
        text: told.join(', or ') || 'another speed or another stretch of the belt',
        tries: [...motorSpeedTrial(machine, slower, calm), ...stretchTrial(machine, tighter, calm)],
      };
    },
    at: { point: middle(machine) },
  });
}

/** % of stretch that is left when the belt has set and the jack screws are turned all the way up. */
export function stretchLeft({ belt, carriers }: Machine): number {
  const free = belt.freeLength * (1 + (BELT_SET.value * belt.stretch) / 100);
  return 100 * ((belt.loopLength + 2 * carriers.upper.travel.up) / free - 1);
}

/** The torque at which it then slips: tension goes with the stretch. */
export function afterSet(machine: Machine, context: Pick<Context, 'discharge'>): Finding {
  const { belt, carriers } = machine;
  const left = stretchLeft(machine);
  const measured = slipTorque({
    ...machine,
    belt: { ...belt, tension: (belt.tension * left) / belt.stretch },
  });
  return judge({
    id: 'belt/set',
    title: 'Torque at which the belt slips when it has set, jack screws all the way up',
    measured,
    required: torqueWanted(machine, context),
    unit: 'N m',
    sense: 'min',
    basis: `${BELT_SET.meaning}; of ${belt.stretch.toFixed(1)} % there are then ${left.toFixed(1)} % with the axle ${carriers.upper.travel.up} mm up; ${BELT_SET.source}; ${torqueWantedTold(machine, context)}`,
    status: BELT_SET.status,
    remedy: () => {
      const { low, high } = beltMaterial(belt.material).stretch;
      return `stretch the belt on a board for a day before it is cut to length, or cut it anew when it has set; up to ${high} % (from ${low} %) are usual`;
    },
    at: { point: middle(machine) },
  });
}

/** % of stretch while the lower roller is drawn down in the belt's loop. */
export const stretchAtFitting = (machine: Machine): number =>
  machine.belt.stretch + (200 * drawnDown(machine)) / machine.belt.freeLength;

export function fittingStretch(machine: Machine): Finding {
  const { belt, rollers } = machine;
  const { high } = beltMaterial(belt.material).stretch;
  return judge({
    id: 'belt/fitting-stretch',
    title: 'Stretch of the belt while the lower roller goes into its carrier',
    measured: stretchAtFitting(machine),
    required: BRIEF_STRETCH.value * high,
    unit: '%',
    sense: 'max',
    basis: `drawn ${drawnDown(machine).toFixed(1)} mm beyond its place; ${BRIEF_STRETCH.value} times the ${high} % that ${belt.material} is fitted with, ${BRIEF_STRETCH.source}`,
    status: BRIEF_STRETCH.status,
    remedy: () => 'lower the upper axle by its jack screws first, or fit the belt with less stretch',
    at: { point: [0, 0, rollers.lower.axisZ] },
  });
}
