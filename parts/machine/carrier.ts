import type { BearingMatch } from '../stock/bearings.js';
import { fastener, nextScrewLength } from '../stock/fasteners.js';
import { insert } from '../stock/inserts.js';
import { shoulderFor } from '../stock/shoulders.js';
import { type BondFoil, foilInSlot, foilOverBearing } from './bond-foil.js';
import {
  type Calibration,
  drawnHole,
  drawnOutside,
  type Fit,
  outsideOffset,
  printedHole,
  round,
} from './fits.js';

/**
 * What carries the two rollers. Above, two cheeks stand on the rim ring; in each a block slides up and down on two rails,
 * its jack screw standing on the cheek's floor, and the dead axle lies on its flat in the block's open slot. Below, two
 * cheeks hang under the skirt; the live axle's bearings lie in pockets that are open downwards. The belt's pull holds both
 * axles where they are. Lengths in mm; x and y as in the machine, a cheek standing symmetrically about its own y.
 */
export interface UpperCarrier {
  readonly axleFit: Fit;
  /** |y| of a cheek's face towards the roller, and away from it. */
  readonly innerFace: number;
  readonly outerFace: number;
  /** How far the axle goes up and down from its place. */
  readonly travel: { readonly up: number; readonly down: number };
  readonly screw: 'M3';
  /** Through the rim ring's flange from below. */
  readonly screwLength: number;
  /** Stands on a disc, as large as a washer, on the cheek's floor. */
  readonly jackLength: number;
  readonly block: {
    /** Sides of its body, along x. */
    readonly left: number;
    readonly right: number;
    readonly thickness: number;
    readonly slotHalf: number;
    /** The slot's floor, on which the axle's flat lies, under the axis. */
    readonly flatBelow: number;
    /** Bottom and top under and over the axis. */
    readonly below: number;
    readonly above: number;
    readonly jackAt: number;
    /** Pads that the bearing's inner ring runs against: their reach along x beyond the slot, half height, height off the face. */
    readonly padWidth: number;
    readonly padHalf: number;
    readonly padHeight: number;
  };
  readonly cheek: {
    readonly left: number;
    readonly right: number;
    readonly cavityLeft: number;
    readonly cavityRight: number;
    readonly floor: number;
    readonly height: number;
    /** Of the corners, so that the terminal's opening passes them. */
    readonly chamfer: number;
    readonly screwsAt: readonly number[];
    readonly washerRadius: number;
    readonly washerDepth: number;
  };
  /** Height over the cheek's foot of the jack screw's head: constant, the screw stands on the floor. */
  readonly jackTop: number;
  /** Under the axle’s flat in one block. */
  readonly foil: BondFoil;
}

export interface LowerCarrier {
  readonly pocketFit: Fit;
  readonly innerFace: number;
  readonly outerFace: number;
  readonly screw: 'M3';
  readonly screwLength: number;
  /** Between skirt and axis. */
  readonly axisBelow: number;
  readonly lip: number;
  readonly pocketWidth: number;
  /** Half width of the gap in both lips: clear of the inner ring, holds the outer one. */
  readonly lipHalf: number;
  readonly lipBasis: string;
  /** A bearing clicks in past two bumps: how far they stand out, and how far beyond the axis. */
  readonly bump: number;
  readonly bumpBelow: number;
  readonly legHalf: number;
  readonly legEnd: number;
  readonly footHalf: number;
  readonly footThickness: number;
  readonly screwAt: number;
  /** Over each bearing in its pocket. */
  readonly foil: BondFoil;
  readonly spacer: {
    readonly length: number;
    readonly boreRadius: number;
    readonly outerRadius: number;
  };
}

/** A rail and the tongue that slides in it, flanks at 45 degrees so that they print standing or lying. mm */
export const RAIL = { depth: 1.4, half: 2.6, tongueDepth: 1.2, tongueHalf: 2.4, clearance: 0.3 };

/** mm */
const UPPER = {
  /** From the hub to the cheek, and from the bearing's inner ring to the pad that it runs against. */
  gap: 1,
  endPlay: 0.5,
  /** The bearing stands back so far from the hub's face. */
  recess: 0.2,
  thickness: 8,
  floor: 3,
  underFlat: 4,
  aroundInsert: 1.6,
  besideSlot: 2.4,
  padWidth: 1.2,
  post: 8,
  /** A leg of the terminal's seat goes so deep into the rails above the jack screw's head. */
  legDepth: 18,
  aboveJack: 1,
  chamferLeast: 1,
  washerDepth: 0.6,
  washerPlay: 0.2,
};
export const JACK_TRAVEL = { up: 10, down: 5 };
/** A block at its lowest stays so far over its cheek's floor. mm */
const OVER_FLOOR = 0.5;
/** What is left of the rim ring's flange under a screw's head. mm */
export const UNDER_CHEEK_SCREW = 4;

