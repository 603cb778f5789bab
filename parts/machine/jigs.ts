import type { BaseLayout } from './base.js';
import type { DriveDesign } from './drive.js';
import type { FeetDesign } from './feet.js';
import { type Calibration, drawnHole, type Fit, printedHole, round } from './fits.js';
import type { Terminal, Tube } from './machine.js';
import { onCircle, plateHoles } from './plate-holes.js';
import { type CapShape, capNormal, capShape, cutRadius, sagitta } from './terminal-cut.js';

type Place = readonly [number, number];

/** Tools that are printed for cutting and drilling what is bought. Lengths in mm, as drawn. */
export interface JigDesign {
  readonly tubeEnd: TubeEndGuide;
  /** Holes that a drill or pin of `pilot` goes through. */
  readonly pilot: Fit;
  readonly drill: DrillJig;
  readonly arm: DrillArm;
  readonly opening: OpeningJig;
}

/** A sleeve around the tube with a square end to mark and saw along. */
export interface TubeEndGuide {
  readonly fit: Fit;
  readonly wall: number;
  readonly length: number;
  /** Wide enough to close on the smallest tube. */
  readonly slit: number;
  readonly flangeRadius: number;
  readonly flangeThickness: number;
}

/** A ring with spokes on the plate: guides for the holes around the column, a pin in the middle, the opening along its inside. */
export interface DrillJig {
  readonly openingRadius: number;
  readonly outerRadius: number;
  readonly thickness: number;
  readonly circle: number;
  readonly boltAngles: readonly number[];
  readonly skirtAngles: readonly number[];
  readonly studAngle: number;
}

/** One use of the arm: what it guides, and the directions (degrees) of the bolt holes that its two pins stand in. */
export interface ArmUse {
  readonly what: 'bracket' | 'foot';
  /** Direction of a foot, degrees. */
  readonly angle?: number;
  readonly pins: readonly [number, number];
  /** Lettered face up or down. */
  readonly up: boolean;
}

/**
 * A plate with two pins in neighbouring bolt holes, for what lies outside the ring. Its holes are told as they lie for the
 * bracket: pins at `PIN_ANGLES`, lettered face up.
 */
export interface DrillArm {
  readonly thickness: number;
  readonly pins: readonly [Place, Place];
  readonly bracket: readonly Place[];
  readonly feet: readonly Place[];
  readonly uses: readonly ArmUse[];
}

/** A beam that turns on a pin at the pole of the terminal and carries a scriber along its shell's normal. */
export interface OpeningJig {
  readonly cap: CapShape;
  /** Chord radius of the circle, and the scriber's lean from the pin's axis in degrees. */
  readonly radius: number;
  readonly lean: number;
  /** Height of the beam at the pin, its width, and how far it reaches behind the pin and beyond it. */
  readonly height: number;
  readonly width: number;
  readonly behind: number;
  readonly beyond: number;
  /** Height beyond the outer pads. */
  readonly top: number;
}

/** mm, our choice: a drill of 3 mm starts every hole true, whatever its size. */
export const PILOT_DRILL = 3;
const SLEEVE = { wall: 3, lengthStep: 5, leastSlit: 3, slitRoom: 1, flange: 7, flangeThickness: 4 };
/** Length of a sleeve over the tube's diameter: shorter ones tilt. Common practice, no source. */
export const SLEEVE_SHARE = 0.5;
const DRILL = { thickness: 5, armThickness: 4 };
/** Guides keep this distance from each other, middle to middle. mm */
export const GUIDES_APART = 8;
/** Directions of the bolt holes that the arm's pins stand in for the bracket: it lies at -x. */
export const PIN_ANGLES = [150, 210] as const;
const ARM_MIDDLE = 180;
/** From one bolt of the collar to the next, degrees. */
const BOLT_STEP = 60;
const BEAM = { height: 12, width: 16, behind: 30, edge: 6, pad: 6, mostLean: 40 };

export function designJigs(input: {
  readonly tube: Tube;
  readonly base: BaseLayout;
  readonly drive: DriveDesign;
  readonly feet: FeetDesign;
  readonly terminal: Terminal;
  readonly calibration: Calibration;
}): JigDesign {
  const { tube, base, calibration, terminal } = input;
  const pilot = { low: PILOT_DRILL, likely: PILOT_DRILL, high: PILOT_DRILL };
  return {
    tubeEnd: designTubeEnd(tube, calibration),
    pilot: printedHole(
      { id: 'fit/jig-pilot', title: 'Drill in its guide', class: 'snug' },
      pilot,
      calibration,
    ),
    drill: {
      openingRadius: round(drawnHole(calibration, 2 * base.plate.openingRadius) / 2),
      outerRadius: base.collar.flangeRadius,
      thickness: DRILL.thickness,
      circle: base.boltRadius,
      boltAngles: base.boltAngles,
      skirtAngles: base.skirtBoltAngles,
      studAngle: base.stud.angle,
    },
    arm: designArm(input),
    opening: designOpening(terminal),
  };
}

