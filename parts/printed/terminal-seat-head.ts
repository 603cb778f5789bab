import type { Machine } from '../machine/machine.js';
import { domeAt, type SeatDesign } from '../machine/seat.js';
import { circumscribed, holeLoop, polygon, rectangle, reversed, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { holeVolume, integrate, loopArea } from '../solid/sections.js';
import type { Loop, Vec2, Vec3 } from '../solid/vector.js';
import { fastener } from '../stock/fasteners.js';
import { codeFor, engraver, type PrintedPart, roundBounds, type Stated } from './part.js';
import { SEAT_STEPS } from './terminal-seat-leg.js';

type HeadDimensions = Omit<SeatDesign['head'], 'underZ'> & {
  readonly insertRadius: number;
  readonly insertDepth: number;
};

/** mm */
const BED_CHAMFER = 0.5;
const CODE_HEIGHT = 4.5;
/** Direction of the contact spring from +x, degrees. */
export const CONTACT_ANGLE = 60;
/** The contact spring as it is cut, and the screw that holds it on the insert. */
export const CONTACT_STRIP = { thickness: 0.3, width: 10, length: 60 };
/** mm; a longer one stands on the floor of the insert’s hole before its head holds the strip. */
export const CONTACT_SCREW_LENGTH = 6;
/** Facets of a pad's top along the dome. */
const STEPS = 6;

const dome = (d: HeadDimensions, radius: number) =>
  domeAt({ radius: d.domeRadius, height: d.domeHeight, middle: d.domeMiddle }, radius);

/** Half section of the ring, [radius, z]. */
function ring(d: HeadDimensions, finished: boolean): Loop {
  const bore = circumscribed(d.innerRadius, sidesFor(d.outerRadius));
  const corner: Vec2[] = finished
    ? [
        [d.outerRadius - BED_CHAMFER, 0],
        [d.outerRadius, BED_CHAMFER],
      ]
    : [[d.outerRadius, 0]];
  return [[bore, 0], ...corner, [d.outerRadius, d.thickness], [bore, d.thickness]];
}

/** Half section of what the pads are cut from; its top follows the dome's inside. */
function padSection(d: HeadDimensions): Loop {
  const top = Array.from({ length: STEPS + 1 }, (_, i): Vec2 => {
    const radius = d.outerRadius + ((d.padFrom - d.outerRadius) * i) / STEPS;
    return [radius, dome(d, radius)];
  });
  return [[d.padFrom, d.thickness - 1], [d.outerRadius, d.thickness - 1], ...top];
}

/** Height of a pad over the ring at a radius, along its facets. */
function padHeight(d: HeadDimensions, radius: number): number {
  const step = (d.outerRadius - d.padFrom) / STEPS;
  const from = d.padFrom + Math.min(STEPS - 1, Math.floor((radius - d.padFrom) / step)) * step;
  const share = (radius - from) / step;
  return dome(d, from) * (1 - share) + dome(d, from + step) * share - d.thickness;
}

function pads(d: HeadDimensions, k: Kernel): Solid {
  const far = d.outerRadius + 1;
  const half = d.padWidth / 2;
  const strips = k.union(
    d.padAngles.map((angle) =>
      k.place(k.extrude([rectangle(0, -half, far, half)], d.thickness - 1, dome(d, 0) + 1), {
        turn: [0, 0, angle],
        move: [0, 0, 0],
      }),
    ),
  );
  return k.intersect(k.revolve(padSection(d), sidesFor(d.outerRadius)), strips);
}

function mortises(d: HeadDimensions): readonly Loop[] {
  const half = d.mortiseThickness / 2;
  return [-1, 1].map((side) =>
    rectangle(d.mortiseLeft, side * d.legsAt - half, d.mortiseRight, side * d.legsAt + half),
  );
}

const contactAt = (d: HeadDimensions): Vec2 => [
  d.insertAt * Math.cos((CONTACT_ANGLE * Math.PI) / 180),
  d.insertAt * Math.sin((CONTACT_ANGLE * Math.PI) / 180),
];

function engraving(d: HeadDimensions): Engraving {
  return {
    text: codeFor(terminalSeatHead, d),
    height: Math.min(CODE_HEIGHT, d.outerRadius - d.innerRadius - 3),
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: { kind: 'arc', radius: (d.innerRadius + d.outerRadius) / 2, middle: 0 },
    mirrored: true,
  };
}

/** Printed head of the terminal's seat: a ring on the two legs with three pads under the dome. */
export const terminalSeatHead: PrintedPart<HeadDimensions> = {
  id: 'terminal-seat-head',
  revision: 1,
  purpose:
    'carries the terminal by its dome on three pads, and the spring that touches it; lifts off by hand',
  copies: 1,
  step: SEAT_STEPS.head,
  print: { walls: 4, infill: 40, orientation: 'ring on the bed, pads up' },
  assembly:
    'Heat the M3 insert into the ring. Screw a strip of springy brass to it that stands 3 mm above the pads, and lead a wire from it to the upper comb. Push the ring onto the tenons of both legs.',
  fields: {
    thickness: { unit: 'mm', meaning: 'ring, thickness' },
    outerRadius: { unit: 'mm', meaning: 'ring, outer radius' },
    innerRadius: { unit: 'mm', meaning: 'ring, inner radius' },
    padFrom: { unit: 'mm', meaning: 'pads, inner radius' },
    padAngles: { unit: 'degrees', meaning: 'directions of the pads' },
    padWidth: { unit: 'mm', meaning: 'pads, width' },
    domeRadius: { unit: 'mm', meaning: 'dome, half axis across' },
    domeHeight: { unit: 'mm', meaning: 'dome, half axis upwards' },
    domeMiddle: { unit: 'mm', meaning: 'dome’s middle over the bed, below it negative' },
    mortiseLeft: { unit: 'mm', meaning: 'mortises of the legs, one side' },
    mortiseRight: { unit: 'mm', meaning: 'mortises of the legs, other side' },
    mortiseThickness: { unit: 'mm', meaning: 'mortises, width' },
    legsAt: { unit: 'mm', meaning: 'legs, from the middle' },
    insertAt: { unit: 'mm', meaning: 'insert of the contact spring, from the axis' },
    insertRadius: { unit: 'mm', meaning: 'hole of the insert, radius' },
    insertDepth: { unit: 'mm', meaning: 'hole of the insert, depth' },
  },

  dimensions: ({ seat, combs }: Machine): HeadDimensions => {
    const { underZ: _under, ...sizes } = seat.head;
    return {
      ...sizes,
      padAngles: [...sizes.padAngles],
      insertRadius: combs.upper.bracket.insertRadius,
      insertDepth: combs.upper.bracket.insertDepth,
    };
  },

  bare: (d, k) => k.revolve(ring(d, false), sidesFor(d.outerRadius)),

  build(d, k) {
    const whole = k.union([k.revolve(ring(d, true), sidesFor(d.outerRadius)), pads(d, k)]);
    return k.subtract(whole, [
      ...mortises(d).map((loop) => k.extrude([loop], -1, d.thickness + 1)),
      k.extrude([holeLoop(d.insertRadius, contactAt(d))], d.thickness - d.insertDepth, d.thickness + 1),
      engraver(k, engraving(d)),
    ]);
  },

  stated(d): Stated {
    const sides = sidesFor(d.outerRadius);
    const outside = polygon(d.outerRadius, sides);
    const bore = reversed(polygon(circumscribed(d.innerRadius, sides), sides));
    const bareVolume = (loopArea(outside) + loopArea(bore)) * d.thickness;
    // A chamfer's triangle turned about the axis.
    const chamfer = Math.PI * BED_CHAMFER ** 2 * (d.outerRadius - BED_CHAMFER / 3);
    const step = (d.outerRadius - d.padFrom) / STEPS;
    // Width of a strip's arc times height, summed over the facets.
    const arc = (radius: number) => 2 * radius * Math.asin(Math.min(1, d.padWidth / 2 / radius));
    const pad = Array.from({ length: STEPS }, (_, i) =>
      integrate(
        (radius) => arc(radius) * padHeight(d, radius),
        d.padFrom + i * step,
        d.padFrom + (i + 1) * step,
      ),
    ).reduce((sum, part) => sum + part, 0);
    const mortise = mortises(d).reduce((sum, loop) => sum + loopArea(loop), 0) * d.thickness;
    const volume =
      bareVolume -
      chamfer +
      d.padAngles.length * pad -
      mortise -
      holeVolume(d.insertRadius, sidesFor(d.insertRadius), d.insertDepth) -
      engravedVolume(engraving(d));
    const { min, max } = roundBounds(d.outerRadius, dome(d, d.padFrom));
    return { genus: 3, pieces: 1, bounds: { min, max }, bareVolume, volume };
  },

  place: ({ seat }: Machine) => [
    {
      placement: { turn: [0, 0, 0], move: [0, 0, seat.head.underZ] },
      moves: [{ slide: [0, 0, -40], turn: 0, why: 'onto the tenons of both legs' }],
    },
  ],

  fasteners: () => [
    { what: 'heat-set insert', size: 'M3', length: undefined, count: 1, use: 'contact spring' },
    {
      what: 'socket head cap screw ISO 4762',
      size: 'M3',
      length: CONTACT_SCREW_LENGTH,
      count: 1,
      use: 'contact spring',
    },
    {
      what: `strip of springy brass or bronze, ${CONTACT_STRIP.thickness} thick`,
      size: `${CONTACT_STRIP.width} x ${CONTACT_STRIP.length}`,
      length: undefined,
      count: 1,
      use: 'contact between seat and terminal',
    },
  ],
};

/** Where the head of the contact spring's screw ends, in the machine: over the ring's insert and the strip under it. mm */
export function contactScrew(machine: Machine): Vec3 {
  const d = terminalSeatHead.dimensions(machine);
  const [x, y] = contactAt(d);
  return [x, y, machine.seat.head.underZ + d.thickness + CONTACT_STRIP.thickness + fastener('M3').headHeight];
}
