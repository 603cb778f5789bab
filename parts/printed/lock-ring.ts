import { round } from '../machine/fits.js';
import { coneSlope, type Grip, ringTurn, THREAD } from '../machine/grip.js';
import type { Machine } from '../machine/machine.js';
import { circumscribed, polygon, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { lensArea, loopArea, revolvedVolume } from '../solid/sections.js';
import type { Loop } from '../solid/vector.js';
import { CLEAR_AIR, codeFor, type PrintedPart, roundBounds, type Stated } from './part.js';
import { ridgeArea, threadSections, threadVolume } from './thread.js';

type RingDimensions = Omit<Grip['ring'], 'openAt'>;

/** mm; plastic outside the cone, chamfers, and the ribs for the hand. */
const CONE_WALL = 5.5;
const EDGE = 1;
const BED_CHAMFER = 0.5;
const RIBS = 12;
const RIB = { radius: 3, inset: 0.5 };
const CODE_HEIGHT = 3;

const coneAt = (d: RingDimensions, y: number) => d.coneRadius - (y - d.coneBottom) * coneSlope;
const taperFrom = (d: RingDimensions) =>
  d.coneBottom + (d.coneRadius + CONE_WALL - d.outerRadius) / coneSlope;

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

function threadShape(d: RingDimensions) {
  const depth = d.rootRadius - d.crestRadius;
  return { starts: THREAD.starts.value, pitch: THREAD.pitch.value, depth, crest: THREAD.crest.value };
}

/** What is cut out of the solid ring: lead-in, thread, relief and cone. */
function rooms(d: RingDimensions, k: Kernel): Solid[] {
  const sides = sidesFor(d.outerRadius);
  const wall = profile(d);
  const threadTop = EDGE + d.threadLength;
  const [leadIn, top, wide, relief, root] = [wall[0]!, wall[6]!, wall[7]!, wall[8]!, wall[9]!];
  const below: Loop = [[0, -1], [leadIn[0], -1], leadIn, root, [0, EDGE]];
  const above: Loop = [
    [0, threadTop],
    [root[0], threadTop],
    relief,
    wide,
    top,
    [top[0], d.height + 1],
    [0, d.height + 1],
  ];
  const thread = threadSections(threadShape(d), d.rootRadius, -1, EDGE, threadTop);
  return [k.revolve(below, sides), k.loft(thread), k.revolve(above, sides)];
}

/** Outside of the ring, solid through. */
function outside(d: RingDimensions): Loop {
  return [[0, 0], ...profile(d).slice(1, 6), [0, d.height]];
}

function ribs(d: RingDimensions, k: Kernel): Solid[] {
  const rib = k.extrude(
    [polygon(RIB.radius, sidesFor(RIB.radius), [d.outerRadius - RIB.inset, 0])],
    0,
    taperFrom(d),
  );
  return Array.from({ length: RIBS }, (_, i) =>
    k.place(rib, { turn: [0, 0, (360 / RIBS) * i], move: [0, 0, 0] }),
  );
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
    'Screw the ring down onto the mount’s thread by hand, about two thirds of a turn: this is open. Once the tube is in, clockwise (seen from above) closes the fingers on it; it locks anywhere. Turn back to let go.',
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
    const solid = k.union([k.revolve(outside(d), sidesFor(d.outerRadius)), ...ribs(d, k)]);
    return k.subtract(solid, [...rooms(d, k), mark]);
  },

  stated(d): Stated {
    const sides = sidesFor(d.outerRadius);
    const bareVolume = revolvedVolume(profile(d), sides);
    const shape = threadShape(d);
    const ridges = ridgeArea(
      shape,
      d.rootRadius,
      -1,
      loopArea(polygon(circumscribed(d.rootRadius, sides), sides)),
    );
    const rib = Math.PI * RIB.radius ** 2 - lensArea(d.outerRadius, RIB.radius, d.outerRadius - RIB.inset);
    const ribVolume = RIBS * rib * taperFrom(d);
    const volume =
      bareVolume + threadVolume(shape, ridges, d.threadLength) + ribVolume - engravedVolume(engraving(d));
    const reach = d.outerRadius - RIB.inset + RIB.radius;
    return { genus: 1, pieces: 1, bounds: roundBounds(round(reach), d.height), bareVolume, volume };
  },

  place({ grip }: Machine) {
    const drop = grip.stroke.likely;
    const { openAt } = grip.ring;
    const height = openAt - drop;
    // Where both threads meet.
    const start = grip.mount.threadTop - EDGE;
    const phase = 180 / THREAD.starts.value + ((height + EDGE - grip.mount.threadBottom) / grip.lead) * 360;
    return [
      {
        placement: { turn: [0, 0, phase], move: [0, 0, height] },
        moves: [
          { slide: [0, 0, -(grip.mount.headTop + CLEAR_AIR - start)], turn: 0, why: 'set over the fingers' },
          {
            slide: [0, 0, -(start - openAt)],
            turn: -ringTurn(grip, start - openAt),
            why: 'screwed down until it stands open',
          },
          { slide: [0, 0, -drop], turn: -ringTurn(grip, drop), why: 'turned clockwise to close' },
        ],
      },
    ];
  },

  fasteners: () => [],
};
