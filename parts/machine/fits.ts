import type { Constant } from '../stock/row.js';

/** From tight to loose. */
export const FIT_CLASSES = ['press', 'snug', 'slide', 'free'] as const;
export type FitClass = (typeof FIT_CLASSES)[number];

const allowance = (value: number, meaning: string): Constant => ({
  value,
  unit: 'mm',
  meaning,
  source:
    'our table after printing-service guides (press 0.1, normal 0.15-0.25, sliding 0.2-0.3, loose 0.4-0.5)',
  status: 'common-practice',
});

/** Intended clearance on the diameter, hole minus shaft; negative is an overlap. Replaced by calibrating the printer. */
export const FIT_ALLOWANCE: Readonly<Record<FitClass, Constant>> = {
  press: allowance(-0.1, 'pressed in, holds by itself'),
  snug: allowance(0.1, 'goes together by hand, no play to feel'),
  slide: allowance(0.25, 'slides without force'),
  free: allowance(0.45, 'drops in'),
};

/**
 * What the printer does to a diameter. Printed minus drawn has a constant part, from line width and rounded corners, and one
 * that grows with the size, from shrinkage and steps per mm.
 */
export interface Calibration {
  /** mm, constant part for holes and for outsides */
  readonly hole: number;
  readonly outside: number;
  /** % of the drawn diameter */
  readonly holeScale: number;
  readonly outsideScale: number;
  /** mm to either side, how much a printed diameter varies */
  readonly scatter: number;
}

const printedMinusDrawn = (constant: number, scale: number, drawn: number) =>
  constant + (scale / 100) * drawn;

/** Printed minus drawn diameter (mm) of a hole drawn with this diameter (mm). */
export function holeOffset({ hole, holeScale }: Calibration, drawn: number): number {
  return printedMinusDrawn(hole, holeScale, drawn);
}

/** Printed minus drawn diameter (mm) of an outside drawn with this diameter (mm). */
export function outsideOffset({ outside, outsideScale }: Calibration, drawn: number): number {
  return printedMinusDrawn(outside, outsideScale, drawn);
}

/** Diameter (mm) to draw a hole with that is to come out with this one: `drawn + holeOffset(drawn) = printed`. */
export function drawnHole({ hole, holeScale }: Calibration, printed: number): number {
  return (printed - hole) / (1 + holeScale / 100);
}

/** Diameter (mm) to draw an outside with that is to come out with this one. */
export function drawnOutside({ outside, outsideScale }: Calibration, printed: number): number {
  return (printed - outside) / (1 + outsideScale / 100);
}

/** Least, likely and greatest value of a dimension, mm. */
export interface Span {
  readonly low: number;
  readonly likely: number;
  readonly high: number;
}

/** One printed diameter fitted to a bought one. All diameters in mm; clearance is hole minus shaft. */
export interface Fit {
  readonly id: string;
  readonly title: string;
  readonly class: FitClass;
  /** Which side is printed. */
  readonly printed: 'hole' | 'shaft';
  readonly bought: Span;
  /** The diameter the part is drawn with. */
  readonly drawn: number;
  /** What comes off the printer. */
  readonly asPrinted: Span;
  readonly clearance: Span;
  readonly allowance: number;
}

type Wanted = Pick<Fit, 'id' | 'title' | 'class'>;

/**
 * A hole printed around a bought shaft. For clearance classes it is drawn to pass the largest reading, for a press fit
 * to squeeze the likely one.
 */
export function printedHole(wanted: Wanted, bought: Span, calibration: Calibration): Fit {
  const room = FIT_ALLOWANCE[wanted.class].value;
  const reference = wanted.class === 'press' ? bought.likely : bought.high;
  const drawn = round(drawnHole(calibration, reference + room));
  const likely = drawn + holeOffset(calibration, drawn);
  const asPrinted = { low: likely - calibration.scatter, likely, high: likely + calibration.scatter };
  const clearance = {
    low: asPrinted.low - bought.high,
    likely: likely - bought.likely,
    high: asPrinted.high - bought.low,
  };
  return { ...wanted, printed: 'hole', bought, drawn, asPrinted, clearance, allowance: room };
}

/** A shaft printed to enter a bought hole; the mirror of `printedHole`. */
export function printedShaft(wanted: Wanted, bought: Span, calibration: Calibration): Fit {
  const room = FIT_ALLOWANCE[wanted.class].value;
  const reference = wanted.class === 'press' ? bought.likely : bought.low;
  const drawn = round(drawnOutside(calibration, reference - room));
  const likely = drawn + outsideOffset(calibration, drawn);
  const asPrinted = { low: likely - calibration.scatter, likely, high: likely + calibration.scatter };
  const clearance = {
    low: bought.low - asPrinted.high,
    likely: bought.likely - likely,
    high: bought.high - asPrinted.low,
  };
  return { ...wanted, printed: 'shaft', bought, drawn, asPrinted, clearance, allowance: room };
}

/** Every drawn dimension is rounded to this, so that two machines that differ by less share their parts. */
export const DIMENSION_STEP = 0.001;

export function round(value: number): number {
  // Adding zero turns -0 into 0, which would otherwise hash differently.
  return Math.round(value / DIMENSION_STEP) / Math.round(1 / DIMENSION_STEP) + 0;
}
