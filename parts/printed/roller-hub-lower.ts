import type { HubDesign } from '../machine/hub.js';
import type { Machine } from '../machine/machine.js';
import { engravedVolume } from '../solid/marks.js';
import { teardrop } from '../solid/outline.js';
import { prismAlongX } from '../solid/prisms.js';
import { loopArea, segmentArea } from '../solid/sections.js';
import type { Vec2 } from '../solid/vector.js';
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
import { flatFill, nutSlot, setScrewLength } from './set-screw.js';

type LiveDimensions = BodyDimensions & {
  readonly flatDistance: number;
  readonly screwHole: number;
  readonly nutFlats: number;
  readonly nutThickness: number;
  readonly nutAt: number;
};

const screwHeight = (d: LiveDimensions) => d.flangeThickness / 2;

const slotOf = (d: LiveDimensions) => nutSlot(d.nutFlats, screwHeight(d), -1);

/**
 * What a hub on a driven axle has.
 * @throws RangeError for a hub on a dead axle
 */
export function liveOf({ live }: HubDesign): NonNullable<HubDesign['live']> {
  if (!live) throw new RangeError('the lower roller’s axle must be live');
  return live;
}

/** Length of the set screw of a hub, mm. */
export const hubSetScrewLength = (hub: HubDesign): number =>
  setScrewLength(hub.flangeRadius - liveOf(hub).flatDistance);

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
    const live = liveOf(hubs.lower);
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
    return k.subtract(k.union([hubBody(d, k), dogs(d, k), flatFill(d, hubHeight(d), k)]), [
      prismAlongX(teardrop(d.screwHole / 2, [0, screwHeight(d)]), 0, d.flangeRadius + 1, k),
      prismAlongX(slotOf(d), d.nutAt, d.nutAt + d.nutThickness, k),
      engraver(k, mark),
    ]);
  },
  stated(d): Stated {
    const fill = segmentArea(d.boreRadius, d.flatDistance) * hubHeight(d);
    const radius = d.screwHole / 2;
    const tear = radius * radius * (0.75 * Math.PI + 1);
    const slot = slotOf(d).map(([y, z]): Vec2 => [y, Math.max(0, z)]);
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
    rollerBearings(rollers.lower, 'lower axle, in its carrier'),
    {
      what: 'set screw ISO 4026',
      size: 'M3',
      length: hubSetScrewLength(hubs.lower),
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
