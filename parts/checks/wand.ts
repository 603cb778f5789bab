import { FIT_ALLOWANCE, holeOffset, outsideOffset } from '../machine/fits.js';
import type { Machine } from '../machine/machine.js';
import { WAND_GRADIENT, wandLengthFor } from '../machine/wand.js';
import { plastic } from '../stock/plastics.js';
import { armStrain, octagonMoment } from './bending.js';
import { attempt, lengthText, lengthUp, withValues } from './change.js';
import type { Check, Context } from './check.js';
import type { Finding } from './finding.js';
import { scatterTrial } from './fit-remedy.js';
import { joiningLimit, LAYER_SHARE, SHEAR_SHARE } from './joints.js';
import { judge, meets } from './judge.js';
import { practice } from './practice.js';

export const WAND_FORCE = practice(20, 'N', 'sideways at the ball, by hand and by its own weight');
export const WAND_PULL = practice(200, 'N', 'pull along a handle that is caught by its lead');
export const HANDLE_SHARE = practice(
  0.5,
  '',
  'share of a print’s strength along its layers that a handle may be bent with',
);
export const MOUTH_SPREAD = practice(
  0.5,
  '',
  'plug’s widths along its mortise over which the load at the mouth spreads',
);

/** The discharge wand: long enough, and its joints hold. */
export const checkWand: Check = (machine, context) => [
  wandLength(machine, context),
  wandBending(machine),
  wandPullOut(machine),
  wandSnap(machine),
  wandJoint(machine),
];

/** The wand has no place in the machine but this: its ball on the terminal's top. */
const atBall = ({ terminal }: Machine): Pick<Finding, 'at'> => ({ at: { point: [0, 0, terminal.topZ] } });

/** mm of handle for the highest voltage to be expected, when its lead is broken. */
function lengthNeeded({ targetVoltage = 0 }: Machine, { prediction }: Pick<Context, 'prediction'>): number {
  return wandLengthFor(Math.max(1000 * prediction.voltage.high, targetVoltage));
}

/** With its lead broken the ball takes the terminal's voltage, and the handle stands between it and the hand. */
export function wandLength(machine: Machine, context: Pick<Context, 'prediction'>): Finding {
  const { wand, targetVoltage } = machine;
  const { high } = context.prediction.voltage;
  const required = lengthNeeded(machine, context);
  const against =
    targetVoltage !== undefined && targetVoltage > 1000 * high
      ? `target of ${targetVoltage / 1000} kV`
      : `high end of the prediction, ${high.toFixed(0)} kV`;
  return judge({
    id: 'wand/length',
    title: 'Discharge wand’s handle, along its surface from the guard to the metal in its head',
    measured: wand.insulated,
    required,
    unit: 'mm',
    sense: 'min',
    basis: `its lead broken at the ${against}; ${WAND_GRADIENT.value} ${WAND_GRADIENT.unit}, ${WAND_GRADIENT.meaning}, ${WAND_GRADIENT.source}`,
    status: WAND_GRADIENT.status,
    ...atBall(machine),
    remedy: () => {
      const length = lengthUp(required);
      const changes = { 'wand.length': length };
      const { count, length: each } = withValues(machine, changes).wand.segment;
      const what = `a wand of ${lengthText(machine, length)}`;
      return {
        text: `${what} instead of ${lengthText(machine, wand.insulated)}: ${count} segments of ${lengthText(machine, each)}`,
        tries: attempt(machine, what, changes, (tried) => meets(tried.wand.insulated, required, 'min')),
      };
    },
  });
}

/** Stress in one place of the joint at the guard, and what it may be. MPa */
interface Stressed {
  readonly where: string;
  readonly stress: number;
  readonly allowed: number;
}

/** mm4 of an eight-sided section with the hole of a pin through it, bent in the plane of the pin. */
const pinnedMoment = (width: number, hole: number) => octagonMoment(width) - (hole * width ** 3) / 12;

/**
 * The joint at the guard, where the moment is greatest and the plug's hold in the grip shortest. In its mortise a plug bears at the mouth and
 * at its end, so that its moment falls evenly between the two, and both forces are the moment over that length.
 */
export function wandStresses({ wand, print }: Machine): readonly Stressed[] {
  const { strength } = plastic(print.material);
  const along = HANDLE_SHARE.value * strength.value;
  const across = along * LAYER_SHARE.value;
  const { plug, mortise, width, pin, grip, guard, segment, head } = wand;
  const lever = segment.count * segment.length + head.length + head.ballAt + guard.thickness;
  const moment = WAND_FORCE.value * lever;
  const engaged = grip.depth - (2 * wand.depth - wand.plugLength) / 2;
  const atPin = moment * (1 - (grip.pinAt - pin.holeBreadth / 2) / engaged);
  const pair = moment / engaged + WAND_FORCE.value;
  const walls = (width - mortise) * MOUTH_SPREAD.value * plug;
  return [
    {
      where: 'plug at the grip’s face, along its layers',
      stress: (moment * plug) / 2 / octagonMoment(plug),
      allowed: along,
    },
    {
      where: 'plug at its pin, along its layers',
      stress: (atPin * plug) / 2 / pinnedMoment(plug, pin.holeThickness),
      allowed: along,
    },
    {
      where: 'grip around its mortise, along its layers',
      stress:
        (moment * width) /
        2 /
        (pinnedMoment(width, pin.holeThickness) - pinnedMoment(mortise, pin.holeThickness)),
      allowed: along,
    },
    { where: 'walls at the mortise’s mouth, across their layers', stress: pair / walls, allowed: across },
  ];
}

