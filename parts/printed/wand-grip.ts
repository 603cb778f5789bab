import type { Machine } from '../machine/machine.js';
import { holeLoop, sidesFor } from '../solid/facets.js';
import { engravedVolume } from '../solid/marks.js';
import { holeVolume } from '../solid/sections.js';
import { codeFor, engraver, type PrintedPart, type Stated } from './part.js';
import {
  BAR_CODE,
  BAR_FIELDS,
  type BarDimensions,
  bar,
  barBounds,
  barVolume,
  JOINT_TUNNELS,
  jointCutters,
  jointVolume,
  lineOnBed,
  WAND_STEPS,
} from './wand-bar.js';

/** mm; a hole to hang it up by, from the rear end. */
const HANGER = { radius: 3, fromEnd: 12 };

const engraving = (d: BarDimensions) =>
  lineOnBed(codeFor(wandGrip, d), [(d.depth + d.length) / 2, 0], BAR_CODE);

/** Printed grip of the wand, behind its guard. */
export const wandGrip: PrintedPart<BarDimensions> = {
  id: 'wand-grip',
  revision: 1,
  role: 'tool',
  purpose: 'is what the hand holds of the discharge wand, behind the guard',
  copies: 1,
  step: WAND_STEPS.grip,
  print: { walls: 5, infill: 25, orientation: 'lying on a flat, so that its layers run along the handle' },
  assembly:
    'Push a wand-plug into its mortise and drive a wand-pin through both; the guard goes over the plug, against its face.',
  fields: BAR_FIELDS,
  dimensions: ({ wand }: Machine): BarDimensions => ({
    width: wand.width,
    length: wand.grip.length,
    mortise: wand.mortise,
    depth: wand.grip.depth,
    pinAt: wand.grip.pinAt,
    pinBreadth: wand.pin.holeBreadth,
    pinThickness: wand.pin.holeThickness,
  }),
  bare: bar,
  build: (d, k) =>
    k.subtract(bar(d, k), [
      ...jointCutters(d, 'near', k),
      k.extrude([holeLoop(HANGER.radius, [d.length - HANGER.fromEnd, 0])], -1, d.width + 1),
      engraver(k, engraving(d)),
    ]),
  stated(d): Stated {
    const bareVolume = barVolume(d);
    return {
      genus: JOINT_TUNNELS + 1,
      pieces: 1,
      bounds: barBounds(d),
      bareVolume,
      volume:
        bareVolume -
        jointVolume(d) -
        holeVolume(HANGER.radius, sidesFor(HANGER.radius), d.width) -
        engravedVolume(engraving(d)),
    };
  },
  place: () => [],
  fasteners: () => [],
};
