import type { Machine } from '../machine/machine.js';
import { wandJoints } from '../machine/wand.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { engravedVolume } from '../solid/marks.js';
import { prismAlongX } from '../solid/prisms.js';
import { loopArea } from '../solid/sections.js';
import type { Loop } from '../solid/vector.js';
import { codeFor, engraver, type PrintedPart, type Stated } from './part.js';
import { lineOnBed, octagon, pinHole, WAND_STEPS } from './wand-bar.js';

type PlugDimensions = {
  readonly width: number;
  readonly length: number;
  readonly pinAt: number;
  readonly pinBreadth: number;
  readonly pinThickness: number;
};

/** mm; its ends are drawn in seen from above, to find their mortise. */
const LEAD_IN = 1.5;
const CODE_HEIGHT = 3.5;

const engraving = (d: PlugDimensions) => lineOnBed(codeFor(wandPlug, d), [0, 0], CODE_HEIGHT);

/** Seen from above, around its middle. */
function plan({ width, length }: PlugDimensions): Loop {
  const [end, half] = [length / 2, width / 2];
  return [
    [-end, -(half - LEAD_IN)],
    [-(end - LEAD_IN), -half],
    [end - LEAD_IN, -half],
    [end, -(half - LEAD_IN)],
    [end, half - LEAD_IN],
    [end - LEAD_IN, half],
    [-(end - LEAD_IN), half],
    [-end, half - LEAD_IN],
  ];
}

const whole = ({ width, length }: PlugDimensions, k: Kernel): Solid =>
  prismAlongX(octagon(width, 0), -length / 2, length / 2, k);

/** mm3 that the four corners take: the section is a flank high at its side, and higher by both slopes farther in. */
function leadInVolume({ width }: PlugDimensions): number {
  const flank = width * Math.tan(Math.PI / 8);
  return 4 * ((flank * LEAD_IN ** 2) / 2 + LEAD_IN ** 3 / 3);
}

/** Printed plug in the mortises of two pieces of the wand’s handle. */
export const wandPlug: PrintedPart<PlugDimensions> = {
  id: 'wand-plug',
  revision: 1,
  role: 'tool',
  purpose: 'joins two pieces of the discharge wand’s handle; eight-sided, so that neither turns on it',
  copies: ({ wand }: Machine) => wandJoints(wand),
  step: WAND_STEPS.plug,
  print: {
    walls: 4,
    infill: 100,
    orientation: 'lying on a flat, so that its layers run along the handle',
  },
  assembly: 'Push it into a mortise by half its length, holes in line, and drive a wand-pin through.',
  fields: {
    width: { unit: 'mm', meaning: 'width across flats' },
    length: { unit: 'mm', meaning: 'length' },
    pinAt: { unit: 'mm', meaning: 'holes of the pins, from the middle' },
    pinBreadth: { unit: 'mm', meaning: 'holes of the pins, along the plug' },
    pinThickness: { unit: 'mm', meaning: 'holes of the pins, across the plug' },
  },
  dimensions: ({ wand }: Machine): PlugDimensions => ({
    width: wand.plug,
    length: wand.plugLength,
    pinAt: wand.pinAt,
    pinBreadth: wand.pin.holeBreadth,
    pinThickness: wand.pin.holeThickness,
  }),
  bare: whole,
  build: (d, k) =>
    k.subtract(k.intersect(whole(d, k), k.extrude([plan(d)], -1, d.width + 1)), [
      ...[-1, 1].map((side) => k.extrude([pinHole(d, side * d.pinAt)], -1, d.width + 1)),
      engraver(k, engraving(d)),
    ]),
  stated(d): Stated {
    const bareVolume = loopArea(octagon(d.width, 0)) * d.length;
    return {
      genus: 2,
      pieces: 1,
      bounds: { min: [-d.length / 2, -d.width / 2, 0], max: [d.length / 2, d.width / 2, d.width] },
      bareVolume,
      volume:
        bareVolume -
        leadInVolume(d) -
        2 * d.pinBreadth * d.pinThickness * d.width -
        engravedVolume(engraving(d)),
    };
  },
  place: () => [],
  fasteners: () => [],
};
