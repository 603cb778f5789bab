import type { Machine } from '../machine/machine.js';
import type { SeatDesign } from '../machine/seat.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { loopArea } from '../solid/sections.js';
import { type Loop, radians, type Vec2 } from '../solid/vector.js';
import { besideCarrier } from './carrier-places.js';
import { codeFor, engraver, type PrintedPart, type Stated } from './part.js';
import { slidingArea, slidingSection, TONGUE } from './rail.js';

type LegDimensions = SeatDesign['leg'];

/** mm */
const SHOULDER_HEIGHT = 6;
const FOOT_CHAMFER = 1;
const CODE = { height: 5, widths: 10 };
/** Steps of the terminal's seat on the scale of all steps. */
export const SEAT_STEPS = { leg: 64, head: 65 } as const;

const barFrom = (d: LegDimensions) => d.rail + SHOULDER_HEIGHT + d.shoulder;

/** The leg lying on the bed, above its rails: [along, across]. A shoulder that stands on the posts, the bar, a tenon. */
function upper(d: LegDimensions): Loop {
  const { left, right, rail, shoulder, length, tenonInset, tenon } = d;
  const top = rail + SHOULDER_HEIGHT;
  return [
    [rail, left - shoulder],
    [top, left - shoulder],
    [barFrom(d), left],
    [length, left],
    [length, left + tenonInset],
    [length + tenon, left + tenonInset],
    [length + tenon, right - tenonInset],
    [length, right - tenonInset],
    [length, right],
    [barFrom(d), right],
    [top, right + shoulder],
    [rail, right + shoulder],
  ];
}

/** The part that slides in the rails, its foot drawn in; along x from 0, on the bed. */
function sliding(d: LegDimensions, k: Kernel): Solid {
  const standing = k.loft([
    { z: 0, loop: slidingSection(d, FOOT_CHAMFER) },
    { z: FOOT_CHAMFER, loop: slidingSection(d) },
    { z: d.rail + 1, loop: slidingSection(d) },
  ]);
  return k.place(standing, { turn: [90, 0, 90], move: [0, 0, d.thickness / 2] });
}

function turned([x, y]: Vec2, degrees: number): Vec2 {
  const [cos, sin] = [Math.cos(radians(degrees)), Math.sin(radians(degrees))];
  return [x * cos - y * sin, x * sin + y * cos];
}

function engraving(d: LegDimensions): Engraving {
  const room = d.length - barFrom(d);
  const [x, y] = turned([(barFrom(d) + d.length) / 2, (d.left + d.right) / 2], d.turn);
  return {
    text: codeFor(terminalSeatLeg, d),
    height: Math.min(CODE.height, room / CODE.widths),
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: { kind: 'line', centre: [-x, y], heading: -radians(d.turn) },
    mirrored: true,
  };
}

/** Printed leg of the terminal's seat: slides into the rails above an axle's block, is drawn out again by hand. */
export const terminalSeatLeg: PrintedPart<LegDimensions> = {
  id: 'terminal-seat-leg',
  revision: 1,
  purpose: 'carries one side of the terminal’s seat on the posts of the upper carrier; lifts out by hand',
  copies: 2,
  step: SEAT_STEPS.leg,
  print: { walls: 4, infill: 40, orientation: 'lying on its broad side' },
  assembly: 'Slide a leg into the rails of each cheek from above until its shoulder stands on the posts.',
  fields: {
    left: { unit: 'mm', meaning: 'side towards the jack screw' },
    right: { unit: 'mm', meaning: 'other side' },
    thickness: { unit: 'mm', meaning: 'thickness' },
    rail: { unit: 'mm', meaning: 'length in the rails' },
    shoulder: { unit: 'mm', meaning: 'shoulder beyond the rails, to either side' },
    length: { unit: 'mm', meaning: 'from its foot to the head' },
    tenonInset: { unit: 'mm', meaning: 'tenon, narrower to either side' },
    tenon: { unit: 'mm', meaning: 'tenon, length' },
    turn: { unit: 'degrees', meaning: 'how it lies across the bed' },
  },

  dimensions: ({ seat }: Machine): LegDimensions => ({ ...seat.leg }),

  bare: (d, k) => {
    const rails = k.place(k.extrude([slidingSection(d)], 0, d.rail + 1), {
      turn: [90, 0, 90],
      move: [0, 0, d.thickness / 2],
    });
    return k.union([rails, k.extrude([upper(d)], 0, d.thickness)]);
  },

  build(d, k) {
    const leg = k.union([sliding(d, k), k.extrude([upper(d)], 0, d.thickness)]);
    return k.subtract(k.place(leg, { turn: [0, 0, d.turn], move: [0, 0, 0] }), [engraver(k, engraving(d))]);
  },

  stated(d): Stated {
    const bareVolume = slidingArea(d) * d.rail + loopArea(upper(d)) * d.thickness;
    const area = (inset: number) => slidingArea(d, inset);
    const foot =
      FOOT_CHAMFER * area(0) -
      (FOOT_CHAMFER / 6) * (area(FOOT_CHAMFER) + 4 * area(FOOT_CHAMFER / 2) + area(0));
    const corners: Vec2[] = [
      ...upper(d),
      [0, d.left + FOOT_CHAMFER - TONGUE],
      [0, d.right - FOOT_CHAMFER + TONGUE],
      [FOOT_CHAMFER, d.left - TONGUE],
      [FOOT_CHAMFER, d.right + TONGUE],
    ].map((corner) => turned(corner as Vec2, d.turn));
    const [xs, ys] = [corners.map(([x]) => x), corners.map(([, y]) => y)];
    return {
      genus: 0,
      pieces: 1,
      bounds: {
        min: [Math.min(...xs), Math.min(...ys), 0],
        max: [Math.max(...xs), Math.max(...ys), d.thickness],
      },
      bareVolume,
      volume: bareVolume - foot - engravedVolume(engraving(d)),
    };
  },

  place: (machine) =>
    ([-1, 1] as const).map((side) => {
      const { leg, footZ } = machine.seat;
      const { move } = besideCarrier(machine, side, footZ);
      return {
        // Up from the bed: along becomes z, across becomes x, the bed's normal y.
        placement: { turn: [90, leg.turn - 90, 180], move: [0, move[1] - leg.thickness / 2, footZ] },
        moves: [{ slide: [0, 0, -(leg.rail + 30)], turn: 0, why: 'into its cheek’s rails from above' }],
      };
    }),

  fasteners: () => [],
};
