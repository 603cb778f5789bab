import type { CombDesign } from '../machine/comb.js';
import type { Machine } from '../machine/machine.js';
import { holeLoop, rectangle, sidesFor, slotLoop } from '../solid/facets.js';
import type { Kernel, Section, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { filleted, roundedRectangle } from '../solid/outline.js';
import { prismAlongY } from '../solid/prisms.js';
import { holeVolume, loopArea, roundedEndsVolume } from '../solid/sections.js';
import type { Bounds, Loop, Placement, Vec2 } from '../solid/vector.js';
import { combGrooves } from './comb-bar.js';
import { codeFor, engraver, type Fastener, type PrintedPart, type Stated } from './part.js';

type BracketDimensions = Omit<
  CombDesign['bracket'],
  'scale' | 'barLength' | 'barHeight' | 'barScrewAt' | 'barScrewSpacing'
> & {
  readonly length: number;
  readonly insertAt: number;
  readonly insertSpacing: number;
  readonly grooveAt: number;
  readonly needles: readonly number[];
  readonly scaleGaps: readonly number[];
  readonly scaleAt: readonly number[];
};

/** mm */
const CORNER = 2;
const EDGE = 1.2;
const FOOT_CORNER = 3;
const BED_CHAMFER = 0.4;
const FOOT_ROOT = 1;
const WIRE = { width: 2, depth: 1.2 };
const SCALE = { even: 2.4, odd: 1.4, stroke: 0.5 };
const CODE_HEIGHT = 3;
/** Of the screw through foot and washer into the insert of its seat. mm */
export const LOCK_SCREW_LENGTH = 10;

const head = (d: BracketDimensions) => d.protrusion + d.headDepth;

/** Wall with the head leaning out over 45 degrees; x away from the belt, z up from the seat. */
function profile(d: BracketDimensions, finished: boolean): Loop {
  const under = d.height - d.headThickness;
  const edge = finished ? EDGE : 0;
  const chamfer = finished ? BED_CHAMFER : 0;
  const corners: { at: Vec2; radius: number }[] = [
    { at: [d.wallFrom + chamfer, 0], radius: 0 },
    { at: [d.wallTo - chamfer, 0], radius: 0 },
    { at: [d.wallTo, chamfer], radius: 0 },
    { at: [d.wallTo, d.height], radius: edge },
    { at: [d.protrusion, d.height], radius: edge },
    { at: [d.protrusion, under], radius: edge },
    { at: [d.wallFrom, under - (d.wallFrom - d.protrusion)], radius: 0 },
    { at: [d.wallFrom, chamfer], radius: 0 },
  ];
  return filleted(finished ? corners : corners.filter((_, i) => i !== 2 && i !== 7));
}

/** Height of plastic at a distance from the belt, between the head’s underside or the seat and the top. */
function thicknessAt(d: BracketDimensions, x: number): number {
  return x < d.wallFrom ? d.headThickness + (x - d.protrusion) : d.height;
}

/** Foot seen from above, from a place along x to its rounded end, drawn in by `inset` on all but that side. */
function footOutline(d: BracketDimensions, from: number, corner: number, inset = 0): Loop {
  const half = d.footWidth / 2 - inset;
  const end = d.footEnd - inset;
  const rounding = { radius: Math.max(0, corner - inset), facetedAs: corner };
  return filleted([
    { at: [from, -half], radius: 0 },
    { at: [end, -half], ...rounding },
    { at: [end, half], ...rounding },
    { at: [from, half], radius: 0 },
  ]);
}

/** Foot rooted in the wall, its bed edge chamfered all round. */
function foot(d: BracketDimensions, k: Kernel): Solid {
  const section = (z: number, inset: number): Section => ({
    z,
    loop: footOutline(d, d.wallTo - FOOT_ROOT, FOOT_CORNER, inset),
  });
  return k.loft([section(0, BED_CHAMFER), section(BED_CHAMFER, 0), section(d.footThickness, 0)]);
}

/** What the chamfer takes off the foot outside the wall: the prismatoid rule, exact for a loft. mm3 */
function footChamferVolume(d: BracketDimensions): number {
  const area = (inset: number) => loopArea(footOutline(d, d.wallTo, FOOT_CORNER, inset));
  return (
    BED_CHAMFER * area(0) - (BED_CHAMFER / 6) * (area(BED_CHAMFER) + 4 * area(BED_CHAMFER / 2) + area(0))
  );
}

function engraving(part: { id: string; revision: number }, d: BracketDimensions): Engraving {
  return {
    text: codeFor(part, d),
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    // On the wall's bed face, where it stands on its seat; mirrored, so drawn on the other side of the axis.
    layout: { kind: 'line', centre: [-(d.wallFrom + d.wallTo) / 2, 0], heading: Math.PI / 2 },
    mirrored: true,
  };
}

function scaleMarks(d: BracketDimensions): Loop[] {
  const half = d.footWidth / 2;
  return d.scaleAt.flatMap((x, i) => {
    const reach = d.scaleGaps[i]! % 2 === 0 ? SCALE.even : SCALE.odd;
    const [from, to] = [x - SCALE.stroke / 2, x + SCALE.stroke / 2];
    return [rectangle(from, half - reach, to, half + 1), rectangle(from, -half - 1, to, -half + reach)];
  });
}

function combBracket(end: 'lower' | 'upper'): PrintedPart<BracketDimensions> {
  const part: PrintedPart<BracketDimensions> = {
    id: `comb-bracket-${end}`,
    revision: 1,
    purpose: `holds the ${end} comb at its gap from the belt on the roller; adjustable by sliding, with a hard stop`,
    copies: 1,
    step: end === 'lower' ? 14 : 62,
    print: { walls: 4, infill: 60, orientation: 'foot on the bed', brim: 5 },
    assembly: `Heat two M3 inserts into the head with a soldering iron. Screw the foot to the ${
      end === 'lower' ? 'skirt' : 'rim ring'
    } with its washer, loosely.`,
    fields: {
      height: { unit: 'mm', meaning: 'comb’s plane over the seat' },
      protrusion: { unit: 'mm', meaning: 'how far the comb’s edge stands out of the head' },
      headDepth: { unit: 'mm', meaning: 'head, depth' },
      headThickness: { unit: 'mm', meaning: 'head, thickness' },
      length: { unit: 'mm', meaning: 'length along the comb' },
      wallFrom: { unit: 'mm', meaning: 'wall’s face towards the belt' },
      wallTo: { unit: 'mm', meaning: 'wall’s face away from the belt' },
      footThickness: { unit: 'mm', meaning: 'foot, thickness' },
      footWidth: { unit: 'mm', meaning: 'foot, width' },
      footEnd: { unit: 'mm', meaning: 'end of the foot' },
      slotFrom: { unit: 'mm', meaning: 'slot, end for the greatest gap' },
      slotTo: { unit: 'mm', meaning: 'slot, end for the least gap (hard stop)' },
      slotRadius: { unit: 'mm', meaning: 'slot, half width' },
      insertAt: { unit: 'mm', meaning: 'inserts of the clamping bar, from the comb’s edge' },
      insertSpacing: { unit: 'mm', meaning: 'inserts of the clamping bar, apart' },
      insertRadius: { unit: 'mm', meaning: 'holes of the inserts, radius' },
      insertDepth: { unit: 'mm', meaning: 'holes of the inserts, depth' },
      grooveAt: { unit: 'mm', meaning: 'groove of the wire, from the middle' },
      needles: { unit: 'mm', meaning: 'grooves of the needles, from the middle' },
      scaleGaps: { unit: 'mm', meaning: 'gaps marked on the scale' },
      scaleAt: { unit: 'mm', meaning: 'marks of the scale, from the comb’s edge' },
    },

    dimensions(machine: Machine): BracketDimensions {
      const comb = machine.combs[end];
      const { scale, barLength, barHeight: _bar, barScrewAt, barScrewSpacing, ...sizes } = comb.bracket;
      return {
        ...sizes,
        length: barLength,
        insertAt: barScrewAt,
        insertSpacing: barScrewSpacing,
        grooveAt: comb.width / 2 - 4,
        needles: comb.style === 'needles' ? combGrooves.places(comb.width) : [],
        scaleGaps: scale.map((mark) => mark.gap),
        scaleAt: scale.map((mark) => mark.at),
      };
    },

    bare: (d, k) => {
      const wall = prismAlongY(profile(d, false), d.length, k);
      return k.union([wall, k.extrude([footOutline(d, d.wallTo - FOOT_ROOT, 0)], 0, d.footThickness)]);
    },

    build(d, k) {
      const half = d.length / 2;
      const plan = roundedRectangle(d.protrusion, -half, d.wallTo, half, CORNER);
      const wall = k.intersect(
        prismAlongY(profile(d, true), d.length, k),
        k.extrude([plan], -1, d.height + 1),
      );
      const inserts = [-1, 1].map((side) =>
        k.extrude(
          [holeLoop(d.insertRadius, [d.insertAt, (side * d.insertSpacing) / 2])],
          d.height - d.insertDepth,
          d.height + 1,
        ),
      );
      const wire = rectangle(
        d.protrusion + 1.5,
        d.grooveAt - WIRE.width / 2,
        head(d) + 2,
        d.grooveAt + WIRE.width / 2,
      );
      return k.subtract(k.union([wall, foot(d, k)]), [
        k.extrude([slotLoop(d.slotRadius, [d.slotFrom, 0], [d.slotTo, 0])], -1, d.footThickness + 1),
        ...inserts,
        k.extrude([wire], d.height - WIRE.depth, d.height + 1),
        ...combGrooves.cutters(d.needles, d.protrusion - 1, head(d) + 2, d.height, k),
        ...scaleMarks(d).map((mark) => k.extrude([mark], d.footThickness - MARK_DEPTH, d.footThickness + 1)),
        engraver(k, engraving(part, d)),
      ]);
    },

    stated(d): Stated {
      const footArea = loopArea(footOutline(d, d.wallTo, 0));
      const bareVolume = loopArea(profile(d, false)) * d.length + footArea * d.footThickness;
      // Rounded edges run along the length; rounded ends take a corner off every section across it.
      const edges = (loopArea(profile(d, false)) - loopArea(profile(d, true))) * d.length;
      const ends = roundedEndsVolume(d.protrusion, d.wallTo, CORNER, (x) => thicknessAt(d, x));
      // Where the foot joins it, the wall keeps its bed edge.
      const joined = (BED_CHAMFER ** 2 / 2) * d.footWidth;
      const footEnds = (footArea - loopArea(footOutline(d, d.wallTo, FOOT_CORNER))) * d.footThickness;
      const slot = loopArea(slotLoop(d.slotRadius, [d.slotFrom, 0], [d.slotTo, 0])) * d.footThickness;
      const inserts = 2 * holeVolume(d.insertRadius, sidesFor(d.insertRadius), d.insertDepth);
      const wire = WIRE.width * WIRE.depth * (d.wallTo - d.protrusion - 1.5);
      const needles = combGrooves.volume(d.needles, d.wallTo - d.protrusion);
      const marks = d.scaleGaps.reduce((sum, gap) => sum + 2 * (gap % 2 === 0 ? SCALE.even : SCALE.odd), 0);
      const volume =
        bareVolume +
        joined -
        edges -
        ends -
        footEnds -
        footChamferVolume(d) -
        slot -
        inserts -
        wire -
        needles -
        marks * SCALE.stroke * MARK_DEPTH -
        engravedVolume(engraving(part, d));
      const bounds: Bounds = {
        min: [d.protrusion, -d.length / 2, 0],
        max: [d.footEnd, d.length / 2, d.height],
      };
      return { genus: 1, pieces: 1, bounds, bareVolume, volume };
    },

    place(machine) {
      const comb = machine.combs[end];
      const placement: Placement = {
        turn: [end === 'upper' ? 0 : 180, 0, 0],
        move: [comb.tip, 0, comb.seat],
      };
      const away = end === 'upper' ? -40 : 40;
      return [{ placement, moves: [{ slide: [0, 0, away], turn: 0, why: 'onto its seat' }] }];
    },

    fasteners: (): readonly Fastener[] => [
      {
        what: 'socket head cap screw ISO 4762',
        size: 'M3',
        length: LOCK_SCREW_LENGTH,
        count: 1,
        use: `${end} comb’s lock`,
      },
      { what: 'washer ISO 7089', size: 'M3', length: undefined, count: 1, use: `${end} comb’s lock` },
      { what: 'heat-set insert', size: 'M3', length: undefined, count: 2, use: `${end} comb’s clamp` },
    ],
  };
  return part;
}

/** Printed bracket of the lower comb: hangs under the skirt. */
export const lowerBracket = combBracket('lower');
/** Printed bracket of the upper comb: stands on the rim ring. The same shape, the other way up. */
export const upperBracket = combBracket('upper');
