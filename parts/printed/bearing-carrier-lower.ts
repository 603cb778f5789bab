import type { Machine } from '../machine/machine.js';
import { holeLoop, sidesFor, slotLoop } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { prismAlongY } from '../solid/prisms.js';
import { holeVolume, loopArea } from '../solid/sections.js';
import type { Loop, Vec2 } from '../solid/vector.js';
import { bondStrip } from './bond-strip.js';
import { CARRIER_STEPS } from './carrier-places.js';
import { codeFor, engraver, type PrintedPart, type Stated } from './part.js';

type LowerDimensions = {
  readonly thickness: number;
  readonly lip: number;
  readonly pocketRadius: number;
  readonly lipHalf: number;
  readonly axisAt: number;
  readonly legHalf: number;
  readonly legEnd: number;
  readonly bump: number;
  readonly bumpAt: number;
  readonly footHalf: number;
  readonly footThickness: number;
  readonly footChamfer: number;
  readonly screwAt: number;
  readonly screwHole: number;
};

/** mm */
const BED_CHAMFER = 0.4;
const FOOT_CHAMFER = 2.5;
const CODE_HEIGHT = 2.6;

/** Foot seen from above, corners cut, drawn in by `inset`. */
function foot(d: LowerDimensions, inset = 0): Loop {
  const [x, y] = [d.footHalf - inset, d.thickness / 2 - inset];
  const cut = d.footChamfer - inset * (2 - Math.SQRT2);
  return [
    [-x + cut, -y],
    [x - cut, -y],
    [x, -y + cut],
    [x, y - cut],
    [x - cut, y],
    [-x + cut, y],
    [-x, y - cut],
    [-x, -y + cut],
  ];
}

/** A half-round pocket open to the top: what it takes out of the cheek's side view, up to the end of its legs. */
const gap = (d: LowerDimensions, half: number): Loop =>
  slotLoop(half, [0, d.axisAt], [0, d.legEnd + half + 1]);

/** Area of a gap below the legs' ends, mm2. */
function gapArea(d: LowerDimensions, half: number): number {
  const sides = sidesFor(half);
  const round = (sides / 2) * half * half * Math.tan(Math.PI / sides);
  return round + 2 * half * (d.legEnd - d.axisAt);
}

/** A bump on the wall of the pocket at one side, [x, z]: 45 degrees to both sides. */
function bump(d: LowerDimensions, side: -1 | 1): Loop {
  const wall = d.pocketRadius;
  const [x0, x1] = [side * (wall + 0.5), side * (wall - d.bump)];
  const spread = d.bump + 0.5;
  const loop: Vec2[] = [
    [x0, d.bumpAt - spread],
    [x0, d.bumpAt + spread],
    [x1, d.bumpAt],
  ];
  return side < 0 ? loop.reverse() : loop;
}

function engraving(d: LowerDimensions): Engraving {
  return {
    text: codeFor(lowerCarrier, d),
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: { kind: 'line', centre: [0, 0], heading: 0 },
    mirrored: true,
  };
}

const pocketWidth = (d: LowerDimensions) => d.thickness - 2 * d.lip;

function side(d: LowerDimensions): Loop {
  return [
    [-d.legHalf, 0],
    [d.legHalf, 0],
    [d.legHalf, d.legEnd],
    [-d.legHalf, d.legEnd],
  ];
}

function body(d: LowerDimensions, base: Solid, k: Kernel): Solid {
  return k.union([base, prismAlongY(side(d), d.thickness, k)]);
}

