import type { Machine } from '../machine/machine.js';
import { wandJoints } from '../machine/wand.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume } from '../solid/marks.js';
import { type Corner, filleted } from '../solid/outline.js';
import { loopArea } from '../solid/sections.js';
import type { Loop } from '../solid/vector.js';
import { codeFor, engraver, type PrintedPart, type Stated } from './part.js';
import { lineOnBed, WAND_STEPS } from './wand-bar.js';

type PinDimensions = {
  readonly breadth: number;
  readonly thickness: number;
  readonly shank: number;
  readonly slitFrom: number;
  readonly slit: number;
  readonly barb: number;
  readonly head: number;
};

/** mm; the tip narrows to below the hole, the slit's root is rounded. */
const TIP = { length: 4, inset: 0.8 };
const ROOT = 1;
/** How far the head stands out to either side. */
const RIM = 2;
const CODE = { height: 2.5, line: 3.5 };

/** Along x from its head's underside, legs in the plane of the bed. */
function outline(d: PinDimensions): Loop {
  const half = d.breadth / 2;
  const barbAt = d.shank + d.barb;
  const end = barbAt + TIP.length;
  const side: readonly Corner[] = [
    { at: [-d.head, -(half + RIM)], radius: 0 },
    { at: [0, -(half + RIM)], radius: 0 },
    { at: [0, -half], radius: 0 },
    { at: [d.shank, -half], radius: 0 },
    { at: [barbAt, -(half + d.barb)], radius: 0 },
    { at: [end, -(half - TIP.inset)], radius: 0 },
    { at: [end, -d.slit / 2], radius: 0 },
    { at: [d.slitFrom, -d.slit / 2], radius: ROOT },
  ];
  const other = [...side].reverse().map(({ at: [x, y], radius }): Corner => ({ at: [x, -y], radius }));
  return filleted([...side, ...other]);
}

const solid = (d: PinDimensions, k: Kernel): Solid => k.extrude([outline(d)], 0, d.thickness);

/** Two lines of four on the part that is not slit. */
function engravings(d: PinDimensions): Engraving[] {
  const code = codeFor(wandPin, d);
  const middle = (d.slitFrom - d.head) / 2;
  return [code.slice(0, 4), code.slice(4)].map((text, i) =>
    lineOnBed(text, [middle, (0.5 - i) * CODE.line], CODE.height),
  );
}

/** Printed pin through a joint of the wand’s handle: two per joint. */
export const wandPin: PrintedPart<PinDimensions> = {
  id: 'wand-pin',
  revision: 1,
  role: 'tool',
  purpose:
    'keeps a joint of the discharge wand’s handle from coming apart: pulling shears it, and its barbs keep it in its hole',
  copies: ({ wand }: Machine) => 2 * wandJoints(wand),
  step: WAND_STEPS.pin,
  print: { walls: 4, infill: 100, orientation: 'lying on its broad side, so that its layers run along it' },
  assembly:
    'Push it through bar and plug, legs along the handle, until both barbs snap out on the other side. To take it out, pinch the barbs with pliers.',
  fields: {
    breadth: { unit: 'mm', meaning: 'breadth, along the handle' },
    thickness: { unit: 'mm', meaning: 'thickness, across the handle' },
    shank: { unit: 'mm', meaning: 'from the head’s underside to the barbs' },
    slitFrom: { unit: 'mm', meaning: 'from the head’s underside to the slit' },
    slit: { unit: 'mm', meaning: 'slit between the legs, width' },
    barb: { unit: 'mm', meaning: 'barbs, how far they stand out' },
    head: { unit: 'mm', meaning: 'head, thickness' },
  },
  dimensions: ({ wand: { pin } }: Machine): PinDimensions => ({
    breadth: pin.breadth,
    thickness: pin.thickness,
    shank: pin.shank,
    slitFrom: pin.slitFrom,
    slit: pin.slit,
    barb: pin.barb,
    head: pin.head,
  }),
  bare: solid,
  build: (d, k) =>
    k.subtract(
      solid(d, k),
      engravings(d).map((each) => engraver(k, each)),
    ),
  stated(d): Stated {
    const half = d.breadth / 2 + RIM;
    const bareVolume = loopArea(outline(d)) * d.thickness;
    return {
      genus: 0,
      pieces: 1,
      bounds: {
        min: [-d.head, -half, 0],
        max: [d.shank + d.barb + TIP.length, half, d.thickness],
      },
      bareVolume,
      volume: bareVolume - engravings(d).reduce((sum, each) => sum + engravedVolume(each), 0),
    };
  },
  place: () => [],
  fasteners: () => [],
};
