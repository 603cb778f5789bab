import { fastener } from '../stock/fasteners.js';
import type { Constant } from '../stock/row.js';
import { HUB_WALL } from './allowances.js';
import {
  type Calibration,
  drawnHole,
  FIT_ALLOWANCE,
  type Fit,
  type FitClass,
  printedHole,
  round,
} from './fits.js';
import { NUT_PLAY } from './hub.js';

/**
 * A drive pulley: the part that the belt runs on, and beside it a hub with the set screw. Lengths in mm along its own
 * axis, from the face of the belt's part that is farthest from the hub.
 */
export interface PulleyDesign {
  readonly on: 'motor' | 'roller';
  readonly kind: 'round' | 'toothed';
  readonly pitchRadius: number;
  /** 0 for a round belt's pulley. */
  readonly teeth: number;
  readonly boreFit: Fit;
  readonly flatDistance: number;
  /** Of the groove's or the flanges' edge, and of the groove's floor or the teeth's root. */
  readonly rimRadius: number;
  readonly floorRadius: number;
  /** Of the teeth's tips; the rim's for a groove. */
  readonly tipRadius: number;
  /** Flat edge outside the groove; thickness of the flange on the bed. */
  readonly land: number;
  /** Between the flanges, 0 for a groove. */
  readonly toothWidth: number;
  readonly gapWidth: number;
  /** Height of the belt's part, and of the belt's middle. */
  readonly faceWidth: number;
  readonly beltAt: number;
  readonly hubRadius: number;
  /** Height of the cone under a hub that is wider than the rim. */
  readonly cone: number;
  readonly hubLength: number;
  readonly width: number;
  readonly screwHole: number;
  readonly nutFlats: number;
  readonly nutThickness: number;
  readonly nutAt: number;
}

/** One pitch of toothed belt, mm. */
export interface ToothedPitch {
  readonly pitch: number;
  /** From the teeth's tips up to the pitch line. */
  readonly pitchLine: Constant;
  /** Depth and width of the gap in the pulley: a half round with straight flanks, our own profile around the belt's tooth. */
  readonly gapDepth: Constant;
  readonly gapWidth: Constant;
  /** Belt behind its teeth. */
  readonly back: Constant;
}

const recalled = (value: number, meaning: string): Constant => ({
  value,
  unit: 'mm',
  meaning,
  source: 'belt makers’ data',
  status: 'from-memory',
});

const toothed = (
  pitch: number,
  pitchLine: Constant,
  gapDepth: number,
  gapWidth: number,
  back: number,
): ToothedPitch => ({
  pitch,
  pitchLine,
  gapDepth: recalled(gapDepth, 'depth of a tooth’s gap'),
  gapWidth: recalled(gapWidth, 'width of a tooth’s gap'),
  back: recalled(back, 'thickness of the belt without its teeth'),
});

export const TOOTHED_PITCHES: readonly ToothedPitch[] = [
  toothed(
    2,
    {
      value: 0.254,
      unit: 'mm',
      meaning: 'pitch line over the teeth’s tips',
      source: 'note of an open project on 2 mm pulleys',
      status: 'verified',
    },
    0.76,
    1.49,
    0.63,
  ),
  toothed(3, recalled(0.381, 'pitch line over the teeth’s tips'), 1.29, 1.9, 1.23),
  toothed(5, recalled(0.5715, 'pitch line over the teeth’s tips'), 2.2, 3.78, 1.74),
];

export function toothedPitch(pitch: number): ToothedPitch {
  const found = TOOTHED_PITCHES.find((each) => each.pitch === pitch);
  if (!found) throw new RangeError(`no toothed belt of ${pitch} mm pitch`);
  return found;
}

/** Pitch diameter (mm) of a toothed pulley: z p / pi (textbook; verified). */
export function pitchDiameter(teeth: number, pitch: number): number {
  return (teeth * pitch) / Math.PI;
}

/** Diameter over the teeth's tips, mm. */
export function outsideDiameter(teeth: number, pitch: number): number {
  return pitchDiameter(teeth, pitch) - 2 * toothedPitch(pitch).pitchLine.value;
}

/** Whole number of teeth nearest to a pitch diameter (mm). */
export function nearestTeeth(diameter: number, pitch: number): number {
  return Math.round((Math.PI * diameter) / pitch);
}

/** mm, our choice. A groove of 90 degrees prints without support; a round belt lies on its flanks. */
const GROOVE = { land: 1.2, rim: 0.2, floor: 0.6 };
const TEETH = { flange: 1.4, flangeOver: 1.5, beside: 1, land: 0.8 };
const HUB_LENGTH = 10;

