import type { Machine } from '../machine/machine.js';
import { beltMaterial } from '../stock/belts.js';
import { BELT_BEYOND_COMB, combWidthFor, narrowerBelt } from './belt-remedy.js';
import { attempt, lengthDown, lengthText, lengthUp } from './change.js';
import type { Check } from './check.js';
import type { Finding, Remedy } from './finding.js';
import { judge, meets } from './judge.js';
import { practice } from './practice.js';
import {
  alternatives,
  motorSpeedThatHolds,
  motorSpeedTrial,
  stretchThatHolds,
  stretchTrial,
  withStretch,
} from './tension.js';

export const SPEED_SHARE = practice(
  0.5,
  '',
  'share of the wave speed sqrt(T/m) in the belt that it may run at',
);
export const ROLLER_BEYOND_BELT = practice(
  10,
  'mm',
  'roller’s face beyond the belt’s width, both sides together',
);

export const checkBelt: Check = (machine) => [
  speed(machine),
  stretch(machine),
  ...(['lower', 'upper'] as const).flatMap((end) => [rollerFace(machine, end), combWidth(machine, end)]),
];

const middle = ({ rollers }: Machine): readonly [number, number, number] => [
  0,
  0,
  (rollers.lower.axisZ + rollers.upper.axisZ) / 2,
];

/** kg/m */
export function beltMassPerMetre({ belt }: Machine): number {
  return beltMaterial(belt.material).density.value * 1e-3 * belt.width * belt.thickness;
}

/** Speed (m/s) of waves in the belt, sqrt(T/m): a belt that runs as fast has lost its tension to the curves. */
export function waveSpeed(machine: Machine): number {
  return Math.sqrt(machine.belt.tension / beltMassPerMetre(machine));
}

export function speed(machine: Machine): Finding {
  const { belt } = machine;
  const wave = waveSpeed(machine);
  return judge({
    id: 'belt/speed',
    title: 'Speed of the belt',
    measured: belt.speed,
    required: SPEED_SHARE.value * wave,
    unit: 'm/s',
    sense: 'max',
    basis: `half the wave speed sqrt(T/m) of ${wave.toFixed(1)} m/s at ${belt.tension.toFixed(1)} N and ${(beltMassPerMetre(machine) * 1000).toFixed(0)} g/m; ${SPEED_SHARE.source}`,
    status: SPEED_SHARE.status,
    grave: belt.speed >= wave,
    remedy: () => speedRemedy(machine),
    at: { point: middle(machine) },
  });
}

const runsCalm = (machine: Machine) => machine.belt.speed <= SPEED_SHARE.value * waveSpeed(machine);

/** Neither width nor thickness helps: tension and mass grow alike with both. */
function speedRemedy(machine: Machine): Remedy {
  const slower = motorSpeedThatHolds(machine, runsCalm);
  const tighter = stretchThatHolds(machine, runsCalm);
  const told = alternatives(
    slower !== undefined &&
      `a motor of at most ${slower} rpm with these pulleys, or pulleys that turn the roller as slowly`,
    tighter !== undefined && `${tighter} % of stretch`,
  );
  if (told)
    return {
      text: told,
      tries: [...motorSpeedTrial(machine, slower, runsCalm), ...stretchTrial(machine, tighter, runsCalm)],
    };
  const { high } = beltMaterial(machine.belt.material).stretch;
  const taut = motorSpeedThatHolds(withStretch(machine, high), runsCalm);
  if (taut === undefined)
    return { text: 'a slower motor or other pulleys, and a belt of a stiffer material', tries: [] };
  return {
    text: `${high} % of stretch together with a motor of at most ${taut} rpm or pulleys that turn the roller as slowly`,
    tries: attempt(
      machine,
      `a stretch of ${high} % and a motor of ${taut} rpm`,
      { 'belt.stretch': high, 'drive.motor.speed': taut },
      runsCalm,
    ),
  };
}

export function stretch(machine: Machine): Finding {
  const { belt } = machine;
  const usual = beltMaterial(belt.material).stretch;
  const slack = belt.stretch < usual.low;
  const required = slack ? usual.low : usual.high;
  return judge({
    id: 'belt/stretch',
    title: 'Stretch of the belt',
    measured: belt.stretch,
    required,
    unit: '%',
    sense: slack ? 'min' : 'max',
    basis: `${belt.material} is fitted with ${usual.low} to ${usual.high} %; ${usual.source}`,
    status: usual.status,
    remedy: () => {
      const free = withStretch(machine, required).belt.freeLength;
      return {
        text: `cut the belt ${lengthText(machine, free)} long instead of ${lengthText(machine, belt.freeLength)}`,
        tries: stretchTrial(
          machine,
          required,
          (tried) => tried.belt.stretch >= usual.low && tried.belt.stretch <= usual.high,
        ),
      };
    },
    at: { point: middle(machine) },
  });
}

/** mm of roller that a belt of this width asks for. */
const faceFor = (width: number) => width + ROLLER_BEYOND_BELT.value;

export function rollerFace(machine: Machine, end: 'lower' | 'upper'): Finding {
  const { belt, rollers } = machine;
  const { length, axisZ } = rollers[end];
  return judge({
    id: `belt/roller-face-${end}`,
    title: `Face of the ${end} roller`,
    measured: length,
    required: faceFor(belt.width),
    unit: 'mm',
    sense: 'min',
    basis: `belt and ${ROLLER_BEYOND_BELT.value} mm; ${ROLLER_BEYOND_BELT.source}`,
    status: ROLLER_BEYOND_BELT.status,
    remedy: () => {
      const longer = lengthText(machine, lengthUp(faceFor(belt.width)));
      const narrower = lengthDown(length - ROLLER_BEYOND_BELT.value);
      const holds = (tried: Machine) => meets(tried.rollers[end].length, faceFor(tried.belt.width), 'min');
      return {
        text: `a roller of ${longer}, or a belt of ${lengthText(machine, narrower)}`,
        tries: [
          ...attempt(
            machine,
            `a roller of ${longer}`,
            { [`rollers.${end}.length`]: lengthUp(faceFor(belt.width)) },
            holds,
          ),
          ...narrowerBelt(machine, narrower, holds).tries,
        ],
      };
    },
    at: { point: [0, length / 2, axisZ] },
  });
}

export function combWidth(machine: Machine, end: 'lower' | 'upper'): Finding {
  const { belt, combs } = machine;
  const comb = combs[end];
  return judge({
    id: `belt/comb-width-${end}`,
    title: `Width of the ${end} comb on the belt`,
    measured: comb.width,
    required: combWidthFor(belt.width),
    unit: 'mm',
    sense: 'max',
    basis: `belt less 3 mm on each side, or charge creeps around its edges; ${BELT_BEYOND_COMB.source}`,
    status: BELT_BEYOND_COMB.status,
    remedy: () => {
      const width = lengthDown(combWidthFor(belt.width));
      const what = `a comb of ${lengthText(machine, width)}`;
      const holds = (tried: Machine) => meets(tried.combs[end].width, combWidthFor(tried.belt.width), 'max');
      return { text: what, tries: attempt(machine, what, { [`combs.${end}.width`]: width }, holds) };
    },
    at: { point: [comb.tip, comb.width / 2, comb.plane] },
  });
}
