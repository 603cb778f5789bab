import { bySize } from './by-size.js';
import type { Sourced } from './row.js';

export const FASTENER_SIZES = ['M2', 'M2.5', 'M3', 'M4', 'M5', 'M6', 'M8'] as const;
export type FastenerSize = (typeof FASTENER_SIZES)[number];

const TWO_TABLES = 'two open fastener tables that agree';
const ONE_TABLE = 'open fastener table';

/** ISO 4762 socket head cap screw, mm. */
export interface SocketCapRow extends Sourced {
  readonly size: FastenerSize;
  readonly pitch: number;
  readonly headPlain: number;
  /** A knurled head is larger; a counterbore has to clear it. */
  readonly headKnurled: number;
  readonly headHeight: number;
  /** Width across the flats of the key. */
  readonly key: number;
  /** Least depth of the socket. */
  readonly keyDepth: number;
}

const cap = (
  size: FastenerSize,
  pitch: number,
  headPlain: number,
  headKnurled: number,
  headHeight: number,
  key: number,
  keyDepth: number,
): SocketCapRow => {
  const sizes = { size, pitch, headPlain, headKnurled, headHeight, key, keyDepth };
  return { ...sizes, source: `ISO 4762: ${TWO_TABLES}`, status: 'verified' };
};

/** Size, P, dk plain max, dk knurled max, k, s, t min. */
export const SOCKET_CAPS: readonly SocketCapRow[] = [
  cap('M2', 0.4, 3.8, 3.98, 2, 1.5, 1),
  cap('M2.5', 0.45, 4.5, 4.68, 2.5, 2, 1.1),
  cap('M3', 0.5, 5.5, 5.68, 3, 2.5, 1.3),
  cap('M4', 0.7, 7, 7.22, 4, 3, 2),
  cap('M5', 0.8, 8.5, 8.72, 5, 4, 2.5),
  cap('M6', 1, 10, 10.22, 6, 5, 3),
  cap('M8', 1.25, 13, 13.27, 8, 6, 4),
];

/** ISO 4032 and ISO 4035 hexagon nuts and the ISO 7089 washer, mm. */
export interface NutRow extends Sourced {
  readonly size: FastenerSize;
  readonly flats: number;
  /** Least width across the nut's rounded corners (rounded in the tables). */
  readonly cornersMin: number;
  readonly height: number;
  readonly thinHeight: number;
  readonly washerInner: number;
  readonly washerOuter: number;
  readonly washerThickness: number;
  readonly washerThicknessMax: number;
}

const nut = (
  size: FastenerSize,
  flats: number,
  cornersMin: number,
  height: number,
  thinHeight: number,
  [washerInner, washerOuter, washerThickness, washerThicknessMax]: readonly [number, number, number, number],
): NutRow => {
  const washer = { washerInner, washerOuter, washerThickness, washerThicknessMax };
  const source = `ISO 4032, ISO 4035, ISO 7089: ${TWO_TABLES}`;
  return { size, flats, cornersMin, height, thinHeight, ...washer, source, status: 'verified' };
};

/** Size, s, e min, m max ISO 4032, m max ISO 4035, washer d1, d2, h, h max. */
export const NUTS: readonly NutRow[] = [
  nut('M2', 4, 4.4, 1.6, 1.2, [2.2, 5, 0.3, 0.35]),
  nut('M2.5', 5, 5.5, 2, 1.6, [2.7, 6, 0.5, 0.55]),
  nut('M3', 5.5, 6.1, 2.4, 1.8, [3.2, 7, 0.5, 0.55]),
  nut('M4', 7, 7.7, 3.2, 2.2, [4.3, 9, 0.8, 0.9]),
  nut('M5', 8, 8.9, 4.7, 2.7, [5.3, 10, 1, 1.1]),
  nut('M6', 10, 11.05, 5.2, 3.2, [6.4, 12, 1.6, 1.8]),
  nut('M8', 13, 14.5, 6.8, 4, [8.4, 16, 1.6, 1.8]),
];

/** 90 degree heads, mm: ISO 10642 (hexagon socket) and ISO 7046-1 (cross recess). They do not share a countersink. */
export interface CountersunkRow extends Sourced {
  readonly size: FastenerSize;
  /** ISO 10642: theoretical head diameter, diameter of the countersink, head height max, key. */
  readonly head: number;
  readonly countersink: number;
  readonly headHeight: number;
  readonly key: number;
  /** ISO 7046-1: theoretical head diameter and head height max. */
  readonly crossHead: number;
  readonly crossHeadHeight: number;
}

