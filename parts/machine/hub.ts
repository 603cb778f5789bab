import { bearingBoreTolerance, bearingOutsideTolerance } from '../stock/bearing-tolerances.js';
import type { BearingMatch } from '../stock/bearings.js';
import { fastener } from '../stock/fasteners.js';
import { shoulderFor } from '../stock/shoulders.js';
import { HUB_WALL } from './allowances.js';
import {
  type Calibration,
  drawnHole,
  FIT_ALLOWANCE,
  type Fit,
  type FitClass,
  printedHole,
  printedShaft,
  round,
  type Span,
} from './fits.js';
import type { Reading } from './reading.js';

/** A pair of end pieces for one roller. Sizes in mm, as drawn; heights from the hub's outer face inward. */
export interface HubDesign {
  readonly kind: 'live' | 'dead';
  readonly spigotFit: Fit;
  readonly spigotLength: number;
  readonly flangeRadius: number;
  readonly flangeThickness: number;
  readonly dogs: { readonly count: number; readonly width: number; readonly height: number };
  /** What the builder files into each end of the shell. */
  readonly notch: { readonly width: number; readonly depth: number };
  readonly live?: {
    readonly boreFit: Fit;
    /** Distance from the axis to the flat of the bore. */
    readonly flatDistance: number;
    readonly screw: 'M3';
    readonly screwHole: number;
    readonly nutFlats: number;
    readonly nutThickness: number;
    readonly nutAt: number;
  };
  readonly dead?: {
    readonly seatFit: Fit;
    readonly seatDepth: number;
    /** Radius of the opening behind the bearing: clears the inner ring, stops the outer one. */
    readonly shoulderRadius: number;
    readonly shoulderBasis: string;
    readonly layer: number;
  };
}

/** mm */
const HUB = {
  /** The belt never rubs a flange: it stays this far inside the shell’s outside. */
  flangeInset: 0.5,
  deadFlange: 4,
  liveFlange: 10,
  spigot: 12,
  dogHeight: 3,
  dogClearance: 0.4,
  /** Bearings keep this much spigot beyond their inner face. */
  behindBearing: 3,
  axialRoom: 0.2,
};

/** How much wider and thicker than its nut a slot comes out. mm */
export const NUT_PLAY = { flats: 0.2, thickness: 0.3 };

export interface HubInput {
  readonly end: 'lower' | 'upper';
  readonly kind: 'live' | 'dead';
  /** What the belt runs on, and the shell's bore. */
  readonly shell: { readonly outer: Reading; readonly inner: Reading };
  readonly axle: { readonly diameter: number; readonly flat: number };
  readonly bearing: BearingMatch;
  /** As measured; undefined where the catalogue’s tolerance is all there is. */
  readonly bearingOuter: Reading | undefined;
  readonly classes: { readonly shell: FitClass; readonly bearing: FitClass; readonly axle: FitClass };
  readonly layer: number;
}

/** Decides a hub's sizes from the measured shell, the bearing's table row and the axle. */
export function designHub(input: HubInput, calibration: Calibration): HubDesign {
  const { shell, bearing, axle, end } = input;
  const spigotFit = printedShaft(
    { id: `fit/hub-${end}-in-shell`, title: `Hub in the ${end} roller’s shell`, class: input.classes.shell },
    { low: shell.inner.low, likely: shell.inner.mean, high: shell.inner.high },
    calibration,
  );
  const dogWidth = round(Math.min(6, shell.inner.mean / 4));
  const common = {
    kind: input.kind,
    spigotFit,
    flangeRadius: round(shell.outer.low / 2 - HUB.flangeInset),
    dogs: { count: 2, width: dogWidth, height: HUB.dogHeight },
    notch: { width: dogWidth + HUB.dogClearance, depth: HUB.dogHeight + HUB.dogClearance },
  };

  if (input.kind === 'live') {
    const boreFit = printedHole(
      { id: `fit/hub-${end}-on-axle`, title: `Hub on the ${end} axle`, class: input.classes.axle },
      { low: axle.diameter - 0.02, likely: axle.diameter - 0.01, high: axle.diameter },
      calibration,
    );
    const m3 = fastener('M3');
    return {
      ...common,
      spigotLength: HUB.spigot,
      flangeThickness: HUB.liveFlange,
      live: {
        boreFit,
        flatDistance: round(axle.diameter / 2 - axle.flat + (boreFit.drawn - axle.diameter) / 2),
        screw: 'M3',
        screwHole: m3.clearance.medium,
        nutFlats: round(drawnHole(calibration, m3.nutFlats + NUT_PLAY.flats)),
        nutThickness: round(drawnHole(calibration, m3.nutHeight + NUT_PLAY.thickness)),
        nutAt: round(boreFit.drawn / 2 + HUB_WALL.value),
      },
    };
  }

  const shoulder = shoulderFor(bearing.row);
  const seatFit = printedHole(
    {
      id: `fit/bearing-${end}-in-hub`,
      title: `Bearing ${bearing.row.designation} in the ${end} hub`,
      class: input.classes.bearing,
    },
    bearingSpan(bearing, input.bearingOuter),
    calibration,
  );
  const seatDepth = round(bearing.width + HUB.axialRoom);
  return {
    ...common,
    spigotLength: round(Math.max(HUB.spigot, seatDepth + HUB.behindBearing - HUB.deadFlange)),
    flangeThickness: HUB.deadFlange,
    dead: {
      seatFit,
      seatDepth,
      shoulderRadius: round(drawnHole(calibration, shoulder.outerShoulderBoreMax) / 2),
      shoulderBasis: shoulder.basis,
      layer: input.layer,
    },
  };
}

/**
 * Least outside diameter (mm) of a shell whose hub holds the set screw's nut: wall inside the nut and outside it, where
 * the screw pushes it against the plastic. From the axle and the printed sizes as they come out, so that no printer's
 * calibration enters.
 */
export function leastLiveShell(axleDiameter: number): number {
  const m3 = fastener('M3');
  const bore = axleDiameter + FIT_ALLOWANCE.free.value;
  return bore + 2 * (2 * HUB_WALL.value + m3.nutHeight + NUT_PLAY.thickness + HUB.flangeInset);
}

/** Clearance (mm) between an axle and the bore of its bearing: worst cases of ISO 492 Normal class and a ground axle. */
export function axleInBearing(axleDiameter: number, bearing: BearingMatch): { low: number; high: number } {
  const tolerance = bearingBoreTolerance(bearing.row.bore);
  return {
    low: bearing.row.bore + tolerance.lower - axleDiameter,
    high: bearing.row.bore + tolerance.upper - (axleDiameter - 0.02),
  };
}

/** Outside diameter of a bearing: as measured, else by ISO 492 Normal class. mm */
export function bearingSpan(bearing: BearingMatch, measured: Reading | undefined): Span {
  if (measured) return { low: measured.low, likely: measured.mean, high: measured.high };
  const { outer } = bearing.row;
  const { lower, upper } = bearingOutsideTolerance(outer);
  return { low: outer + lower, likely: outer + (lower + upper) / 2, high: outer + upper };
}
