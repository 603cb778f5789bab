import type { Machine } from '../machine/machine.js';
import { circumscribed, rectangle, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { revolvedVolume, slotThroughRing } from '../solid/sections.js';
import type { Loop } from '../solid/vector.js';
import { codeFor, type PrintedPart, roundBounds, type Stated } from './part.js';

type GuideDimensions = {
  readonly boreRadius: number;
  readonly wall: number;
  readonly length: number;
  readonly slit: number;
  readonly flangeRadius: number;
  readonly flangeThickness: number;
};

/** mm; at both ends of the bore, for a burr on the tube and a first layer that is squeezed. */
const CHAMFER = 0.6;
const CODE_HEIGHT = 3.5;
/** Degrees: the outline keeps its extreme points on x and y. */
const SLIT_ANGLE = 45;

const outerRadius = (d: GuideDimensions) => d.boreRadius + d.wall;

function profile(d: GuideDimensions): Loop {
  const bore = circumscribed(d.boreRadius, sidesFor(d.flangeRadius));
  return [
    [bore + CHAMFER, 0],
    [d.flangeRadius, 0],
    [d.flangeRadius, d.flangeThickness],
    [outerRadius(d), d.flangeThickness],
    [outerRadius(d), d.length],
    [bore + CHAMFER, d.length],
    [bore, d.length - CHAMFER],
    [bore, CHAMFER],
  ];
}

/** On the flange's upper side: its bed face is the edge that pen and saw run along. */
function engraving(d: GuideDimensions): Engraving {
  return {
    text: codeFor(tubeEndGuide, d),
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: { kind: 'arc', radius: (outerRadius(d) + d.flangeRadius) / 2, middle: Math.PI },
    mirrored: false,
  };
}

function slit(d: GuideDimensions, k: Kernel): Solid {
  const half = d.slit / 2;
  const cut = k.extrude([rectangle(0, -half, d.flangeRadius + 1, half)], -1, d.length + 1);
  return k.place(cut, { turn: [0, 0, SLIT_ANGLE], move: [0, 0, 0] });
}

/** Sleeve on the tube’s outside: its flat end shows where the tube is cut square. */
export const tubeEndGuide: PrintedPart<GuideDimensions> = {
  id: 'tube-end-guide',
  revision: 1,
  role: 'tool',
  purpose:
    'shows a square end on the tube: pen and saw run along its flange. Closed around the tube it lies as square as the printer’s scatter over its length, as the finding jig/tube-end-square says; left loose it tilts by all of its clearance',
  copies: 1,
  step: 0,
  print: { walls: 4, infill: 30, orientation: 'flange on the bed: that face is the guide' },
  assembly:
    'Slide it on the tube, the flange’s flat face at the cut, and close it all along with two bands or hose clamps until it does not tilt. Mark or saw along the flange, turn the sleeve by a quarter to go on past its slit, and file the end down to the flange. Leave its chips out of the bore.',
  fields: {
    boreRadius: { unit: 'mm', meaning: 'bore around the tube, radius' },
    wall: { unit: 'mm', meaning: 'wall of the sleeve' },
    length: { unit: 'mm', meaning: 'length' },
    slit: { unit: 'mm', meaning: 'slit, width' },
    flangeRadius: { unit: 'mm', meaning: 'flange to mark along, radius' },
    flangeThickness: { unit: 'mm', meaning: 'flange, thickness' },
  },

  dimensions({ jigs: { tubeEnd } }: Machine): GuideDimensions {
    const { fit, ...sizes } = tubeEnd;
    return { boreRadius: fit.drawn / 2, ...sizes };
  },

  bare: (d, k) => k.revolve(profile(d), sidesFor(d.flangeRadius)),

  build(d, k) {
    const top = d.flangeThickness;
    const mark = k.extrude(k.characters(engraving(d)), top - MARK_DEPTH, top + 1);
    return k.subtract(tubeEndGuide.bare(d, k), [slit(d, k), mark]);
  },

  stated(d): Stated {
    const bareVolume = revolvedVolume(profile(d), sidesFor(d.flangeRadius));
    const through = (outer: number) => slotThroughRing(d.boreRadius, outer, d.slit);
    const slitVolume =
      through(d.flangeRadius) * d.flangeThickness +
      through(outerRadius(d)) * (d.length - d.flangeThickness) -
      CHAMFER ** 2 * d.slit;
    return {
      genus: 0,
      pieces: 1,
      bounds: roundBounds(d.flangeRadius, d.length),
      bareVolume,
      volume: bareVolume - slitVolume - engravedVolume(engraving(d)),
    };
  },

  place: () => [],
  fasteners: () => [],
};
