import { fastener } from '../stock/fasteners.js';
import type { Machine } from './machine.js';

/** One upright ring of the fit coupon: a hole in an outside. Nominal diameters in mm: the coupon is drawn without calibration. */
export interface CouponRing {
  readonly label: string;
  readonly hole: number;
  readonly outside: number;
  /** What of the machine has these sizes; empty where they are there to tell how the error grows. */
  readonly like: { readonly hole: string; readonly outside: string };
}

export interface CouponSizes {
  /** From the smallest outside to the largest. */
  readonly rings: readonly CouponRing[];
  /** A slot between two walls: width, and thickness of one wall. mm */
  readonly block: { readonly label: string; readonly slot: number; readonly wall: number };
}

/** What is measured with one setting of the caliper. */
export interface CouponFeature {
  readonly label: string;
  readonly kind: CouponKind;
  /** mm */
  readonly drawn: number;
  readonly like: string;
}
export const COUPON_KINDS = ['holes', 'outsides', 'slot', 'wall'] as const;
export type CouponKind = (typeof COUPON_KINDS)[number];

/** mm, common practice: a ring stiff enough for the caliper, in lines of a 0.4 mm nozzle without a gap between them. */
const RING_WALL = 3;
/** Least wall of a hub between bearing and shell, mm. */
const HUB_RING_WALL = 2.2;
/** mm, rings as large as an hour allows: the longer the lever, the better the growth of the error is seen. */
const LARGE = { hole: 34, outside: 40 };
const MIDDLE = { hole: 20, outside: 26 };
/** mm; below it the inside jaws of a caliper do not enter. */
const LEAST_HOLE = 4.5;
/** Sizes go in steps of this, mm: a coupon stays the same when a reading changes a little. */
const STEP = 0.5;
/** mm, four lines of a 0.4 mm nozzle and more, as everywhere in the machine's parts */
const BLOCK_WALL = 3;

const NOTHING = { hole: '', outside: '' };

const stepped = (value: number) => Math.round(value / STEP) * STEP;
const LABELS = 'ABCDEFG';

/**
 * Sizes of the fit coupon for one machine: those of its screw holes, axle, bearing seat and hub, and larger ones. They depend
 * on nothing that a calibration changes.
 */
export function couponSizes({ rollers, base, grip }: Machine): CouponSizes {
  const { upper, lower } = rollers;
  const bearing = upper.bearing.row.outer;
  const spigot = Math.min(LARGE.outside, stepped(upper.inner.mean));
  const around = (hole: number, like: string) => ({
    hole,
    outside: hole + 2 * RING_WALL,
    like: { hole: like, outside: '' },
  });
  const screw = Math.max(LEAST_HOLE, fastener(base.screw).clearance.medium);
  const hub =
    spigot - bearing >= 2 * HUB_RING_WALL
      ? { hole: bearing, outside: spigot, like: { hole: 'bearing’s seat', outside: 'hub in its shell' } }
      : { hole: spigot - 2 * RING_WALL, outside: spigot, like: { hole: '', outside: 'hub in its shell' } };
  const rings = [
    around(screw, `${base.screw} screw’s hole`),
    around(Math.max(LEAST_HOLE, stepped(lower.axle.diameter)), 'axle’s bore'),
    hub,
    { ...MIDDLE, like: NOTHING },
    { ...LARGE, like: NOTHING },
  ].sort((a, b) => a.outside - b.outside || a.hole - b.hole);
  return {
    rings: rings.map((ring, i) => ({ label: LABELS[i]!, ...ring })),
    block: { label: LABELS[rings.length]!, slot: grip.key.width, wall: BLOCK_WALL },
  };
}

/** Everything to be measured, in the order of the measuring list. */
export function couponFeatures({ rings, block }: CouponSizes): CouponFeature[] {
  return [
    ...rings.map(
      ({ label, hole, like }): CouponFeature => ({ label, kind: 'holes', drawn: hole, like: like.hole }),
    ),
    ...rings.map(
      ({ label, outside, like }): CouponFeature => ({
        label,
        kind: 'outsides',
        drawn: outside,
        like: like.outside,
      }),
    ),
    { label: block.label, kind: 'slot', drawn: block.slot, like: 'mount’s key' },
    { label: block.label, kind: 'wall', drawn: block.wall, like: '' },
  ];
}
