import { fastener } from '../stock/fasteners.js';
import { insert } from '../stock/inserts.js';
import { type Calibration, drawnHole, round } from './fits.js';

/**
 * Where a comb faces the belt on its roller, and the bracket that holds it there. The comb's plane is horizontal, its
 * edge points along -x at the belt; the bracket slides along x on its seat. Lengths in mm; the lower comb's bracket is
 * the upper one turned over.
 */
export interface CombDesign {
  readonly end: 'lower' | 'upper';
  readonly style: 'mesh' | 'needles';
  readonly width: number;
  readonly gap: number;
  /** Gaps at the bracket's stops. */
  readonly gapRange: { readonly least: number; readonly most: number };
  /** Outer radius of the belt on the roller. */
  readonly beltRadius: number;
  /** Height of the comb's plane over the roller's axis (above for the upper comb, below for the lower), positive. */
  readonly offset: number;
  /** x of the comb's edge at its set gap. */
  readonly tip: number;
  /** z of the comb's plane. */
  readonly plane: number;
  /** z of the face the bracket is screwed to. */
  readonly seat: number;
  /** x of the locking screw. */
  readonly screwAt: number;
  readonly bracket: {
    /** Distance of the comb's plane from the seat. */
    readonly height: number;
    readonly protrusion: number;
    readonly headDepth: number;
    readonly headThickness: number;
    readonly barLength: number;
    readonly barHeight: number;
    readonly barScrewAt: number;
    readonly barScrewSpacing: number;
    readonly wallFrom: number;
    readonly wallTo: number;
    readonly footThickness: number;
    readonly footWidth: number;
    readonly footEnd: number;
    readonly slotFrom: number;
    readonly slotTo: number;
    readonly slotRadius: number;
    readonly insertRadius: number;
    readonly insertDepth: number;
    /** Places of the scale's marks along the bracket, by whole millimetres of gap. */
    readonly scale: readonly { readonly gap: number; readonly at: number }[];
  };
}

/** Degrees along the wrap; half of the 30 degrees in which a comb may face the belt. */
const FACING = 15;
/** mm; below 1 mm a comb touches a belt that flutters, and beyond about 8 it no longer works. Common practice. */
const GAP_STOP = 1.5;
const GAP_MOST = 7.5;
/** mm, along the bracket from the comb's edge. */
const BRACKET = {
  protrusion: 3.5,
  headDepth: 9,
  headThickness: 7,
  barHeight: 5,
  wallThickness: 5,
  footThickness: 5,
  footWidth: 12,
  endWall: 2,
  /** Between the strip and its clamping screws. */
  besideStrip: 4.5,
};

/** Where the comb's edge stands for a given gap: the belt is round there, the bracket slides straight. */
export function tipFor(gap: number, beltRadius: number, offset: number): number {
  return Math.sqrt((beltRadius + gap) ** 2 - offset ** 2);
}

/** The gap that an edge at `tip` leaves; the inverse of `tipFor`. */
export function gapAt(tip: number, beltRadius: number, offset: number): number {
  return Math.hypot(tip, offset) - beltRadius;
}

/** mm from the middle of a locking screw's insert to the edge of the ring it is pressed into. */
export const INSERT_TO_EDGE = 5.2;

/** x of the bracket's wall, from the comb's edge: its face away from the belt, and towards it. mm */
const WALL_TO = BRACKET.protrusion + BRACKET.headDepth + 0.5;
const WALL_FROM = WALL_TO - BRACKET.wallThickness;

/** Least height (mm) of a bracket: its head leans out over 45 degrees above a foot of wall. */
export const LEAST_BRACKET = BRACKET.headThickness + (WALL_FROM - BRACKET.protrusion) + 1;

/** How far (mm) the comb's plane is from the roller's axis, in the middle of the arc in which a comb may face the belt. */
export function planeOffset(beltRadius: number, gap: number): number {
  return round((beltRadius + gap) * Math.sin((FACING * Math.PI) / 180));
}

export function designComb(input: {
  end: 'lower' | 'upper';
  style: 'mesh' | 'needles';
  width: number;
  gap: number;
  axis: number;
  rollerDiameter: number;
  beltThickness: number;
  seat: number;
  calibration: Calibration;
}): CombDesign {
  const { end, style, width, gap, seat } = input;
  const beltRadius = input.rollerDiameter / 2 + input.beltThickness;
  const offset = planeOffset(beltRadius, gap);
  const tip = round(tipFor(gap, beltRadius, offset));
  const plane = end === 'upper' ? input.axis + offset : input.axis - offset;

  const screw = fastener('M3');
  const washer = screw.washer.outer / 2;
  const slotRadius = screw.clearance.medium / 2;
  const slotFrom = WALL_TO + washer + 0.2;
  const least = Math.min(GAP_STOP, gap);
  const most = Math.max(GAP_MOST, gap);
  const toStop = tip - tipFor(least, beltRadius, offset);
  const fromEnd = tipFor(most, beltRadius, offset) - tip;
  const slotTo = slotFrom + toStop + fromEnd;
  const screwAt = tip + slotTo - toStop;
  const marks = Array.from(
    { length: Math.floor(most) - Math.ceil(least) + 1 },
    (_, i) => Math.ceil(least) + i,
  );
  return {
    end,
    style,
    width,
    gap,
    gapRange: { least, most },
    beltRadius,
    offset,
    tip,
    plane: round(plane),
    seat: round(seat),
    screwAt: round(screwAt),
    bracket: {
      height: round(Math.abs(plane - seat)),
      protrusion: BRACKET.protrusion,
      headDepth: BRACKET.headDepth,
      headThickness: BRACKET.headThickness,
      barLength: round(width + 4 * BRACKET.besideStrip),
      barHeight: BRACKET.barHeight,
      barScrewAt: BRACKET.protrusion + BRACKET.headDepth / 2,
      barScrewSpacing: round(width + 2 * BRACKET.besideStrip),
      wallFrom: WALL_FROM,
      wallTo: WALL_TO,
      footThickness: BRACKET.footThickness,
      footWidth: BRACKET.footWidth,
      footEnd: round(slotTo + slotRadius + BRACKET.endWall),
      slotFrom: round(slotFrom),
      slotTo: round(slotTo),
      slotRadius,
      // A hole that prints smaller than the table’s does not let the insert in.
      insertRadius: round(drawnHole(input.calibration, insert('M3').hole) / 2),
      insertDepth: insert('M3').length.value + 0.5,
      // The mark for a gap comes to stand at the index, which is at the screw, when the bracket is set to that gap.
      scale: marks.map((mark) => ({ gap: mark, at: round(screwAt - tipFor(mark, beltRadius, offset)) })),
    },
  };
}