/** mm */
const LOWER = {
  gap: 1,
  lip: 2,
  pocketPlay: 0.3,
  leg: 4,
  bump: 0.15,
  beyondBump: 4,
  foot: 6,
  footBeyond: 10,
  spacerPlay: 0.2,
};

export function designUpperCarrier(input: {
  readonly hubFace: number;
  readonly axle: { readonly diameter: number; readonly flat: number };
  readonly bearing: BearingMatch;
  /** Of the axis over the rim ring's flange. */
  readonly axisOver: number;
  /** What stands on the rim stays within this radius. */
  readonly reach: number;
  readonly calibration: Calibration;
}): UpperCarrier {
  const { hubFace, axle, bearing, axisOver, reach, calibration } = input;
  const m3 = fastener('M3');
  const brass = insert('M3');
  const axleFit = printedHole(
    { id: 'fit/axle-in-block', title: 'Upper axle in its blocks', class: 'slide' },
    { low: axle.diameter - 0.02, likely: axle.diameter - 0.01, high: axle.diameter },
    calibration,
  );
  const slotHalf = axleFit.drawn / 2;
  const flatBelow = axle.diameter / 2 - axle.flat;
  const below = flatBelow + UPPER.underFlat;
  const above = axle.diameter / 2;
  const jackAt = -(slotHalf + UPPER.aroundInsert + brass.outerDiameter / 2);
  // As it is to come off the printer; both sides are drawn for that.
  const left = jackAt - brass.outerDiameter / 2 - UPPER.aroundInsert;
  const right = slotHalf + UPPER.besideSlot;
  const width = right - left;
  const middle = (left + right) / 2;
  const printedWidth = width + outsideOffset(calibration, width);
  const cavity = drawnHole(calibration, printedWidth + RAIL.clearance);
  const cavityLeft = middle - cavity / 2;
  const cavityRight = middle + cavity / 2;

  const down = Math.max(0, Math.min(JACK_TRAVEL.down, axisOver - below - UPPER.floor - OVER_FLOOR));
  const highest = axisOver + JACK_TRAVEL.up - below;
  const blockHeight = below + above;
  const floorTop = UPPER.floor - UPPER.washerDepth + m3.washer.thickness;
  const jackLength = nextScrewLength(highest - floorTop + blockHeight + OVER_FLOOR);
  const jackTop = floorTop + jackLength + m3.headHeight;

  const innerFace = hubFace + UPPER.gap;
  const outerFace = innerFace + UPPER.thickness;
  const cheekLeft = cavityLeft - UPPER.post;
  const cheekRight = cavityRight + UPPER.post;
  const insertIn = (UPPER.post - RAIL.depth) / 2;
  // A corner cut at 45 degrees lies at most this far out.
  const corner = Math.max(-cheekLeft, cheekRight);
  const fits = (chamfer: number) =>
    Math.max(Math.hypot(corner - chamfer, outerFace), Math.hypot(corner, outerFace - chamfer)) <= reach;
  let chamfer = UPPER.chamferLeast;
  while (!fits(chamfer) && chamfer < UPPER.thickness / 2 - 1) chamfer += 0.5;

  const pad = shoulderFor(bearing.row).innerShoulderMax / 2;
  const padX = slotHalf + UPPER.padWidth;
  const padHeight = UPPER.gap + UPPER.recess + 0.2 - UPPER.endPlay;
  return {
    axleFit,
    innerFace: round(innerFace),
    outerFace: round(outerFace),
    travel: { up: JACK_TRAVEL.up, down: round(down) },
    screw: 'M3',
    screwLength: nextScrewLength(UNDER_CHEEK_SCREW + brass.length.value - 1),
    jackLength,
    jackTop: round(jackTop),
    foil: foilInSlot({ width: 2 * slotHalf, length: UPPER.thickness }),
    block: {
      left: round(left),
      right: round(right),
      thickness: UPPER.thickness - 0.4,
      slotHalf: round(slotHalf),
      flatBelow: round(flatBelow),
      below: round(below),
      above: round(above),
      jackAt: round(jackAt),
      padWidth: UPPER.padWidth,
      padHalf: round(
        Math.min(below - padHeight - OVER_FLOOR, Math.sqrt(Math.max(0.25, pad ** 2 - padX ** 2))),
      ),
      padHeight: round(padHeight),
    },
    cheek: {
      left: round(cheekLeft),
      right: round(cheekRight),
      cavityLeft: round(cavityLeft),
      cavityRight: round(cavityRight),
      floor: UPPER.floor,
      height: round(jackTop + UPPER.aboveJack + UPPER.legDepth),
      chamfer,
      // In the middle of what the rail leaves of a post.
      screwsAt: [round(cheekLeft + insertIn), round(cheekRight - insertIn)],
      washerRadius: round(drawnHole(calibration, m3.washer.outer + 2 * UPPER.washerPlay) / 2),
      washerDepth: UPPER.washerDepth,
    },
  };
}

