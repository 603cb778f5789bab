import type { Machine } from '../machine/machine.js';
import { rectangle } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { engravedVolume } from '../solid/marks.js';
import { teardrop } from '../solid/outline.js';
import { prismAlongX } from '../solid/prisms.js';
import { loopArea, segmentArea } from '../solid/sections.js';
import type { Loop, Vec2 } from '../solid/vector.js';
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

type LiveDimensions = BodyDimensions & {
  readonly flatDistance: number;
  readonly screwHole: number;
  readonly nutFlats: number;
  readonly nutThickness: number;
  readonly nutAt: number;
};

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
  return k.extrude([rectangle(d.flatDistance, -reach, reach, reach)], 0, hubHeight(d));
}

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
  copies: HUB_COPIES,
  step: 58,
  print: HUB_PRINT,
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
      ...bodyDimensions(hubs.lower, live.boreFit.drawn / 2),
      flatDistance: live.flatDistance,
      screwHole: live.screwHole,
      nutFlats: live.nutFlats,
      nutThickness: live.nutThickness,
      nutAt: live.nutAt,
    };
  },
  bare: hubBody,
  build(d, k) {
    const mark = hubEngraving(codeFor(lowerHub, d), d.boreRadius + 1, d.flangeRadius);
    return k.subtract(k.union([hubBody(d, k), dogs(d, k), flatFill(d, k)]), [
      prismAlongX(teardrop(d.screwHole / 2, [0, screwHeight(d)]), 0, d.flangeRadius + 1, k),
      prismAlongX(nutSlot(d), d.nutAt, d.nutAt + d.nutThickness, k),
      engraver(k, mark),
    ]);
  },
  stated(d): Stated {
    const fill = segmentArea(d.boreRadius, d.flatDistance) * hubHeight(d);
    const radius = d.screwHole / 2;
    const tear = radius * radius * (0.75 * Math.PI + 1);
    const slot = nutSlot(d).map(([y, z]): Vec2 => [y, Math.max(0, z)]);
    const screw = tear * (d.flangeRadius - d.flatDistance - d.nutThickness);
    const mark = hubEngraving(codeFor(lowerHub, d), d.boreRadius + 1, d.flangeRadius);
    const volume =
      hubBodyVolume(d) + dogVolume(d) + fill - screw - loopArea(slot) * d.nutThickness - engravedVolume(mark);
    // Bore, the set screw’s hole into it, and the nut’s slot into that.
    return {
      genus: 3,
      pieces: 1,
      bounds: roundBounds(d.flangeRadius, hubHeight(d)),
      bareVolume: hubBodyVolume(d),
      volume,
    };
  },
  place: (machine) => hubPlaces(machine, 'lower'),
  fasteners: ({ hubs, rollers }): readonly Fastener[] => [
    rollerBearings(rollers.lower, 'lower axle, in your carriers'),
    {
      what: 'set screw ISO 4026',
      size: 'M3',
      length: setScrewLength(hubs.lower.flangeRadius - (hubs.lower.live?.flatDistance ?? 0)),
      count: HUB_COPIES,
      use: 'hub on the lower axle',
    },
    {
      what: 'hexagon nut ISO 4032',
      size: 'M3',
      length: undefined,
      count: HUB_COPIES,
      use: 'in the lower hubs',
    },
  ],
};
