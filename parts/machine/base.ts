import { fastener, nextScrewLength } from '../stock/fasteners.js';
import {
  type Calibration,
  DIMENSION_STEP,
  drawnHole,
  drawnOutside,
  holeOffset,
  outsideOffset,
  round,
} from './fits.js';
import type { Grip } from './grip.js';

/**
 * What stands on and hangs under the plate: the collar over the mount's foot, the skirt below, screwed together through
 * the plate. Heights in mm over the plate's top face, radii from the column's axis.
 */
export interface BaseLayout {
  readonly screw: 'M4';
  readonly screwLength: number;
  readonly skirtScrewLength: number;
  readonly boltRadius: number;
  /** Directions of the screws through collar, plate and skirt, degrees from +x. */
  readonly boltAngles: readonly number[];
  /** Directions of the screws that keep the skirt up while the collar is off. */
  readonly skirtBoltAngles: readonly number[];
  readonly stud: {
    readonly size: 'M5';
    readonly angle: number;
    readonly length: number;
    /** Height of its upper end over the plate. */
    readonly top: number;
    /** Radius of the well in the skirt in which head, washer and lugs lie on the plate’s bare underside. */
    readonly wellRadius: number;
  };
  readonly collar: {
    readonly flangeRadius: number;
    readonly height: number;
    readonly seatRadius: number;
    readonly seatLand: number;
    readonly lipRadius: number;
    /** Gap that stays under the collar when it holds the printed mount down. */
    readonly clampGap: number;
    /** Height over the plate at which the collar as drawn rests on the mount as drawn. */
    readonly restsAt: number;
    readonly headDepth: number;
    readonly keyWidth: number;
    readonly keyDepth: number;
    readonly studNotchWidth: number;
    /** From the ground stud’s axis inwards to the notch’s end. */
    readonly studNotchIn: number;
  };
  readonly skirt: { readonly innerRadius: number; readonly thickness: number; readonly nutDepth: number };
  readonly plate: { readonly openingRadius: number; readonly boltHole: number; readonly studHole: number };
}

const BOLTS = 6;
/** mm */
const COLLAR = {
  /** Radial room around the foot’s cylinder, so that the collar finds its place before its cone holds. */
  seatClearance: 0.15,
  /** The cones meet this far before the collar meets the plate: what the screws pull goes into the mount, not the plate. */
  clampGap: 0.3,
  lipHeight: 1,
  wallOutsideSeat: 4.5,
  edge: 3,
  keyClearance: 0.25,
  /** A counterbored head lies this deep below the surface. */
  aboveHead: 0.4,
  beyondNut: 0.7,
  /** Wide enough for a cable lug and the driver of an M5 nut beside the stud. */
  studNotch: 18,
  /** From the stud’s washers to the notch’s inner end: a nut driver goes down there. */
  besideWasher: 1.2,
};
const SKIRT_THICKNESS = 8;
/** mm; of a ring cable lug. Common practice, no source. */
export const LUG_THICKNESS = 1;
/** Thread beyond the last nut of the ground stud. mm */
const BEYOND_STUD_NUT = 1;
/** Around a washer, for the lug’s shank. mm */
const WELL_ROOM = 1.5;
/** Room in a nut’s pocket above the nut. mm */
const NUT_RECESS = 0.5;
/** The skirt’s bore lies inside the plate’s opening, so that the belt meets plastic before a sheet edge. mm */
const SKIRT_INSET = 11;
const OPENING_INSET = 8;

