import { THREAD } from '../machine/grip.js';
import { EDGE_ON_RING, type LipClip } from '../machine/lip-ring.js';
import type { Machine } from '../machine/machine.js';
import { radians } from '../solid/vector.js';
import { plastic } from '../stock/plastics.js';
import type { Constant } from '../stock/row.js';
import { armStrain } from './bending.js';
import type { Check } from './check.js';
import type { Finding } from './finding.js';
import { fingerStrainAt, lockRing, radialForce } from './grip.js';
import { judge } from './judge.js';
import { practice } from './practice.js';

export const LAYER_SHARE = practice(
  0.5,
  '',
  'strength or strain of a print across its layers over that along them: 0.5 to 0.7',
);
export const FREQUENT_SHARE: Constant = {
  value: 0.6,
  unit: '',
  meaning: 'strain of a joint that is opened often over that of a single joining',
  source: 'snap-fit handbook of a polymer maker, as told in a public note',
  status: 'verified',
};
export const JOINING_STRAIN = practice(
  1,
  '%',
  'strain at a single joining, where no other value is in stock',
);
export const SHEAR_SHARE = practice(
  0.25,
  '',
  'share of a print’s strength that its threads may bear in shear',
);

/** Share of a thread's length along which its ridges stand on the shaft: crest and both flanks over the pitch. */
const RIDGE_SHARE = (THREAD.crest.value + 2 * THREAD.depth.value) / THREAD.pitch.value;

export const checkJoints: Check = (machine) => [
  fingerJoining(machine),
  clickIn(machine),
  ringThread(machine),
  ...ringClip(machine),
];

/** % that a joint opened often may be strained across or along its layers, and what that rests on. */
export function joiningLimit(
  { print }: Machine,
  layers: 'across' | 'along' = 'across',
): {
  readonly value: number;
  readonly basis: string;
  readonly status: Constant['status'];
} {
  const single = plastic(print.material).joiningStrain ?? JOINING_STRAIN;
  const value = single.value * FREQUENT_SHARE.value;
  const basis = `${single.value} % at a single joining (${single.meaning}, ${single.source}), ${FREQUENT_SHARE.value} of it when opened often (${FREQUENT_SHARE.source})`;
  if (layers === 'along') return { value, basis: `${basis}, along layers`, status: single.status };
  return {
    value: value * LAYER_SHARE.value,
    basis: `${basis}, ${LAYER_SHARE.value} of that across layers (${LAYER_SHARE.source})`,
    status: LAYER_SHARE.status,
  };
}

/** The mount's fingers, closed as far as the worst tube asks, again and again. */
export function fingerJoining(machine: Machine): Finding {
  const limit = joiningLimit(machine);
  const { mount, travel } = machine.grip;
  return judge({
    id: 'strength/finger-joining',
    title: 'Strain of the mount’s fingers at each closing',
    measured: fingerStrainAt(machine, travel.needed),
    required: limit.value,
    unit: '%',
    sense: 'max',
    basis: `${travel.needed.toFixed(2)} mm of travel; ${limit.basis}`,
    status: limit.status,
    remedy: () => 'a rounder tube, or a print material that bears more strain',
    at: { point: [mount.stemRadius, 0, mount.slotBottom] },
  });
}

/** mm that each leg of the lower carrier gives way as a bearing clicks past its bumps, in the tightest print. */
export function clickTravel({ carriers: { lower } }: Machine): number {
  return Math.max(0, lower.bump - lower.pocketFit.clearance.low / 2);
}

/** % of strain in a leg: from the pocket's deepest place to the bumps it is as thick as the pocket leaves it. */
export function clickStrain(machine: Machine): number {
  const { legHalf, bumpBelow, pocketFit } = machine.carriers.lower;
  const radius = pocketFit.drawn / 2;
  const thickness = (at: number) => {
    const over = radius - at;
    return over > 0 ? legHalf - Math.sqrt(Math.max(0, radius ** 2 - over ** 2)) : legHalf - radius;
  };
  return 100 * armStrain(clickTravel(machine), radius + bumpBelow, thickness);
}

