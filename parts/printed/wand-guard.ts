import type { Machine } from '../machine/machine.js';
import { sidesFor } from '../solid/facets.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { loopArea, revolvedVolume } from '../solid/sections.js';
import type { Loop } from '../solid/vector.js';
import { codeFor, engraver, type PrintedPart, roundBounds, type Stated } from './part.js';
import { octagon, WAND_STEPS } from './wand-bar.js';

type GuardDimensions = {
  readonly radius: number;
  readonly thickness: number;
  readonly mortise: number;
};

/** mm */
const CHAMFER = 1;
const CODE_HEIGHT = 5;

const profile = ({ radius, thickness }: GuardDimensions): Loop => [
  [0, 0],
  [radius - CHAMFER, 0],
  [radius, CHAMFER],
  [radius, thickness - CHAMFER],
  [radius - CHAMFER, thickness],
  [0, thickness],
];

const hole = ({ mortise }: GuardDimensions) => octagon(mortise, -mortise / 2);

const engraving = (d: GuardDimensions): Engraving => ({
  text: codeFor(wandGuard, d),
  height: CODE_HEIGHT,
  stroke: MARK_STROKE,
  depth: MARK_DEPTH,
  layout: { kind: 'arc', radius: (d.radius + d.mortise / 2) / 2, middle: Math.PI / 2 },
  mirrored: true,
});

/** Printed disc that keeps the hand on the wand’s grip: held between grip and handle by the plug that joins them. */
export const wandGuard: PrintedPart<GuardDimensions> = {
  id: 'wand-guard',
  revision: 1,
  role: 'tool',
  purpose: 'keeps the hand on the grip of the discharge wand: nobody reaches beyond it',
  copies: 1,
  step: WAND_STEPS.guard,
  print: { walls: 4, infill: 40, orientation: 'lying on its face' },
  assembly: 'Slide it over the plug that stands out of the grip; the first wand-segment holds it there.',
  fields: {
    radius: { unit: 'mm', meaning: 'outside, radius' },
    thickness: { unit: 'mm', meaning: 'thickness' },
    mortise: { unit: 'mm', meaning: 'hole of the plug, width across flats' },
  },
  dimensions: ({ wand }: Machine): GuardDimensions => ({
    radius: wand.guard.diameter / 2,
    thickness: wand.guard.thickness,
    mortise: wand.mortise,
  }),
  bare: (d, k) => k.revolve(profile(d), sidesFor(d.radius)),
  build: (d, k) =>
    k.subtract(wandGuard.bare(d, k), [k.extrude([hole(d)], -1, d.thickness + 1), engraver(k, engraving(d))]),
  stated(d): Stated {
    const bareVolume = revolvedVolume(profile(d), sidesFor(d.radius));
    return {
      genus: 1,
      pieces: 1,
      bounds: roundBounds(d.radius, d.thickness),
      bareVolume,
      volume: bareVolume - loopArea(hole(d)) * d.thickness - engravedVolume(engraving(d)),
    };
  },
  place: () => [],
  fasteners: () => [],
};
