import type { CombDesign } from '../machine/comb.js';
import type { Machine } from '../machine/machine.js';
import { holeLoop, rectangle, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { filleted, roundedRectangle } from '../solid/outline.js';
import { prismAlongY } from '../solid/prisms.js';
import { holeVolume, loopArea, roundedEndsVolume } from '../solid/sections.js';
import type { Loop, Placement } from '../solid/vector.js';
import { fastener, nextScrewLength } from '../stock/fasteners.js';
import { codeFor, engraver, type Fastener, type PrintedPart, type Stated } from './part.js';

type BarDimensions = {
  readonly depth: number;
  readonly height: number;
  readonly length: number;
  readonly holeAt: number;
  readonly holeSpacing: number;
  readonly holeRadius: number;
};

/** mm */
const EDGE = 2;
const CORNER = 2;
const BED_CHAMFER = 0.4;
const CODE_HEIGHT = 2.8;
const LINE_PITCH = 1.4;
/** A needle’s shank lies in a groove of this size; sewing needles are 0.7 to 1 mm thick. Common practice. */
export const NEEDLE = { width: 1.1, depth: 0.8, spacing: 5 };

/** Grooves in which needles lie side by side under the bar. */
export const combGrooves = {
  places(width: number): number[] {
    const count = Math.floor(width / NEEDLE.spacing) + 1;
    return Array.from({ length: count }, (_, i) => (i - (count - 1) / 2) * NEEDLE.spacing);
  },
  cutters(places: readonly number[], from: number, to: number, top: number, k: Kernel): Solid[] {
    return places.map((y) =>
      k.extrude(
        [rectangle(from, y - NEEDLE.width / 2, to, y + NEEDLE.width / 2)],
        top - NEEDLE.depth,
        top + 1,
      ),
    );
  },
  volume: (places: readonly number[], length: number): number =>
    places.length * length * NEEDLE.width * NEEDLE.depth,
};

/** Thickness kept for the comb’s strip between bracket and bar: fine mesh is 0.2 to 0.5 mm. Common practice. mm */
export const STRIP_THICKNESS = 0.4;

/** How deep a clamp's screw goes into its insert at least. mm */
const CLAMPED = 3;

/** Length of a bar's screws, mm. */
export const clampScrewLength = ({ barHeight }: CombDesign['bracket']): number =>
  nextScrewLength(barHeight + STRIP_THICKNESS + CLAMPED);

/** Section across the bar: chamfered on the bed, rounded above. */
function profile(d: BarDimensions, finished: boolean): Loop {
  if (!finished) return rectangle(0, 0, d.depth, d.height);
  return filleted([
    { at: [BED_CHAMFER, 0], radius: 0 },
    { at: [d.depth - BED_CHAMFER, 0], radius: 0 },
    { at: [d.depth, BED_CHAMFER], radius: 0 },
    { at: [d.depth, d.height], radius: EDGE },
    { at: [0, d.height], radius: EDGE },
    { at: [0, BED_CHAMFER], radius: 0 },
  ]);
}

/** The code in two lines of four, which fit between the screws of the shortest bar. */
function engravings(part: { id: string; revision: number }, d: BarDimensions): Engraving[] {
  const code = codeFor(part, d);
  const middle = -d.depth / 2;
  return [code.slice(0, 4), code.slice(4)].map((text, line) => ({
    text,
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    layout: {
      kind: 'line',
      centre: [middle + (line - 0.5) * CODE_HEIGHT * LINE_PITCH, 0],
      heading: Math.PI / 2,
    },
    mirrored: true,
  }));
}

/** Height of the bar’s section at a distance from its front. */
function heightAt(d: BarDimensions, x: number): number {
  const from = Math.min(x, d.depth - x);
  const top = from < EDGE ? d.height - EDGE + Math.sqrt(EDGE ** 2 - (EDGE - from) ** 2) : d.height;
  return top - Math.max(0, BED_CHAMFER - from);
}

function combBar(end: 'lower' | 'upper'): PrintedPart<BarDimensions> {
  const part: PrintedPart<BarDimensions> = {
    id: `comb-bar-${end}`,
    revision: 1,
    purpose: `clamps the ${end} comb and its wire on the bracket`,
    copies: 1,
    step: end === 'lower' ? 15 : 63,
    print: { walls: 4, infill: 60, orientation: 'flat side on the bed' },
    assembly:
      'Lay comb and wire on the bracket, the bar over them, rounded side out, and tighten its two screws evenly. Set the gap by the bracket’s scale (long marks are even millimetres) and tighten the foot.',
    fields: {
      depth: { unit: 'mm', meaning: 'depth' },
      height: { unit: 'mm', meaning: 'height' },
      length: { unit: 'mm', meaning: 'length' },
      holeAt: { unit: 'mm', meaning: 'screw holes, from the front' },
      holeSpacing: { unit: 'mm', meaning: 'screw holes, apart' },
      holeRadius: { unit: 'mm', meaning: 'screw holes, radius' },
    },

    dimensions(machine: Machine): BarDimensions {
      const { bracket } = machine.combs[end];
      return {
        depth: bracket.headDepth,
        height: bracket.barHeight,
        length: bracket.barLength,
        holeAt: bracket.headDepth / 2,
        holeSpacing: bracket.barScrewSpacing,
        holeRadius: fastener('M3').clearance.medium / 2,
      };
    },

    bare: (d, k) => prismAlongY(profile(d, false), d.length, k),

    build(d, k) {
      const half = d.length / 2;
      const plan = roundedRectangle(0, -half, d.depth, half, CORNER);
      const body = k.intersect(
        prismAlongY(profile(d, true), d.length, k),
        k.extrude([plan], -1, d.height + 1),
      );
      const holes = [-1, 1].map((side) =>
        k.extrude([holeLoop(d.holeRadius, [d.holeAt, (side * d.holeSpacing) / 2])], -1, d.height + 1),
      );
      return k.subtract(body, [...holes, ...engravings(part, d).map((mark) => engraver(k, mark))]);
    },

    stated(d): Stated {
      const bareVolume = loopArea(profile(d, false)) * d.length;
      const edges = (loopArea(profile(d, false)) - loopArea(profile(d, true))) * d.length;
      const ends = roundedEndsVolume(0, d.depth, CORNER, (x) => heightAt(d, x));
      const holes = 2 * holeVolume(d.holeRadius, sidesFor(d.holeRadius), d.height);
      return {
        genus: 2,
        pieces: 1,
        bounds: { min: [0, -d.length / 2, 0], max: [d.depth, d.length / 2, d.height] },
        bareVolume,
        volume:
          bareVolume -
          edges -
          ends -
          holes -
          engravings(part, d).reduce((sum, mark) => sum + engravedVolume(mark), 0),
      };
    },

    place(machine) {
      const comb = machine.combs[end];
      const { bracket } = comb;
      const up = end === 'upper' ? 1 : -1;
      const placement: Placement = {
        turn: [end === 'upper' ? 0 : 180, 0, 0],
        move: [comb.tip + bracket.protrusion, 0, comb.plane + up * STRIP_THICKNESS],
      };
      return [{ placement, moves: [{ slide: [0, 0, -up * 40], turn: 0, why: 'onto the comb' }] }];
    },

    fasteners(machine): readonly Fastener[] {
      const length = clampScrewLength(machine.combs[end].bracket);
      return [
        { what: 'socket head cap screw ISO 4762', size: 'M3', length, count: 2, use: `${end} comb’s clamp` },
      ];
    },
  };
  return part;
}

/** Printed bar over the lower comb. */
export const lowerBar = combBar('lower');
/** Printed bar over the upper comb. */
export const upperBar = combBar('upper');