const worstOf = (stresses: readonly Stressed[]) =>
  stresses.reduce((so, each) => (each.stress / each.allowed > so.stress / so.allowed ? each : so));

export function wandBending(machine: Machine): Finding {
  const { print } = machine;
  const stresses = wandStresses(machine);
  const worst = worstOf(stresses);
  const all = stresses.map(({ where, stress, allowed }) => `${where} ${stress.toFixed(1)} of ${allowed}`);
  const share = worst.allowed / worst.stress;
  return judge({
    id: 'strength/wand-bending',
    title: `Bending of the discharge wand, ${worst.where}`,
    measured: worst.stress,
    required: worst.allowed,
    unit: 'MPa',
    sense: 'max',
    basis: `${WAND_FORCE.value} N at the ball; ${all.join(', ')} MPa; ${HANDLE_SHARE.value} of ${plastic(print.material).strength.value} MPa, ${LAYER_SHARE.value} of that across layers; ${HANDLE_SHARE.source}`,
    status: HANDLE_SHARE.status,
    ...atBall(machine),
    // No trial: `print.material` would change every part of the machine for the wand's sake.
    remedy: () =>
      `lean on it with no more than ${Math.floor(WAND_FORCE.value * share)} N, or print it in a plastic of ${Math.ceil(plastic(print.material).strength.value / share)} MPa`,
  });
}

/** N that a joint bears along the handle: its pin sheared through on either side of the plug. */
export function pullOut({ wand: { pin }, print }: Machine): number {
  const whole = pin.breadth * pin.thickness;
  const slit = (pin.breadth - pin.slit) * pin.thickness;
  return 2 * Math.min(whole, slit) * SHEAR_SHARE.value * plastic(print.material).strength.value;
}

export function wandPullOut(machine: Machine): Finding {
  const { pin } = machine.wand;
  const { strength } = plastic(machine.print.material);
  const measured = pullOut(machine);
  return judge({
    id: 'strength/wand-pull-out',
    title: 'Pull that a joint of the discharge wand bears before its pin shears',
    measured,
    required: WAND_PULL.value,
    unit: 'N',
    sense: 'min',
    basis: `two planes of ${((pin.breadth - pin.slit) * pin.thickness).toFixed(1)} mm2 through the pin’s legs; ${SHEAR_SHARE.value} of ${strength.value} MPa, along its layers; ${SHEAR_SHARE.source}; against ${WAND_PULL.meaning}, ${WAND_PULL.source}`,
    status: SHEAR_SHARE.status,
    ...atBall(machine),
    remedy: () =>
      `print the pins in a plastic of ${Math.ceil((strength.value * WAND_PULL.value) / measured)} MPa`,
  });
}

/** % of strain in a pin's leg as its barb passes a hole that came out as drawn. */
export function snapStrain({ wand: { pin } }: Machine): number {
  const leg = (pin.breadth - pin.slit) / 2;
  return 100 * armStrain(pin.barb, pin.shank + pin.barb - pin.slitFrom, () => leg);
}

export function wandSnap(machine: Machine): Finding {
  const limit = joiningLimit(machine, 'along');
  const { pin } = machine.wand;
  return judge({
    id: 'strength/wand-snap',
    title: 'Strain of the wand pins’ legs as they snap in',
    measured: snapStrain(machine),
    required: limit.value,
    unit: '%',
    sense: 'max',
    basis: `barbs of ${pin.barb} mm without the hole’s play; ${limit.basis}`,
    status: limit.status,
    ...atBall(machine),
    remedy: () => 'file the barbs lower, or close the legs with pliers as the pin goes in',
  });
}

/** mm across flats that come off the printer at likely sizes: a plug, and the mortise that takes it. */
function printedJoint({ wand: { plug, mortise }, print: { calibration } }: Machine): {
  readonly plug: number;
  readonly mortise: number;
} {
  return {
    plug: plug + outsideOffset(calibration, plug),
    mortise: mortise + holeOffset(calibration, mortise),
  };
}

/** A plug enters its mortise over the print scatter of both. */
export function wandJoint(machine: Machine): Finding {
  const { scatter } = machine.print.calibration;
  const { plug, mortise } = printedJoint(machine);
  const play = mortise - plug;
  return judge({
    id: 'fit/wand-joint',
    title: 'Plug in its mortise in the discharge wand’s handle, across flats: mortise against plug',
    measured: mortise,
    worst: mortise - 2 * scatter,
    required: plug,
    unit: 'mm',
    sense: 'min',
    basis: `both printed, each within ${scatter} mm: a play of ${(play - 2 * scatter).toFixed(2)} to ${(play + 2 * scatter).toFixed(2)} mm; allowance ${FIT_ALLOWANCE.slide.value} mm by our table, common practice, no source`,
    status: FIT_ALLOWANCE.slide.status,
    ...atBall(machine),
    remedy: () => {
      const { shown, tries } = scatterTrial(machine, play / 2, (tried) => {
        const joint = printedJoint(tried);
        return meets(joint.mortise - 2 * tried.print.calibration.scatter, joint.plug, 'min');
      });
      return { text: `a scatter of at most ${shown} mm, or scrape the plug’s flats until it enters`, tries };
    },
  });
}
