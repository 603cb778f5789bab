import type { Machine } from '../machine/machine.js';
import { chordOf, cutBeyond } from '../solid/clip.js';
import { circumscribed, holeLoop, polygon, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { engravedVolume } from '../solid/marks.js';
import { holeVolume, integrate, loopArea } from '../solid/sections.js';
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

/** mm; a little less than can be bridged. */
const SPAN = PRINT_LIMITS.bridge.value - 0.2;
/**
 * Directions from which the seat is closed, layer by layer, degrees, and the same from behind. A span that had to stand off comes
 * nearer once its corners are cut; neighbours never lie in one layer, where they would be one roof that no direction suits.
 */
const DIRECTIONS: readonly (readonly number[])[] = [
  [0],
  [90],
  [45, 135],
  [0, 90],
  [22.5, 67.5, 112.5, 157.5],
  [0, 45, 90, 135],
];

/** What one layer of the shoulder leaves open within the seat. */
interface Opening {
  readonly loop: Loop;
  /** mm2 */
  readonly area: number;
}

/**
 * The shoulder hangs over the seat, so it is bridged in straight spans, layer by layer: two sides, then the other two, then
 * across their corners until the spans touch the hole, and only then comes the hole. A span that would be too long stands off
 * the hole, on a narrower place, and the next layer's go across what is left.
 */
function openings(d: DeadDimensions): readonly Opening[] {
  const { seatRadius, boreRadius } = d;
  const circle = (radius: number): Loop => {
    const sides = sidesFor(radius);
    return polygon(circumscribed(radius, sides), sides);
  };
  const found: Opening[] = [];
  const spans = new Map<number, number>();
  // The cutter goes beyond the seat, so that no two walls coincide; what is open ends at the seat.
  let [cutter, open] = [circle(seatRadius + 1), circle(seatRadius)];
  for (const directions of DIRECTIONS) {
    const before = open;
    for (const direction of directions) {
      const at = nearestSpan(before, direction, d);
      spans.set(direction, at);
      for (const way of [direction, direction + 180])
        [cutter, open] = [cutBeyond(cutter, way, at), cutBeyond(open, way, at)];
    }
    found.push({ loop: cutter, area: loopArea(open) });
    // Eight sides that touch the hole are enough.
    if (found.length >= 3 && [...spans.values()].every((at) => at === boreRadius)) break;
  }
  return found;
}

/** mm from the axis to a span across what is open, no longer than can be bridged and no nearer than the hole. */
function nearestSpan(open: Loop, direction: number, { seatRadius, boreRadius }: DeadDimensions): number {
  if (chordOf(open, direction, boreRadius) <= SPAN) return boreRadius;
  let [near, far] = [boreRadius, seatRadius];
  for (let i = 0; i < 50; i++) {
    const middle = (near + far) / 2;
    if (chordOf(open, direction, middle) > SPAN) near = middle;
    else far = middle;
  }
  return far;
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
