import type { UpperCarrier } from './carrier.js';
import { legFoot } from './carrier.js';
import { type Calibration, drawnHole, outsideOffset, round } from './fits.js';

/**
 * What carries the terminal: two legs that slide into the rails of the upper carrier's cheeks, and on them a ring whose
 * three pads the dome rests on from inside. The terminal hangs from above its middle, so that it comes to rest upright;
 * guides under the rim ring centre its opening. Lengths in mm.
 */
export interface SeatDesign {
  /** A leg's foot over the column's frame. */
  readonly footZ: number;
  readonly leg: {
    readonly left: number;
    readonly right: number;
    readonly thickness: number;
    /** In the rails; above it a shoulder stands on the posts. */
    readonly rail: number;
    readonly shoulder: number;
    /** From foot to the head's underside. */
    readonly length: number;
    readonly tenonInset: number;
    readonly tenon: number;
    /** The leg lies across the bed where it is longer than its sides: degrees. */
    readonly turn: number;
  };
  readonly head: {
    readonly underZ: number;
    readonly thickness: number;
    readonly outerRadius: number;
    readonly innerRadius: number;
    readonly padFrom: number;
    /** Directions of the pads, degrees. */
    readonly padAngles: readonly number[];
    readonly padWidth: number;
    /** Half axes of the dome's inside, and its middle over the head's underside. */
    readonly domeRadius: number;
    readonly domeHeight: number;
    readonly domeMiddle: number;
    readonly mortiseLeft: number;
    readonly mortiseRight: number;
    readonly mortiseThickness: number;
    /** |y| of the legs. */
    readonly legsAt: number;
    readonly insertAt: number;
  };
}

/** mm */
const SEAT = {
  shoulder: 5,
  tenonInset: 2,
  tenonPlay: 0.3,
  tenonShort: 0.3,
  headThickness: 8,
  headWidth: 12,
  beyondLegs: 2.4,
  padLength: 9,
  padWidth: 16,
  padLeast: 3,
  /** Solids as drawn stay so far from the sheet, which is faceted there and dented here. */
  offSheet: 0.15,
  aroundMortise: 3,
  contactInset: 6,
};
const PAD_ANGLES = [0, 120, 240];

/** Height (mm) of the dome's inside over a radius, of an ellipsoid with the terminal's diameter and height over its widest section. */
export function domeAt(
  dome: { readonly radius: number; readonly height: number; readonly middle: number },
  radius: number,
): number {
  return dome.middle + dome.height * Math.sqrt(Math.max(0, 1 - (radius / dome.radius) ** 2));
}

export function designSeat(input: {
  readonly carrier: UpperCarrier;
  /** Height of the rim ring's flange. */
  readonly standsAt: number;
  readonly terminal: {
    readonly radius: number;
    readonly shell: number;
    readonly centreZ: number;
    readonly topZ: number;
  };
  /** What passes the opening stays within this radius. */
  readonly reach: number;
  readonly bed: { readonly x: number; readonly y: number };
  readonly calibration: Calibration;
}): SeatDesign {
  const { carrier, standsAt, terminal, reach, bed, calibration } = input;
  const { block, cheek, innerFace, outerFace } = carrier;
  const legsAt = (innerFace + outerFace) / 2;
  const footZ = standsAt + legFoot(carrier);
  const legCorner = Math.hypot(
    Math.max(-block.left, block.right) - SEAT.tenonInset + SEAT.tenonPlay,
    legsAt + (block.thickness + SEAT.tenonPlay) / 2,
  );
  const outerRadius = Math.max(reach, legCorner + SEAT.beyondLegs);
  const dome = {
    radius: terminal.radius - terminal.shell,
    height: terminal.topZ - terminal.centreZ - terminal.shell,
    middle: terminal.centreZ,
  };
  const padBase = domeAt(dome, outerRadius) - SEAT.offSheet - SEAT.padLeast;
  const underZ = padBase - SEAT.headThickness;
  const length = underZ - footZ;
  const tenon = SEAT.headThickness - SEAT.tenonShort;
  const flat = length + tenon <= Math.max(bed.x, bed.y);
  const width = block.right - block.left - 2 * SEAT.tenonInset;
  const play = (drawn: number) =>
    drawnHole(calibration, drawn + outsideOffset(calibration, drawn) + SEAT.tenonPlay);
  const middle = (block.left + block.right) / 2;
  const rail = cheek.height - legFoot(carrier);
  return {
    footZ: round(footZ),
    leg: {
      left: block.left,
      right: block.right,
      thickness: block.thickness,
      rail: round(rail),
      shoulder: SEAT.shoulder,
      length: round(length),
      tenonInset: SEAT.tenonInset,
      tenon,
      turn: flat ? 0 : 45,
    },
    head: {
      underZ: round(underZ),
      thickness: SEAT.headThickness,
      outerRadius: round(outerRadius),
      innerRadius: round(Math.max(5, Math.min(outerRadius - SEAT.headWidth, innerFace - SEAT.aroundMortise))),
      padFrom: round(outerRadius - SEAT.padLength),
      padAngles: PAD_ANGLES,
      padWidth: SEAT.padWidth,
      domeRadius: round(dome.radius - SEAT.offSheet),
      domeHeight: round(dome.height - SEAT.offSheet),
      domeMiddle: round(dome.middle - underZ),
      mortiseLeft: round(middle - play(width) / 2),
      mortiseRight: round(middle + play(width) / 2),
      mortiseThickness: round(play(block.thickness)),
      legsAt: round(legsAt),
      insertAt: round(outerRadius - SEAT.contactInset),
    },
  };
}