function designTubeEnd({ outer }: Tube, calibration: Calibration): TubeEndGuide {
  const fit = printedHole(
    { id: 'fit/tube-end-guide', title: 'Tube in its end guide', class: 'slide' },
    { low: outer.low, likely: outer.mean, high: outer.high },
    calibration,
  );
  const { wall, lengthStep, leastSlit, slitRoom, flange, flangeThickness } = SLEEVE;
  return {
    fit,
    wall,
    length: Math.ceil((SLEEVE_SHARE * outer.high) / lengthStep) * lengthStep,
    slit: round(Math.max(leastSlit, Math.PI * fit.clearance.high + slitRoom)),
    flangeRadius: round(fit.drawn / 2 + wall + flange),
    flangeThickness,
  };
}

/**
 * How far out of square (mm across the tube) the guide's end lies: what stays between tube and sleeve over the sleeve's
 * length, times the diameter. Closed around the tube only the print's own scatter stays; left loose all of the clearance.
 */
export function squarenessOf(
  { length, fit }: TubeEndGuide,
  diameter: number,
  scatter: number,
): { readonly closed: number; readonly loose: number } {
  return { closed: (scatter / length) * diameter, loose: (fit.clearance.high / length) * diameter };
}

const apart = ([ax, ay]: Place, [bx, by]: Place) => Math.hypot(ax - bx, ay - by);
const rounded = ([x, y]: Place): Place => [round(x), round(y)];
const turned = (angle: number) => ((angle % 360) + 360) % 360;

/**
 * The arm lies on the bolts that stand nearest to both sides of a foot, turned over where the foot is on the other side of
 * their middle; on the next pair where its guide would run into one of the bracket's.
 */
function designArm(input: {
  readonly base: BaseLayout;
  readonly drive: DriveDesign;
  readonly feet: FeetDesign;
}): DrillArm {
  const { base, feet } = input;
  const bracket = plateHoles(input).bracketHoles;
  const pins = PIN_ANGLES.map((angle) => onCircle(base.boltRadius, angle)) as [Place, Place];
  // Feet on the side where the bracket is not.
  const side = bracket.reduce((sum, [, y]) => sum + y, 0) > 0 ? 1 : -1;
  const guideAt = (off: number) => onCircle(feet.radius, ARM_MIDDLE + side * off);
  const isFree = (off: number) =>
    [...bracket, ...pins].every((each) => apart(each, guideAt(off)) >= GUIDES_APART);
  const uses = feet.angles.map((angle): { use: ArmUse; off: number } => {
    const near = Math.round(angle / BOLT_STEP) * BOLT_STEP;
    const next = near + (angle < near ? -BOLT_STEP : BOLT_STEP);
    const middle = isFree(Math.abs(angle - near)) ? near : next;
    const off = angle - middle;
    return {
      off: Math.abs(off),
      use: {
        what: 'foot',
        angle,
        pins: [turned(middle - BOLT_STEP / 2), turned(middle + BOLT_STEP / 2)],
        up: off === 0 || Math.sign(off) === side,
      },
    };
  });
  return {
    thickness: DRILL.armThickness,
    pins: pins.map(rounded) as unknown as [Place, Place],
    bracket: bracket.map(rounded),
    feet: [...new Set(uses.map(({ off }) => off))].map((off) => rounded(guideAt(off))),
    uses: [{ what: 'bracket', pins: PIN_ANGLES, up: true }, ...uses.map(({ use }) => use)],
  };
}

function designOpening(terminal: Terminal): OpeningJig {
  const cap = capShape(terminal);
  const radius = cutRadius({ terminal });
  const lean = Math.min((capNormal(cap, radius) * 180) / Math.PI, BEAM.mostLean);
  const low = BEAM.height + sagitta(cap, radius);
  return {
    cap: { equatorial: round(cap.equatorial), polar: round(cap.polar) },
    radius: round(radius),
    lean: round(lean),
    height: BEAM.height,
    width: BEAM.width,
    behind: BEAM.behind,
    beyond: round(radius + Math.max(BEAM.pad, low * Math.tan((lean * Math.PI) / 180)) + BEAM.edge),
    top: round(BEAM.height + sagitta(cap, radius + BEAM.pad)),
  };
}