export function clickIn(machine: Machine): Finding {
  const { lower } = machine.carriers;
  const limit = joiningLimit(machine);
  return judge({
    id: 'strength/click-in',
    title: 'Strain of the lower carrier’s legs as a bearing clicks in',
    measured: clickStrain(machine),
    required: limit.value,
    unit: '%',
    sense: 'max',
    basis: `bumps of ${lower.bump} mm in a pocket that may come out ${lower.pocketFit.clearance.low.toFixed(2)} mm wider than the bearing at the tightest: ${clickTravel(machine).toFixed(3)} mm a side; arm of changing thickness; ${limit.basis}`,
    status: limit.status,
    remedy: () => 'print the fit coupon and calibrate: a pocket that comes out as drawn asks less',
    at: { point: [lower.pocketFit.drawn / 2, lower.innerFace, machine.rollers.lower.axisZ] },
  });
}

/** % of strain in the hook of a lip ring's clip as the rod is pressed past its end, the sheet's edge opposite. */
export function ringClipStrain({ rodRadius, holdRadius, wall, holdTo }: LipClip): number {
  const past = radians(holdTo - EDGE_ON_RING.value - 180);
  const aside = Math.max(0, rodRadius * (1 - Math.cos(past)) - (holdRadius - rodRadius));
  // The hook bends from over the rod's top to its end.
  const long = radians(holdTo - 90) * (holdRadius + wall / 2);
  return 100 * armStrain(aside, long, () => wall);
}

/** Only of a machine whose lip is a ring. */
export function ringClip(machine: Machine): Finding[] {
  const { lipClip, terminal, print } = machine;
  if (!lipClip) return [];
  const single = plastic(print.material).joiningStrain ?? JOINING_STRAIN;
  return [
    judge({
      id: 'strength/ring-clip',
      title: 'Strain of the lip ring’s clips as the ring is pressed in',
      measured: ringClipStrain(lipClip),
      required: FREQUENT_SHARE.value * single.value,
      unit: '%',
      sense: 'max',
      basis: `a rod of ${2 * lipClip.rodRadius} mm past a hook that ends ${lipClip.holdTo} degrees around it, along the layers; ${single.value} % at a single joining (${single.meaning}, ${single.source}), ${FREQUENT_SHARE.value} of it when opened often (${FREQUENT_SHARE.source})`,
      status: single.status,
      remedy: () => 'a print material that bears more strain',
      at: { point: [lipClip.centreRadius, 0, terminal.lipZ + lipClip.rodRadius] },
    }),
  ];
}

/** MPa across the roots of the lock ring's thread, closed by hand at low friction. */
export function threadShear(machine: Machine): number {
  const { grip, assume } = machine;
  const ring = lockRing(machine);
  const axial = radialForce(machine, assume.frictionLow) * Math.tan(ring.coneAngle);
  const area = 2 * Math.PI * grip.mount.threadRoot * grip.ring.threadLength * RIDGE_SHARE;
  return axial / area;
}

export function ringThread(machine: Machine): Finding {
  const { print, grip } = machine;
  const { strength } = plastic(print.material);
  return judge({
    id: 'strength/ring-thread',
    title: 'Shear across the roots of the lock ring’s thread',
    measured: threadShear(machine),
    required: SHEAR_SHARE.value * LAYER_SHARE.value * strength.value,
    unit: 'MPa',
    sense: 'max',
    basis: `${machine.assume.handTorque} N m at friction ${machine.assume.frictionLow}; ridges that leave the shaft along ${RIDGE_SHARE} of its length; ${SHEAR_SHARE.value} of ${strength.value} MPa, ${LAYER_SHARE.value} of it across layers; ${SHEAR_SHARE.source}`,
    status: SHEAR_SHARE.status,
    remedy: () => 'turn the ring with less torque',
    at: { point: [grip.mount.threadCrest, 0, grip.mount.threadTop] },
  });
}
