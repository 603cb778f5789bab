import type { Machine } from '../machine/machine.js';
import { circumscribed, holeLoop, sidesFor } from '../solid/facets.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { holeVolume, integrate, revolvedVolume } from '../solid/sections.js';
import type { Loop } from '../solid/vector.js';
import { codeFor, engraver, type PrintedPart, roundBounds, SPIGOT_LEAD_IN, type Stated } from './part.js';
import { indexLine, tabInside } from './tab.js';

type RimDimensions = {
  readonly innerRadius: number;
  readonly spigotRadius: number;
  readonly spigotLength: number;
  readonly flangeRadius: number;
  readonly flangeThickness: number;
  readonly insertAt: number;
  readonly insertRadius: number;
  readonly insertDepth: number;
};

/** mm */
const BED_CHAMFER = 0.5;
const CODE_HEIGHT = 4;

const height = (d: RimDimensions) => d.flangeThickness + d.spigotLength;

function profile(d: RimDimensions): Loop {
  const sides = sidesFor(d.flangeRadius);
  const bore = circumscribed(d.innerRadius, sides);
  const top = height(d);
  return [
    [bore, 0],
    [d.flangeRadius - BED_CHAMFER, 0],
    [d.flangeRadius, BED_CHAMFER],
    [d.flangeRadius, d.flangeThickness],
    [d.spigotRadius, d.flangeThickness],
    [d.spigotRadius, top - SPIGOT_LEAD_IN],
    [d.spigotRadius - SPIGOT_LEAD_IN, top],
    [bore, top],
  ];
}

function engraving(d: RimDimensions): Engraving {
  return {
    text: codeFor(rimRing, d),
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: { kind: 'arc', radius: (d.innerRadius + d.flangeRadius) / 2, middle: Math.PI / 2 },
    mirrored: true,
  };
}

/** Printed ring on the tube’s rim, centred by its measured bore: seat of the upper comb’s bracket. */
export const rimRing: PrintedPart<RimDimensions> = {
  id: 'rim-ring',
  revision: 1,
  purpose: 'sits in the tube’s upper rim and carries the upper comb’s bracket',
  copies: 1,
  step: 48,
  print: { walls: 4, infill: 40, orientation: 'flange on the bed, spigot up' },
  assembly:
    'Heat the M3 insert into its hole with a soldering iron and push the ring into the tube’s rim, its insert where the belt rises, before the belt comes through it.',
  fields: {
    innerRadius: { unit: 'mm', meaning: 'bore for the belt, radius' },
    spigotRadius: { unit: 'mm', meaning: 'spigot in the tube, radius' },
    spigotLength: { unit: 'mm', meaning: 'spigot, length' },
    flangeRadius: { unit: 'mm', meaning: 'flange on the rim, radius' },
    flangeThickness: { unit: 'mm', meaning: 'flange, thickness' },
    insertAt: { unit: 'mm', meaning: 'insert of the comb’s locking screw, from the axis' },
    insertRadius: { unit: 'mm', meaning: 'hole of the insert, radius' },
    insertDepth: { unit: 'mm', meaning: 'hole of the insert, depth' },
  },

  dimensions: ({ rim, combs }: Machine): RimDimensions => ({
    innerRadius: rim.spigotInnerRadius,
    spigotRadius: rim.spigotFit.drawn / 2,
    spigotLength: rim.spigotLength,
    flangeRadius: rim.flangeRadius,
    flangeThickness: rim.flangeThickness,
    insertAt: combs.upper.screwAt,
    insertRadius: combs.upper.bracket.insertRadius,
    insertDepth: combs.upper.bracket.insertDepth,
  }),

  bare: (d, k) => k.revolve(profile(d), sidesFor(d.flangeRadius)),

  build(d, k) {
    const tab = tabInside(d.insertAt, d.innerRadius, 0, d.flangeThickness, k);
    return k.subtract(k.union([rimRing.bare(d, k), tab]), [
      k.extrude([holeLoop(d.insertRadius, [d.insertAt, 0])], -1, d.insertDepth),
      k.place(indexLine(d.insertAt, 0, k), { turn: [180, 0, 0], move: [0, 0, 0] }),
      engraver(k, engraving(d)),
    ]);
  },

  stated(d): Stated {
    const bareVolume = revolvedVolume(profile(d), sidesFor(d.flangeRadius));
    const tabVolume = integrate(() => tabInside.area(d.insertAt, d.innerRadius), 0, d.flangeThickness);
    const volume =
      bareVolume +
      tabVolume -
      holeVolume(d.insertRadius, sidesFor(d.insertRadius), d.insertDepth) -
      indexLine.volume -
      engravedVolume(engraving(d));
    return { genus: 1, pieces: 1, bounds: roundBounds(d.flangeRadius, height(d)), bareVolume, volume };
  },

  place: ({ tube, rim }: Machine) => [
    {
      placement: { turn: [180, 0, 0], move: [0, 0, tube.rimZ + rim.flangeThickness] },
      moves: [{ slide: [0, 0, -40], turn: 0, why: 'into the tube’s rim from above' }],
    },
  ],

  fasteners: () => [
    { what: 'heat-set insert', size: 'M3', length: undefined, count: 1, use: 'upper comb’s locking screw' },
  ],
};
