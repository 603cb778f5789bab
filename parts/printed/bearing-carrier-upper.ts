import type { Machine } from '../machine/machine.js';
import { holeLoop, sidesFor } from '../solid/facets.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { holeVolume, loopArea } from '../solid/sections.js';
import type { Loop, Vec2 } from '../solid/vector.js';
import { besideCarrier, CARRIER_STEPS, ontoRing } from './carrier-places.js';
import { codeFor, engraver, type PrintedPart, type Stated } from './part.js';
import { groove } from './rail.js';

type CheekDimensions = {
  readonly left: number;
  readonly right: number;
  readonly cavityLeft: number;
  readonly cavityRight: number;
  readonly thickness: number;
  readonly chamfer: number;
  readonly floor: number;
  readonly height: number;
  readonly screwsAt: readonly number[];
  readonly insertRadius: number;
  readonly insertDepth: number;
  readonly jackAt: number;
  readonly washerRadius: number;
  readonly washerDepth: number;
};

/** mm */
const BED_CHAMFER = 0.4;
const CODE_HEIGHT = 1.9;

/** Foot seen from above, corners cut, drawn in by `inset`. */
function outline(d: CheekDimensions, inset = 0): Loop {
  const half = d.thickness / 2 - inset;
  const [left, right] = [d.left + inset, d.right - inset];
  const cut = d.chamfer - inset * (2 - Math.SQRT2);
  return [
    [left + cut, -half],
    [right - cut, -half],
    [right, -half + cut],
    [right, half - cut],
    [right - cut, half],
    [left + cut, half],
    [left, half - cut],
    [left, -half + cut],
  ];
}

/** The two posts, their rails facing each other. */
function posts(d: CheekDimensions): readonly [Loop, Loop] {
  const half = d.thickness / 2;
  const cut = d.chamfer;
  const left: Vec2[] = [
    [d.left + cut, -half],
    [d.cavityLeft, -half],
    ...groove(d.cavityLeft, -1),
    [d.cavityLeft, half],
    [d.left + cut, half],
    [d.left, half - cut],
    [d.left, -half + cut],
  ];
  const right: Vec2[] = [
    [d.cavityRight, -half],
    [d.right - cut, -half],
    [d.right, -half + cut],
    [d.right, half - cut],
    [d.right - cut, half],
    [d.cavityRight, half],
    ...groove(d.cavityRight, 1).reverse(),
  ];
  return [left, right];
}

function engraving(d: CheekDimensions): Engraving {
  return {
    text: codeFor(upperCarrier, d),
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: {
      kind: 'line',
      centre: [-(d.cavityLeft + d.cavityRight) / 2, -d.thickness / 2 + 1.7],
      heading: 0,
    },
    mirrored: true,
  };
}

