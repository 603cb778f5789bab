import { CONE_ANGLE } from '../machine/grip.js';
import type { Machine } from '../machine/machine.js';
import { plastic } from '../stock/plastics.js';
import type { Constant } from '../stock/row.js';
import { attempt, lengthText } from './change.js';
import type { Check } from './check.js';
import type { Finding, Point } from './finding.js';
import { judge, meets } from './judge.js';
import {
  cantileverStrain,
  closingTorque,
  fingerFibre,
  type LockRing,
  leadAngle,
  openingTorque,
  roundingStress,
  thickWallHoop,
} from './mechanics.js';
import { practice } from './practice.js';

export const HOLDING = practice(
  20,
  'N',
  'axial pull that the grip holds at low friction, as much as a sideways push',
);
export const SUSTAINED_SHARE = practice(
  0.25,
  '',
  'share of the short-time strength that may stay, where nothing is published',
);
export const SUSTAINED_STRAIN = practice(
  0.5,
  '%',
  'strain that may stay in a print across its layers, where no other value is in stock',
);
export const BAND_SHARE = practice(
  0.1,
  '',
  'share of the print’s strength that a contact band may press with',
);

/** Flanks at 45 degrees, so that they print without support. */
const FLANK = Math.PI / 4;
const degrees = (radians: number) => (radians * 180) / Math.PI;

export const checkGrip: Check = (machine) => [
  tubeRounding(machine),
  tubeSqueeze(machine),
  fingerStrain(machine),
  holding(machine),
  ringTorque(machine),
  releaseTorque(machine),
  selfLocking(machine),
  bandPressure(machine),
];

const headPlace = ({ grip, tube }: Machine): Point => [
  tube.outer.mean / 2,
  0,
  (grip.mount.headBottom + grip.mount.headTop) / 2,
];

export function lockRing({ grip }: Machine): LockRing {
  return {
    thread: (grip.mount.threadCrest + grip.mount.threadRoot) / 2,
    cone: (grip.mount.headRadius + grip.mount.headTopRadius) / 2,
    lead: grip.lead,
    coneAngle: (CONE_ANGLE.value * Math.PI) / 180,
    flank: FLANK,
  };
}

/** Radial force (N, all fingers together) that a hand's torque closes the grip with, at a friction. */
export function radialForce(machine: Machine, friction: number): number {
  return (machine.assume.handTorque * 1000) / closingTorque(lockRing(machine), friction);
}

/** Tension that may stay in the tube: published, or a share of its strength. */
export function sustained({ tube }: Machine): {
  readonly value: number;
  readonly basis: string;
  readonly status: Constant['status'];
} {
  const { sustainedStress, strength, name } = plastic(tube.material);
  if (sustainedStress)
    return {
      value: sustainedStress.value,
      basis: `${sustainedStress.meaning}: ${sustainedStress.source}`,
      status: sustainedStress.status,
    };
  const value = SUSTAINED_SHARE.value * strength.value;
  const basis = `no sustained stress of ${name} in stock: ${SUSTAINED_SHARE.value} of its strength of ${strength.value} MPa, ${SUSTAINED_SHARE.source}`;
  return { value, basis, status: SUSTAINED_SHARE.status };
}

const wallRadius = ({ tube }: Machine) => (tube.outer.mean - tube.wall.mean) / 2;

export function tubeRounding(machine: Machine): Finding {
  const { tube } = machine;
  const limit = sustained(machine);
  const input = {
    modulus: plastic(tube.material).youngsModulus.value,
    wall: tube.wall.mean,
    radius: wallRadius(machine),
  };
  const { low, high } = roundingStress({ ...input, spread: tube.outer.spread });
  return judge({
    id: 'strength/tube-rounding',
    title: 'Stress in the tube when its oval is held round',
    measured: (low + high) / 2,
    worst: high,
    required: limit.value,
    unit: 'MPa',
    sense: 'max',
    basis: `${low.toFixed(2)} to ${high.toFixed(2)} MPa, bending of a ring, by how the fingers’ load spreads; ${limit.basis}`,
    status: limit.status,
    remedy: () => {
      const spread = (tube.outer.spread * limit.value) / high;
      return `a tube out of round by at most ${lengthText(machine, spread)} instead of ${lengthText(machine, tube.outer.spread)}, or a 1.2 mm flexible liner under the fingers`;
    },
    at: { point: headPlace(machine) },
  });
}

