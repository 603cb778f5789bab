import type { HubDesign } from '../machine/hub.js';
import type { Machine } from '../machine/machine.js';
import { circumscribed, holeLoop, rectangle, shaftLoop, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { teardrop } from '../solid/outline.js';
import { prismAlongX } from '../solid/prisms.js';
import {
  holeVolume,
  integrate,
  loopArea,
  revolvedVolume,
  segmentArea,
  slotFromFlat,
} from '../solid/sections.js';
import type { Loop, Placement, Vec2 } from '../solid/vector.js';
import {
  codeFor,
  engraver,
  type Fastener,
  type Placed,
  type PrintedPart,
  roundBounds,
  type Stated,
} from './part.js';

type BodyDimensions = {
  readonly flangeRadius: number;
  readonly flangeThickness: number;
  readonly spigotRadius: number;
  readonly spigotLength: number;
  readonly boreRadius: number;
  readonly dogWidth: number;
  readonly dogHeight: number;
};
type LiveDimensions = BodyDimensions & {
  readonly flatDistance: number;
  readonly screwHole: number;
  readonly nutFlats: number;
  readonly nutThickness: number;
  readonly nutAt: number;
};
type DeadDimensions = BodyDimensions & {
  readonly seatRadius: number;
  readonly seatDepth: number;
  readonly layer: number;
};

/** mm */
const BED_CHAMFER = 0.5;
const LEAD_IN = 1;
export const SEAT_LEAD_IN = 0.6;
const DOGS = 2;
const DOG_ROOT = 1;
const CODE = { most: 3.2, margin: 1.2 };

const height = (d: BodyDimensions) => d.flangeThickness + d.spigotLength;

/** Flange on the bed, spigot up, straight bore. */
function profile(d: BodyDimensions): Loop {
  const bore = circumscribed(d.boreRadius, sidesFor(d.flangeRadius));
  return [
    [bore, 0],
    [d.flangeRadius - BED_CHAMFER, 0],
    [d.flangeRadius, BED_CHAMFER],
    [d.flangeRadius, d.flangeThickness],
    [d.spigotRadius, d.flangeThickness],
    [d.spigotRadius, height(d) - LEAD_IN],
    [d.spigotRadius - LEAD_IN, height(d)],
    [bore, height(d)],
  ];
}

/** Two dogs at +x and -x that enter notches in the shell’s end. */
function dogs(d: BodyDimensions, k: Kernel): Solid {
  const from = d.spigotRadius - DOG_ROOT;
  const both = [
    rectangle(from, -d.dogWidth / 2, d.flangeRadius + 1, d.dogWidth / 2),
    rectangle(-d.flangeRadius - 1, -d.dogWidth / 2, -from, d.dogWidth / 2),
  ];
  const bottom = d.flangeThickness - 1;
  const top = d.flangeThickness + d.dogHeight;
  const inside = k.extrude([shaftLoop(d.flangeRadius)], bottom, top);
  return k.intersect(k.extrude(both, bottom, top), inside);
}

const dogVolume = (d: BodyDimensions) =>
  DOGS *
  d.dogHeight *
  (slotFromFlat(0, d.flangeRadius, d.dogWidth) - slotFromFlat(0, d.spigotRadius, d.dogWidth));

function engraving(text: string, inner: number, outer: number): Engraving {
  return {
    text,
    height: Math.min(CODE.most, outer - inner - CODE.margin),
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    // Mirrored on the bed: drawn at +x it stands at -x, away from the nut of a live hub.
    layout: { kind: 'arc', radius: (inner + outer) / 2, middle: 0 },
    mirrored: true,
  };
}

const screwHeight = (d: LiveDimensions) => d.flangeThickness / 2;

/** Slot for the set screw’s nut: open to the bed, its top the nut’s corner, which prints as a roof. */
function nutSlot(d: LiveDimensions): Loop {
  const half = d.nutFlats / 2;
  const corner = half / Math.cos(Math.PI / 6);
  const z = screwHeight(d);
  return [
    [-half, -1],
    [half, -1],
    [half, z + corner / 2],
    [0, z + corner],
    [-half, z + corner / 2],
  ];
}

/** The part of a round bore beyond the flat that is filled again. */
function flatFill(d: LiveDimensions, k: Kernel): Solid {
  const reach = d.boreRadius + 0.5;
  return k.extrude([rectangle(d.flatDistance, -reach, reach, reach)], 0, height(d));
}

function placements(machine: Machine, end: 'lower' | 'upper'): readonly Placed[] {
  const roller = machine.rollers[end];
  const hub = machine.hubs[end];
  const out = roller.length / 2 + hub.flangeThickness;
  const at = (side: -1 | 1): Placement => ({ turn: [side * 90, 0, 0], move: [0, side * out, roller.axisZ] });
  const travel = hub.spigotLength + 20;
  return ([-1, 1] as const).map((side) => ({
    placement: at(side),
    moves: [
      { slide: [0, -side * travel, 0] as const, turn: 0, why: 'into the shell, dogs into its notches' },
    ],
  }));
}

const bodyFields = {
  flangeRadius: { unit: 'mm', meaning: 'flange, radius' },
  flangeThickness: { unit: 'mm', meaning: 'flange, thickness' },
  spigotRadius: { unit: 'mm', meaning: 'spigot in the shell, radius' },
  spigotLength: { unit: 'mm', meaning: 'spigot, length' },
  boreRadius: { unit: 'mm', meaning: 'bore, radius' },
  dogWidth: { unit: 'mm', meaning: 'dogs, width' },
  dogHeight: { unit: 'mm', meaning: 'dogs, height' },
} as const;

function body(hub: HubDesign, boreRadius: number): BodyDimensions {
  return {
    flangeRadius: hub.flangeRadius,
    flangeThickness: hub.flangeThickness,
    spigotRadius: hub.spigotFit.drawn / 2,
    spigotLength: hub.spigotLength,
    boreRadius,
    dogWidth: hub.dogs.width,
    dogHeight: hub.dogs.height,
  };
}

const bare = (d: BodyDimensions, k: Kernel) => k.revolve(profile(d), sidesFor(d.flangeRadius));
const bareVolume = (d: BodyDimensions) => revolvedVolume(profile(d), sidesFor(d.flangeRadius));
const copies = 2;
const print = { walls: 4, infill: 60, orientation: 'flange on the bed' };

/** Usual lengths of set screws, mm. Source: ISO 4026, from memory. */
const SET_SCREWS = [4, 5, 6, 8, 10, 12, 16, 20];

/** The longest set screw that does not stand out of its hub: what would stand out rubs. */
function setScrewLength(room: number): number {
  return Math.max(SET_SCREWS[0]!, ...SET_SCREWS.filter((length) => length <= room - 0.3));
}

/** Printed end of the driven roller: turns with its axle, held by a set screw on the axle’s flat. */
export const lowerHub: PrintedPart<LiveDimensions> = {
  id: 'roller-hub-lower',
  revision: 1,
  purpose: 'carries the lower roller’s shell on its driven axle',
  copies,
  step: 12,
  print,
  assembly:
    'File two notches into each end of the lower shell, push the hubs in with their dogs in the notches, slide the axle through and draw the set screws down on its flat while pressing the hubs together.',
  fields: {
    ...bodyFields,
    flatDistance: { unit: 'mm', meaning: 'flat of the bore, from the axis' },
    screwHole: { unit: 'mm', meaning: 'hole of the set screw, diameter' },
    nutFlats: { unit: 'mm', meaning: 'nut slot, width' },
    nutThickness: { unit: 'mm', meaning: 'nut slot, thickness' },
    nutAt: { unit: 'mm', meaning: 'nut slot, from the axis' },
  },
  dimensions({ hubs }: Machine): LiveDimensions {
    const { live } = hubs.lower;
    if (!live) throw new RangeError('the lower roller’s axle must be live');
    return {
      ...body(hubs.lower, live.boreFit.drawn / 2),
      flatDistance: live.flatDistance,
      screwHole: live.screwHole,
      nutFlats: live.nutFlats,
      nutThickness: live.nutThickness,
      nutAt: live.nutAt,
    };
  },
  bare,
  build(d, k) {
    const mark = engraving(codeFor(lowerHub, d), d.boreRadius + 1, d.flangeRadius);
    return k.subtract(k.union([bare(d, k), dogs(d, k), flatFill(d, k)]), [
      prismAlongX(teardrop(d.screwHole / 2, [0, screwHeight(d)]), 0, d.flangeRadius + 1, k),
      prismAlongX(nutSlot(d), d.nutAt, d.nutAt + d.nutThickness, k),
      engraver(k, mark),
    ]);
  },
  stated(d): Stated {
    const fill = segmentArea(d.boreRadius, d.flatDistance) * height(d);
    const radius = d.screwHole / 2;
    const tear = radius * radius * (0.75 * Math.PI + 1);
    const slot = nutSlot(d).map(([y, z]): Vec2 => [y, Math.max(0, z)]);
    const screw = tear * (d.flangeRadius - d.flatDistance - d.nutThickness);
    const mark = engraving(codeFor(lowerHub, d), d.boreRadius + 1, d.flangeRadius);
    const volume =
      bareVolume(d) + dogVolume(d) + fill - screw - loopArea(slot) * d.nutThickness - engravedVolume(mark);
    // Bore, the set screw’s hole into it, and the nut’s slot into that.
    return {
      genus: 3,
      pieces: 1,
      bounds: roundBounds(d.flangeRadius, height(d)),
      bareVolume: bareVolume(d),
      volume,
    };
  },
  place: (machine) => placements(machine, 'lower'),
  fasteners: ({ hubs }): readonly Fastener[] => [
    {
      what: 'set screw ISO 4026',
      size: 'M3',
      length: setScrewLength(hubs.lower.flangeRadius - (hubs.lower.live?.flatDistance ?? 0)),
      count: copies,
      use: 'hub on the lower axle',
    },
    { what: 'hexagon nut ISO 4032', size: 'M3', length: undefined, count: copies, use: 'in the lower hubs' },
  ],
};

/** Printed end of the idling roller: carries a bearing that turns on the fixed axle. */
export const upperHub: PrintedPart<DeadDimensions> = {
  id: 'roller-hub-upper',
  revision: 1,
  purpose: 'carries the upper roller’s shell on a bearing',
  copies,
  step: 52,
  print,
  assembly:
    'File two notches into each end of the upper shell, press a bearing into each hub from its flange side down to the shoulder, push the hubs in with their dogs in the notches, and clamp both between set collars on the axle that touch the inner rings only.',
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
      ...body(hubs.upper, dead.shoulderRadius),
      seatRadius: dead.seatFit.drawn / 2,
      seatDepth: dead.seatDepth,
      layer: dead.layer,
    };
  },
  bare,
  build(d, k) {
    const mark = engraving(codeFor(upperHub, d), d.seatRadius + SEAT_LEAD_IN, d.flangeRadius);
    return k.subtract(k.union([bare(d, k), dogs(d, k)]), [...seat(d, k), engraver(k, mark)]);
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
    const mark = engraving(codeFor(upperHub, d), d.seatRadius + SEAT_LEAD_IN, d.flangeRadius);
    const volume = bareVolume(d) + dogVolume(d) - seatVolume - engravedVolume(mark);
    return {
      genus: 1,
      pieces: 1,
      bounds: roundBounds(d.flangeRadius, height(d)),
      bareVolume: bareVolume(d),
      volume,
    };
  },
  place: (machine) => placements(machine, 'upper'),
  fasteners: ({ rollers }): readonly Fastener[] => [
    {
      what: `ball bearing ${rollers.upper.bearing.row.designation}`,
      size: `${rollers.upper.bearing.row.bore} x ${rollers.upper.bearing.row.outer} x ${rollers.upper.bearing.width} mm`,
      length: undefined,
      count: copies,
      use: 'upper roller',
    },
    {
      what: 'set collar',
      size: `for a ${rollers.upper.axle.diameter} mm axle`,
      length: undefined,
      count: copies,
      use: 'upper axle',
    },
  ],
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
