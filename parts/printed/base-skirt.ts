import { skirtRadius } from '../machine/base.js';
import { skirtInserts } from '../machine/carrier.js';
import { INSERT_TO_EDGE } from '../machine/comb.js';
import { drawnHole } from '../machine/fits.js';
import type { Machine } from '../machine/machine.js';
import { circumscribed, holeLoop, polygon, rectangle, shaftLoop, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import {
  holeVolume,
  integrate,
  loopArea,
  revolvedVolume,
  segmentArea,
  slotFromFlat,
  slotThroughRing,
} from '../solid/sections.js';
import { type Loop, radians, type Vec2 } from '../solid/vector.js';
import { fastener } from '../stock/fasteners.js';
import { codeFor, type PrintedPart, roundBounds, type Stated } from './part.js';
import { indexLine, tabInside } from './tab.js';

type SkirtDimensions = {
  readonly innerRadius: number;
  readonly outerRadius: number;
  readonly thickness: number;
  readonly boltRadius: number;
  readonly boltHole: number;
  readonly boltAngles: readonly number[];
  readonly nutFlats: number;
  readonly nutDepth: number;
  readonly studAngle: number;
  readonly studWell: number;
  readonly grooveWidth: number;
  readonly grooveDepth: number;
  readonly insertAt: number;
  readonly insertRadius: number;
  readonly insertDepth: number;
  readonly shelfFrom: number;
  readonly carrierX: number;
  readonly carrierY: number;
};

/** mm */
const EDGE = 1;
const BED_CHAMFER = 0.5;
const CODE_HEIGHT = 4;
const NUT_ROOM = 0.2;
const BESIDE_ROLLER = 0.5;
const CABLE = { width: 3.2, depth: 3 };

function profile(d: SkirtDimensions): Loop {
  const sides = sidesFor(d.outerRadius);
  const bore = (radius: number) => circumscribed(radius, sides);
  return [
    [bore(d.innerRadius + EDGE), 0],
    [d.outerRadius - BED_CHAMFER, 0],
    [d.outerRadius, BED_CHAMFER],
    [d.outerRadius, d.thickness - EDGE],
    [d.outerRadius - EDGE, d.thickness],
    [bore(d.innerRadius + EDGE), d.thickness],
    [bore(d.innerRadius), d.thickness - EDGE],
    [bore(d.innerRadius), EDGE],
  ];
}

const at = (radius: number, angle: number): Vec2 => [
  radius * Math.cos(radians(angle)),
  radius * Math.sin(radians(angle)),
];

function engraving(d: SkirtDimensions): Engraving {
  return {
    text: codeFor(baseSkirt, d),
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: { kind: 'arc', radius: (d.innerRadius + d.boltRadius) / 2, middle: Math.PI / 2 },
    mirrored: false,
  };
}

/** A hexagon across `flats`, one flat facing the axis so that the nut cannot turn against the wall beyond. */
function nutPocket(d: SkirtDimensions, angle: number, k: Kernel): Solid {
  const corner = d.nutFlats / 2 / Math.cos(Math.PI / 6);
  const pocket = k.extrude([polygon(corner, 6)], d.thickness - d.nutDepth, d.thickness + 1);
  const [x, y] = at(d.boltRadius, angle);
  return k.place(pocket, { turn: [0, 0, angle + 30], move: [x, y, 0] });
}

function groove(d: SkirtDimensions, k: Kernel): Solid {
  const cut = k.extrude(
    [rectangle(d.innerRadius - 2, -d.grooveWidth / 2, d.boltRadius, d.grooveWidth / 2)],
    d.thickness - d.grooveDepth,
    d.thickness + 1,
  );
  return k.place(cut, { turn: [0, 0, d.studAngle], move: [0, 0, 0] });
}

/** What closes the bore on both sides of the belt, over the feet of the lower carrier. */
function shelf(d: SkirtDimensions, k: Kernel): Solid[] {
  const far = d.innerRadius + EDGE + 1;
  if (d.shelfFrom >= d.innerRadius + EDGE) return [];
  const sides = [rectangle(-far, d.shelfFrom, far, far), rectangle(-far, -far, far, -d.shelfFrom)];
  return [k.intersect(k.extrude(sides, 0, d.thickness), k.extrude([shaftLoop(far)], 0, d.thickness))];
}

const carrierPlaces = (d: SkirtDimensions): Vec2[] =>
  [-1, 1].flatMap((x) => [-1, 1].map((y): Vec2 => [x * d.carrierX, y * d.carrierY]));

/** Printed ring under the plate: counterpart of the collar, seat of the lower comb’s bracket, guard of the plate’s edge. */
export const baseSkirt: PrintedPart<SkirtDimensions> = {
  id: 'base-skirt',
  revision: 2,
  purpose:
    'takes the collar’s screws under the plate, carries the lower bearing carrier and the comb’s bracket, keeps the belt off the plate’s edge',
  copies: 1,
  step: 10,
  print: { walls: 5, infill: 50, orientation: 'plate side on the bed' },
  assembly:
    'Press the nuts into their pockets, heat the M3 inserts into their holes with a soldering iron, then fix the skirt under the plate with its own two screws from above.',
  fields: {
    innerRadius: { unit: 'mm', meaning: 'bore for the belt, radius' },
    outerRadius: { unit: 'mm', meaning: 'outside, radius' },
    thickness: { unit: 'mm', meaning: 'thickness' },
    boltRadius: { unit: 'mm', meaning: 'radius the screws stand on' },
    boltHole: { unit: 'mm', meaning: 'screw holes, diameter' },
    boltAngles: { unit: 'degrees', meaning: 'directions of all screws, as drawn' },
    nutFlats: { unit: 'mm', meaning: 'nut pockets across flats' },
    nutDepth: { unit: 'mm', meaning: 'nut pockets, depth' },
    studAngle: { unit: 'degrees', meaning: 'direction of the ground stud, as drawn' },
    studWell: { unit: 'mm', meaning: 'well of the ground stud, radius' },
    grooveWidth: { unit: 'mm', meaning: 'cable groove, width' },
    grooveDepth: { unit: 'mm', meaning: 'cable groove, depth' },
    insertAt: { unit: 'mm', meaning: 'insert of the comb’s locking screw, from the axis' },
    insertRadius: { unit: 'mm', meaning: 'hole of the insert, radius' },
    insertDepth: { unit: 'mm', meaning: 'hole of the insert, depth' },
    shelfFrom: { unit: 'mm', meaning: 'bore closed beyond this distance from the belt’s middle' },
    carrierX: { unit: 'mm', meaning: 'inserts of the lower carrier, across the axle' },
    carrierY: { unit: 'mm', meaning: 'inserts of the lower carrier, along the axle' },
  },

  dimensions({ base, combs, print, carriers: { lower } }: Machine): SkirtDimensions {
    const screw = fastener(base.screw);
    // Drawn upside down: what is at +y in the machine is at -y on the bed.
    const flipped = [...base.boltAngles, ...base.skirtBoltAngles].map((angle) => (360 - angle) % 360);
    return {
      innerRadius: base.skirt.innerRadius,
      outerRadius: skirtRadius(base, skirtInserts(combs.lower, lower), INSERT_TO_EDGE),
      thickness: base.skirt.thickness,
      boltRadius: base.boltRadius,
      boltHole: screw.clearance.medium,
      boltAngles: flipped.sort((a, b) => a - b),
      nutFlats: drawnHole(print.calibration, screw.nutFlats + NUT_ROOM),
      nutDepth: base.skirt.nutDepth,
      studAngle: base.stud.angle,
      studWell: base.stud.wellRadius,
      grooveWidth: CABLE.width,
      grooveDepth: CABLE.depth,
      insertAt: combs.lower.screwAt,
      insertRadius: combs.lower.bracket.insertRadius,
      insertDepth: combs.lower.bracket.insertDepth,
      shelfFrom: lower.innerFace - BESIDE_ROLLER,
      carrierX: lower.screwAt,
      carrierY: (lower.innerFace + lower.outerFace) / 2,
    };
  },

  bare: (d, k) => k.revolve(profile(d), sidesFor(d.outerRadius)),

  build(d, k) {
    const tab = tabInside(d.insertAt, d.innerRadius, 0, d.thickness, k);
    const holes = d.boltAngles.map((angle) =>
      k.extrude([holeLoop(d.boltHole / 2, at(d.boltRadius, angle))], -1, d.thickness + 1),
    );
    return k.subtract(k.union([baseSkirt.bare(d, k), tab, ...shelf(d, k)]), [
      ...holes,
      ...d.boltAngles.map((angle) => nutPocket(d, angle, k)),
      k.extrude([holeLoop(d.studWell, at(d.boltRadius, d.studAngle))], -1, d.thickness + 1),
      k.extrude([holeLoop(d.insertRadius, [d.insertAt, 0])], d.thickness - d.insertDepth, d.thickness + 1),
      ...carrierPlaces(d).map((place) =>
        k.extrude([holeLoop(d.insertRadius, place)], d.thickness - d.insertDepth, d.thickness + 1),
      ),
      groove(d, k),
      indexLine(d.insertAt, d.thickness, k),
      k.extrude(k.characters(engraving(d)), d.thickness - MARK_DEPTH, d.thickness + 1),
    ]);
  },

  stated(d): Stated {
    const bareVolume = revolvedVolume(profile(d), sidesFor(d.outerRadius));
    const t = d.thickness;
    const boreAt = (z: number) => d.innerRadius + Math.max(0, EDGE - z, z - (t - EDGE));
    const split = (area: (z: number) => number) =>
      integrate(area, 0, EDGE) + integrate(area, EDGE, t - EDGE) + integrate(area, t - EDGE, t);
    const tabVolume = split((z) => tabInside.area(d.insertAt, boreAt(z)));
    const hole = (radius: number, depth: number) => holeVolume(radius, sidesFor(radius), depth);
    const corner = d.nutFlats / 2 / Math.cos(Math.PI / 6);
    const nut = loopArea(polygon(corner, 6)) * d.nutDepth + hole(d.boltHole / 2, t - d.nutDepth);
    // The groove runs into the stud's well: half a well of its depth is counted already.
    const grooveArea = (z: number) =>
      slotThroughRing(boreAt(z), d.boltRadius, d.grooveWidth) - slotFromFlat(0, d.studWell, d.grooveWidth);
    const grooveVolume =
      integrate(grooveArea, t - d.grooveDepth, t - EDGE) + integrate(grooveArea, t - EDGE, t);
    const volume =
      bareVolume +
      tabVolume +
      2 * split((z) => segmentArea(boreAt(z), d.shelfFrom)) -
      carrierPlaces(d).length * hole(d.insertRadius, d.insertDepth) -
      d.boltAngles.length * nut -
      hole(d.studWell, t) -
      hole(d.insertRadius, d.insertDepth) -
      grooveVolume -
      indexLine.volume -
      engravedVolume(engraving(d));
    return {
      genus: 1 + d.boltAngles.length + 1,
      pieces: 1,
      bounds: roundBounds(d.outerRadius, t),
      bareVolume,
      volume,
    };
  },

  place: ({ plate }: Machine) => [
    {
      // Printed plate side down, mounted plate side up.
      placement: { turn: [180, 0, 0], move: [0, 0, -plate.thickness] },
      moves: [{ slide: [0, 0, 60], turn: 0, why: 'up against the plate from below' }],
    },
  ],

  fasteners: ({ base }: Machine) => [
    {
      what: 'socket head cap screw ISO 4762',
      size: base.screw,
      length: base.skirtScrewLength,
      count: base.skirtBoltAngles.length,
      use: 'skirt to plate',
    },
    {
      what: 'hexagon nut ISO 4032',
      size: base.screw,
      length: undefined,
      count: base.skirtBoltAngles.length,
      use: 'skirt',
    },
    {
      what: 'washer ISO 7089',
      size: base.screw,
      length: undefined,
      count: base.skirtBoltAngles.length,
      use: 'skirt',
    },
    { what: 'heat-set insert', size: 'M3', length: undefined, count: 1, use: 'lower comb’s locking screw' },
    { what: 'heat-set insert', size: 'M3', length: undefined, count: 4, use: 'lower carrier' },
  ],
};
