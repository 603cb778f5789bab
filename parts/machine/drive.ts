import { fastener, nextScrewLength } from '../stock/fasteners.js';
import { ROUND_STRETCH } from './allowances.js';
import { openBelt } from './belt-path.js';
import type { MachineValues } from './declarations.js';
import { type Calibration, type Fit, printedHole, round } from './fits.js';
import { type DriveBeltSizes, designPulley, type PulleyDesign, setScrewAt } from './pulley.js';

/** Angle bracket under the plate that holds the motor. Lengths in mm; x from the motor's axis, y into the machine from its outer face. */
export interface BracketDesign {
  readonly pilotFit: Fit;
  readonly faceThickness: number;
  readonly flangeThickness: number;
  readonly gusset: number;
  readonly innerHalf: number;
  readonly half: number;
  readonly depth: number;
  /** From the motor's axis up to the plate, and down to its lower edge. */
  readonly up: number;
  readonly down: number;
  /** Screws through the plate: beside the axis, and behind the outer face. */
  readonly screw: 'M4';
  readonly screwLength: number;
  readonly screwX: number;
  readonly screwsAt: readonly number[];
  /** How far it slides to either side. */
  readonly travel: number;
  readonly motorScrewLength: number;
  /** Hole of the ground screw in the face: beside the axis, and under it. */
  readonly groundAt: readonly [number, number];
  /** y of the face towards the pulley. */
  readonly face: number;
}

export interface DriveDesign {
  readonly kind: 'round' | 'toothed';
  readonly motor: {
    /** rpm, W, V */
    readonly speed: number;
    readonly power: number;
    readonly supply: number;
    readonly bodyDiameter: number;
    readonly bodyLength: number;
    readonly face: MachineValues['drive']['motor']['face'];
    /** Centre of the motor’s body. */
    readonly at: readonly [number, number, number];
  };
  /** Pitch diameters, mm. */
  readonly pulleys: { readonly motor: number; readonly roller: number };
  readonly pulley: { readonly motor: PulleyDesign; readonly roller: PulleyDesign };
  /** y of the faces from which the pulleys' heights count, and of the belt's middle. */
  readonly place: { readonly motor: number; readonly roller: number; readonly belt: number };
  readonly belt: DriveBeltSizes & {
    /** On the pitch line as fitted, and as bought, mm. */
    readonly fittedLength: number;
    readonly boughtLength: number;
    /** Shortest as bought with which the bracket clears the skirt, and the motor the roller. */
    readonly leastLength: number;
    readonly centreDistance: number;
    /** radians on the motor's and on the roller's pulley */
    readonly wraps: readonly [number, number];
  };
  readonly bracket: BracketDesign;
  readonly fits: readonly Fit[];
}

/** mm between a pulley and what stands still beside it. */
export const PULLEY_GAP = 1.5;
/** mm of air between the belt's roller and the motor's body. Common practice asks 40. */
const MOTOR_CLEARANCE = 45;
/** mm, our choice. */
const BRACKET = {
  face: 6,
  flange: 8,
  gusset: 5,
  besideBody: 1.5,
  besideSkirt: 1,
  /** From a screw's middle at the slot's end to the gusset: half a nut and play. */
  nutRoom: 5,
  fromFace: 8,
  fromEnd: 9.5,
  depthLeast: 40,
  depthMost: 60,
  depthShare: 0.7,
  below: 4,
  /** Around the lug and nut of the ground screw, beside the motor's body and a side wall. */
  lugRoom: 0.3,
};
const LEAST_TRAVEL = 5;
const BEYOND_NUT = 0.7;

/** Nut channel in the flange's underside, depth in mm: the nut slides in it and cannot turn. */
export const NUT_CHANNEL = 3.4;

export function driveBelt({ drive }: Pick<MachineValues, 'drive'>): DriveBeltSizes {
  return drive.kind === 'round'
    ? { kind: 'round', section: drive.belt_diameter, pitch: 0 }
    : { kind: 'toothed', section: drive.belt_width ?? 0, pitch: drive.pitch ?? 0 };
}

/** Both pulleys, from what was measured alone. */
export function designPulleys(values: MachineValues, calibration: Calibration): DriveDesign['pulley'] {
  const { drive, rollers, fits } = values;
  const belt = driveBelt(values);
  const { shaft } = drive.motor.face;
  const { axle } = rollers.lower;
  return {
    motor: designPulley('motor', belt, drive.pulleys.motor, shaft, fits.axle, calibration),
    roller: designPulley('roller', belt, drive.pulleys.roller, axle, fits.axle, calibration),
  };
}

/** mm of axle that the pulley and the room beside it take, beyond the carrier. */
export const pulleyWidth = (pulley: PulleyDesign): number => PULLEY_GAP + pulley.width;

export interface DriveInput {
  readonly values: MachineValues;
  readonly pulley: DriveDesign['pulley'];
  readonly axis: number;
  /** y of the lower carrier's outer face. */
  readonly carrierFace: number;
  readonly skirtRadius: number;
  /** Of the belt on the lower roller. */
  readonly beltRadius: number;
  readonly calibration: Calibration;
}

