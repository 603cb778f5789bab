import type { Machine } from '../machine/machine.js';
import { circumscribed, holeLoop, rectangle, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { engravedVolume } from '../solid/marks.js';
import { holeVolume, integrate, segmentArea } from '../solid/sections.js';
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
  revision: 1,
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
    const ring = (depth: number) =>
      holeVolume(d.seatRadius, sides, depth) - holeVolume(d.boreRadius, sidesFor(d.flangeRadius), depth);
    const step = segmentArea(d.seatRadius, d.boreRadius);
    const lead = integrate(
      (z) => Math.PI * ((d.seatRadius + SEAT_LEAD_IN - z) ** 2 - d.seatRadius ** 2),
      0,
      SEAT_LEAD_IN,
    );
    const seatVolume = ring(d.seatDepth + 2 * d.layer) - 2 * step * d.layer - 4 * step * d.layer + lead;
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

/**
 * Seat of the bearing, opening on the bed. Its shoulder hangs over the seat, so it is bridged in straight spans: the first
 * layer closes two sides, the second the other two, and only then comes the round hole.
 */
function seat(d: DeadDimensions, k: Kernel): Solid[] {
  const sides = sidesFor(d.seatRadius);
  const wide = circumscribed(d.seatRadius + SEAT_LEAD_IN, sides);
  const straight = circumscribed(d.seatRadius, sides);
  const round = k.extrude([holeLoop(d.seatRadius)], -1, d.seatDepth + 2 * d.layer);
  const span = d.seatRadius + 1;
  const strip = k.extrude(
    [rectangle(-d.boreRadius, -span, d.boreRadius, span)],
    d.seatDepth,
    d.seatDepth + d.layer,
  );
  const square = k.extrude(
    [rectangle(-d.boreRadius, -d.boreRadius, d.boreRadius, d.boreRadius)],
    d.seatDepth,
    d.seatDepth + 2 * d.layer,
  );
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
  return [below, k.intersect(round, k.union([strip, square])), leadIn];
}
