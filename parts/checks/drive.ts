import { openBelt } from '../machine/belt-path.js';
import { BELT } from '../machine/declarations-pieces.js';
import type { Machine } from '../machine/machine.js';
import { beltMaterial } from '../stock/belts.js';
import { plastic } from '../stock/plastics.js';
import { beltMassPerMetre } from './belt.js';
import { RUNNING_TORQUE, torqueWanted, torqueWantedTold } from './belt-load.js';
import { passes } from './belt-room.js';
import { attempt, lengthText, nearestThatHolds, withValues } from './change.js';
import type { Check, Context } from './check.js';
import type { Finding, Remedy } from './finding.js';
import { LAYER_SHARE } from './joints.js';
import { judge } from './judge.js';
import { slipRatio } from './mechanics.js';
import { practice } from './practice.js';
import {
  alternatives,
  motorSpeedThatHolds,
  motorSpeedTrial,
  stretchThatHolds,
  stretchTrial,
} from './tension.js';

export const DESIGN_TORQUE = practice(
  0.25,
  'N m',
  'torque that a hub is designed for: more than the belt can take before it slips',
);
export const BELT_FRICTION = practice(
  0.2,
  '',
  'friction of a rubber belt on a smooth plastic roller, low end',
);
export const DOG_SHARE = practice(
  0.1,
  '',
  'share of the strength that dogs and notches may bear, pressed at every start',
);

export const checkDrive: Check = (machine, context) => [
  beltGrip(machine, context),
  ...(['lower', 'upper'] as const).map((end) => hubDogs(machine, end)),
];

/** Torque (N m) at which the belt slips on the lower roller, with the tension that its speed leaves. */
export function slipTorque(machine: Machine): number {
  const { belt, rollers } = machine;
  const run = (diameter: number) => diameter + belt.thickness;
  const path = openBelt(
    run(rollers.lower.outer.mean),
    run(rollers.upper.outer.mean),
    rollers.upper.axisZ - rollers.lower.axisZ,
  );
  const tension = Math.max(0, belt.tension - beltMassPerMetre(machine) * belt.speed ** 2);
  const ratio = slipRatio(BELT_FRICTION.value, path.wraps[0]);
  return (2 * tension * (ratio - 1) * run(rollers.lower.outer.mean)) / ((ratio + 1) * 2000);
}

/** The belt runs, and lifts its charge against the field, without slipping. */
export function beltGrip(machine: Machine, context: Pick<Context, 'discharge'>): Finding {
  const { belt, rollers } = machine;
  const measured = slipTorque(machine);
  return judge({
    id: 'belt/grip',
    title: 'Torque at which the belt slips on the lower roller',
    measured,
    required: torqueWanted(machine, context),
    unit: 'N m',
    sense: 'min',
    basis: `capstan formula at friction ${BELT_FRICTION.value} and ${belt.tension.toFixed(1)} N; ${torqueWantedTold(machine, context)}`,
    status: RUNNING_TORQUE.status,
    remedy: () => gripRemedy(machine, (tried) => slipTorque(tried) >= torqueWanted(tried, context)),
    at: { point: [0, 0, rollers.lower.axisZ] },
  });
}

function withThickness(machine: Machine, thickness: number): Machine {
  return withValues(machine, { 'belt.thickness': thickness });
}

/** A tighter, slower or thicker belt, each tried; a thicker one only where it still passes the tube. */
function gripRemedy(machine: Machine, grips: (tried: Machine) => boolean): Remedy {
  const { belt } = machine;
  const tighter = stretchThatHolds(machine, grips);
  const slower = motorSpeedThatHolds(machine, grips);
  const thick = nearestThatHolds(belt.thickness, BELT.keys.thickness.range.max, 0.1, (thickness) =>
    grips(withThickness(machine, thickness)),
  );
  const fits = thick !== undefined && passes(withThickness(machine, thick));
  // A multiple of the step is not exact in binary.
  const thicker = fits ? Number(thick.toFixed(1)) : undefined;
  const told = alternatives(
    tighter !== undefined && `${tighter} % of stretch instead of ${Number(belt.stretch.toFixed(2))} %`,
    slower !== undefined && `a motor of at most ${slower} rpm with these pulleys`,
    thicker !== undefined && `a belt ${lengthText(machine, thicker)} thick`,
  );
  if (told)
    return {
      text: told,
      tries: [
        ...stretchTrial(machine, tighter, grips),
        ...motorSpeedTrial(machine, slower, grips),
        ...(thicker === undefined
          ? []
          : attempt(
              machine,
              `a belt ${lengthText(machine, thicker)} thick`,
              { 'belt.thickness': thicker },
              grips,
            )),
      ],
    };
  const { low, high } = beltMaterial(belt.material).stretch;
  return {
    text: `a wider belt or one of a stiffer material, fitted with its usual stretch (this one: ${low} to ${high} %)`,
    tries: [],
  };
}

/** Pressure (MPa) of a hub's dogs in the notches of the shell, under the design torque. */
export function dogPressure(machine: Machine, end: 'lower' | 'upper'): number {
  const { shell: outer, inner } = machine.rollers[end];
  const { dogs } = machine.hubs[end];
  const radius = (outer.mean + inner.mean) / 4;
  const wall = (outer.mean - inner.mean) / 2;
  const force = (DESIGN_TORQUE.value * 1000) / (dogs.count * radius);
  return force / (dogs.height * wall);
}

/** Shear (MPa) across the foot of a dog, under the design torque. */
export function dogShear(machine: Machine, end: 'lower' | 'upper'): number {
  const { dogs } = machine.hubs[end];
  return (dogPressure(machine, end) * dogs.height) / dogs.width;
}

export function hubDogs(machine: Machine, end: 'lower' | 'upper'): Finding {
  const roller = machine.rollers[end];
  const weaker = Math.min(
    plastic(roller.material).strength.value,
    plastic(machine.print.material).strength.value,
  );
  const [pressure, shear] = [dogPressure(machine, end), dogShear(machine, end)];
  return judge({
    id: `strength/hub-dogs-${end}`,
    title: `Stress in the dogs between hub and shell, ${end} roller`,
    // A hub is printed flange down: its dogs shear off between two layers.
    measured: Math.max(pressure, shear / LAYER_SHARE.value),
    required: DOG_SHARE.value * weaker,
    unit: 'MPa',
    sense: 'max',
    basis: `${DESIGN_TORQUE.value} N m on ${machine.hubs[end].dogs.count} dogs: pressure ${pressure.toFixed(2)}, shear ${shear.toFixed(2)} MPa between layers that bear ${LAYER_SHARE.value} of it; ${DOG_SHARE.value} of the weaker material’s ${weaker} MPa; ${DOG_SHARE.source}`,
    status: DOG_SHARE.status,
    remedy: () => 'a shell with a thicker wall',
    at: { point: [0, roller.length / 2, roller.axisZ] },
  });
}
