import type { Machine } from '../machine/machine.js';
import { circumscribed, holeLoop, rectangle, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { holeVolume, integrate, revolvedVolume, slotFromFlat } from '../solid/sections.js';
import { type Loop, radians } from '../solid/vector.js';
import { fastener } from '../stock/fasteners.js';
import { CLEAR_AIR, codeFor, type PrintedPart, roundBounds, type Stated } from './part.js';

type CollarDimensions = {
  readonly flangeRadius: number;
  readonly height: number;
  readonly seatRadius: number;
  readonly seatLand: number;
  readonly lipRadius: number;
  readonly boltRadius: number;
  readonly boltHole: number;
  readonly headRadius: number;
  readonly headDepth: number;
  readonly boltAngles: readonly number[];
  readonly pocketAngles: readonly number[];
  readonly pocketRadius: number;
  readonly pocketDepth: number;
  readonly keyCount: number;
  readonly keyWidth: number;
  readonly keyDepth: number;
  readonly studAngle: number;
  readonly studNotchWidth: number;
  readonly studNotchFrom: number;
};

/** mm */
const EDGE = 1;
const BED_CHAMFER = 0.5;
const CODE_HEIGHT = 4;
/** Room around a screw’s head, on the radius and above it. */
const HEAD_ROOM = { radius: 0.35, above: 0.4 };
/** The keys are rooted this deep in the wall, so that no face only touches it. */
const KEY_ROOT = 1;

const seatTop = (d: CollarDimensions) => d.seatLand + d.seatRadius - d.lipRadius;

function profile(d: CollarDimensions): Loop {
  const sides = sidesFor(d.flangeRadius);
  const bore = (radius: number) => circumscribed(radius, sides);
  return [
    [bore(d.seatRadius), 0],
    [d.flangeRadius - BED_CHAMFER, 0],
    [d.flangeRadius, BED_CHAMFER],
    [d.flangeRadius, d.height - EDGE],
    [d.flangeRadius - EDGE, d.height],
    [bore(d.lipRadius), d.height],
    [bore(d.lipRadius), seatTop(d)],
    [bore(d.seatRadius), d.seatLand],
  ];
}

function engraving(d: CollarDimensions): Engraving {
  return {
    text: codeFor(baseCollar, d),
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: { kind: 'arc', radius: (d.lipRadius + d.flangeRadius) / 2, middle: 0 },
    mirrored: false,
  };
}

const at = (radius: number, angle: number) =>
  [radius * Math.cos(radians(angle)), radius * Math.sin(radians(angle))] as const;

/** Blocks that stand in from the bore; their tops follow the cone, so that they need no support and hold nothing down. */
function keys(d: CollarDimensions, k: Kernel): Solid[] {
  const inner = d.seatRadius - d.keyDepth;
  const block = k.extrude(
    [rectangle(inner, -d.keyWidth / 2, d.seatRadius + KEY_ROOT, d.keyWidth / 2)],
    0,
    d.seatLand + d.keyDepth,
  );
  return Array.from({ length: d.keyCount }, (_, i) =>
    k.place(block, { turn: [0, 0, (360 / d.keyCount) * i], move: [0, 0, 0] }),
  );
}

function holes(d: CollarDimensions, k: Kernel): Solid[] {
  const screws = d.boltAngles.flatMap((angle) => {
    const centre = at(d.boltRadius, angle);
    return [
      k.extrude([holeLoop(d.boltHole / 2, centre)], -1, d.height),
      k.extrude([holeLoop(d.headRadius, centre)], d.height - d.headDepth, d.height + 1),
    ];
  });
  const pockets = d.pocketAngles.map((angle) =>
    k.extrude([holeLoop(d.pocketRadius, at(d.boltRadius, angle))], -1, d.pocketDepth),
  );
  const notch = k.extrude(
    [rectangle(d.studNotchFrom, -d.studNotchWidth / 2, d.flangeRadius + 1, d.studNotchWidth / 2)],
    -1,
    d.height + 1,
  );
  return [...screws, ...pockets, k.place(notch, { turn: [0, 0, d.studAngle], move: [0, 0, 0] })];
}

/** Printed ring that clamps the mount’s foot to the plate and keeps it from turning. */
export const baseCollar: PrintedPart<CollarDimensions> = {
  id: 'base-collar',
  revision: 1,
  purpose:
    'clamps the mount’s foot to the plate by a cone, keyed against turning; leaves room for the ground stud',
  copies: 1,
  step: 30,
  print: { walls: 5, infill: 50, orientation: 'plate side on the bed' },
  assembly:
    'Put the collar over the mount from above, keys into the notches, and draw its screws down crosswise until it holds the foot fast; a gap of about 0.3 mm to the plate stays.',
  fields: {
    flangeRadius: { unit: 'mm', meaning: 'outside, radius' },
    height: { unit: 'mm', meaning: 'height' },
    seatRadius: { unit: 'mm', meaning: 'bore around the mount’s foot, radius' },
    seatLand: { unit: 'mm', meaning: 'height of the cylindrical bore' },
    lipRadius: { unit: 'mm', meaning: 'opening of the lip, radius' },
    boltRadius: { unit: 'mm', meaning: 'radius the screws stand on' },
    boltHole: { unit: 'mm', meaning: 'screw holes, diameter' },
    headRadius: { unit: 'mm', meaning: 'counterbores, radius' },
    headDepth: { unit: 'mm', meaning: 'counterbores, depth' },
    boltAngles: { unit: 'degrees', meaning: 'directions of the screws' },
    pocketAngles: { unit: 'degrees', meaning: 'directions of the pockets over the skirt’s own screws' },
    pocketRadius: { unit: 'mm', meaning: 'pockets, radius' },
    pocketDepth: { unit: 'mm', meaning: 'pockets, depth' },
    keyCount: { unit: 'count', meaning: 'keys' },
    keyWidth: { unit: 'mm', meaning: 'width of the keys' },
    keyDepth: { unit: 'mm', meaning: 'how far the keys stand in' },
    studAngle: { unit: 'degrees', meaning: 'direction of the ground stud' },
    studNotchWidth: { unit: 'mm', meaning: 'width of the notch for stud and cable' },
    studNotchFrom: { unit: 'mm', meaning: 'inner end of the notch, from the axis' },
  },

  dimensions({ base, grip }: Machine): CollarDimensions {
    const { clampGap: _gap, restsAt: _rests, studNotchIn: _in, ...collar } = base.collar;
    const screw = fastener(base.screw);
    return {
      ...collar,
      boltRadius: base.boltRadius,
      boltHole: screw.clearance.medium,
      headRadius: screw.headDiameter / 2 + HEAD_ROOM.radius,
      boltAngles: base.boltAngles,
      pocketAngles: base.skirtBoltAngles,
      pocketRadius: screw.washer.outer / 2 + HEAD_ROOM.radius,
      pocketDepth: screw.headHeight + screw.washer.thickness + HEAD_ROOM.above,
      keyCount: grip.key.count,
      studAngle: base.stud.angle,
      studNotchFrom: base.boltRadius - base.collar.studNotchIn,
    };
  },

  bare: (d, k) => k.revolve(profile(d), sidesFor(d.flangeRadius)),

  build(d, k) {
    const mark = k.extrude(k.characters(engraving(d)), d.height - MARK_DEPTH, d.height + 1);
    return k.subtract(k.union([baseCollar.bare(d, k), ...keys(d, k)]), [...holes(d, k), mark]);
  },

  stated(d): Stated {
    const bareVolume = revolvedVolume(profile(d), sidesFor(d.flangeRadius));
    const keyInner = d.seatRadius - d.keyDepth;
    const boreAt = (z: number) => (z < d.seatLand ? d.seatRadius : d.seatRadius - (z - d.seatLand));
    const keyArea = (z: number) => slotFromFlat(keyInner, boreAt(z), d.keyWidth);
    const keyVolume =
      integrate(keyArea, 0, d.seatLand) + integrate(keyArea, d.seatLand, d.seatLand + d.keyDepth);
    const hole = (radius: number, depth: number) => holeVolume(radius, sidesFor(radius), depth);
    const screws = hole(d.boltHole / 2, d.height - d.headDepth) + hole(d.headRadius, d.headDepth);
    const pockets = hole(d.pocketRadius, d.pocketDepth);
    const rim = (z: number) =>
      z < BED_CHAMFER
        ? d.flangeRadius - BED_CHAMFER + z
        : z > d.height - EDGE
          ? d.flangeRadius - (z - (d.height - EDGE))
          : d.flangeRadius;
    const notchArea = (z: number) => slotFromFlat(d.studNotchFrom, rim(z), d.studNotchWidth);
    const notch =
      integrate(notchArea, 0, BED_CHAMFER) +
      integrate(notchArea, BED_CHAMFER, d.height - EDGE) +
      integrate(notchArea, d.height - EDGE, d.height);
    const volume =
      bareVolume +
      d.keyCount * keyVolume -
      d.boltAngles.length * screws -
      d.pocketAngles.length * pockets -
      notch -
      engravedVolume(engraving(d));
    // Bore, and one tunnel for each screw.
    return {
      genus: 1 + d.boltAngles.length,
      pieces: 1,
      bounds: notchedBounds(d),
      bareVolume,
      volume,
    };
  },

  place: ({ base, grip }: Machine) => [
    {
      placement: { turn: [0, 0, 0], move: [0, 0, base.collar.restsAt] },
      moves: [
        { slide: [0, 0, -(grip.mount.headTop + CLEAR_AIR)], turn: 0, why: 'over the mount from above' },
      ],
    },
  ],

  fasteners: ({ base }: Machine) => [
    {
      what: 'socket head cap screw ISO 4762',
      size: base.screw,
      length: base.screwLength,
      count: base.boltAngles.length,
      use: 'collar, plate and skirt',
    },
    {
      what: 'hexagon nut ISO 4032',
      size: base.screw,
      length: undefined,
      count: base.boltAngles.length,
      use: 'in the skirt',
    },
    {
      what: 'cap screw or stud',
      size: base.stud.size,
      length: base.stud.length,
      count: 1,
      use: 'ground stud, from below',
    },
    {
      what: 'thin nut ISO 4035',
      size: base.stud.size,
      length: undefined,
      count: 1,
      use: 'ground stud, on the plate',
    },
    {
      what: 'hexagon nut ISO 4032',
      size: base.stud.size,
      length: undefined,
      count: 1,
      use: 'ground stud, on the lugs',
    },
    { what: 'washer ISO 7089', size: base.stud.size, length: undefined, count: 3, use: 'ground stud' },
    { what: 'ring cable lug', size: base.stud.size, length: undefined, count: 2, use: 'ground stud' },
  ],
};

/** The notch for the stud opens to -x and takes the extreme points of the outside with it. */
function notchedBounds(d: CollarDimensions): Stated['bounds'] {
  const whole = roundBounds(d.flangeRadius, d.height);
  if (d.studAngle !== 180) return whole;
  const corner = Math.sqrt(d.flangeRadius ** 2 - (d.studNotchWidth / 2) ** 2);
  return { min: [-corner, whole.min[1], 0], max: whole.max };
}
