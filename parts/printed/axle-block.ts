import type { Machine } from '../machine/machine.js';
import { holeLoop, rectangle, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { prismAlongX } from '../solid/prisms.js';
import { holeVolume, loopArea } from '../solid/sections.js';
import type { Loop } from '../solid/vector.js';
import { fastener } from '../stock/fasteners.js';
import { bondStrip } from './bond-strip.js';
import { besideCarrier, CARRIER_STEPS, ontoRing } from './carrier-places.js';
import { codeFor, engraver, type PrintedPart, type Stated } from './part.js';
import { slidingArea, slidingSection, TONGUE } from './rail.js';

type BlockDimensions = {
  readonly left: number;
  readonly right: number;
  readonly thickness: number;
  readonly height: number;
  readonly slotHalf: number;
  readonly slotFloor: number;
  readonly jackAt: number;
  readonly insertRadius: number;
  readonly axisAt: number;
  readonly padWidth: number;
  readonly padHalf: number;
  readonly padHeight: number;
};

/** mm */
const BED_CHAMFER = 0.4;
const PAD_ROOT = 0.5;
const CODE_HEIGHT = 1.9;

/** Side view of a pad, [y, z]: 45 degrees underneath, up to the block's top at most. */
function pad(d: BlockDimensions, root: number): Loop {
  const face = d.thickness / 2;
  const low = d.axisAt - d.padHalf;
  const high = Math.min(d.axisAt + d.padHalf, d.height);
  return [
    [face - root, low - d.padHeight - root],
    [face + d.padHeight, low],
    [face + d.padHeight, high],
    [face - root, high],
  ];
}

function pads(d: BlockDimensions, k: Kernel): Solid[] {
  const one = pad(d, PAD_ROOT);
  const other = one.map(([y, z]) => [-y, z] as const).reverse();
  return [one, other].flatMap((loop) => [
    prismAlongX(loop, d.slotHalf, d.slotHalf + d.padWidth, k),
    prismAlongX(loop, -d.slotHalf - d.padWidth, -d.slotHalf, k),
  ]);
}

function engraving(d: BlockDimensions): Engraving {
  return {
    text: codeFor(axleBlock, d),
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    // Mirrored on the bed, so drawn on the other side; beside the insert's hole.
    layout: { kind: 'line', centre: [-(d.left + d.right) / 2, d.thickness / 2 - 1.4], heading: 0 },
    mirrored: true,
  };
}

/** Printed block that carries one end of the upper axle: slides in its cheek's rails on a jack screw. */
export const axleBlock: PrintedPart<BlockDimensions> = {
  id: 'axle-block',
  revision: 1,
  purpose:
    'carries one end of the upper axle in an open slot and sets its height: both together tension the belt, one against the other tilts the roller',
  copies: 2,
  step: CARRIER_STEPS.block,
  print: { walls: 4, infill: 80, orientation: 'standing, slot up' },
  assembly:
    'Heat an M3 insert into each block from above, flush; turn the jack screw in, and slide the block into its cheek from above until the screw stands on the disc on the cheek’s floor. Lay the strip of copper foil into one slot, metal up, its free end out over the outer face: the axle lies on it, and its wire goes to the seat’s contact spring.',
  fields: {
    left: { unit: 'mm', meaning: 'side towards the jack screw' },
    right: { unit: 'mm', meaning: 'other side' },
    thickness: { unit: 'mm', meaning: 'thickness along the axle' },
    height: { unit: 'mm', meaning: 'height' },
    slotHalf: { unit: 'mm', meaning: 'slot of the axle, half width' },
    slotFloor: { unit: 'mm', meaning: 'floor of the slot over the foot' },
    jackAt: { unit: 'mm', meaning: 'jack screw, from the axle' },
    insertRadius: { unit: 'mm', meaning: 'hole of the insert, radius' },
    axisAt: { unit: 'mm', meaning: 'axis over the foot' },
    padWidth: { unit: 'mm', meaning: 'pads beside the slot, width' },
    padHalf: { unit: 'mm', meaning: 'pads, half height' },
    padHeight: { unit: 'mm', meaning: 'pads, how far they stand out' },
  },

  dimensions({ carriers: { upper }, combs }: Machine): BlockDimensions {
    const { block } = upper;
    return {
      left: block.left,
      right: block.right,
      thickness: block.thickness,
      height: block.below + block.above,
      slotHalf: block.slotHalf,
      slotFloor: block.below - block.flatBelow,
      jackAt: block.jackAt,
      insertRadius: combs.upper.bracket.insertRadius,
      axisAt: block.below,
      padWidth: block.padWidth,
      padHalf: block.padHalf,
      padHeight: block.padHeight,
    };
  },

  bare: (d, k) => k.extrude([slidingSection(d)], 0, d.height),

  build(d, k) {
    const body = k.loft([
      { z: 0, loop: slidingSection(d, BED_CHAMFER) },
      { z: BED_CHAMFER, loop: slidingSection(d) },
      { z: d.height, loop: slidingSection(d) },
    ]);
    const far = d.thickness / 2 + d.padHeight + 1;
    return k.subtract(k.union([body, ...pads(d, k)]), [
      k.extrude([rectangle(-d.slotHalf, -far, d.slotHalf, far)], d.slotFloor, d.height + 1),
      k.extrude([holeLoop(d.insertRadius, [d.jackAt, 0])], -1, d.height + 1),
      engraver(k, engraving(d)),
    ]);
  },

  stated(d): Stated {
    const bareVolume = slidingArea(d) * d.height;
    const area = (inset: number) => slidingArea(d, inset);
    // The prismatoid rule, exact for a loft.
    const chamfer =
      BED_CHAMFER * area(0) - (BED_CHAMFER / 6) * (area(BED_CHAMFER) + 4 * area(BED_CHAMFER / 2) + area(0));
    const padVolume = loopArea(pad(d, 0)) * d.padWidth;
    const volume =
      bareVolume -
      chamfer +
      4 * padVolume -
      2 * d.slotHalf * d.thickness * (d.height - d.slotFloor) -
      holeVolume(d.insertRadius, sidesFor(d.insertRadius), d.height) -
      engravedVolume(engraving(d));
    const half = d.thickness / 2 + d.padHeight;
    return {
      genus: 1,
      pieces: 1,
      bounds: { min: [d.left - TONGUE, -half, 0], max: [d.right + TONGUE, half, d.height] },
      bareVolume,
      volume,
    };
  },

  place: (machine) =>
    ([-1, 1] as const).map((side) => ({
      placement: besideCarrier(
        machine,
        side,
        machine.rollers.upper.axisZ - machine.carriers.upper.block.below,
      ),
      moves: [
        { slide: [0, 0, -60], turn: 0, why: 'into its cheek’s rails from above' },
        ...ontoRing(machine, side),
      ],
    })),

  fasteners: ({ carriers: { upper } }: Machine) => [
    { what: 'heat-set insert', size: 'M3', length: undefined, count: 2, use: 'jack screws' },
    {
      // Between the posts there is no room to turn a lock nut.
      what: 'socket head cap screw ISO 4762 with a locking patch, or with thread locking compound',
      size: upper.screw,
      length: upper.jackLength,
      count: 2,
      use: 'jack screws of the upper axle',
    },
    // An M3 screw's end drops through the hole of an M3 washer.
    {
      what: `steel disc without a hole, ${fastener(upper.screw).washer.thickness} thick`,
      size: `${fastener(upper.screw).washer.outer}`,
      length: undefined,
      count: 2,
      use: 'under the jack screws; or washers with their holes filled with solder',
    },
    bondStrip(upper.foil, 1, 'wire of the upper axle'),
  ],
};
