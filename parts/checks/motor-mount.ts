import type { BracketDesign } from '../machine/drive.js';
import type { Machine } from '../machine/machine.js';
import { plastic } from '../stock/plastics.js';
import type { Finding } from './finding.js';
import { SUSTAINED_SHARE } from './grip.js';
import { LAYER_SHARE } from './joints.js';
import { judge } from './judge.js';
import { motorMass } from './masses.js';
import { drivePull, ratedTorque } from './motor.js';
import { practice } from './practice.js';
import { GRAVITY } from './tipping.js';

export const SHAFT_STRESS = practice(
  80,
  'MPa',
  'bending and twist that the plain steel shaft of a small motor bears for good, turning over',
);
export const MOTOR_JOLT = practice(
  5,
  '',
  'weights of itself that a motor pulls at its bracket with when the machine is set down',
);

/** mm from the motor's face, behind which its front bearing sits, out to the middle of the drive's belt. */
export const shaftOverhang = ({ drive: { bracket, place } }: Machine): number =>
  place.belt - (bracket.face - bracket.faceThickness);

/** MPa in a round shaft under a bending and a twisting moment (N mm) together, by distortion energy (textbook, from memory). */
export function shaftStress(diameter: number, bending: number, twist: number): number {
  const modulus = (Math.PI * diameter ** 3) / 32;
  return Math.hypot(bending / modulus, (Math.sqrt(3) * twist) / (2 * modulus));
}

/** The motor's shaft carries the pulley beyond the bracket; and what its maker has to allow at that place. */
export function motorShaft(machine: Machine): Finding {
  const { motor } = machine.drive;
  const { diameter } = motor.face.shaft;
  const [pull, overhang] = [drivePull(machine), shaftOverhang(machine)];
  return judge({
    id: 'strength/motor-shaft',
    title: 'Stress in the motor’s shaft where it comes out',
    measured: shaftStress(diameter, pull * overhang, 1000 * ratedTorque(machine)),
    required: SHAFT_STRESS.value,
    unit: 'MPa',
    sense: 'max',
    basis: `${pull.toFixed(0)} N from the drive’s belt, ${overhang.toFixed(1)} mm from the motor’s face, on a shaft of ${diameter} mm: the motor’s data sheet has to allow that load at that place, which its bearings bear and which is not judged here; ${SHAFT_STRESS.meaning}, ${SHAFT_STRESS.source}`,
    status: SHAFT_STRESS.status,
    remedy: () => 'a larger pulley on the motor, or a motor with a thicker shaft',
    at: { point: motor.at },
  });
}

/**
 * Section of the bracket along its layers, right behind the face: the flange at the plate and a gusset at each side. Second
 * moments (mm4) about the upright and the level axis through its centroid, farthest fibre from the level one (mm), and
 * the constant of its twist as an open section (mm4).
 */
export function bracketSection({ half, gusset, flangeThickness, up, down }: BracketDesign) {
  const height = up + down - flangeThickness;
  const [flange, side] = [2 * half * flangeThickness, gusset * height];
  // Down from the plate.
  const centroid =
    ((flange * flangeThickness) / 2 + 2 * side * (flangeThickness + height / 2)) / (flange + 2 * side);
  const upright =
    (flangeThickness * (2 * half) ** 3) / 12 +
    2 * ((height * gusset ** 3) / 12 + side * (half - gusset / 2) ** 2);
  const level =
    (2 * half * flangeThickness ** 3) / 12 +
    flange * (centroid - flangeThickness / 2) ** 2 +
    2 * ((gusset * height ** 3) / 12 + side * (flangeThickness + height / 2 - centroid) ** 2);
  const fibre = Math.max(centroid, up + down - centroid);
  const twisting = (2 * half * flangeThickness ** 3 + 2 * height * gusset ** 3) / 3;
  return { upright, level, fibre, twisting };
}

/**
 * MPa across the bracket's layers behind its face: bent sideways by the belt and down by the motor, and twisted as an open
 * section by the belt, which pulls below the flange (textbook formulas; the flange's twist taken about the plate).
 */
export function bracketStress(machine: Machine): { readonly bent: number; readonly twisted: number } {
  const { bracket, motor, place } = machine.drive;
  const { upright, level, fibre, twisting } = bracketSection(bracket);
  const behind = bracket.face - bracket.faceThickness;
  const pull = drivePull(machine);
  const jolt = MOTOR_JOLT.value * motorMass(machine) * GRAVITY;
  const sideways = (pull * (place.belt - behind) * bracket.half) / upright;
  const down = (jolt * (motor.bodyLength / 2) * fibre) / level;
  const twisted = (pull * bracket.up * Math.max(bracket.flangeThickness, bracket.gusset)) / twisting;
  return { bent: sideways + down, twisted };
}

export function motorBracketHolds(machine: Machine): Finding {
  const { bent, twisted } = bracketStress(machine);
  const { strength } = plastic(machine.print.material);
  const { bracket, motor } = machine.drive;
  return judge({
    id: 'strength/motor-bracket',
    title: 'Stress across the motor bracket’s layers, behind its face',
    measured: Math.hypot(bent, Math.sqrt(3) * twisted),
    required: SUSTAINED_SHARE.value * LAYER_SHARE.value * strength.value,
    unit: 'MPa',
    sense: 'max',
    basis: `${drivePull(machine).toFixed(0)} N from the drive’s belt and ${MOTOR_JOLT.value} times the motor’s ${motorMass(machine).toFixed(2)} kg (${MOTOR_JOLT.meaning}, ${MOTOR_JOLT.source}): bent ${bent.toFixed(2)}, twisted ${twisted.toFixed(2)} MPa; ${SUSTAINED_SHARE.value} of ${strength.value} MPa, ${LAYER_SHARE.value} of it across layers; ${SUSTAINED_SHARE.source}`,
    status: SUSTAINED_SHARE.status,
    remedy: () => 'a larger pulley on the motor, or a stronger plastic for the bracket',
    at: { point: [motor.at[0], bracket.face, motor.at[2]] },
  });
}