/** Printed cheek of the lower carrier: hangs under the skirt, its bearing in a pocket that is open downwards. */
export const lowerCarrier: PrintedPart<LowerDimensions> = {
  id: 'bearing-carrier-lower',
  revision: 1,
  purpose:
    'hangs under the skirt and holds one bearing of the lower axle against the belt’s pull; without it the axle clicks out downwards',
  copies: 2,
  step: CARRIER_STEPS.lower,
  print: { walls: 5, infill: 60, orientation: 'foot on the bed, legs up' },
  assembly:
    'Screw each foot to the inserts in the skirt with two M3 screws and washers. Before the bearings click in, lay a strip of copper foil into each pocket, metal down, over the bearing’s upper half, its ends out of the pocket below and folded up along the legs: one of them takes a wire to the ground stud.',
  fields: {
    thickness: { unit: 'mm', meaning: 'thickness along the axle' },
    lip: { unit: 'mm', meaning: 'lips beside the bearing, thickness' },
    pocketRadius: { unit: 'mm', meaning: 'pocket of the bearing, radius' },
    lipHalf: { unit: 'mm', meaning: 'gap in the lips, half width' },
    axisAt: { unit: 'mm', meaning: 'axis over the foot' },
    legHalf: { unit: 'mm', meaning: 'legs, outer half width' },
    legEnd: { unit: 'mm', meaning: 'legs, end over the foot' },
    bump: { unit: 'mm', meaning: 'bumps the bearing clicks past, height' },
    bumpAt: { unit: 'mm', meaning: 'bumps over the foot' },
    footHalf: { unit: 'mm', meaning: 'foot, half length' },
    footThickness: { unit: 'mm', meaning: 'foot, thickness' },
    footChamfer: { unit: 'mm', meaning: 'foot, corners cut' },
    screwAt: { unit: 'mm', meaning: 'screws, from the middle' },
    screwHole: { unit: 'mm', meaning: 'screw holes, diameter' },
  },

  dimensions({ carriers: { lower }, rim }: Machine): LowerDimensions {
    return {
      thickness: lower.outerFace - lower.innerFace,
      lip: lower.lip,
      pocketRadius: lower.pocketFit.drawn / 2,
      lipHalf: lower.lipHalf,
      axisAt: lower.axisBelow,
      legHalf: lower.legHalf,
      legEnd: lower.legEnd,
      bump: lower.bump,
      bumpAt: lower.axisBelow + lower.bumpBelow,
      footHalf: lower.footHalf,
      footThickness: lower.footThickness,
      footChamfer: FOOT_CHAMFER,
      screwAt: lower.screwAt,
      screwHole: rim.screwHole,
    };
  },

  bare: (d, k) => body(d, k.extrude([foot(d)], 0, d.footThickness), k),

  build(d, k) {
    const base = k.loft([
      { z: 0, loop: foot(d, BED_CHAMFER) },
      { z: BED_CHAMFER, loop: foot(d) },
      { z: d.footThickness, loop: foot(d) },
    ]);
    // The column starts above the chamfer, which runs around the foot.
    const column = k.place(
      k.intersect(prismAlongY(side(d), d.thickness, k), k.extrude([foot(d)], BED_CHAMFER, d.legEnd + 1)),
      { turn: [0, 0, 0], move: [0, 0, 0] },
    );
    const bumps = ([-1, 1] as const).map((each) => prismAlongY(bump(d, each), pocketWidth(d), k));
    const cut = k.subtract(k.union([base, column]), [
      prismAlongY(gap(d, d.pocketRadius), pocketWidth(d), k),
      prismAlongY(gap(d, d.lipHalf), d.thickness + 2, k),
      ...[-1, 1].map((each) =>
        k.extrude([holeLoop(d.screwHole / 2, [each * d.screwAt, 0])], -1, d.footThickness + 1),
      ),
      engraver(k, engraving(d)),
    ]);
    return k.union([cut, ...bumps]);
  },

  stated(d): Stated {
    const legs = loopArea(side(d)) - 2 * d.legHalf * d.footThickness;
    const bareVolume = loopArea(foot(d)) * d.footThickness + legs * d.thickness;
    const area = (inset: number) => loopArea(foot(d, inset));
    const chamfer =
      BED_CHAMFER * area(0) - (BED_CHAMFER / 6) * (area(BED_CHAMFER) + 4 * area(BED_CHAMFER / 2) + area(0));
    const volume =
      bareVolume -
      chamfer -
      gapArea(d, d.pocketRadius) * pocketWidth(d) -
      gapArea(d, d.lipHalf) * 2 * d.lip -
      2 * holeVolume(d.screwHole / 2, sidesFor(d.screwHole / 2), d.footThickness) +
      2 * d.bump * d.bump * pocketWidth(d) -
      engravedVolume(engraving(d));
    const half = d.thickness / 2;
    return {
      genus: 2,
      pieces: 1,
      bounds: { min: [-d.footHalf, -half, 0], max: [d.footHalf, half, d.legEnd] },
      bareVolume,
      volume,
    };
  },

  place: ({ carriers: { lower }, plate, base }: Machine) =>
    ([-1, 1] as const).map((end) => ({
      placement: {
        turn: [180, 0, 0],
        move: [0, (end * (lower.innerFace + lower.outerFace)) / 2, -(plate.thickness + base.skirt.thickness)],
      },
      moves: [{ slide: [0, 0, 60], turn: 0, why: 'up against the skirt from below' }],
    })),

  fasteners: ({ carriers: { lower } }: Machine) => [
    {
      what: 'socket head cap screw ISO 4762',
      size: lower.screw,
      length: lower.screwLength,
      count: 4,
      use: 'lower carrier to skirt',
    },
    {
      what: 'washer ISO 7089',
      size: lower.screw,
      length: undefined,
      count: 4,
      use: 'lower carrier to skirt',
    },
    bondStrip(lower.foil, 2, 'wires of the lower axle'),
  ],
};