/** Printed cheek of the upper carrier: two posts with rails on the rim ring. The same on both sides. */
export const upperCarrier: PrintedPart<CheekDimensions> = {
  id: 'bearing-carrier-upper',
  revision: 1,
  purpose:
    'stands on the rim ring and guides the block of one end of the upper axle, and above it a leg of the terminal’s seat',
  copies: 2,
  step: CARRIER_STEPS.cheek,
  print: { walls: 5, infill: 60, orientation: 'foot on the bed, posts up', brim: 5 },
  assembly:
    'Heat two M3 inserts into each foot with a soldering iron and lay a steel disc without a hole into the pocket on its floor (through a washer’s hole the jack screw would drop: fill it with solder, or cut a disc from sheet). Later, with its block in it, push each cheek over an end of the upper axle onto the ring and screw it down from below the ring.',
  fields: {
    left: { unit: 'mm', meaning: 'end of the foot beside the jack screw' },
    right: { unit: 'mm', meaning: 'other end' },
    cavityLeft: { unit: 'mm', meaning: 'rail beside the jack screw' },
    cavityRight: { unit: 'mm', meaning: 'other rail' },
    thickness: { unit: 'mm', meaning: 'thickness along the axle' },
    chamfer: { unit: 'mm', meaning: 'corners, cut at 45 degrees' },
    floor: { unit: 'mm', meaning: 'floor between the posts, thickness' },
    height: { unit: 'mm', meaning: 'height' },
    screwsAt: { unit: 'mm', meaning: 'inserts of the screws from below' },
    insertRadius: { unit: 'mm', meaning: 'holes of the inserts, radius' },
    insertDepth: { unit: 'mm', meaning: 'holes of the inserts, depth' },
    jackAt: { unit: 'mm', meaning: 'disc under the jack screw' },
    washerRadius: { unit: 'mm', meaning: 'pocket of the disc, radius' },
    washerDepth: { unit: 'mm', meaning: 'pocket of the disc, depth' },
  },

  dimensions({ carriers: { upper }, combs }: Machine): CheekDimensions {
    const { cheek, block } = upper;
    return {
      left: cheek.left,
      right: cheek.right,
      cavityLeft: cheek.cavityLeft,
      cavityRight: cheek.cavityRight,
      thickness: upper.outerFace - upper.innerFace,
      chamfer: cheek.chamfer,
      floor: cheek.floor,
      height: cheek.height,
      screwsAt: [...cheek.screwsAt],
      insertRadius: combs.upper.bracket.insertRadius,
      insertDepth: combs.upper.bracket.insertDepth,
      jackAt: block.jackAt,
      washerRadius: cheek.washerRadius,
      washerDepth: cheek.washerDepth,
    };
  },

  bare: (d, k) =>
    k.union([
      k.extrude([outline(d)], 0, d.floor),
      ...posts(d).map((post) => k.extrude([post], d.floor - 1, d.height)),
    ]),

  build(d, k) {
    const foot = k.loft([
      { z: 0, loop: outline(d, BED_CHAMFER) },
      { z: BED_CHAMFER, loop: outline(d) },
      { z: d.floor, loop: outline(d) },
    ]);
    const body = k.union([foot, ...posts(d).map((post) => k.extrude([post], d.floor - 1, d.height))]);
    return k.subtract(body, [
      ...d.screwsAt.map((x) => k.extrude([holeLoop(d.insertRadius, [x, 0])], -1, d.insertDepth)),
      k.extrude([holeLoop(d.washerRadius, [d.jackAt, 0])], d.floor - d.washerDepth, d.floor + 0.5),
      engraver(k, engraving(d)),
    ]);
  },

  stated(d): Stated {
    const [left, right] = posts(d);
    const bareVolume =
      loopArea(outline(d)) * d.floor + (loopArea(left) + loopArea(right)) * (d.height - d.floor);
    const area = (inset: number) => loopArea(outline(d, inset));
    const chamfer =
      BED_CHAMFER * area(0) - (BED_CHAMFER / 6) * (area(BED_CHAMFER) + 4 * area(BED_CHAMFER / 2) + area(0));
    const volume =
      bareVolume -
      chamfer -
      d.screwsAt.length * holeVolume(d.insertRadius, sidesFor(d.insertRadius), d.insertDepth) -
      holeVolume(d.washerRadius, sidesFor(d.washerRadius), d.washerDepth) -
      engravedVolume(engraving(d));
    const half = d.thickness / 2;
    return {
      genus: 0,
      pieces: 1,
      bounds: { min: [d.left, -half, 0], max: [d.right, half, d.height] },
      bareVolume,
      volume,
    };
  },

  place: (machine) =>
    ([-1, 1] as const).map((side) => ({
      placement: besideCarrier(machine, side, machine.tube.rimZ + machine.rim.flangeThickness),
      moves: ontoRing(machine, side),
    })),

  fasteners: ({ carriers: { upper } }: Machine) => [
    {
      what: 'heat-set insert',
      size: upper.screw,
      length: undefined,
      count: 4,
      use: 'cheeks of the upper carrier',
    },
    {
      what: 'socket head cap screw ISO 4762',
      size: upper.screw,
      length: upper.screwLength,
      count: 4,
      use: 'cheeks of the upper carrier, from below the rim ring',
    },
  ],
};
