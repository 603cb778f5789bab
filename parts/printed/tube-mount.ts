import { round } from '../machine/fits.js';
import { coneSlope, type Grip, THREAD } from '../machine/grip.js';
import type { Machine } from '../machine/machine.js';
import { circumscribed, polygon, rectangle, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { integrate, loopArea, revolvedVolume, slotFromFlat, slotThroughRing } from '../solid/sections.js';
import type { Loop } from '../solid/vector.js';
import { codeFor, engraver, type PrintedPart, roundBounds, type Stated } from './part.js';
import { ridgeArea, threadSections, threadVolume } from './thread.js';

type MountDimensions = Omit<Grip['mount'], 'threadCrest' | 'headTopRadius'> & {
  readonly fingers: number;
  readonly slotWidth: number;
  readonly keyCount: number;
  readonly keyWidth: number;
  readonly keyDepth: number;
};

const SHAPE = {
  starts: THREAD.starts.value,
  pitch: THREAD.pitch.value,
  depth: THREAD.depth.value,
  crest: THREAD.crest.value,
};
/** mm; lead-ins for the tube, and the chamfer that keeps a squashed first layer out of the way. */
const LEAD_IN = 1;
const BED_CHAMFER = 0.5;
const CODE_HEIGHT = 4;
/** Under the thread's own solid the body stands back by this. */
const THREAD_INSET = 0.6;

/** Outline from the bore’s foot round to its top and back down the bore. Bores are circumscribed. */
function profile(d: MountDimensions): Loop {
  const sides = sidesFor(d.footRadius);
  const bore = (radius: number) => circumscribed(radius, sides);
  const neck = d.headBottom - (d.headRadius - d.stemRadius);
  return [
    [bore(d.stopRadius), 0],
    [d.footRadius - BED_CHAMFER, 0],
    [d.footRadius, BED_CHAMFER],
    [d.footRadius, d.footLand],
    [d.threadRoot, d.footLand + d.footRadius - d.threadRoot],
    [d.threadRoot, d.slotBottom - 1],
    [d.stemRadius, d.slotBottom - 1 + (d.threadRoot - d.stemRadius)],
    [d.stemRadius, neck],
    [d.headRadius, d.headBottom],
    [headAt(d, d.headTop), d.headTop],
    [bore(d.fingerRadius + LEAD_IN), d.headTop],
    [bore(d.fingerRadius), d.headTop - LEAD_IN],
    [bore(d.fingerRadius), d.pilotTop + (d.fingerRadius - d.pilotRadius)],
    [bore(d.pilotRadius), d.pilotTop],
    [bore(d.pilotRadius), d.pilotBottom],
    [bore(d.stopRadius), d.pilotBottom],
  ];
}

const headAt = (d: MountDimensions, z: number) => d.headRadius - (z - d.headBottom) * coneSlope;

/** Outside radius at a height, from the same corners as the profile. */
function outsideAt(d: MountDimensions, z: number): number {
  const outside = profile(d).slice(1, 10);
  for (let i = 1; i < outside.length; i++) {
    const [r0, z0] = outside[i - 1]!;
    const [r1, z1] = outside[i]!;
    if (z >= z0 && z <= z1 && z1 > z0) return r0 + ((r1 - r0) * (z - z0)) / (z1 - z0);
  }
  return 0;
}

function engraving(d: MountDimensions): Engraving {
  return {
    text: codeFor(tubeMount, d),
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: { kind: 'arc', radius: (d.stopRadius + d.footRadius) / 2, middle: Math.PI / 2 },
    mirrored: true,
  };
}

/** Outside only, narrower where the thread's own solid takes over, so that no two surfaces lie on each other. */
function outside(d: MountDimensions): Loop {
  const corners = profile(d).slice(1, 10);
  const root = corners.findIndex(([, z]) => z === d.slotBottom - 1);
  const inset = d.threadRoot - THREAD_INSET;
  return [
    [0, 0],
    ...corners.slice(0, root),
    [inset, d.threadBottom],
    [inset, d.threadTop],
    [d.threadRoot, d.threadTop],
    ...corners.slice(root),
    [0, d.headTop],
  ];
}

function bore(d: MountDimensions): Loop {
  const wall = profile(d);
  const [top, bottom] = [wall[10]!, wall[0]!];
  return [
    [0, -1],
    [bottom[0], -1],
    bottom,
    ...wall.slice(11).reverse(),
    top,
    [top[0], d.headTop + 1],
    [0, d.headTop + 1],
  ];
}

/** The solid body with its thread, then its bore. */
function threadedBody(d: MountDimensions, k: Kernel): Solid {
  const sides = sidesFor(d.footRadius);
  const thread = k.loft(threadSections(SHAPE, d.threadRoot, 1, d.threadBottom, d.threadTop));
  return k.subtract(k.union([k.revolve(outside(d), sides), thread]), [k.revolve(bore(d), sides)]);
}

function keyways(d: MountDimensions, k: Kernel): Solid[] {
  const box = k.extrude(
    [rectangle(d.footRadius - d.keyDepth, -d.keyWidth / 2, d.footRadius + 1, d.keyWidth / 2)],
    -1,
    d.footLand + d.keyDepth + 2,
  );
  return Array.from({ length: d.keyCount }, (_, i) =>
    k.place(box, { turn: [0, 0, (360 / d.keyCount) * i], move: [0, 0, 0] }),
  );
}

function slots(d: MountDimensions, k: Kernel): Solid[] {
  const from = d.pilotRadius - 2;
  const box = k.extrude(
    [rectangle(from, -d.slotWidth / 2, d.headRadius + 2, d.slotWidth / 2)],
    d.slotBottom,
    d.headTop + 1,
  );
  return Array.from({ length: d.fingers }, (_, i) =>
    k.place(box, { turn: [0, 0, (360 / d.fingers) * (i + 0.5)], move: [0, 0, 0] }),
  );
}

/** Printed sleeve that the tube stands in: stop, snug pilot, fingers under a cone, thread for the lock ring. */
export const tubeMount: PrintedPart<MountDimensions> = {
  id: 'tube-mount',
  revision: 1,
  purpose: 'holds the tube’s foot from outside: stop, snug pilot and fingers that the lock ring closes',
  copies: 1,
  step: 20,
  print: { walls: 4, infill: 40, orientation: 'foot on the bed, fingers up' },
  assembly:
    'Stand the mount on the plate around the belt opening, before the collar is screwed down over its foot. The collar’s keys go into the notches of the foot.',
  fields: {
    stopRadius: { unit: 'mm', meaning: 'bore under the tube’s foot, radius' },
    pilotRadius: { unit: 'mm', meaning: 'pilot bore, radius' },
    fingerRadius: { unit: 'mm', meaning: 'bore between the open fingers, radius' },
    stemRadius: { unit: 'mm', meaning: 'outside of the bending part of the fingers, radius' },
    headRadius: { unit: 'mm', meaning: 'cone at the lower end of the finger heads, radius' },
    threadRoot: { unit: 'mm', meaning: 'root of the thread, radius' },
    footRadius: { unit: 'mm', meaning: 'foot, radius' },
    footLand: { unit: 'mm', meaning: 'height of the foot’s cylinder' },
    pilotBottom: { unit: 'mm', meaning: 'height of the stop the tube stands on' },
    pilotTop: { unit: 'mm', meaning: 'upper end of the pilot' },
    threadBottom: { unit: 'mm', meaning: 'lower end of the thread' },
    threadTop: { unit: 'mm', meaning: 'upper end of the thread' },
    slotBottom: { unit: 'mm', meaning: 'root of the slots between fingers' },
    headBottom: { unit: 'mm', meaning: 'lower end of the gripping band' },
    headTop: { unit: 'mm', meaning: 'height of the mount' },
    fingers: { unit: 'count', meaning: 'number of fingers' },
    slotWidth: { unit: 'mm', meaning: 'width of the slots' },
    keyCount: { unit: 'count', meaning: 'notches in the foot' },
    keyWidth: { unit: 'mm', meaning: 'width of the notches' },
    keyDepth: { unit: 'mm', meaning: 'depth of the notches' },
  },

  dimensions({ grip }: Machine): MountDimensions {
    const { threadCrest: _crest, headTopRadius: _top, ...sizes } = grip.mount;
    return {
      ...sizes,
      fingers: grip.fingers,
      slotWidth: grip.slotWidth,
      keyCount: grip.key.count,
      keyWidth: grip.key.width,
      keyDepth: grip.key.depth,
    };
  },

  bare: (d, k) => k.revolve(profile(d), sidesFor(d.footRadius)),

  build: (d, k) =>
    k.subtract(threadedBody(d, k), [...slots(d, k), ...keyways(d, k), engraver(k, engraving(d))]),

  stated(d): Stated {
    const bareVolume = revolvedVolume(profile(d), sidesFor(d.footRadius));
    const inside = (z: number) =>
      z > d.headTop - LEAD_IN ? d.fingerRadius + z - (d.headTop - LEAD_IN) : d.fingerRadius;
    const slotArea = (z: number) => slotThroughRing(inside(z), outsideAt(d, z), d.slotWidth);
    const neck = d.headBottom - (d.headRadius - d.stemRadius);
    const shoulder = d.slotBottom - 1 + (d.threadRoot - d.stemRadius);
    const heights = [d.slotBottom, shoulder, neck, d.headBottom, d.headTop - LEAD_IN, d.headTop];
    const slotVolume = heights.slice(1).reduce((sum, z, i) => sum + integrate(slotArea, heights[i]!, z), 0);
    const keyArea = (z: number) => slotFromFlat(d.footRadius - d.keyDepth, outsideAt(d, z), d.keyWidth);
    const keyVolume =
      integrate(keyArea, 0, d.footLand) + integrate(keyArea, d.footLand, d.footLand + d.keyDepth);
    const ridges = ridgeArea(SHAPE, d.threadRoot, 1, loopArea(polygon(d.threadRoot, sidesFor(d.footRadius))));
    const volume =
      bareVolume +
      threadVolume(SHAPE, ridges, d.threadTop - d.threadBottom) -
      d.fingers * slotVolume -
      d.keyCount * keyVolume -
      engravedVolume(engraving(d));
    return { genus: 1, pieces: 1, bounds: notchedBounds(d), bareVolume, volume };
  },

  place: () => [
    {
      placement: { turn: [0, 0, 0], move: [0, 0, 0] },
      moves: [{ slide: [0, 0, -40], turn: 0, why: 'set down on the plate' }],
    },
  ],

  fasteners: () => [],
};

/** The notch at +x takes the outermost points there with it. */
function notchedBounds(d: MountDimensions): Stated['bounds'] {
  const whole = roundBounds(d.footRadius, round(d.headTop));
  return {
    min: whole.min,
    max: [Math.sqrt(d.footRadius ** 2 - (d.keyWidth / 2) ** 2), whole.max[1], whole.max[2]],
  };
}
