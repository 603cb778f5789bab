import type { LipClip } from '../machine/lip-ring.js';
import type { Machine } from '../machine/machine.js';
import { circumscribed, sidesFor } from '../solid/facets.js';
import { loopArea } from '../solid/sections.js';
import { type Loop, radians, type Vec2 } from '../solid/vector.js';
import { BOUGHT_STEPS } from './bought-piece.js';
import { CLEAR_AIR, type PrintedPart, type Stated } from './part.js';
import { ontoSeat } from './terminal-place.js';

type ClipDimensions = Pick<
  LipClip,
  'holdRadius' | 'wall' | 'holdTo' | 'width' | 'jawOver' | 'jawRise' | 'jawEnd' | 'jawThickness' | 'jawTip'
>;

/** A point by its distance along a line that rises by `rise` degrees, and its distance over the rod's middle. */
const onLine = (rise: number, along: number, over: number): Vec2 => [
  along * Math.cos(radians(rise)) - over * Math.sin(radians(rise)),
  along * Math.sin(radians(rise)) + over * Math.cos(radians(rise)),
];

const angleOf = ([x, y]: Vec2) => Math.atan2(y, x);

/**
 * Section of a clip, [out from the rod's middle, up]: a hook around the rod's inner side and top, out of which the jaw grows
 * over the sheet. Its hold is drawn as a hole is, so that the rod passes.
 */
export function clipSection(d: ClipDimensions): Loop {
  const outerRadius = d.holdRadius + d.wall;
  const sides = sidesFor(outerRadius);
  const hold = circumscribed(d.holdRadius, sides);
  const top = d.jawOver + d.jawThickness;
  // Where the jaw's underside comes out of the hold, and its top out of the hook.
  const mouth = onLine(d.jawRise, Math.sqrt(d.holdRadius ** 2 - d.jawOver ** 2), d.jawOver);
  const shoulder = onLine(d.jawRise, Math.sqrt(outerRadius ** 2 - top ** 2), top);
  const end = radians(d.holdTo);
  const step = (2 * Math.PI) / sides;
  const around = (radius: number, from: number, to: number): Vec2[] => {
    const first = Math.floor(from / step) + 1;
    const last = Math.ceil(to / step) - 1;
    return Array.from({ length: Math.max(0, last - first + 1) }, (_, i): Vec2 => {
      const at = (first + i) * step;
      return [radius * Math.cos(at), radius * Math.sin(at)];
    });
  };
  const at = (radius: number): Vec2 => [radius * Math.cos(end), radius * Math.sin(end)];
  const inner = [mouth, ...around(hold, angleOf(mouth), end), at(hold)];
  const outer = [shoulder, ...around(outerRadius, angleOf(shoulder), end), at(outerRadius)];
  return [
    onLine(d.jawRise, d.jawEnd, d.jawOver + d.jawTip),
    ...outer,
    ...inner.reverse(),
    onLine(d.jawRise, d.jawEnd, d.jawOver),
  ];
}

/** Printed clip, one of four, that holds a closed ring of rod under the cut edge of the terminal's sheet. Too small for a code. */
export const lipRingClip: PrintedPart<ClipDimensions> = {
  id: 'lip-ring-clip',
  revision: 1,
  purpose: 'hangs a closed metal ring under the cut edge of the terminal’s sheet, which it makes round',
  copies: 4,
  wanted: ({ lipClip }) => lipClip !== undefined,
  step: BOUGHT_STEPS.lipClips,
  print: { walls: 4, infill: 100, orientation: 'on its side, so that no layer crosses the hook' },
  assembly:
    'Break the cut edge with a file and scrape sheet and ring bright under two opposite clips. Push the four clips over the edge from inside the opening, between the places of the rim ring’s guides, lay a strip of metal foil over the edge under those two, and press the ring up into all of them until it lies on the edge: it must be bonded to the sheet, less than an ohm by a meter.',
  fields: {
    holdRadius: { unit: 'mm', meaning: 'hold around the ring’s rod, radius' },
    wall: { unit: 'mm', meaning: 'wall around the hold' },
    holdTo: { unit: 'degrees', meaning: 'end of the hook around the rod' },
    width: { unit: 'mm', meaning: 'width' },
    jawOver: { unit: 'mm', meaning: 'underside of the jaw over the rod’s middle' },
    jawRise: { unit: 'degrees', meaning: 'rise of the jaw' },
    jawEnd: { unit: 'mm', meaning: 'end of the jaw from the rod’s middle' },
    jawThickness: { unit: 'mm', meaning: 'jaw at its root, thickness' },
    jawTip: { unit: 'mm', meaning: 'jaw at its end, thickness' },
  },
  dimensions({ lipClip }: Machine): ClipDimensions {
    if (!lipClip) throw new RangeError('the terminal has no lip ring');
    const { holdRadius, wall, holdTo, width, jawOver, jawRise, jawEnd, jawThickness, jawTip } = lipClip;
    return { holdRadius, wall, holdTo, width, jawOver, jawRise, jawEnd, jawThickness, jawTip };
  },
  bare: (d, k) => k.extrude([clipSection(d)], 0, d.width),
  build: (d, k) => k.extrude([clipSection(d)], 0, d.width),
  stated(d): Stated {
    const section = clipSection(d);
    const [xs, ys] = [section.map(([x]) => x), section.map(([, y]) => y)];
    const volume = loopArea(section) * d.width;
    return {
      genus: 0,
      pieces: 1,
      bounds: {
        min: [Math.min(...xs), Math.min(...ys), 0],
        max: [Math.max(...xs), Math.max(...ys), d.width],
      },
      bareVolume: volume,
      volume,
    };
  },
  place: (machine) => {
    const { lipClip, terminal } = machine;
    if (!lipClip) return [];
    const { centreRadius, rodRadius, width, angles } = lipClip;
    return angles.map((angle) => {
      const [cos, sin] = [Math.cos(radians(angle)), Math.sin(radians(angle))];
      return {
        placement: {
          turn: [90, 0, angle],
          move: [
            centreRadius * cos - (width / 2) * sin,
            centreRadius * sin + (width / 2) * cos,
            terminal.lipZ + rodRadius,
          ],
        },
        moves: [
          {
            slide: [CLEAR_AIR * cos, CLEAR_AIR * sin, 0],
            turn: 0,
            why: 'on the bench: jaw over the sheet’s edge from inside the opening, then the ring pressed up into it',
            stretches: 'terminal',
          },
          ontoSeat(machine),
        ],
      };
    });
  },
  fasteners: () => [],
};