/** @param plateThickness mm */
export function designBase(grip: Grip, plateThickness: number, calibration: Calibration): BaseLayout {
  const half = grip.series / 2;
  const hole = (radius: number) => drawnHole(calibration, 2 * radius) / 2;
  const head = fastener('M4');
  // The nominal foot: the collar belongs to the series, not to one printed mount.
  const footRadius = grip.mount.footRadius + outsideOffset(calibration, 2 * grip.mount.footRadius) / 2;
  const seatRadius = hole(footRadius + COLLAR.seatClearance);
  // The lip passes over the mount's thread when the collar is put on from above.
  const lipRadius = hole(half + 1.5);
  // Both cones stand at 45 degrees: a step in radius is one in height.
  const seatLand = grip.mount.footLand - COLLAR.clampGap - COLLAR.seatClearance;
  const restsAt = grip.mount.footRadius + grip.mount.footLand - (round(seatRadius) + seatLand);
  const seatTop = seatLand + (seatRadius - lipRadius);
  const boltRadius = seatRadius + COLLAR.wallOutsideSeat + head.headDiameter / 2;
  const flangeRadius = boltRadius + head.headDiameter / 2 + COLLAR.edge;
  const height = seatTop + COLLAR.lipHeight;

  // From the plate's top face to a thread beyond the nut in its pocket.
  const toNut = plateThickness + SKIRT_THICKNESS - NUT_RECESS + COLLAR.beyondNut;
  const underHead = height - head.headHeight - COLLAR.aboveHead;
  return {
    screw: 'M4',
    screwLength: nextScrewLength(underHead + COLLAR.clampGap + toNut),
    skirtScrewLength: nextScrewLength(head.washer.thickness + toNut),
    boltRadius: round(boltRadius),
    boltAngles: Array.from({ length: BOLTS }, (_, i) => 30 + (360 / BOLTS) * i),
    skirtBoltAngles: [60, 240],
    stud: { size: 'M5', angle: 180, ...groundStud(plateThickness) },
    collar: {
      flangeRadius: round(flangeRadius),
      height: round(height),
      seatRadius: round(seatRadius),
      seatLand: round(seatLand),
      lipRadius: round(lipRadius),
      clampGap: COLLAR.clampGap,
      restsAt: round(Math.max(0, restsAt) + DIMENSION_STEP),
      headDepth: round(head.headHeight + COLLAR.aboveHead),
      keyWidth: round(
        drawnOutside(
          calibration,
          grip.key.width - COLLAR.keyClearance + holeOffset(calibration, grip.key.width),
        ),
      ),
      keyDepth: round(grip.key.depth - COLLAR.keyClearance),
      studNotchWidth: COLLAR.studNotch,
      studNotchIn: round(fastener('M5').washer.outer / 2 + COLLAR.besideWasher),
    },
    skirt: {
      innerRadius: round(half - SKIRT_INSET),
      thickness: SKIRT_THICKNESS,
      nutDepth: round(head.nutHeight + NUT_RECESS),
    },
    plate: {
      openingRadius: half - OPENING_INSET,
      boltHole: fastener('M4').clearance.medium,
      studHole: fastener('M5').clearance.medium,
    },
  };
}

/**
 * The ground stud is a joint of metal only: under the plate head, washer and a lug, on it washer and thin nut; then another
 * lug, washer and full nut. Plastic between them would creep and let the contact go. mm
 */
function groundStud(plateThickness: number): { length: number; top: number; wellRadius: number } {
  const { washer, thinNutHeight, nutHeight } = fastener('M5');
  const below = washer.thickness + LUG_THICKNESS + plateThickness;
  const above = 2 * washer.thickness + thinNutHeight + LUG_THICKNESS + nutHeight + BEYOND_STUD_NUT;
  const length = nextScrewLength(below + above);
  return { length, top: length - below, wellRadius: washer.outer / 2 + WELL_ROOM };
}

/** Outside the ground stud’s well, past the rounded edge. mm */
const WELL_WALL = 2.8;

/** Outer radius (mm) of the skirt: at least the collar’s, and wall around each insert and the ground stud’s well. */
export function skirtRadius(base: BaseLayout, inserts: readonly number[], beyondInsert: number): number {
  return Math.max(
    base.collar.flangeRadius,
    base.boltRadius + base.stud.wellRadius + WELL_WALL,
    ...inserts.map((at) => at + beyondInsert),
  );
}
