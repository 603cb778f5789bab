import type { Machine } from '../machine/machine.js';
import { fastener } from '../stock/fasteners.js';
import { CARRIER_STEPS, GROUPS } from './carrier-places.js';
import { bothSides, DOWN, type Screw, socket, UP } from './screw.js';
import { SEAT_STEPS } from './terminal-seat-leg.js';

/** Screws of the lower carrier's feet, from below. */
export function lowerCarrierScrews({ plate, base, carriers: { lower } }: Machine): Screw[] {
  const m3 = fastener(lower.screw);
  const underSkirt = -(plate.thickness + base.skirt.thickness + lower.footThickness);
  return bothSides((side) =>
    bothSides(
      (end): Screw => ({
        what: `lower carrier's screw at x ${side < 0 ? '-' : '+'}, y ${end < 0 ? '-' : '+'}`,
        part: 'bearing-carrier-lower',
        drive: socket(lower.screw),
        step: CARRIER_STEPS.lower,
        heads: [
          {
            at: [
              side * lower.screwAt,
              (end * (lower.innerFace + lower.outerFace)) / 2,
              underSkirt - m3.washer.thickness - m3.headHeight,
            ],
            away: DOWN,
          },
        ],
      }),
    ),
  ).flat();
}

/** Screws of the upper carrier's cheeks, from below through the rim ring's flange. */
export function cheekScrews({ rim, tube, carriers: { upper } }: Machine): Screw[] {
  const ringTop = tube.rimZ + rim.flangeThickness;
  const recess = ringTop - (rim.flangeThickness - rim.headDepth) - fastener(upper.screw).headHeight;
  return rim.screws.flatMap(([x, y]) =>
    bothSides(
      (side): Screw => ({
        what: `cheek's screw from below at x ${x.toFixed(0)}, y ${side < 0 ? '-' : '+'}`,
        part: 'bearing-carrier-upper',
        drive: socket(upper.screw),
        step: CARRIER_STEPS.spacer - 0.1,
        bench: GROUPS.rim,
        heads: [{ at: [x, side * y, recess], away: DOWN }],
      }),
    ),
  );
}

/** The screws that the upper axle's blocks stand on. */
export function jackScrewHeads({ rim, tube, carriers: { upper } }: Machine): Screw[] {
  return bothSides((side) => ({
    what: `jack screw at y ${side < 0 ? '-' : '+'}`,
    part: 'axle-block',
    drive: socket(upper.screw),
    // The seat's legs stand over them: it is taken out first.
    step: SEAT_STEPS.leg - 0.1,
    heads: [
      {
        at: [
          upper.block.jackAt,
          (side * (upper.innerFace + upper.outerFace)) / 2,
          tube.rimZ + rim.flangeThickness + upper.jackTop,
        ],
        away: UP,
      },
    ],
  }));
}