/** Height over a cheek's foot at which a leg of the terminal's seat ends. mm */
export const legFoot = ({ jackTop }: UpperCarrier) => round(jackTop + UPPER.aboveJack);

export function designLowerCarrier(input: {
  readonly hubFace: number;
  readonly axle: { readonly diameter: number };
  readonly bearing: BearingMatch;
  readonly bearingOuter: { readonly low: number; readonly likely: number; readonly high: number };
  /** Of the skirt's underside over the axis. */
  readonly axisBelow: number;
  readonly calibration: Calibration;
}): LowerCarrier {
  const { hubFace, axle, bearing, bearingOuter, axisBelow, calibration } = input;
  const shoulder = shoulderFor(bearing.row);
  const pocketFit = printedHole(
    {
      id: 'fit/bearing-lower-in-carrier',
      title: `Bearing ${bearing.row.designation} in the lower carrier`,
      class: 'slide',
    },
    bearingOuter,
    calibration,
  );
  const pocket = pocketFit.drawn / 2;
  const legHalf = pocket + LOWER.leg;
  const pocketWidth = bearing.width + LOWER.pocketPlay;
  const innerFace = hubFace + LOWER.gap;
  const outerFace = innerFace + 2 * LOWER.lip + pocketWidth;
  const bumpBelow = Math.sqrt(2 * LOWER.bump * pocket) + 0.3;
  const lipHalf = (shoulder.outerShoulderBoreMin + shoulder.outerShoulderBoreMax) / 4;
  const screwAt = legHalf + LOWER.footBeyond / 2;
  // Turns between the two rings: touches the inner one, passes the lips.
  const outer = (shoulder.innerShoulderMin + Math.min(shoulder.innerShoulderMax, 2 * lipHalf - 1)) / 2;
  const bore = printedHole(
    { id: 'fit/spacer-on-axle', title: 'Spacer on the lower axle', class: 'free' },
    { low: axle.diameter - 0.02, likely: axle.diameter - 0.01, high: axle.diameter },
    calibration,
  );
  return {
    pocketFit,
    innerFace: round(innerFace),
    outerFace: round(outerFace),
    screw: 'M3',
    screwLength: nextScrewLength(
      LOWER.foot + fastener('M3').washer.thickness + insert('M3').length.value - 1,
    ),
    axisBelow: round(axisBelow),
    lip: LOWER.lip,
    pocketWidth: round(pocketWidth),
    lipHalf: round(lipHalf),
    lipBasis: shoulder.basis,
    bump: LOWER.bump,
    bumpBelow: round(bumpBelow),
    legHalf: round(legHalf),
    legEnd: round(axisBelow + bumpBelow + LOWER.beyondBump),
    footHalf: round(legHalf + LOWER.footBeyond),
    footThickness: LOWER.foot,
    screwAt: round(screwAt),
    foil: foilOverBearing({ outer: bearingOuter.likely, width: bearing.width }),
    spacer: {
      length: round(LOWER.gap + LOWER.lip + LOWER.pocketPlay / 2 - LOWER.spacerPlay),
      boreRadius: round(bore.drawn / 2),
      outerRadius: round(drawnOutside(calibration, outer) / 2),
    },
  };
}

/** How far (mm) from the axis the inserts stand that the skirt holds: for the lower comb’s bracket and the lower carrier. */
export function skirtInserts(comb: { readonly screwAt: number }, lower: LowerCarrier): readonly number[] {
  return [comb.screwAt, Math.hypot(lower.screwAt, (lower.innerFace + lower.outerFace) / 2)];
}
