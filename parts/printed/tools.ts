import { shaftLoop } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import type { Loop, Vec2 } from '../solid/vector.js';
import type { Sourced } from '../stock/row.js';
import { practice } from './print-time.js';

/** Arms of a hexagon key, mm. */
export interface HexKey extends Sourced {
  /** Across the flats. */
  readonly size: number;
  readonly long: number;
  readonly short: number;
}

const hexKey = (size: number, long: number, short: number): HexKey => ({
  size,
  long,
  short,
  source: 'ISO 2936, standard length',
  status: 'from-memory',
});

export const HEX_KEYS: readonly HexKey[] = [
  hexKey(1.3, 41, 13),
  hexKey(1.5, 45, 14),
  hexKey(2, 50, 16),
  hexKey(2.5, 56, 18),
  hexKey(3, 63, 20),
  hexKey(4, 70, 25),
  hexKey(5, 80, 28),
  hexKey(6, 90, 32),
];

/** Tools of an ordinary box, and how far each has to turn before it is set anew. */
export const TOOLS = {
  blade: practice(75, 'mm', 'blade of a screwdriver with hexagon tip'),
  handle: practice(100, 'mm', 'handle of a driver'),
  handleWidth: practice(25, 'mm', 'handle of a driver, diameter'),
  keyTurn: practice(60, 'degrees', 'least turn of a hexagon key'),
  socketWall: practice(1.2, 'mm', 'wall of a nut driver’s socket over the corners of its nut'),
  socketDepth: practice(12, 'mm', 'what may stand out of a nut under a nut driver'),
  socket: practice(60, 'mm', 'stem of a nut driver'),
  jaws: practice(2.2, '', 'width of an open spanner’s head over its size'),
  jawsThickness: practice(0.5, '', 'thickness of an open spanner over its size'),
  spanner: practice(80, 'mm', 'reach of a small open spanner from the nut'),
  spannerTurn: practice(30, 'degrees', 'least turn of an open spanner that is turned over each time'),
};

/** What a tool takes hold of. */
export type Drive =
  /** A hexagon socket, mm across the flats. */
  | { readonly kind: 'socket'; readonly key: number }
  /** A hexagon nut, mm across the flats and high; what stands out of it, mm. */
  | { readonly kind: 'nut'; readonly flats: number; readonly height: number; readonly stem: number };

/**
 * Room that a tool takes, in a frame whose z leaves the head along its axis, z = 0 on the outer face of screw head or nut. One
 * of the turns it is shown at has to be free; it is the same tool a part of a turn further each time.
 */
export interface Tool {
  readonly name: string;
  /** What is there at every turn. */
  stem(kernel: Kernel): Solid;
  /** What sweeps the least turn, starting along x; undefined for what is turned by its own axis. */
  readonly sweep: ((kernel: Kernel) => Solid) | undefined;
}

/** mm; a tool starts so far off the head, which it touches. */
const OFF = 0.2;

function keyFor(size: number): HexKey {
  const key = HEX_KEYS.find((each) => each.size === size);
  if (!key) throw new RangeError(`no hexagon key of ${size} mm; known: ${HEX_KEYS.map((each) => each.size)}`);
  return key;
}

const rod = (radius: number, from: number, to: number) => (k: Kernel) =>
  k.extrude([shaftLoop(radius)], from, to);

/** A sector of a disc from the x axis on, with the width of what sweeps it. */
function sector(reach: number, width: number, degrees: number): Loop {
  const steps = 8;
  const arc = Array.from({ length: steps + 1 }, (_, i): Vec2 => {
    const at = ((i / steps) * degrees * Math.PI) / 180;
    return [reach * Math.cos(at), reach * Math.sin(at)];
  });
  const end = (degrees * Math.PI) / 180;
  const half = width / 2;
  return [
    [0, -half],
    [reach, -half],
    ...arc,
    [reach * Math.cos(end) - half * Math.sin(end), reach * Math.sin(end) + half * Math.cos(end)],
    [-half * Math.sin(end), half * Math.cos(end)],
  ];
}

/** Tools that fit a drive, the handiest first. */
export function toolsFor(drive: Drive): readonly Tool[] {
  if (drive.kind === 'nut')
    return [...(drive.stem <= TOOLS.socketDepth.value ? [nutDriver(drive)] : []), spanner(drive)];
  const key = keyFor(drive.key);
  const radius = key.size / Math.sqrt(3);
  const bent = (name: string, along: number, across: number): Tool => ({
    name,
    stem: rod(radius, OFF, along),
    sweep: (k) => k.extrude([sector(across, key.size, TOOLS.keyTurn.value)], along - key.size, along),
  });
  const { blade, handle, handleWidth } = TOOLS;
  return [
    {
      name: `screwdriver ${key.size} mm`,
      stem: (k) =>
        k.union([
          rod(radius, OFF, blade.value + 1)(k),
          rod(handleWidth.value / 2, blade.value, blade.value + handle.value)(k),
        ]),
      sweep: undefined,
    },
    bent(`hexagon key ${key.size} mm, long arm in the screw`, key.long, key.short),
    bent(`hexagon key ${key.size} mm, short arm in the screw`, key.short, key.long),
  ];
}

function nutDriver({ flats, height, stem }: Drive & { kind: 'nut' }): Tool {
  const outer = flats / Math.sqrt(3) + TOOLS.socketWall.value;
  // Its socket goes over the nut, to a little above what the nut lies on.
  const from = OFF - height;
  const to = stem + TOOLS.socket.value;
  return {
    name: `nut driver ${flats} mm`,
    stem: (k) => {
      const nut = k.extrude([shaftLoop(flats / Math.sqrt(3))], from - 1, stem + 1);
      return k.union([
        k.subtract(rod(outer, from, to)(k), [nut]),
        rod(TOOLS.handleWidth.value / 2, to - 1, to + TOOLS.handle.value)(k),
      ]);
    },
    sweep: undefined,
  };
}

function spanner({ flats, height }: Drive & { kind: 'nut' }): Tool {
  const thickness = Math.min(height, TOOLS.jawsThickness.value * flats);
  const [from, to] = [OFF - height, OFF - height + thickness];
  const nut = flats / Math.sqrt(3);
  const head = (TOOLS.jaws.value * flats) / 2;
  return {
    name: `open spanner ${flats} mm`,
    stem: (k) => k.subtract(rod(head, from, to)(k), [k.extrude([shaftLoop(nut)], from - 1, to + 1)]),
    sweep: (k) =>
      k.subtract(k.extrude([sector(TOOLS.spanner.value, flats, TOOLS.spannerTurn.value)], from, to), [
        k.extrude([shaftLoop(nut)], from - 1, to + 1),
      ]),
  };
}
