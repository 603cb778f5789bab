import type { Machine } from '../machine/machine.js';
import type { Placement } from '../solid/vector.js';
import { CLEAR_AIR, type Move } from './part.js';

// How rim ring, belt, upper roller and its carrier come together on the bench, and then as one onto the tube.

/** Room under the lower carrier's legs for what comes past them. mm */
const UNDER_LEGS = 2;

/** Printed parts of the upper carrier on the scale of all steps. */
export const CARRIER_STEPS = { lower: 12, cheek: 55, block: 55.5, spacer: 60 } as const;

/** Pieces that are moved as one share a group's move. */
export const GROUPS = {
  /** Ring, belt, roller and carrier: put together on the bench, then set into the tube's rim. */
  rim: 'rim',
  /** Cheek and block, pushed onto the axle's end. */
  cheek: (side: -1 | 1) => `cheek ${side < 0 ? 'left' : 'right'}`,
  /** Roller, hubs, axle, bearings: lifted together into the lower carrier. */
  lowerRoller: 'lower roller',
} as const;

/** Placement of what stands in the middle of a cheek at a height. */
export function besideCarrier({ carriers: { upper } }: Machine, side: -1 | 1, z: number): Placement {
  return { turn: [0, 0, 0], move: [0, (side * (upper.innerFace + upper.outerFace)) / 2, z] };
}

/** A cheek with its block comes over the axle's end from the side, then goes with the ring. */
export function ontoRing(machine: Machine, side: -1 | 1): Move[] {
  const { innerFace, outerFace } = machine.carriers.upper;
  const out = outerFace - innerFace + CLEAR_AIR;
  return [
    {
      slide: [0, -side * out, 0],
      turn: 0,
      why: 'from the side over the axle’s end',
      with: GROUPS.cheek(side),
    },
    intoRim(machine),
  ];
}

/** Everything that stands on the ring goes down with it, the belt's loop first. */
export function intoRim({ tube, rollers, belt }: Machine): Move {
  const lowest = rollers.lower.axisZ - rollers.lower.outer.mean / 2 - belt.thickness;
  return {
    slide: [0, 0, -(tube.rimZ - lowest + CLEAR_AIR)],
    turn: 0,
    why: 'belt through the tube, ring into its rim',
    with: GROUPS.rim,
  };
}

/** How far (mm) the belt is drawn down beyond its place, so that roller and bearings pass under their carrier's legs. */
export function drawnDown({ carriers: { lower }, rollers: { lower: roller } }: Machine): number {
  const radius = Math.max(roller.outer.high / 2 + roller.crown, roller.bearing.row.outer / 2);
  return lower.legEnd - lower.axisBelow + radius + UNDER_LEGS;
}

/** Everything on the lower axle goes up with it into the carrier's pockets, the belt stretched around it. */
export function intoPockets(machine: Machine): Move {
  const down = drawnDown(machine);
  return {
    slide: [0, 0, down],
    turn: 0,
    why: 'drawn down in the belt’s loop, then up until its bearings click into the carrier',
    with: GROUPS.lowerRoller,
    stretches: 'belt',
  };
}