/** Decides where the motor stands, and its bracket; the axis lies at the lower roller's height. */
export function designDrive(input: DriveInput): DriveDesign {
  const { values, pulley, axis, calibration } = input;
  const { motor, kind, belt_length: bought } = values.drive;
  const { plate } = values.base;
  const sizes = driveBelt(values);
  const [d, D] = [2 * pulley.motor.pitchRadius, 2 * pulley.roller.pitchRadius];
  const bodyRadius = motor.body.diameter / 2;

  const halfFor = (travel: number) =>
    Math.max(bodyRadius + BRACKET.besideBody, 2 * (travel + BRACKET.nutRoom) + 0.5) + BRACKET.gusset;
  const nearest = (travel: number) =>
    Math.max(
      input.skirtRadius + BRACKET.besideSkirt + halfFor(travel) + travel,
      input.beltRadius + MOTOR_CLEARANCE + bodyRadius,
      pulley.motor.rimRadius + pulley.roller.rimRadius + 2,
    );
  const free = openBelt(d, D, nearest(LEAST_TRAVEL)).loopLength;
  const travel = Math.max(LEAST_TRAVEL, Math.ceil(travelWanted(sizes, free)));
  const least = nearest(travel);
  const stretched = kind === 'round' ? 1 + ROUND_STRETCH.value / 100 : 1;
  const fittedLength =
    bought !== undefined
      ? bought * stretched
      : kind === 'round'
        ? openBelt(d, D, least).loopLength
        : Math.ceil(openBelt(d, D, least).loopLength / sizes.pitch) * sizes.pitch;
  const centreDistance = centresFor(fittedLength, d, D);
  const path = openBelt(d, D, centreDistance);

  const half = halfFor(travel);
  const { bolts, pilot } = motor.face;
  const thread = fastener(bolts.thread);
  const place = { roller: input.carrierFace + PULLEY_GAP };
  const belt = place.roller + pulley.roller.beltAt;
  const motorPlace = belt + pulley.motor.beltAt;
  const face = round(motorPlace - pulley.motor.width - PULLEY_GAP);
  const depth = round(
    Math.min(BRACKET.depthMost, Math.max(BRACKET.depthLeast, BRACKET.depthShare * motor.body.length)),
  );
  const m4 = fastener('M4');
  const pilotFit = printedHole(
    { id: 'fit/motor-pilot-in-bracket', title: 'Motor’s pilot in its bracket', class: 'slide' },
    { low: pilot - 0.05, likely: pilot - 0.02, high: pilot },
    calibration,
  );
  // Behind the face a lug and its nut lie in the corner between side wall and motor.
  const lugRadius = fastener('M3').washer.outer / 2 + BRACKET.lugRoom;
  const groundX = half - BRACKET.gusset - lugRadius;
  const groundDown = Math.sqrt(Math.max(0, (bodyRadius + lugRadius) ** 2 - groundX ** 2));
  const down = Math.max(
    Math.max(pilotFit.drawn / 2, bolts.circle / 2 + thread.countersink.diameter / 2) + BRACKET.below,
    groundDown + lugRadius,
  );
  const bracket: BracketDesign = {
    pilotFit,
    faceThickness: BRACKET.face,
    flangeThickness: BRACKET.flange,
    gusset: BRACKET.gusset,
    innerHalf: round(half - BRACKET.gusset),
    half: round(half),
    depth,
    up: round(-axis - plate.thickness),
    down: round(down),
    screw: 'M4',
    screwLength: nextScrewLength(
      m4.washer.thickness + plate.thickness + BRACKET.flange - NUT_CHANNEL + m4.nutHeight + BEYOND_NUT,
    ),
    screwX: round(half - BRACKET.gusset - travel - BRACKET.nutRoom),
    screwsAt: [BRACKET.face + BRACKET.fromFace, round(depth - BRACKET.fromEnd)],
    travel,
    motorScrewLength: nextScrewLength(BRACKET.face + threadDiameter(bolts.thread)),
    groundAt: [round(groundX), round(down - lugRadius)],
    face,
  };
  return {
    kind,
    motor: {
      speed: motor.speed,
      power: motor.power,
      supply: motor.supply,
      bodyDiameter: motor.body.diameter,
      bodyLength: motor.body.length,
      face: motor.face,
      at: [round(-centreDistance), round(face - BRACKET.face - motor.body.length / 2), axis],
    },
    pulleys: { motor: d, roller: D },
    pulley,
    place: { motor: round(motorPlace), roller: round(place.roller), belt: round(belt) },
    belt: {
      ...sizes,
      fittedLength,
      boughtLength: bought ?? fittedLength / stretched,
      leastLength: openBelt(d, D, least).loopLength / stretched,
      centreDistance,
      wraps: path.wraps,
    },
    bracket,
    fits: [pulley.motor.boreFit, pulley.roller.boreFit, pilotFit],
  };
}

/**
 * mm that the motor has to slide to either side: so that a round belt's stretch goes from 5 to 10 %, or a toothed belt goes
 * slack by a tooth and a half.
 */
export function travelWanted({ kind, pitch }: DriveBeltSizes, loopLength: number): number {
  return kind === 'round' ? (ROUND_SLACK * loopLength) / 2 : 0.75 * pitch;
}
/** Share of a round belt's length between its usual stretch and the most or least. */
const ROUND_SLACK = 0.03;

/** mm of shaft that must stand out of the motor for the pulley's set screw to bear on it. */
export function leastShaft(pulley: PulleyDesign): number {
  return BRACKET.face + PULLEY_GAP + (pulley.width - setScrewAt(pulley)) + pulley.screwHole / 2;
}

/** mm, how deep the motor's pilot may reach into the bracket. */
export const PILOT_MOST = BRACKET.face;

/** Nominal diameter of a thread, mm. */
export const threadDiameter = (size: string) => Number(size.slice(1));

/** Distance of centres (mm) at which an open belt has this length: grows with it, found by halving. */
export function centresFor(loopLength: number, first: number, second: number): number {
  let low = (first + second) / 2 + 1e-9;
  if (openBelt(first, second, low).loopLength > loopLength)
    throw new RangeError(`a drive belt of ${loopLength} mm does not go around both pulleys`);
  let high = Math.max(low + 1, loopLength / 2);
  for (let i = 0; i < 60; i++) {
    const middle = (low + high) / 2;
    if (openBelt(first, second, middle).loopLength < loopLength) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