const countersunk = (
  size: FastenerSize,
  [head, countersink, headHeight, key]: readonly [number, number, number, number],
  [crossHead, crossHeadHeight]: readonly [number, number],
): CountersunkRow => {
  const sizes = { size, head, countersink, headHeight, key, crossHead, crossHeadHeight };
  return { ...sizes, source: `ISO 10642, ISO 7046-1: ${ONE_TABLE}`, status: 'verified' };
};

export const COUNTERSUNK: readonly CountersunkRow[] = [
  countersunk('M2', [4.09, 3.9, 1.24, 1.3], [4.4, 1.2]),
  countersunk('M2.5', [5.08, 4.9, 1.55, 1.5], [5.5, 1.5]),
  countersunk('M3', [6.72, 6, 1.86, 2], [6.3, 1.65]),
  countersunk('M4', [8.96, 8, 2.48, 2.5], [9.4, 2.7]),
  countersunk('M5', [11.2, 10, 3.1, 3], [10.4, 2.7]),
  countersunk('M6', [13.44, 12, 3.72, 4], [12.6, 3.3]),
  countersunk('M8', [17.92, 16, 4.96, 5], [17.3, 4.65]),
];

/** ISO 273 clearance hole, mm. */
export interface ClearanceHoleRow extends Sourced {
  readonly size: FastenerSize | 'M10';
  readonly fine: number;
  readonly medium: number;
  readonly coarse: number;
}

const hole = (size: FastenerSize | 'M10', fine: number, medium: number, coarse: number): ClearanceHoleRow => {
  return { size, fine, medium, coarse, source: `ISO 273: ${ONE_TABLE}`, status: 'verified' };
};

export const CLEARANCE_HOLES: readonly ClearanceHoleRow[] = [
  hole('M2', 2.2, 2.4, 2.6),
  hole('M2.5', 2.7, 2.9, 3.1),
  hole('M3', 3.2, 3.4, 3.6),
  hole('M4', 4.3, 4.5, 4.8),
  hole('M5', 5.3, 5.5, 5.8),
  hole('M6', 6.4, 6.6, 7),
  hole('M8', 8.4, 9, 10),
  hole('M10', 10.5, 11, 12),
];

/** What a part needs to seat a cap screw, its nut and its washer. Lengths in mm. */
export interface Fastener {
  readonly size: FastenerSize;
  readonly pitch: number;
  /** Of the knurled head, the larger one. */
  readonly headDiameter: number;
  readonly headHeight: number;
  readonly key: number;
  readonly nutFlats: number;
  /** Of the ideal hexagon, flats / cos 30: a pocket's corners are sharp, the nut's are not. */
  readonly nutCorners: number;
  readonly nutHeight: number;
  readonly thinNutHeight: number;
  readonly washer: { readonly inner: number; readonly outer: number; readonly thickness: number };
  readonly countersink: { readonly diameter: number; readonly depth: number };
  readonly clearance: { readonly fine: number; readonly medium: number; readonly coarse: number };
}

export function fastener(size: FastenerSize): Fastener {
  const screw = bySize(SOCKET_CAPS, size);
  const hexagon = bySize(NUTS, size);
  const sunk = bySize(COUNTERSUNK, size);
  const { fine, medium, coarse } = bySize(CLEARANCE_HOLES, size);
  return {
    size,
    pitch: screw.pitch,
    headDiameter: screw.headKnurled,
    headHeight: screw.headHeight,
    key: screw.key,
    nutFlats: hexagon.flats,
    nutCorners: hexagon.flats / Math.cos(Math.PI / 6),
    nutHeight: hexagon.height,
    thinNutHeight: hexagon.thinHeight,
    washer: { inner: hexagon.washerInner, outer: hexagon.washerOuter, thickness: hexagon.washerThicknessMax },
    countersink: { diameter: sunk.head, depth: sunk.headHeight },
    clearance: { fine, medium, coarse },
  };
}

export { nextScrewLength, SCREW_LENGTHS } from './screw-lengths.js';