/** Pressure (MPa) of all fingers on the tube, closed by hand at low friction. */
function fingerPressure(machine: Machine): number {
  const { tube, grip, assume } = machine;
  const area = Math.PI * tube.outer.mean * (grip.mount.headTop - grip.mount.headBottom);
  return radialForce(machine, assume.frictionLow) / area;
}

/** Compression (MPa) around the tube's bore under the fingers. */
function squeezeOf(machine: Machine): number {
  const outer = machine.tube.outer.mean / 2;
  const inner = outer - machine.tube.wall.mean;
  return -thickWallHoop({ inner, outer, inside: 0, outside: fingerPressure(machine) }, inner);
}

/** Fingers closed by hand at low friction, the most that they press, as an even pressure around the tube. */
export function tubeSqueeze(machine: Machine): Finding {
  const { assume } = machine;
  const limit = sustained(machine);
  const force = radialForce(machine, assume.frictionLow);
  const pressure = fingerPressure(machine);
  const compression = squeezeOf(machine);
  return judge({
    id: 'strength/tube-squeeze',
    title: 'Compression around the tube under the fingers',
    measured: compression,
    required: limit.value,
    unit: 'MPa',
    sense: 'max',
    basis: `${pressure.toFixed(2)} MPa outside from ${force.toFixed(0)} N at friction ${assume.frictionLow} and ${assume.handTorque} N m; thick-walled cylinder; the limit for tension is taken, compression does not craze; ${limit.basis}`,
    status: limit.status,
    remedy: () => {
      const torque = Number(
        (Math.floor((10 * assume.handTorque * limit.value) / compression) / 10).toFixed(1),
      );
      return {
        text: `turn the ring with at most ${torque.toFixed(1)} N m`,
        tries: attempt(
          machine,
          `a hand’s torque of ${torque.toFixed(1)} N m`,
          { 'assume.hand_torque': torque },
          (tried) => meets(squeezeOf(tried), sustained(tried).value, 'max'),
        ),
      };
    },
    at: { point: headPlace(machine) },
  });
}

/** Strain (%) in the fingers when their heads are pushed in by so much (mm). */
export function fingerStrainAt({ grip }: Machine, travel: number): number {
  const { mount } = grip;
  const stem = mount.headBottom - mount.slotBottom;
  return 100 * cantileverStrain(travel, stem, (mount.headTop - mount.headBottom) / 2, fibreOf(grip));
}

const fibreOf = ({ mount, fingers, slotWidth }: Machine['grip']) =>
  fingerFibre({
    inner: mount.fingerRadius,
    thickness: mount.stemRadius - mount.fingerRadius,
    count: fingers,
    slot: slotWidth,
  });

/** Strain that stays in the fingers while they hold the likely tube, and the worst one. */
export function fingerStrain(machine: Machine): Finding {
  const { grip, print, tube } = machine;
  const { mount } = grip;
  const limit = plastic(print.material).sustainedStrain ?? SUSTAINED_STRAIN;
  const fibre = fibreOf(grip);
  const strain = (travel: number) => fingerStrainAt(machine, travel);
  const likely = tube.outer.high / 2 + grip.travel.entry - tube.outer.mean / 2 + grip.travel.squeeze;
  return judge({
    id: 'strength/finger-strain',
    title: 'Strain that stays in the mount’s fingers',
    measured: strain(likely),
    worst: strain(grip.travel.needed),
    required: limit.value,
    unit: '%',
    sense: 'max',
    basis: `arc section of ${grip.fingers} fingers, extreme fibre ${fibre.toFixed(2)} mm from the neutral axis; ${limit.meaning}, ${limit.source}`,
    status: limit.status,
    remedy: () =>
      `a tube out of round by less: its readings and the squeeze ask ${grip.travel.needed.toFixed(2)} mm of travel, ${((grip.travel.needed * limit.value) / strain(grip.travel.needed)).toFixed(2)} mm may stay`,
    at: { point: [mount.stemRadius, 0, mount.slotBottom] },
  });
}

