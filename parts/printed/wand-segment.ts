import type { Machine } from '../machine/machine.js';
import { engravedVolume } from '../solid/marks.js';
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

const engraving = (d: BarDimensions) => lineOnBed(codeFor(wandSegment, d), [d.length / 2, 0], BAR_CODE);

/** Printed piece of the wand’s handle: as many as its length takes. */
export const wandSegment: PrintedPart<BarDimensions> = {
  id: 'wand-segment',
  revision: 1,
  role: 'tool',
  purpose: 'makes the length of the discharge wand’s handle, between the guard and the head',
  copies: ({ wand }: Machine) => wand.segment.count,
  step: WAND_STEPS.segment,
  print: { walls: 5, infill: 25, orientation: 'lying on a flat, so that its layers run along the handle' },
  assembly:
    'Push each onto the plug of the piece before it until their faces meet, and drive a wand-pin through each end. No metal goes into the handle.',
  fields: BAR_FIELDS,
  dimensions: ({ wand }: Machine): BarDimensions => ({
    width: wand.width,
    length: wand.segment.length,
    mortise: wand.mortise,
    depth: wand.depth,
    pinAt: wand.pinAt,
    pinBreadth: wand.pin.holeBreadth,
    pinThickness: wand.pin.holeThickness,
  }),
  bare: bar,
  build: (d, k) =>
    k.subtract(bar(d, k), [
      ...jointCutters(d, 'near', k),
      ...jointCutters(d, 'far', k),
      engraver(k, engraving(d)),
    ]),
  stated(d): Stated {
    const bareVolume = barVolume(d);
    return {
      genus: 2 * JOINT_TUNNELS,
      pieces: 1,
      bounds: barBounds(d),
      bareVolume,
      volume: bareVolume - 2 * jointVolume(d) - engravedVolume(engraving(d)),
    };
  },
  place: () => [],
  fasteners: () => [],
};
