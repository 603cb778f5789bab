import type { Constant } from '../stock/row.js';
import {
  type Calibration,
  drawnHole,
  drawnOutside,
  type Fit,
  type FitClass,
  printedHole,
  round,
} from './fits.js';
import type { Reading } from './reading.js';

/**
 * How the tube's foot is held: a printed sleeve (tube-mount) with a snug pilot low down and a ring of fingers higher
 * up. A lock ring on the sleeve's own thread drives a cone over the fingers; the same thread pulls it off again, so
 * that the forces of closing and of releasing stay between these two parts.
 */

const rule = (
  value: number,
  unit: string,
  meaning: string,
  source = 'common practice, no source',
): Constant => ({
  value,
  unit,
  meaning,
  source,
  status: 'common-practice',
});

/** Interfaces between mount, ring and collar come in steps of this, so that a slightly different tube needs only a new mount. */
export const SERIES_STEP = rule(4, 'mm', 'step of the interface diameter');
export const FOOT_HEIGHT = rule(5, 'mm', 'height of the tube’s foot above the plate');
/** Self-locking needs less than the friction angle on the thread; releasing needs the thread, since 10 degrees stick above friction 0.18. */
export const CONE_ANGLE = rule(10, 'degrees', 'half angle of the closing cone');
export const THREAD = {
  starts: rule(3, '', 'thread starts: three points of support, a short turn'),
  pitch: rule(4, 'mm', 'distance between neighbouring threads'),
  depth: rule(1.2, 'mm', 'depth of the thread, flanks at 45 degrees so that they print without support'),
  crest: rule(0.8, 'mm', 'flat on the crest and in the root'),
  clearance: rule(0.3, 'mm', 'radial clearance of the thread'),
  fullTurn: rule(270, 'degrees', 'greatest turn of the lock ring from open to closed: one grip of the hand'),
};
export const GRIP = {
  printTravel: rule(0.2, 'mm', 'radial travel kept for print scatter'),
  entry: rule(0.2, 'mm', 'radial room for the tube to enter the open fingers'),
  squeeze: rule(0.15, 'mm', 'radial squeeze after touching'),
  openClearance: rule(0.2, 'mm', 'radial clearance of the open cone'),
  headThickness: rule(3, 'mm', 'least thickness of a finger’s head at its top'),
  headLength: rule(14, 'mm', 'length of the gripping band'),
  stemThickness: rule(3, 'mm', 'thickness of the bending part of a finger'),
  stemLength: rule(30, 'mm', 'least length of the bending part of a finger, or a small tube’s fingers break'),
  slot: rule(2, 'mm', 'width of the slots between fingers'),
  pilotLength: rule(16, 'mm', 'length of the snug lower band (at least 10 mm)'),
  bandSpacing: rule(0.6, 'of the interface diameter', 'least distance between the two contact bands'),
};
/** Fewer fingers are stiffer arcs: their extreme fibre lies further out. */
const FINGERS_SMALL = 12;
const FINGERS_LARGE = 16;
const LARGE_SERIES = 112;

const KEY = { count: 3, width: 8, depth: 4 };
/** Foot: a low cylinder, then a 45 degree cone that the collar holds down. mm. */
const FOOT = { shoulder: 6, land: 3, beyondThread: 0.6 };

export interface Grip {
  /** Interface diameter, from the stepped series, mm. */
  readonly series: number;
  readonly fingers: number;
  readonly pilotFit: Fit;
  /** Radial travel the fingers need, and what it is made of, mm. */
  readonly travel: {
    readonly needed: number;
    readonly available: number;
    readonly outOfRound: number;
    readonly caliper: number;
    readonly print: number;
    readonly entry: number;
    readonly squeeze: number;
  };
  /** Drop of the ring from open, mm: to touch and squeeze the likely tube, and the most the thread allows. */
  readonly stroke: { readonly likely: number; readonly needed: number; readonly full: number };
  /** Drawn sizes of the mount, mm; radii from the axis, heights from the plate. */
  readonly mount: {
    readonly stopRadius: number;
    readonly pilotRadius: number;
    readonly fingerRadius: number;
    readonly stemRadius: number;
    readonly headRadius: number;
    readonly headTopRadius: number;
    readonly threadRoot: number;
    readonly threadCrest: number;
    readonly footRadius: number;
    readonly footLand: number;
    readonly pilotBottom: number;
    readonly pilotTop: number;
    readonly threadBottom: number;
    readonly threadTop: number;
    readonly slotBottom: number;
    readonly headBottom: number;
    readonly headTop: number;
  };
  /** Drawn sizes of the ring, mm; heights from its own lower end. */
  readonly ring: {
    readonly crestRadius: number;
    readonly rootRadius: number;
    readonly outerRadius: number;
    readonly coneRadius: number;
    readonly coneBottom: number;
    readonly height: number;
    readonly threadLength: number;
    /** Height of the ring's lower end over the plate when open. */
    readonly openAt: number;
  };
  readonly key: { readonly count: number; readonly width: number; readonly depth: number };
  readonly slotWidth: number;
  readonly lead: number;
}