export function holding(machine: Machine): Finding {
  const { assume } = machine;
  const force = radialForce(machine, assume.frictionHigh);
  return judge({
    id: 'grip/holding',
    title: 'Axial hold of the grip: closed by hand at high friction, held at low friction',
    measured: assume.frictionLow * force,
    required: HOLDING.value,
    unit: 'N',
    sense: 'min',
    basis: `${force.toFixed(0)} N radial at ${assume.handTorque} N m and friction ${assume.frictionHigh}, held at ${assume.frictionLow}; ${HOLDING.meaning}, ${HOLDING.source}; the machine is never lifted by its column`,
    status: HOLDING.status,
    remedy: () => 'wax on the ring’s thread and cone, and a flexible liner under the fingers',
    at: { point: headPlace(machine) },
  });
}

function torque(machine: Machine, id: string, title: string, perNewton: number): Finding {
  const { assume, grip } = machine;
  const force = HOLDING.value / assume.frictionLow;
  const measured = (perNewton * force) / 1000;
  return judge({
    id,
    title,
    measured,
    required: assume.handTorque,
    unit: 'N m',
    sense: 'max',
    basis: `${force.toFixed(0)} N radial, which hold ${HOLDING.value} N at friction ${assume.frictionLow}, turned at friction ${assume.frictionHigh}; common practice, no source`,
    status: 'common-practice',
    remedy: () => 'wax on the ring’s thread and cone, or a strap around the ring',
    at: { point: [grip.ring.outerRadius, 0, grip.ring.openAt + grip.ring.height / 2] },
  });
}

export const ringTorque = (machine: Machine): Finding =>
  torque(
    machine,
    'grip/ring-torque',
    'Torque to close the lock ring',
    closingTorque(lockRing(machine), machine.assume.frictionHigh),
  );

export const releaseTorque = (machine: Machine): Finding =>
  torque(
    machine,
    'grip/release-torque',
    'Torque to open the lock ring',
    openingTorque(lockRing(machine), machine.assume.frictionHigh),
  );

/** The ring stays where it was turned to. */
export function selfLocking(machine: Machine): Finding {
  const { grip, assume } = machine;
  return judge({
    id: 'grip/self-locking',
    title: 'Lead angle of the lock ring’s thread against the friction angle',
    measured: degrees(leadAngle(lockRing(machine))),
    required: degrees(Math.atan(assume.frictionLow)),
    unit: 'degrees',
    sense: 'max',
    basis: `screw formula with friction ${assume.frictionLow}, common practice, no source`,
    status: 'common-practice',
    remedy: () => 'no grease on the thread: at this friction the ring may work loose',
    at: { point: [grip.mount.threadCrest, 0, grip.mount.threadTop] },
  });
}

/** Forces (N) of the two contact bands that take a push at the terminal. */
export function bandForces({ grip, terminal, assume }: Machine): {
  readonly upper: number;
  readonly lower: number;
} {
  const { mount } = grip;
  const lower = (mount.pilotBottom + mount.pilotTop) / 2;
  const upper = (mount.headBottom + mount.headTop) / 2;
  const spacing = upper - lower;
  return {
    upper: (assume.sidePush * (terminal.centreZ - lower)) / spacing,
    lower: (assume.sidePush * (terminal.centreZ - upper)) / spacing,
  };
}

export function bandPressure(machine: Machine): Finding {
  const { grip, print, tube, assume } = machine;
  const { mount } = grip;
  const forces = bandForces(machine);
  const pressures = {
    upper: forces.upper / (tube.outer.mean * (mount.headTop - mount.headBottom)),
    lower: forces.lower / (tube.outer.mean * (mount.pilotTop - mount.pilotBottom)),
  };
  const { strength } = plastic(print.material);
  return judge({
    id: 'strength/band-pressure',
    title: 'Pressure of the mount’s contact bands under a push at the terminal',
    measured: Math.max(pressures.upper, pressures.lower),
    required: BAND_SHARE.value * strength.value,
    unit: 'MPa',
    sense: 'max',
    basis: `${assume.sidePush} N at the terminal’s centre: ${forces.upper.toFixed(0)} N on the fingers, ${forces.lower.toFixed(0)} N on the pilot, over their projected areas; ${BAND_SHARE.meaning}, ${BAND_SHARE.source}`,
    status: BAND_SHARE.status,
    remedy: () => 'a shorter column, or stays that take the push',
    at: { point: headPlace(machine) },
  });
}
