import { NUT_CHANNEL } from '../machine/drive.js';
import { drawnHole } from '../machine/fits.js';
import type { Machine } from '../machine/machine.js';
import { holeLoop, rectangle, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { prismAlongX, prismAlongY } from '../solid/prisms.js';
import { holeVolume, loopArea, revolvedVolume } from '../solid/sections.js';
import { type Loop, radians, type Vec2, type Vec3 } from '../solid/vector.js';
import { fastener } from '../stock/fasteners.js';
import { DRIVE_STEPS } from './drive-pulley.js';
import { CLEAR_AIR, codeFor, engraver, type PrintedPart, type Stated } from './part.js';
import { PRINT_LIMITS } from './print-limits.js';

type BracketDimensions = {
  readonly faceThickness: number;
  readonly flangeThickness: number;
  readonly gusset: number;
  readonly half: number;
  readonly depth: number;
  readonly up: number;
  readonly down: number;
  readonly pilotRadius: number;
  readonly boltCircle: number;
  readonly boltCount: number;
  readonly boltHole: number;
  readonly sinkRadius: number;
  readonly lugHole: number;
  readonly lugAt: number;
  readonly lugUnder: number;
  readonly slotX: number;
  readonly slotsAt: readonly number[];
  readonly slotRadius: number;
  readonly travel: number;
  readonly nutFlats: number;
};

/** mm */
const CODE = { height: 3.5, fromEdge: 5 };
/** The screw that joins the wires of the motor's frame and the ground stud. mm; head ISO 7045, from memory. */
export const GROUND_SCREW = { size: 'M3', length: 12, headRadius: 2.8, headHeight: 2.4 } as const;
const NUT_ROOM = 0.4;
/** mm; what a slot's roof bridges to either side of its middle: less than half of what can be bridged, its sides lean out below. */
const SLOT_BRIDGE = PRINT_LIMITS.bridge.value / 2 - 0.2;
/** A nut's half corner and play, along its channel. */
const NUT_HALF = 4.4;
/** A hair beyond a face, so that no two surfaces coincide. */
const BEYOND = 1;

function engraving(d: BracketDimensions): Engraving {
  return {
    text: codeFor(motorBracket, d),
    height: CODE.height,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: { kind: 'line', centre: [0, d.up - CODE.fromEdge], heading: 0 },
    mirrored: true,
  };
}

const boltPlaces = (d: BracketDimensions): Vec2[] =>
  Array.from({ length: d.boltCount }, (_, i): Vec2 => {
    const angle = radians((360 / d.boltCount) * i);
    return [(d.boltCircle / 2) * Math.cos(angle), (d.boltCircle / 2) * Math.sin(angle)];
  });

/** The flank of the bracket, [y, z]: deep at the plate, as thick as the face at its lower edge. */
const flank = (d: BracketDimensions): Loop => [
  [-d.down, 0],
  [d.up, 0],
  [d.up, d.depth],
  [d.up - d.flangeThickness, d.depth],
  [-d.down, d.faceThickness],
];

function bare(d: BracketDimensions, k: Kernel): Solid {
  return k.union([
    k.extrude([rectangle(-d.half, -d.down, d.half, d.up)], 0, d.faceThickness),
    k.extrude([rectangle(-d.half, d.up - d.flangeThickness, d.half, d.up)], 0, d.depth),
    prismAlongX(flank(d), -d.half, -d.half + d.gusset, k),
    prismAlongX(flank(d), d.half - d.gusset, d.half, k),
  ]);
}

function bareVolume(d: BracketDimensions): number {
  const face = 2 * d.half * (d.up + d.down) * d.faceThickness;
  const flange = 2 * d.half * d.flangeThickness * (d.depth - d.faceThickness);
  const sides = d.gusset * (d.up - d.flangeThickness + d.down) * (d.depth - d.faceThickness);
  return face + flange + sides;
}

/** Slot for a screw through the flange, [x, z]: its roof leans in by 45 degrees to what is bridged. */
function slot(d: BracketDimensions, x: number, z: number): Loop {
  const reach = d.travel + d.slotRadius;
  const flat = Math.min(d.travel, SLOT_BRIDGE);
  return [
    [x - reach, z - d.slotRadius],
    [x + reach, z - d.slotRadius],
    [x + reach, z],
    [x + flat, z + reach - flat],
    [x - flat, z + reach - flat],
    [x - reach, z],
  ];
}

/** Channel in which the nut slides and cannot turn, [y, z], open downwards; its roof leans out by 45 degrees. */
function channel(d: BracketDimensions, z: number, open: number): Loop {
  const floor = d.up - d.flangeThickness + NUT_CHANNEL;
  const half = d.nutFlats / 2;
  const from = d.up - d.flangeThickness - open;
  return [
    [from, z - half],
    [floor, z - half],
    [floor, z + half],
    [from, z + half + floor - from],
  ];
}

const slotPlaces = (d: BracketDimensions): Vec2[] =>
  d.slotsAt.flatMap((z) => [-1, 1].map((side): Vec2 => [side * d.slotX, z]));

/** Cone of a countersunk head, flush with the face on the bed, and the hole behind it. */
function boltCutter(d: BracketDimensions): Loop {
  const depth = d.sinkRadius - d.boltHole / 2;
  return [
    [0, -BEYOND],
    [d.sinkRadius + BEYOND, -BEYOND],
    [d.boltHole / 2, depth],
    [d.boltHole / 2, d.faceThickness + BEYOND],
    [0, d.faceThickness + BEYOND],
  ];
}

function boltVolume(d: BracketDimensions): number {
  const depth = d.sinkRadius - d.boltHole / 2;
  const inside: Loop = [
    [0, 0],
    [d.sinkRadius, 0],
    [d.boltHole / 2, depth],
    [d.boltHole / 2, d.faceThickness],
    [0, d.faceThickness],
  ];
  return revolvedVolume(inside, sidesFor(d.sinkRadius));
}

/** Where the ground screw of the motor's frame goes through the bracket's outer face, mm in the machine's frame. */
export function groundScrewAt(machine: Machine): Vec3 {
  const { motor, bracket } = machine.drive;
  const [x, under] = bracket.groundAt;
  return [motor.at[0] + x, bracket.face, motor.at[2] - under];
}

/** Printed angle bracket under the plate that holds the motor and slides to tension the drive belt. */
export const motorBracket: PrintedPart<BracketDimensions> = {
  id: 'motor-bracket',
  revision: 3,
  purpose: 'holds the motor under the plate; slides in its slots to tension the drive belt',
  copies: 1,
  step: DRIVE_STEPS.bracket,
  print: { walls: 5, infill: 40, orientation: 'motor’s face plate on the bed, flange standing' },
  assembly:
    'Push four nuts into the channels and hold them with tape, screw the bracket under the plate from above, loosely; fasten the motor through the face with countersunk screws before its pulley is on (measure how deep its threads are first). Fasten a lug behind the small hole, its screw from outside, before the motor is in, and lead it, with the motor’s frame, to the ground stud. Tighten when the drive belt is on.',
  fields: {
    faceThickness: { unit: 'mm', meaning: 'face plate, thickness' },
    flangeThickness: { unit: 'mm', meaning: 'flange under the plate, thickness' },
    gusset: { unit: 'mm', meaning: 'side walls, thickness' },
    half: { unit: 'mm', meaning: 'half of the width' },
    depth: { unit: 'mm', meaning: 'flange, depth' },
    up: { unit: 'mm', meaning: 'motor’s axis to the plate' },
    down: { unit: 'mm', meaning: 'motor’s axis to the lower edge' },
    pilotRadius: { unit: 'mm', meaning: 'hole of the motor’s pilot, radius' },
    boltCircle: { unit: 'mm', meaning: 'motor’s screws, circle' },
    boltCount: { unit: 'count', meaning: 'motor’s screws' },
    boltHole: { unit: 'mm', meaning: 'holes of the motor’s screws, diameter' },
    sinkRadius: { unit: 'mm', meaning: 'countersinks, radius' },
    lugHole: { unit: 'mm', meaning: 'hole of the ground lug, diameter' },
    lugAt: { unit: 'mm', meaning: 'hole of the ground lug, from the middle' },
    lugUnder: { unit: 'mm', meaning: 'hole of the ground lug, under the motor’s axis' },
    slotX: { unit: 'mm', meaning: 'slots, from the middle' },
    slotsAt: { unit: 'mm', meaning: 'slots, from the face on the bed' },
    slotRadius: { unit: 'mm', meaning: 'slots, half width' },
    travel: { unit: 'mm', meaning: 'how far it slides to either side' },
    nutFlats: { unit: 'mm', meaning: 'nut channels, width' },
  },
  dimensions({ drive: { bracket, motor }, print }: Machine): BracketDimensions {
    const bolt = fastener(motor.face.bolts.thread);
    const screw = fastener(bracket.screw);
    return {
      faceThickness: bracket.faceThickness,
      flangeThickness: bracket.flangeThickness,
      gusset: bracket.gusset,
      half: bracket.half,
      depth: bracket.depth,
      up: bracket.up,
      down: bracket.down,
      pilotRadius: bracket.pilotFit.drawn / 2,
      boltCircle: motor.face.bolts.circle,
      boltCount: motor.face.bolts.count,
      boltHole: drawnHole(print.calibration, bolt.clearance.medium),
      sinkRadius: bolt.countersink.diameter / 2,
      lugHole: drawnHole(print.calibration, fastener('M3').clearance.medium),
      lugAt: bracket.groundAt[0],
      lugUnder: bracket.groundAt[1],
      slotX: bracket.screwX,
      slotsAt: bracket.screwsAt,
      slotRadius: screw.clearance.medium / 2,
      travel: bracket.travel,
      nutFlats: drawnHole(print.calibration, screw.nutFlats + NUT_ROOM),
    };
  },
  bare,
  build(d, k) {
    const bolt = k.revolve(boltCutter(d), sidesFor(d.sinkRadius));
    const slots = slotPlaces(d).flatMap(([x, z]) => [
      k.place(prismAlongY(slot(d, x, z), d.flangeThickness + 2 * BEYOND, k), {
        turn: [0, 0, 0],
        move: [0, d.up - d.flangeThickness / 2, 0],
      }),
      prismAlongX(channel(d, z, BEYOND), x - d.travel - NUT_HALF, x + d.travel + NUT_HALF, k),
    ]);
    const through = (radius: number, at: Vec2) => k.extrude([holeLoop(radius, at)], -1, d.faceThickness + 1);
    return k.subtract(bare(d, k), [
      through(d.pilotRadius, [0, 0]),
      ...boltPlaces(d).map(([x, y]) => k.place(bolt, { turn: [0, 0, 0], move: [x, y, 0] })),
      through(d.lugHole / 2, [d.lugAt, -d.lugUnder]),
      ...slots,
      engraver(k, engraving(d)),
    ]);
  },
  stated(d): Stated {
    const round = (radius: number) => holeVolume(radius, sidesFor(radius), d.faceThickness);
    const one =
      loopArea(slot(d, 0, 0)) * (d.flangeThickness - NUT_CHANNEL) +
      loopArea(channel(d, 0, 0)) * 2 * (d.travel + NUT_HALF);
    const volume =
      bareVolume(d) -
      round(d.pilotRadius) -
      round(d.lugHole / 2) -
      d.boltCount * boltVolume(d) -
      slotPlaces(d).length * one -
      engravedVolume(engraving(d));
    return {
      genus: 2 + d.boltCount + slotPlaces(d).length,
      pieces: 1,
      bounds: { min: [-d.half, -d.down, 0], max: [d.half, d.up, d.depth] },
      bareVolume: bareVolume(d),
      volume,
    };
  },
  place: ({ drive: { bracket, motor } }: Machine) => [
    {
      placement: { turn: [90, 0, 0], move: [motor.at[0], bracket.face, motor.at[2]] },
      moves: [
        {
          slide: [0, 0, bracket.up + bracket.down + CLEAR_AIR],
          turn: 0,
          why: 'up against the plate from below',
        },
      ],
    },
  ],
  fasteners: ({ drive: { bracket, motor } }: Machine) => {
    const count = 2 * bracket.screwsAt.length;
    const use = 'motor bracket to plate';
    return [
      {
        what: 'socket head cap screw ISO 4762',
        size: bracket.screw,
        length: bracket.screwLength,
        count,
        use,
      },
      { what: 'washer ISO 7089', size: bracket.screw, length: undefined, count, use },
      { what: 'hexagon nut ISO 4032', size: bracket.screw, length: undefined, count, use },
      {
        what: 'countersunk screw ISO 10642',
        size: motor.face.bolts.thread,
        length: bracket.motorScrewLength,
        count: motor.face.bolts.count,
        use: 'motor to its bracket',
      },
      {
        what: 'pan head screw with nut and cable lug',
        size: GROUND_SCREW.size,
        length: GROUND_SCREW.length,
        count: 1,
        use: 'ground of the motor’s frame',
      },
    ];
  },
};
