import { fastener, nextScrewLength } from '../stock/fasteners.js';
import { type Calibration, round } from './fits.js';
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
  readonly stud: { readonly size: 'M5'; readonly angle: number; readonly length: number };
  readonly collar: {
    readonly flangeRadius: number;
    readonly height: number;
    readonly seatRadius: number;
    readonly seatLand: number;
    readonly lipRadius: number;
    readonly seatTop: number;
    readonly clampGap: number;
    readonly headDepth: number;
    readonly keyWidth: number;
    readonly keyDepth: number;
    readonly studNotchWidth: number;
  };
  readonly skirt: { readonly innerRadius: number; readonly thickness: number; readonly nutDepth: number };
  readonly plate: { readonly openingRadius: number; readonly boltHole: number; readonly studHole: number };
}

const BOLTS = 6;
/** mm */
const COLLAR = {
  /** Cone and foot keep this distance, so that the collar finds its place before it clamps. */
  seatClearance: 0.15,
  /** The collar stands this far off the plate until its screws draw it down onto the mount. */
  clampGap: 0.3,
  lipHeight: 1,
  wallOutsideSeat: 4.5,
  edge: 2.5,
  keyClearance: 0.25,
  /** A counterbored head lies this deep below the surface. */
  aboveHead: 0.4,
  beyondNut: 0.7,
  /** Wide enough for a cable lug and the key of an M5 nut beside the stud. */
  studNotch: 18,
};
const SKIRT_THICKNESS = 8;
/** Room in a nut’s pocket above the nut. mm */
const NUT_RECESS = 0.5;
/** The skirt’s bore lies inside the plate’s opening, so that the belt meets plastic before a sheet edge. mm */
const SKIRT_INSET = 11;
const OPENING_INSET = 8;

/** @param plateThickness mm */
export function designBase(grip: Grip, plateThickness: number, calibration: Calibration): BaseLayout {
  const half = grip.series / 2;
  const hole = -calibration.hole / 2;
  const outside = -calibration.outside / 2;
  const head = fastener('M4');
  // The nominal foot: the collar belongs to the series, not to one printed mount.
  const footRadius = grip.mount.footRadius - outside;
  const cone = COLLAR.seatClearance + hole;
  const seatRadius = footRadius + cone;
  // The lip passes over the mount's thread when the collar is put on from above.
  const lipRadius = half + 1.5 + hole;
  const seatTop = grip.mount.footLand + (seatRadius - lipRadius);
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
    stud: { size: 'M5', angle: 180, length: nextScrewLength(SKIRT_THICKNESS + plateThickness + 9) },
    collar: {
      flangeRadius: round(flangeRadius),
      height: round(height),
      seatRadius: round(seatRadius),
      seatLand: grip.mount.footLand,
      lipRadius: round(lipRadius),
      seatTop: round(seatTop),
      clampGap: COLLAR.clampGap,
      headDepth: round(head.headHeight + COLLAR.aboveHead),
      keyWidth: round(grip.key.width - COLLAR.keyClearance + calibration.hole),
      keyDepth: round(grip.key.depth - COLLAR.keyClearance),
      studNotchWidth: COLLAR.studNotch,
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
