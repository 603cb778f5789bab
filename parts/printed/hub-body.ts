import type { HubDesign } from '../machine/hub.js';
import type { Machine, Roller } from '../machine/machine.js';
import { circumscribed, rectangle, shaftLoop, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { revolvedVolume, slotFromFlat } from '../solid/sections.js';
import type { Loop, Placement } from '../solid/vector.js';
import { intoPockets, intoRim } from './carrier-places.js';
import { CLEAR_AIR, type Fastener, type Placed, SPIGOT_LEAD_IN } from './part.js';

// What both kinds of hub have in common: a flange against the shell's end, a spigot in its bore, two dogs in its notches.

export type BodyDimensions = {
  readonly flangeRadius: number;
  readonly flangeThickness: number;
  readonly spigotRadius: number;
  readonly spigotLength: number;
  readonly boreRadius: number;
  readonly dogWidth: number;
  readonly dogHeight: number;
};
/** mm */
const BED_CHAMFER = 0.5;
const DOGS = 2;
const DOG_ROOT = 1;
/** Height of the code: as much as the flange’s face has room for, and a little to either side. */
const CODE = { most: 3.2, margin: 0.6 };

export const hubHeight = (d: BodyDimensions) => d.flangeThickness + d.spigotLength;

/** Flange on the bed, spigot up, straight bore. */
function profile(d: BodyDimensions): Loop {
  const bore = circumscribed(d.boreRadius, sidesFor(d.flangeRadius));
  return [
    [bore, 0],
    [d.flangeRadius - BED_CHAMFER, 0],
    [d.flangeRadius, BED_CHAMFER],
    [d.flangeRadius, d.flangeThickness],
    [d.spigotRadius, d.flangeThickness],
    [d.spigotRadius, hubHeight(d) - SPIGOT_LEAD_IN],
    [d.spigotRadius - SPIGOT_LEAD_IN, hubHeight(d)],
    [bore, hubHeight(d)],
  ];
}

/** Two dogs at +x and -x that enter notches in the shell’s end. */
export function dogs(d: BodyDimensions, k: Kernel): Solid {
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

export const dogVolume = (d: BodyDimensions) =>
  DOGS *
  d.dogHeight *
  (slotFromFlat(0, d.flangeRadius, d.dogWidth) - slotFromFlat(0, d.spigotRadius, d.dogWidth));

export function hubEngraving(text: string, inner: number, outer: number): Engraving {
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

export function hubPlaces(machine: Machine, end: 'lower' | 'upper'): readonly Placed[] {
  const roller = machine.rollers[end];
  const hub = machine.hubs[end];
  const out = roller.length / 2 + hub.flangeThickness;
  const at = (side: -1 | 1): Placement => ({ turn: [side * 90, 0, 0], move: [0, side * out, roller.axisZ] });
  const travel = hub.spigotLength + CLEAR_AIR;
  return ([-1, 1] as const).map((side) => ({
    placement: at(side),
    moves: [
      {
        slide: [0, -side * travel, 0] as const,
        turn: 0,
        why: 'into the shell, dogs into its notches',
        ...(end === 'lower' && { stretches: 'belt' }),
      },
      end === 'upper' ? intoRim(machine) : intoPockets(machine),
    ],
  }));
}

export const bodyFields = {
  flangeRadius: { unit: 'mm', meaning: 'flange, radius' },
  flangeThickness: { unit: 'mm', meaning: 'flange, thickness' },
  spigotRadius: { unit: 'mm', meaning: 'spigot in the shell, radius' },
  spigotLength: { unit: 'mm', meaning: 'spigot, length' },
  boreRadius: { unit: 'mm', meaning: 'bore, radius' },
  dogWidth: { unit: 'mm', meaning: 'dogs, width' },
  dogHeight: { unit: 'mm', meaning: 'dogs, height' },
} as const;

export function bodyDimensions(hub: HubDesign, boreRadius: number): BodyDimensions {
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

export const hubBody = (d: BodyDimensions, k: Kernel) => k.revolve(profile(d), sidesFor(d.flangeRadius));
export const hubBodyVolume = (d: BodyDimensions) => revolvedVolume(profile(d), sidesFor(d.flangeRadius));
export const HUB_COPIES = 2;
export const HUB_PRINT = { walls: 4, infill: 60, orientation: 'flange on the bed' };

/** The two bearings of a roller, to buy. */
export function rollerBearings({ bearing }: Roller, use: string): Fastener {
  const { row, width } = bearing;
  return {
    what: `ball bearing ${row.designation}`,
    size: `${row.bore} x ${row.outer} x ${width} mm`,
    length: undefined,
    count: HUB_COPIES,
    use,
  };
}
