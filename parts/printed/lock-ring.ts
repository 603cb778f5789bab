import { coneSlope, ringTurn, THREAD } from '../machine/grip.js';
import { round } from '../machine/fits.js';
import type { Machine } from '../machine/machine.js';
import { circumscribed, polygon, reversed, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { holeVolume, lensArea, revolvedVolume } from '../solid/sections.js';
import type { Loop, Vec2 } from '../solid/vector.js';
import { codeFor, type PrintedPart, roundBounds, type Stated } from './part.js';
import { ridgesInBore, threadSection, threadTwist, threadVolume } from './thread.js';

type RingDimensions = {
  readonly crestRadius: number;
  readonly rootRadius: number;
  readonly outerRadius: number;
  readonly coneRadius: number;
  readonly coneBottom: number;
  readonly height: number;
  readonly threadLength: number;
};

/** mm; plastic outside the cone, chamfers, and the ribs for the hand. */
const CONE_WALL = 5.5;
const EDGE = 1;
const BED_CHAMFER = 0.5;
const RIBS = 12;
const RIB = { radius: 3, inset: 0.5 };
const CODE_HEIGHT = 3;

const coneAt = (d: RingDimensions, y: number) => d.coneRadius - (y - d.coneBottom) * coneSlope;
const taperFrom = (d: RingDimensions) => d.coneBottom + (d.coneRadius + CONE_WALL - d.outerRadius) / coneSlope;

function profile(d: RingDimensions): Loop {
  const sides = sidesFor(d.outerRadius);
  const bore = (radius: number) => circumscribed(radius, sides);
  const top = coneAt(d, d.height);
  return [
    [bore(d.rootRadius + EDGE), 0],
    [d.outerRadius - BED_CHAMFER, 0],
    [d.outerRadius, BED_CHAMFER],
    [d.outerRadius, taperFrom(d)],
    [coneAt(d, d.height - EDGE) + CONE_WALL, d.height - EDGE],
    [top + CONE_WALL - EDGE, d.height],
    [bore(top), d.height],
    [bore(d.coneRadius), d.coneBottom],
    [bore(d.rootRadius), d.coneBottom - (d.rootRadius - d.coneRadius)],
    [bore(d.rootRadius), EDGE],
  ];
}

/** The section of an outside thread with its radii mirrored about the root. Counter-clockwise. */
function insideThread(d: RingDimensions) {
  const depth = d.rootRadius - d.crestRadius;
  const shape = { starts: THREAD.starts.value, pitch: THREAD.pitch.value, depth, crest: THREAD.crest.value };
  const section = threadSection(shape, d.rootRadius).map(([x, y]): Vec2 => {
    const radius = Math.hypot(x, y);
    const scale = (2 * d.rootRadius - radius) / radius;
    return [x * scale, y * scale];
  });
  return { shape, section };
}

/** The thread inside, above the lead-in: ridges that stand in from the root, tapered off at both ends. */
function thread(d: RingDimensions, k: Kernel): Solid {
  const { shape, section } = insideThread(d);
  const inner = reversed(section);
  const outside = d.rootRadius + EDGE;
  const { turn, steps } = threadTwist(shape, d.threadLength);
  const sides = sidesFor(outside);
  const top = EDGE + d.threadLength;
  const ridges = k.twist([polygon(outside, sides), inner], EDGE, top, turn, steps);
  const inmost = d.crestRadius - 0.5;
  const run = d.rootRadius - inmost;
  const envelope = k.revolve(
    [
      [outside + 1, EDGE],
      [outside + 1, top],
      [d.rootRadius, top],
      [inmost, top - run],
      [inmost, EDGE + run],
      [d.rootRadius, EDGE],
    ],
    sides,
  );
  return k.intersect(ridges, envelope);
}

function ribs(d: RingDimensions, k: Kernel): Solid[] {
  const rib = k.extrude([polygon(RIB.radius, sidesFor(RIB.radius), [d.outerRadius - RIB.inset, 0])], 0, taperFrom(d));
  return Array.from({ length: RIBS }, (_, i) => k.place(rib, { turn: [0, 0, (360 / RIBS) * i], move: [0, 0, 0] }));
}

function engraving(d: RingDimensions): Engraving {
  return {
    text: codeFor(lockRing, d),
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: { kind: 'arc', radius: coneAt(d, d.height) + (CONE_WALL - EDGE) / 2, middle: Math.PI / 2 },
    mirrored: false,
  };
}

/** Printed nut that drives its cone over the mount’s fingers, and pulls it off again. */
export const lockRing: PrintedPart<RingDimensions> = {
  id: 'lock-ring',
  revision: 1,
  purpose: 'closes the mount’s fingers on the tube by its cone, opens them by its thread',
  copies: 1,
  step: 40,
  print: { walls: 4, infill: 30, orientation: 'thread end on the bed' },
  assembly:
    'Screw the ring down onto the mount by hand until its thread is engaged and stop there: open. Put the tube in, then turn clockwise (seen from above) until the fingers hold; it locks anywhere. Turn back to let go.',
  fields: {
    crestRadius: { unit: 'mm', meaning: 'crest of the inside thread, radius' },
    rootRadius: { unit: 'mm', meaning: 'root of the inside thread, radius' },
    outerRadius: { unit: 'mm', meaning: 'outside between the ribs, radius' },
    coneRadius: { unit: 'mm', meaning: 'cone at its wide end, radius' },
    coneBottom: { unit: 'mm', meaning: 'height of the cone’s wide end' },
    height: { unit: 'mm', meaning: 'height of the ring' },
    threadLength: { unit: 'mm', meaning: 'length of the thread' },
  },

  dimensions({ grip }: Machine): RingDimensions {
    const { openAt: _openAt, ...sizes } = grip.ring;
    return sizes;
  },

  bare: (d, k) => k.revolve(profile(d), sidesFor(d.outerRadius)),

  build(d, k) {
    const mark = k.extrude(k.characters(engraving(d)), d.height - MARK_DEPTH, d.height + 1);
    return k.subtract(k.union([lockRing.bare(d, k), thread(d, k), ...ribs(d, k)]), [mark]);
  },

  stated(d): Stated {
    const bareVolume = revolvedVolume(profile(d), sidesFor(d.outerRadius));
    const { shape, section } = insideThread(d);
    const ridges = ridgesInBore(shape, section, holeVolume(d.rootRadius, sidesFor(d.outerRadius), 1));
    const rib = Math.PI * RIB.radius ** 2 - lensArea(d.outerRadius, RIB.radius, d.outerRadius - RIB.inset);
    const ribVolume = RIBS * rib * taperFrom(d);
    const volume = bareVolume + threadVolume(shape, ridges, d.threadLength) + ribVolume - engravedVolume(engraving(d));
    const reach = d.outerRadius - RIB.inset + RIB.radius;
    return { genus: 1, pieces: 1, bounds: roundBounds(round(reach), d.height), bareVolume, volume };
  },

  place({ grip }: Machine) {
    const drop = grip.stroke.likely;
    const height = grip.ring.openAt - drop;
    const phase = 180 / THREAD.starts.value + ((height + EDGE - grip.mount.threadBottom) / grip.lead) * 360;
    return [
      {
        placement: { turn: [0, 0, phase], move: [0, 0, height] },
        moves: [
          { slide: [0, 0, -60], turn: 0, why: 'set over the fingers' },
          { slide: [0, 0, -drop], turn: -ringTurn(grip, drop), why: 'turned clockwise to close' },
        ],
      },
    ];
  },

  fasteners: () => [],
};
