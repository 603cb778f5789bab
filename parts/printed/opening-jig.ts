import type { Machine } from '../machine/machine.js';
import { sagitta } from '../machine/terminal-cut.js';
import { circumscribed, holeLoop, rectangle, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { holeVolume, integrate } from '../solid/sections.js';
import { type Loop, radians, type Vec2 } from '../solid/vector.js';
import { codeFor, engraver, type PrintedPart, type Stated } from './part.js';

type TrammelDimensions = {
  readonly equatorial: number;
  readonly polar: number;
  readonly radius: number;
  readonly lean: number;
  readonly height: number;
  readonly width: number;
  readonly behind: number;
  readonly beyond: number;
  readonly top: number;
  readonly clearance: number;
  readonly guide: number;
};

/** mm between the shell as measured and the feet as drawn: a spun shell is no truer. */
const CLEARANCE = 0.2;
/** mm; between the feet the beam stands off by this. */
const RELIEF = 1;
/** mm along the beam; each foot is two, one at either side of it. */
const FOOT = { behind: 8, around: 6, width: 4 };
const CODE_HEIGHT = 3.5;
const BEYOND = 1;
/** mm; chords along the arc lie inside the shell, where the beam must not be. */
const ARC_TOLERANCE = 0.002;

/** Height over the bed at which the shell lies, or what stands off it by `off`, at a distance from the pin. */
function surface(d: TrammelDimensions, off: number, distance: number): number {
  const cap = { equatorial: d.equatorial + off, polar: d.polar + off };
  return d.height - off + sagitta(cap, distance);
}

/** The shell around its pole with what stands off it, up to above the beam. */
function shell(d: TrammelDimensions, off: number, k: Kernel): Solid {
  const [a, b] = [d.equatorial + off, d.polar + off];
  const sides = sidesFor(a);
  const over = d.top + BEYOND;
  const end = Math.acos(Math.max(0, 1 - (over - d.height + off) / b));
  const steps = Math.ceil((sidesFor(a, ARC_TOLERANCE) * end) / (2 * Math.PI)) + 1;
  const arc = Array.from({ length: steps + 1 }, (_, i): Vec2 => {
    const u = (end * i) / steps;
    return [circumscribed(a, sides) * Math.sin(u), d.height - off + b * (1 - Math.cos(u))];
  });
  const last = arc.at(-1)!;
  const rest: Loop =
    over - last[1] > 1e-6
      ? [
          [last[0], over],
          [0, over],
        ]
      : [[0, last[1]]];
  return k.revolve([...arc, ...rest], sides);
}

/** From where to where the beam stands off the shell over its whole width, along x. */
const between = (d: TrammelDimensions) => [-d.behind + FOOT.behind, d.radius - FOOT.around] as const;

/** Middle strip between the feet, along y to either side. */
const strip = (d: TrammelDimensions) => d.width / 2 - FOOT.width;

/** mm3 of the beam under a surface that stands off the shell by `off`, over a rectangle. */
function volumeUnder(
  d: TrammelDimensions,
  off: number,
  [x0, x1]: readonly [number, number],
  [y0, y1]: readonly [number, number],
): number {
  const [a, b] = [d.equatorial + off, d.polar + off];
  const share = 1 - Math.max(0, d.top - d.height + off) / b;
  // Beyond this distance from the pin the beam ends at its own height.
  const flat = a * Math.sqrt(Math.max(0, 1 - share ** 2));
  const section = (y: number) => {
    const kink = Math.sqrt(Math.max(0, flat ** 2 - y ** 2));
    const cuts = [x0, ...[-kink, kink].filter((x) => x > x0 && x < x1), x1];
    return cuts.slice(1).reduce((sum, to, i) => {
      const height = (x: number) => Math.min(d.top, surface(d, off, Math.hypot(x, y)));
      return sum + integrate(height, cuts[i]!, to);
    }, 0);
  };
  return integrate(section, y0, y1);
}

/** mm3 of the beam on its feet, without holes. */
function beamVolume(d: TrammelDimensions): number {
  const [from, to] = between(d);
  const half = d.width / 2;
  const relieved = d.clearance + RELIEF;
  const side =
    volumeUnder(d, relieved, [-d.behind, d.beyond], [0, strip(d)]) +
    volumeUnder(d, relieved, [from, to], [strip(d), half]) +
    volumeUnder(d, d.clearance, [-d.behind, from], [strip(d), half]) +
    volumeUnder(d, d.clearance, [to, d.beyond], [strip(d), half]);
  return 2 * side;
}

/** Height over the bed at which the scriber meets the shell. */
const meets = (d: TrammelDimensions) => d.height + sagitta(d, d.radius);

function scriberHole(d: TrammelDimensions, k: Kernel): Solid {
  const long = meets(d) / Math.cos(radians(d.lean)) + 2 * BEYOND;
  const hole = k.extrude([holeLoop(d.guide / 2)], -long, d.guide);
  return k.place(hole, { turn: [0, -d.lean, 0], move: [d.radius, 0, meets(d)] });
}

/** On the bed face, beside both holes. */
function engraving(d: TrammelDimensions): Engraving {
  return {
    text: codeFor(openingJig, d),
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: {
      kind: 'line',
      centre: [-(d.beyond - d.behind) / 2, (d.width / 2 + d.guide / 2) / 2],
      heading: 0,
    },
    mirrored: true,
  };
}

const plan = (d: TrammelDimensions) => rectangle(-d.behind, -d.width / 2, d.beyond, d.width / 2);

/** Beam that turns on a pin at the pole of the terminal and draws the circle that its opening is cut at. */
export const openingJig: PrintedPart<TrammelDimensions> = {
  id: 'opening-jig',
  revision: 1,
  role: 'tool',
  purpose:
    'draws the circle that the terminal’s opening is cut at on the outside of its shell, from a punched mark at the pole; its radius is the free opening’s for a raw edge, smaller where a bead is to be rolled from the sheet, as the finding jig/opening-cut says',
  copies: 1,
  step: 0,
  print: { walls: 3, infill: 30, orientation: 'flat side on the bed, feet up' },
  assembly:
    'Find the pole of the closed shell, the same arc from all sides of its widest section, and punch it; drill it 3 mm where it is cut away anyway. Set a 3 mm pin, the shank of a drill, through the beam’s upright hole into it, all four feet on the shell; a 3 mm scriber or a marker’s refill goes through the leaning hole. Turn the beam once around, and measure the circle across before cutting. Where a bead is rolled from the sheet the radius is an estimate: try it on scrap of the same sheet.',
  fields: {
    equatorial: { unit: 'mm', meaning: 'shell, half of its widest section' },
    polar: { unit: 'mm', meaning: 'shell, from its widest section to the pole' },
    radius: { unit: 'mm', meaning: 'circle to be cut, radius from the pin’s axis' },
    lean: { unit: 'degrees', meaning: 'scriber’s lean from the pin' },
    height: { unit: 'mm', meaning: 'beam at the pin, height' },
    width: { unit: 'mm', meaning: 'beam, width' },
    behind: { unit: 'mm', meaning: 'beam behind the pin, length' },
    beyond: { unit: 'mm', meaning: 'beam from the pin to its end' },
    top: { unit: 'mm', meaning: 'beam at its end, height' },
    clearance: { unit: 'mm', meaning: 'feet off the shell as measured' },
    guide: { unit: 'mm', meaning: 'holes of pin and scriber, diameter' },
  },

  dimensions({ jigs: { opening, pilot } }: Machine): TrammelDimensions {
    const { cap, ...sizes } = opening;
    return { ...cap, ...sizes, clearance: CLEARANCE, guide: pilot.drawn };
  },

  bare: (d, k) => k.subtract(k.extrude([plan(d)], 0, d.top), [shell(d, d.clearance, k)]),

  build(d, k) {
    const [from, to] = between(d);
    const half = d.width / 2 + BEYOND;
    const height = d.top + 2 * BEYOND;
    const off = k.union([
      k.extrude([rectangle(from, -half, to, half)], -BEYOND, height),
      k.extrude([rectangle(-d.behind - BEYOND, -strip(d), d.beyond + BEYOND, strip(d))], -BEYOND, height),
    ]);
    return k.subtract(openingJig.bare(d, k), [
      k.intersect(off, shell(d, d.clearance + RELIEF, k)),
      k.extrude([holeLoop(d.guide / 2)], -BEYOND, height),
      scriberHole(d, k),
      engraver(k, engraving(d)),
    ]);
  },

  stated(d): Stated {
    const half = d.width / 2;
    const bareVolume = 2 * volumeUnder(d, d.clearance, [-d.behind, d.beyond], [0, half]);
    const hole = (length: number) => holeVolume(d.guide / 2, sidesFor(d.guide / 2), length);
    const off = d.clearance + RELIEF;
    const lean = Math.cos(radians(d.lean));
    const volume =
      beamVolume(d) -
      hole(surface(d, off, 0)) -
      hole((meets(d) - off * lean) / lean) -
      engravedVolume(engraving(d));
    return {
      genus: 2,
      pieces: 1,
      bounds: { min: [-d.behind, -half, 0], max: [d.beyond, half, d.top] },
      bareVolume,
      volume,
    };
  },

  place: () => [],
  fasteners: () => [],
};
