import type { Machine } from '../machine/machine.js';
import { holeLoop, sidesFor } from '../solid/facets.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { holeVolume, revolvedVolume } from '../solid/sections.js';
import { type Loop, radians } from '../solid/vector.js';
import { DRIVE_STEPS } from './drive-pulley.js';
import { CLEAR_AIR, codeFor, engraver, type PrintedPart, roundBounds, type Stated } from './part.js';

type FootDimensions = {
  readonly height: number;
  readonly padRadius: number;
  readonly topRadius: number;
  readonly insertRadius: number;
  readonly insertDepth: number;
};

/** mm */
const CHAMFER = 0.8;
const PAD = 3;
const CODE_HEIGHT = 3;
/** Feet a machine stands on. */
const COPIES = 4;

/** Pad on the bed, narrowing upwards to the plate. */
function profile(d: FootDimensions): Loop {
  return [
    [0, 0],
    [d.padRadius - CHAMFER, 0],
    [d.padRadius, CHAMFER],
    [d.padRadius, PAD],
    [d.topRadius, d.height - CHAMFER],
    [d.topRadius - CHAMFER, d.height],
    [0, d.height],
  ];
}

function engraving(d: FootDimensions): Engraving {
  return {
    text: codeFor(foot, d),
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: { kind: 'arc', radius: d.padRadius / 2, middle: Math.PI / 2 },
    mirrored: true,
  };
}

/** Printed foot under the plate’s edge. */
export const foot: PrintedPart<FootDimensions> = {
  id: 'foot',
  revision: 1,
  purpose: 'stands under the plate’s edge and makes the room for roller, motor and belt',
  copies: COPIES,
  step: DRIVE_STEPS.feet,
  print: { walls: 5, infill: 30, orientation: 'pad on the bed' },
  assembly:
    'Heat the M5 insert into its hole with a soldering iron, flush with the top, then screw the foot under the plate from above with its washer. They come last, since motor pulley and drive belt go in where they stand; until then the plate’s edges lie on blocks.',
  fields: {
    height: { unit: 'mm', meaning: 'height' },
    padRadius: { unit: 'mm', meaning: 'pad on the bench, radius' },
    topRadius: { unit: 'mm', meaning: 'top under the plate, radius' },
    insertRadius: { unit: 'mm', meaning: 'hole of the insert, radius' },
    insertDepth: { unit: 'mm', meaning: 'hole of the insert, depth' },
  },
  dimensions: ({ feet }: Machine): FootDimensions => ({
    height: feet.height,
    padRadius: feet.padRadius,
    topRadius: feet.topRadius,
    insertRadius: feet.insertRadius,
    insertDepth: feet.insertDepth,
  }),
  bare: (d, k) => k.revolve(profile(d), sidesFor(d.padRadius)),
  build: (d, k) =>
    k.subtract(foot.bare(d, k), [
      k.extrude([holeLoop(d.insertRadius)], d.height - d.insertDepth, d.height + 1),
      engraver(k, engraving(d)),
    ]),
  stated(d): Stated {
    const bareVolume = revolvedVolume(profile(d), sidesFor(d.padRadius));
    const hole = holeVolume(d.insertRadius, sidesFor(d.insertRadius), d.insertDepth);
    return {
      genus: 0,
      pieces: 1,
      bounds: roundBounds(d.padRadius, d.height),
      bareVolume,
      volume: bareVolume - hole - engravedVolume(engraving(d)),
    };
  },
  place: ({ feet, plate }: Machine) =>
    feet.angles.map((angle) => ({
      placement: {
        turn: [0, 0, 0],
        move: [
          feet.radius * Math.cos(radians(angle)),
          feet.radius * Math.sin(radians(angle)),
          -(plate.thickness + feet.height),
        ],
      },
      moves: [{ slide: [0, 0, feet.height + CLEAR_AIR], turn: 0, why: 'up against the plate from below' }],
    })),
  fasteners: ({ feet }: Machine) => [
    {
      what: 'socket head cap screw ISO 4762',
      size: feet.screw,
      length: feet.screwLength,
      count: COPIES,
      use: 'feet',
    },
    { what: 'washer ISO 7089', size: feet.screw, length: undefined, count: COPIES, use: 'feet' },
    { what: 'heat-set insert', size: feet.screw, length: undefined, count: COPIES, use: 'in the feet' },
  ],
};
