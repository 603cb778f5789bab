import type { Machine } from '../machine/machine.js';
import { circumscribed, holeLoop, rectangle, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { engravedVolume } from '../solid/marks.js';
import { holeVolume, integrate, loopArea, segmentArea } from '../solid/sections.js';
import type { Loop } from '../solid/vector.js';
import {
  type BodyDimensions,
  bodyDimensions,
  bodyFields,
  dogs,
  dogVolume,
  HUB_COPIES,
  HUB_PRINT,
  hubBody,
  hubBodyVolume,
  hubEngraving,
  hubHeight,
  hubPlaces,
  rollerBearings,
} from './hub-body.js';
import { codeFor, engraver, type Fastener, type PrintedPart, roundBounds, type Stated } from './part.js';
import { PRINT_LIMITS } from './print-limits.js';

type DeadDimensions = BodyDimensions & {
  readonly seatRadius: number;
  readonly seatDepth: number;
  readonly layer: number;
};

/** mm; widens the seat on the bed face, where the bearing goes in. */
export const SEAT_LEAD_IN = 0.6;

/** Printed end of the idling roller: carries a bearing that turns on the fixed axle. */
export const upperHub: PrintedPart<DeadDimensions> = {
  id: 'roller-hub-upper',
  revision: 2,
  purpose: 'carries the upper roller’s shell on a bearing',
  copies: HUB_COPIES,
  step: 52,
  print: HUB_PRINT,
  assembly:
    'File two notches into each end of the upper shell, press a bearing into each hub from its flange side down to the shoulder, push the hubs in with their dogs in the notches and the axle through. The pads of the axle’s blocks, which touch the inner rings only, keep all of it together.',
  fields: {
    ...bodyFields,
    seatRadius: { unit: 'mm', meaning: 'bearing seat, radius' },
    seatDepth: { unit: 'mm', meaning: 'bearing seat, depth' },
    layer: { unit: 'mm', meaning: 'layer height the shoulder’s bridges are stepped in' },
  },
  dimensions({ hubs }: Machine): DeadDimensions {
    const { dead } = hubs.upper;
    if (!dead) throw new RangeError('the upper roller’s axle must be dead');
    return {
      ...bodyDimensions(hubs.upper, dead.shoulderRadius),
      seatRadius: dead.seatFit.drawn / 2,
      seatDepth: dead.seatDepth,
      layer: dead.layer,
    };
  },
  bare: hubBody,
  build(d, k) {
    const mark = hubEngraving(codeFor(upperHub, d), d.seatRadius + SEAT_LEAD_IN, d.flangeRadius);
    return k.subtract(k.union([hubBody(d, k), dogs(d, k)]), [...seat(d, k), engraver(k, mark)]);
  },
  stated(d): Stated {
    const sides = sidesFor(d.seatRadius);
    const { length } = openings(d);
    const steps = openings(d).reduce((sum, { area }) => sum + area * d.layer, 0);
    const lead = integrate(
      (z) => Math.PI * ((d.seatRadius + SEAT_LEAD_IN - z) ** 2 - d.seatRadius ** 2),
      0,
      SEAT_LEAD_IN,
    );
    const bore = holeVolume(d.boreRadius, sidesFor(d.flangeRadius), d.seatDepth + length * d.layer);
    const seatVolume = holeVolume(d.seatRadius, sides, d.seatDepth) + steps - bore + lead;
    const mark = hubEngraving(codeFor(upperHub, d), d.seatRadius + SEAT_LEAD_IN, d.flangeRadius);
    const volume = hubBodyVolume(d) + dogVolume(d) - seatVolume - engravedVolume(mark);
    return {
      genus: 1,
      pieces: 1,
      bounds: roundBounds(d.flangeRadius, hubHeight(d)),
      bareVolume: hubBodyVolume(d),
      volume,
    };
  },
  place: (machine) => hubPlaces(machine, 'upper'),
  fasteners: ({ rollers }): readonly Fastener[] => [rollerBearings(rollers.upper, 'upper roller')],
};

/** mm; half of what the shoulder's first spans go across at most, where the seat is wide: a little less than can be bridged. */
const HALF_SPAN = PRINT_LIMITS.bridge.value / 2 - 0.1;

/** What one layer of the shoulder leaves open within the seat. */
interface Opening {
  readonly loop: Loop;
  /** mm2, within the seat */
  readonly area: number;
}

/**
 * The shoulder hangs over the seat, so it is bridged in straight spans, layer by layer: two sides, then the other two, and
 * then comes the round hole. Where spans beside the hole would be too long, the sides stand off it, and the corners between
 * them are bridged before the hole.
 */
function openings(d: DeadDimensions): readonly Opening[] {
  const { seatRadius, boreRadius } = d;
  const side = Math.max(boreRadius, Math.sqrt(Math.max(0, seatRadius ** 2 - HALF_SPAN ** 2)));
  const far = seatRadius + 1;
  const whole = holeVolume(seatRadius, sidesFor(seatRadius), 1);
  const segment = segmentArea(seatRadius, side);
  const straight = [
    { loop: rectangle(-side, -far, side, far), area: whole - 2 * segment },
    { loop: rectangle(-side, -side, side, side), area: whole - 4 * segment },
  ];
  if (side === boreRadius) return straight;
  // A square with its corners cut, so that the hole touches the cuts.
  const rest = Math.max(0, Math.SQRT2 * boreRadius - side);
  const corners: Loop = [
    [side, -rest],
    [side, rest],
    [rest, side],
    [-rest, side],
    [-side, rest],
    [-side, -rest],
    [-rest, -side],
    [rest, -side],
  ];
  return [...straight, { loop: corners, area: loopArea(corners) }];
}

/** Seat of the bearing, opening on the bed, and the steps of its shoulder. */
function seat(d: DeadDimensions, k: Kernel): Solid[] {
  const sides = sidesFor(d.seatRadius);
  const wide = circumscribed(d.seatRadius + SEAT_LEAD_IN, sides);
  const straight = circumscribed(d.seatRadius, sides);
  const top = (layers: number) => d.seatDepth + layers * d.layer;
  const round = k.extrude([holeLoop(d.seatRadius)], -1, top(openings(d).length));
  // Each from below its layer, so that none ends where the next begins: every one lies within the one before.
  const steps = openings(d).map(({ loop }, i) => k.extrude([loop], d.seatDepth / 2, top(i + 1)));
  const below = k.extrude([holeLoop(d.seatRadius)], -1, d.seatDepth);
  const leadIn = k.revolve(
    [
      [0, -1],
      [wide + 1, -1],
      [straight, SEAT_LEAD_IN],
      [0, SEAT_LEAD_IN],
    ],
    sides,
  );
  return [below, k.intersect(round, k.union(steps)), leadIn];
}
