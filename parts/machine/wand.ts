import { BREAKDOWN_FIELD } from '../stock/air.js';
import { fastener, nextScrewLength } from '../stock/fasteners.js';
import { practice } from './allowances.js';
import { type Calibration, drawnHole, FIT_ALLOWANCE, outsideOffset, round } from './fits.js';

/**
 * The discharge wand: a handle of eight-sided bars that are printed lying, so that their layers run along it, joined by
 * plugs with a pin across each end. From the hand: grip, guard, segments, head with the ball. Lengths in mm, along the handle.
 */
export interface WandDesign {
  /** Along the surface from the guard's front face to the nearest metal, as wanted and as built. */
  readonly wanted: number;
  readonly insulated: number;
  /** Diameter of the ball. */
  readonly ball: number;
  /** Across the flats of the handle, of a plug, and of the hole that takes it, as drawn. */
  readonly width: number;
  readonly plug: number;
  readonly mortise: number;
  /** Depth of a mortise, and from the bar's face to its pin's middle. */
  readonly depth: number;
  readonly pinAt: number;
  readonly plugLength: number;
  readonly pin: {
    /** Along the handle and across it, and the hole that takes it, as drawn. */
    readonly breadth: number;
    readonly thickness: number;
    readonly holeBreadth: number;
    readonly holeThickness: number;
    /** From its head's underside to the barbs. */
    readonly shank: number;
    /** From its head's underside to where it is slit, and the slit's width. */
    readonly slitFrom: number;
    readonly slit: number;
    /** How far a barb stands out to either side. */
    readonly barb: number;
    readonly head: number;
  };
  readonly segment: { readonly count: number; readonly length: number };
  readonly guard: { readonly diameter: number; readonly thickness: number };
  /** The guard stands between grip and first segment: the grip's mortise is less deep by its thickness. */
  readonly grip: { readonly length: number; readonly depth: number; readonly pinAt: number };
  readonly head: {
    readonly length: number;
    /** Of the mortise with the room for the screw's head. */
    readonly depth: number;
    readonly screw: 'M5';
    readonly screwLength: number;
    readonly screwHole: number;
    /** Of the screw in the ball. */
    readonly engaged: number;
    /** From the head's front face to the ball's middle. */
    readonly ballAt: number;
  };
}

/** What an insulating handle holds along its surface, as for the column of such a machine. */
export const WAND_GRADIENT = practice(
  3,
  'kV/cm',
  'mean gradient along the handle of a wand whose lead is broken',
);

/** Our choice: an eight-sided bar that a hand holds, and a plug whose mortise's roof is no wider than a bridge. */
const BAR = { width: 35, plug: 23, depth: 46, plugShort: 2 };
/** Fits the hole of its bar in the plane of the bed; its legs give way along the handle. */
const PIN = { breadth: 8, thickness: 5, slit: 2.4, slitFrom: 12, barb: 0.7, beyond: 0.4, head: 3 };
const GRIP = { length: 130 };
const GUARD = { diameter: 110, thickness: 6 };
/** Plastic between the screw's head and the ball, room for the screw's head behind the plug, and a cable's lug. */
const HEAD = { block: 26, room: 8, lug: 1, engaged: 8 };
/** What stays free on the bed beyond the ends of a segment, together, and plastic between its two mortises. */
const BED_ROOM = 4;
const LEAST_MIDDLE = 4;

/** mm of handle for a voltage (V), for `WAND_GRADIENT`. */
export function wandLengthFor(voltage: number): number {
  return (voltage / 1000 / WAND_GRADIENT.value) * 10;
}

/**
 * The voltage that the handle is made for: what is wanted of the machine, else what no terminal of this size exceeds, the
 * textbook's 30 kV for each centimetre of its radius. V
 */
export function wandVoltage(target: number | undefined, terminalDiameter: number): number {
  return target ?? (BREAKDOWN_FIELD.value * terminalDiameter) / 2 / 1000;
}

export function designWand(input: {
  readonly wand: { readonly ball: number; readonly length: number | undefined };
  readonly target: number | undefined;
  readonly terminalDiameter: number;
  readonly bed: { readonly x: number; readonly y: number };
  readonly calibration: Calibration;
}): WandDesign {
  const { wand, target, terminalDiameter, bed, calibration } = input;
  const taking = (drawn: number) =>
    round(drawnHole(calibration, drawn + outsideOffset(calibration, drawn) + FIT_ALLOWANCE.slide.value));
  const { width, plug, depth } = BAR;
  const m5 = fastener('M5');

  const stack = HEAD.lug + m5.washer.thickness + m5.nutHeight;
  const screwLength = nextScrewLength(m5.washer.thickness + HEAD.block + stack + HEAD.engaged);
  const headDepth = depth + HEAD.room;
  // The nearest metal is the screw's head, behind the plug; its way out along the mortise is as long as along the outside.
  const inHead = headDepth - m5.washer.thickness - m5.headHeight;
  const wanted = wand.length ?? wandLengthFor(wandVoltage(target, terminalDiameter));
  const least = 2 * depth + LEAST_MIDDLE;
  const most = Math.max(least, Math.max(bed.x, bed.y) - BED_ROOM);
  const rest = Math.max(0, wanted - inHead);
  const count = Math.max(1, Math.ceil(rest / most));
  const length = Math.max(least, Math.ceil(rest / count));
  return {
    wanted: round(wanted),
    insulated: round(count * length + inHead),
    ball: wand.ball,
    width,
    plug,
    mortise: taking(plug),
    depth,
    pinAt: depth / 2,
    plugLength: 2 * depth - BAR.plugShort,
    pin: {
      breadth: PIN.breadth,
      thickness: PIN.thickness,
      holeBreadth: taking(PIN.breadth),
      holeThickness: taking(PIN.thickness),
      shank: width + PIN.beyond,
      slitFrom: PIN.slitFrom,
      slit: PIN.slit,
      barb: PIN.barb,
      head: PIN.head,
    },
    segment: { count, length },
    guard: GUARD,
    grip: {
      length: GRIP.length,
      depth: depth - GUARD.thickness,
      pinAt: depth / 2 - GUARD.thickness,
    },
    head: {
      length: headDepth + HEAD.block,
      depth: headDepth,
      screw: 'M5',
      screwLength,
      screwHole: round(drawnHole(calibration, m5.clearance.medium)),
      engaged: round(screwLength - m5.washer.thickness - HEAD.block - stack),
      ballAt: round(stack + wand.ball / 2),
    },
  };
}

/** Joints from grip to head, each with a plug and two pins. */
export function wandJoints({ segment }: WandDesign): number {
  return segment.count + 1;
}