/** Radius (mm) of the floor under the belt, by which the bore's wall is judged. */
export function floorRadius(
  belt: { readonly kind: 'round' | 'toothed'; readonly section: number; readonly pitch: number },
  diameter: number,
): number {
  if (belt.kind === 'round') return diameter / 2 - GROOVE.floor * belt.section;
  const { pitchLine, gapDepth } = toothedPitch(belt.pitch);
  return diameter / 2 - pitchLine.value - gapDepth.value;
}

/** Least radius (mm) of that floor around a shaft: as it comes out, so that no calibration enters. */
export function leastFloor(shaftDiameter: number): number {
  return (shaftDiameter + FIT_ALLOWANCE.free.value) / 2 + HUB_WALL.value;
}

export interface DriveBeltSizes {
  readonly kind: 'round' | 'toothed';
  /** Diameter of a round belt, width of a toothed one; pitch of a toothed one, 0 for a round. mm */
  readonly section: number;
  readonly pitch: number;
}

export function designPulley(
  on: 'motor' | 'roller',
  belt: DriveBeltSizes,
  diameter: number,
  shaft: { readonly diameter: number; readonly flat: number },
  fitClass: FitClass,
  calibration: Calibration,
): PulleyDesign {
  const m3 = fastener('M3');
  const boreFit = printedHole(
    {
      id: on === 'motor' ? 'fit/pulley-on-motor-shaft' : 'fit/pulley-on-lower-axle',
      title: on === 'motor' ? 'Pulley on the motor’s shaft' : 'Pulley on the lower axle',
      class: fitClass,
    },
    { low: shaft.diameter - 0.02, likely: shaft.diameter - 0.01, high: shaft.diameter },
    calibration,
  );
  const nutThickness = round(drawnHole(calibration, m3.nutHeight + NUT_PLAY.thickness));
  const nutAt = round(boreFit.drawn / 2 + HUB_WALL.value);
  const hubRadius = round(nutAt + nutThickness + HUB_WALL.value);
  const running = belt.kind === 'round' ? grooved(belt.section, diameter) : withTeeth(belt, diameter);
  const cone = round(Math.max(0, hubRadius - running.rimRadius));
  return {
    on,
    kind: belt.kind,
    boreFit,
    flatDistance: round(shaft.diameter / 2 - shaft.flat + (boreFit.drawn - shaft.diameter) / 2),
    ...running,
    hubRadius,
    cone,
    hubLength: HUB_LENGTH,
    width: round(running.faceWidth + cone + HUB_LENGTH),
    screwHole: m3.clearance.medium,
    nutFlats: round(drawnHole(calibration, m3.nutFlats + NUT_PLAY.flats)),
    nutThickness,
    nutAt,
  };
}

/** Height of the set screw's axis over the belt's face. mm */
export const setScrewAt = (pulley: Pick<PulleyDesign, 'faceWidth' | 'cone' | 'hubLength'>) =>
  pulley.faceWidth + pulley.cone + pulley.hubLength / 2;

function grooved(section: number, diameter: number) {
  const pitchRadius = diameter / 2;
  // Flanks at 45 degrees touch the belt's circle; they would meet in the apex.
  const apex = pitchRadius - section / Math.SQRT2;
  const rimRadius = round(pitchRadius + GROOVE.rim * section);
  const faceWidth = round(2 * (rimRadius - apex) + 2 * GROOVE.land);
  return {
    pitchRadius,
    teeth: 0,
    rimRadius,
    tipRadius: rimRadius,
    floorRadius: round(floorRadius({ kind: 'round', section, pitch: 0 }, diameter)),
    land: GROOVE.land,
    toothWidth: 0,
    gapWidth: 0,
    faceWidth,
    beltAt: faceWidth / 2,
  };
}

function withTeeth({ pitch, section }: DriveBeltSizes, diameter: number) {
  const { pitchLine, gapWidth } = toothedPitch(pitch);
  const teeth = nearestTeeth(diameter, pitch);
  const pitchRadius = pitchDiameter(teeth, pitch) / 2;
  const tipRadius = round(pitchRadius - pitchLine.value);
  const floor = round(floorRadius({ kind: 'toothed', section, pitch }, 2 * pitchRadius));
  const rimRadius = round(tipRadius + TEETH.flangeOver);
  const toothWidth = section + TEETH.beside;
  return {
    pitchRadius,
    teeth,
    rimRadius,
    tipRadius,
    floorRadius: floor,
    land: TEETH.flange,
    toothWidth,
    gapWidth: gapWidth.value,
    faceWidth: round(TEETH.flange + toothWidth + (rimRadius - floor) + TEETH.land),
    beltAt: TEETH.flange + toothWidth / 2,
  };
}
