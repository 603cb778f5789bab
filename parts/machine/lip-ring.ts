import { practice } from './allowances.js';
import { type Calibration, drawnHole, round } from './fits.js';

/** Where the cut edge of the sheet rests on the ring: degrees up from its outermost place. */
export const EDGE_ON_RING = practice(
  40,
  'degrees',
  'where the sheet’s edge rests on a lip ring, up from the ring’s outermost place: within 20 and 55 it still bears',
);

/** mm */
const CLIP = {
  wall: 2.4,
  play: 0.1,
  width: 10,
  jaw: 9,
  jawThickness: 3,
  jawTip: 1.6,
  /** Between the jaw and the sheet, whose edge is cut by hand. */
  overSheet: 0.3,
};
/** Degrees around the ring, from its outermost place over its top to where a clip ends under its inner side. */
const CLIP_TO = 240;
/** Four clips, between the guides of the rim ring. Degrees. */
const CLIP_ANGLES = [45, 135, 225, 315];
/** mm; of a thinner rod a clip has no hold. */
const LEAST_ROD_RADIUS = 2;
const MOST_ROD_RADIUS = 100;
const ROD_STEP = 0.1;
/** The jaw grows out of the hold around the rod: it lies so far within it at least. mm */
const JAW_IN_HOLD = CLIP.jawThickness - CLIP.wall;

/** A closed ring of rod under the cut edge of the terminal's sheet. mm, heights over the lip's plane, which is its lowest place. */
export interface RingSeat {
  /** Of the circle that the rod's middle runs on. */
  readonly centreRadius: number;
  readonly rodRadius: number;
  /** Of the opening to be cut into the sheet. */
  readonly holeRadius: number;
  /** Where the sheet's outside meets the ring. */
  readonly edgeZ: number;
}

/** Lies the ring's inner diameter free, the sheet is cut so wide that its edge rests on the ring's upper outer side. */
export function ringSeat(freeRadius: number, rodRadius: number): RingSeat {
  const contact = (EDGE_ON_RING.value * Math.PI) / 180;
  const centreRadius = freeRadius + rodRadius;
  return {
    centreRadius,
    rodRadius,
    holeRadius: centreRadius + rodRadius * Math.cos(contact),
    edgeZ: rodRadius * (1 + Math.sin(contact)),
  };
}

/**
 * Half height (mm) of the ellipsoid of revolution with this half width whose top lies `topOver` the lip's plane and whose
 * cut edge rests on the ring. For a sphere of that radius it is the radius again.
 */
export function polarOver(seat: RingSeat, equatorial: number, topOver: number): number {
  const share = seat.holeRadius / equatorial;
  return (topOver - seat.edgeZ) / (1 + Math.sqrt(1 - share * share));
}

/** A printed clip that holds the ring under the sheet's edge: its section in [out from the rod's middle, up], mm as drawn. */
export interface LipClip {
  /** Where it stands: radius of the middle of its hold. */
  readonly centreRadius: number;
  readonly rodRadius: number;
  /** Of its hold around the rod, wider by what the rod is round within the clip's width. */
  readonly holdRadius: number;
  readonly wall: number;
  /** Degrees around the rod. */
  readonly holdTo: number;
  readonly width: number;
  readonly angles: readonly number[];
  /** Underside of the jaw: a straight line over the sheet's inside, by its distance from the rod's middle and its rise. */
  readonly jawOver: number;
  readonly jawRise: number;
  readonly jawEnd: number;
  readonly jawThickness: number;
  readonly jawTip: number;
  /** What it takes of the opening's free radius. */
  readonly inside: number;
}

/** What a clip lies against, mm: thickness of the sheet, and half axes of the terminal's outside. */
export interface ClippedSheet {
  readonly sheet: number;
  readonly equatorial: number;
  readonly polar: number;
}

/** Underside of a clip's jaw, seen from the rod's middle: its rise (radians), its distance, and where the edge lies along it (mm). */
function jawLine({ centreRadius, rodRadius, holeRadius, edgeZ }: RingSeat, on: ClippedSheet) {
  const below = (radius: number) => on.polar * Math.sqrt(Math.max(0, 1 - (radius / on.equatorial) ** 2));
  // The sheet rises outwards, the more the farther: the jaw lies along the chord.
  const rise = Math.atan2(below(holeRadius) - below(holeRadius + CLIP.jaw), CLIP.jaw);
  const [edgeX, edgeY] = [holeRadius - centreRadius, edgeZ - rodRadius];
  // To its sides the sheet rises too.
  const aside = (CLIP.width / 2) ** 2 / (2 * on.equatorial);
  return {
    rise,
    over: edgeY * Math.cos(rise) - edgeX * Math.sin(rise) + on.sheet + CLIP.overSheet + aside,
    edgeAt: edgeX * Math.cos(rise) + edgeY * Math.sin(rise),
  };
}

/**
 * Radius (mm) of the thinnest rod whose clips hold it beside a sheet so thick; undefined where none does.
 * @param topOver mm, the terminal's top over the lip's plane; undefined for a sphere
 */
export function leastRod(
  freeRadius: number,
  sheet: number,
  equatorial: number,
  topOver: number | undefined,
): number | undefined {
  for (let rod = LEAST_ROD_RADIUS; rod < MOST_ROD_RADIUS; rod += ROD_STEP) {
    const seat = ringSeat(freeRadius, rod);
    if (seat.holeRadius + CLIP.jaw >= equatorial) return undefined;
    const polar = topOver === undefined ? equatorial : polarOver(seat, equatorial, topOver);
    if (jawLine(seat, { sheet, equatorial, polar }).over <= rod - JAW_IN_HOLD) return rod;
  }
  return undefined;
}

export function designLipClip(seat: RingSeat, on: ClippedSheet, calibration: Calibration): LipClip {
  const { centreRadius, rodRadius } = seat;
  const { rise, over, edgeAt } = jawLine(seat, on);
  const sagitta = (CLIP.width / 2) ** 2 / (2 * centreRadius);
  const holdRadius = drawnHole(calibration, 2 * (rodRadius + CLIP.play) + sagitta) / 2;
  return {
    centreRadius: round(centreRadius - sagitta / 2),
    rodRadius,
    holdRadius: round(holdRadius),
    wall: CLIP.wall,
    holdTo: CLIP_TO,
    width: CLIP.width,
    angles: CLIP_ANGLES,
    jawOver: round(over),
    jawRise: round((rise * 180) / Math.PI),
    jawEnd: round(edgeAt + CLIP.jaw),
    jawThickness: CLIP.jawThickness,
    jawTip: CLIP.jawTip,
    inside: round(holdRadius - rodRadius + CLIP.wall + sagitta / 2),
  };
}