export const coneSlope = Math.tan((CONE_ANGLE.value * Math.PI) / 180);

/**
 * Decides the sizes of mount and ring from the tube's readings.
 * @param tube outside diameter and inside radius (mean, mm)
 */
export function designGrip(
  tube: { outer: Reading; innerRadius: number },
  pilotClass: FitClass,
  caliperError: number,
  calibration: Calibration,
): Grip {
  const { outer } = tube;
  const hole = (radius: number) => drawnHole(calibration, 2 * radius) / 2;
  const outside = (radius: number) => drawnOutside(calibration, 2 * radius) / 2;
  const pilotFit = printedHole(
    { id: 'fit/pilot-on-tube', title: 'Mount’s pilot on the tube', class: pilotClass },
    { low: outer.low, likely: outer.mean, high: outer.high },
    calibration,
  );

  const print = Math.max(GRIP.printTravel.value, calibration.scatter);
  const travel = {
    outOfRound: outer.spread / 2,
    caliper: caliperError,
    print,
    entry: GRIP.entry.value,
    squeeze: GRIP.squeeze.value,
  };
  const needed = travel.outOfRound + travel.caliper + travel.print + travel.entry + travel.squeeze;
  const lead = THREAD.starts.value * THREAD.pitch.value;
  const full = (lead * THREAD.fullTurn.value) / 360;
  const open = GRIP.openClearance.value;
  const openRadius = outer.high / 2 + travel.entry;
  const closing = openRadius - outer.mean / 2 + travel.squeeze;

  const headDrop = GRIP.headLength.value * coneSlope;
  const least = openRadius + GRIP.headThickness.value + headDrop + THREAD.clearance.value;
  const series = Math.ceil((2 * least) / SERIES_STEP.value - 1e-9) * SERIES_STEP.value;
  const half = series / 2;

  const threadCrest = half + THREAD.depth.value - THREAD.clearance.value;
  const threadRoot = half - THREAD.clearance.value;
  const footRadius = threadCrest + FOOT.beyondThread + FOOT.shoulder;
  const threadBottom = FOOT.land + (footRadius - threadRoot);
  const ringThread = 3.5 * THREAD.pitch.value;
  const closedAt = threadBottom + 1;
  const openAt = closedAt + full;
  // Enough thread stays engaged when open: two and a quarter pitches.
  const threadTop = openAt + 2.25 * THREAD.pitch.value;
  const slotBottom = threadTop + 2.5;
  const pilotBottom = FOOT_HEIGHT.value;
  const pilotTop = pilotBottom + GRIP.pilotLength.value;
  const gripCentre = (pilotBottom + pilotTop) / 2 + GRIP.bandSpacing.value * series;
  const headBottom = Math.max(gripCentre - GRIP.headLength.value / 2, slotBottom + GRIP.stemLength.value);
  const headTop = headBottom + GRIP.headLength.value;
  const coneBottom = headBottom - openAt;
  const headRadius = outside(threadRoot);
  const fingerRadius = hole(openRadius);

  return {
    series,
    fingers: series >= LARGE_SERIES ? FINGERS_LARGE : FINGERS_SMALL,
    pilotFit,
    travel: { ...travel, needed, available: full * coneSlope - open },
    stroke: { likely: (closing + open) / coneSlope, needed: (needed + open) / coneSlope, full },
    mount: rounded({
      stopRadius: tube.innerRadius,
      pilotRadius: pilotFit.drawn / 2,
      fingerRadius,
      stemRadius: fingerRadius + GRIP.stemThickness.value,
      headRadius,
      headTopRadius: headRadius - headDrop,
      threadRoot: outside(threadRoot),
      threadCrest: outside(threadCrest),
      footRadius: outside(footRadius),
      footLand: FOOT.land,
      pilotBottom,
      pilotTop,
      threadBottom,
      threadTop,
      slotBottom,
      headBottom,
      headTop,
    }),
    ring: rounded({
      crestRadius: hole(half),
      rootRadius: hole(half + THREAD.depth.value),
      outerRadius: half + THREAD.depth.value + RING_WALL,
      coneRadius: hole(threadRoot + open),
      coneBottom,
      height: headTop - closedAt,
      threadLength: ringThread,
      openAt,
    }),
    key: KEY,
    slotWidth: GRIP.slot.value,
    lead,
  };
}

/** mm, plastic outside the ring's thread. */
const RING_WALL = 3.8;

function rounded<T extends Record<string, number>>(sizes: T): T {
  return Object.fromEntries(Object.entries(sizes).map(([key, value]) => [key, round(value)])) as T;
}

/** Turn of the ring (degrees) that lowers it by `drop` mm. */
export function ringTurn(grip: Grip, drop: number): number {
  return (drop / grip.lead) * 360;
}
