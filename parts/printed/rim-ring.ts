import type { Machine } from '../machine/machine.js';
import { circumscribed, holeLoop, rectangle, shaftLoop, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import {
  holeVolume,
  integrate,
  lensArea,
  revolvedVolume,
  segmentArea,
  slotThroughRing,
} from '../solid/sections.js';
import { degrees, type Loop, type Vec2 } from '../solid/vector.js';
import { intoRim } from './carrier-places.js';
import { codeFor, engraver, type PrintedPart, roundBounds, SPIGOT_LEAD_IN, type Stated } from './part.js';
import { indexLine, tabInside } from './tab.js';

type RimDimensions = {
  readonly innerRadius: number;
  readonly spigotRadius: number;
  readonly spigotLength: number;
  readonly flangeRadius: number;
  readonly flangeThickness: number;
  readonly insertAt: number;
  readonly insertRadius: number;
  readonly insertDepth: number;
  readonly shelfFrom: number;
  readonly screwsX: readonly number[];
  readonly screwsY: number;
  readonly screwHole: number;
  readonly headRadius: number;
  readonly headDepth: number;
  readonly guideAngles: readonly number[];
  readonly guideInner: number;
  readonly guideOuter: number;
  readonly guideWidth: number;
  readonly guideLength: number;
};

/** mm */
const BED_CHAMFER = 0.5;
const CODE_HEIGHT = 4;
const GUIDE_ROOT = 2;
/** What stands of the spigot behind a screw head's way is at least this thick, or is left out. */
const LEAST_WALL = 1.2;

const spigotTop = (d: RimDimensions) => d.flangeThickness + d.spigotLength;
const height = (d: RimDimensions) => Math.max(spigotTop(d), d.flangeThickness + d.guideLength);

function profile(d: RimDimensions): Loop {
  const sides = sidesFor(d.flangeRadius);
  const bore = circumscribed(d.innerRadius, sides);
  const top = spigotTop(d);
  return [
    [bore, 0],
    [d.flangeRadius - BED_CHAMFER, 0],
    [d.flangeRadius, BED_CHAMFER],
    [d.flangeRadius, d.flangeThickness],
    [d.spigotRadius, d.flangeThickness],
    [d.spigotRadius, top - SPIGOT_LEAD_IN],
    [d.spigotRadius - SPIGOT_LEAD_IN, top],
    [bore, top],
  ];
}

function engraving(d: RimDimensions): Engraving {
  return {
    text: codeFor(rimRing, d),
    height: CODE_HEIGHT,
    stroke: MARK_STROKE,
    depth: MARK_DEPTH,
    // Mirrored on the bed: drawn at +x it stands at -x, where no screw is.
    layout: { kind: 'arc', radius: (d.innerRadius + d.flangeRadius) / 2, middle: 0 },
    mirrored: true,
  };
}

/** What closes the flange's bore on both sides of the belt, under the cheeks of the upper carrier. */
function shelf(d: RimDimensions, k: Kernel): Solid[] {
  if (d.shelfFrom >= d.innerRadius) return [];
  const far = d.innerRadius + 1;
  const sides = [rectangle(-far, d.shelfFrom, far, far), rectangle(-far, -far, far, -d.shelfFrom)];
  const inside = k.extrude([shaftLoop(far)], 0, d.flangeThickness);
  return [k.intersect(k.extrude(sides, 0, d.flangeThickness), inside)];
}

/** Outer face of a guide, from the axis: its two edges touch the circle that the guides stand for. */
const guideFace = (d: RimDimensions) => Math.sqrt(d.guideOuter ** 2 - (d.guideWidth / 2) ** 2);

function guides(d: RimDimensions, k: Kernel): Solid[] {
  const half = d.guideWidth / 2;
  const root = Math.min(d.guideInner, d.flangeRadius - GUIDE_ROOT);
  const one = k.union([
    k.extrude([rectangle(root, -half, guideFace(d), half)], 0, d.flangeThickness),
    k.extrude([rectangle(d.guideInner, -half, guideFace(d), half)], 0, d.flangeThickness + d.guideLength),
  ]);
  return d.guideAngles.map((angle) => k.place(one, { turn: [0, 0, angle], move: [0, 0, 0] }));
}

/** What the guides add to ring and flange, mm3. */
function guideVolume(d: RimDimensions): number {
  const half = d.guideWidth / 2;
  const beyondFlange = integrate(
    (y) => Math.max(0, guideFace(d) - Math.sqrt(d.flangeRadius ** 2 - y ** 2)),
    -half,
    half,
  );
  const below = (guideFace(d) - d.guideInner) * d.guideWidth * d.guideLength;
  return d.guideAngles.length * (below + beyondFlange * d.flangeThickness);
}

const screwPlaces = (d: RimDimensions): Vec2[] =>
  d.screwsX.flatMap((x): Vec2[] => [
    [x, d.screwsY],
    [x, -d.screwsY],
  ]);

/**
 * Whether so little of the spigot would stand behind a screw head's way that it is left out there, and the way opens to the bore.
 * @param from of the screw, mm off the axis
 */
export const opensToBore = (from: number, headRadius: number, innerRadius: number): boolean =>
  from - headRadius - innerRadius < LEAST_WALL;

const isOpen = (d: RimDimensions, [x, y]: Vec2): boolean =>
  opensToBore(Math.hypot(x, y), d.headRadius, d.innerRadius);

/** Opens the way of a screw's head through the spigot to the bore, along the radius. */
function opening(d: RimDimensions, [x, y]: Vec2, k: Kernel): Solid {
  const [inner, outer] = [d.innerRadius - 1, d.spigotRadius + 1];
  const slot = k.extrude(
    [rectangle(inner, -d.headRadius, outer, d.headRadius)],
    d.flangeThickness,
    height(d) + 1,
  );
  return k.place(slot, { turn: [0, 0, degrees(Math.atan2(y, x))], move: [0, 0, 0] });
}

/** What the screws of the cheeks take out of flange and spigot, mm3. */
function screwVolume(d: RimDimensions): number {
  const hole = holeVolume(d.screwHole / 2, sidesFor(d.screwHole / 2), d.flangeThickness - d.headDepth);
  const head = holeVolume(d.headRadius, sidesFor(d.headRadius), d.headDepth);
  return screwPlaces(d).reduce((sum, [x, y]) => {
    const from = Math.hypot(x, y);
    const wall = isOpen(d, [x, y])
      ? slotThroughRing(d.innerRadius, d.spigotRadius, 2 * d.headRadius)
      : lensArea(d.headRadius, d.spigotRadius, from) - lensArea(d.headRadius, d.innerRadius, from);
    return sum + hole + head + wall * d.spigotLength;
  }, 0);
}

/** Printed ring on the tube’s rim, centred by its measured bore: what stands up there stands on it. */
export const rimRing: PrintedPart<RimDimensions> = {
  id: 'rim-ring',
  revision: 3,
  purpose:
    'sits in the tube’s upper rim and carries the upper bearing carrier and the comb’s bracket; its guides centre the terminal’s opening',
  copies: 1,
  step: 48,
  print: { walls: 4, infill: 40, orientation: 'flange on the bed, spigot up' },
  assembly:
    'Heat the M3 insert into its hole with a soldering iron. Put ring, belt, upper roller and its carrier together on the bench, the ring’s insert where the belt rises; then let the belt hang through the tube and push the ring into its rim. Turned by a degree or two it sets the roller’s azimuth; the belt’s pull holds it.',
  fields: {
    innerRadius: { unit: 'mm', meaning: 'bore for the belt, radius' },
    spigotRadius: { unit: 'mm', meaning: 'spigot in the tube, radius' },
    spigotLength: { unit: 'mm', meaning: 'spigot, length' },
    flangeRadius: { unit: 'mm', meaning: 'flange on the rim, radius' },
    flangeThickness: { unit: 'mm', meaning: 'flange, thickness' },
    insertAt: { unit: 'mm', meaning: 'insert of the comb’s locking screw, from the axis' },
    insertRadius: { unit: 'mm', meaning: 'hole of the insert, radius' },
    insertDepth: { unit: 'mm', meaning: 'hole of the insert, depth' },
    shelfFrom: { unit: 'mm', meaning: 'flange closed beyond this distance from the belt’s middle' },
    screwsX: { unit: 'mm', meaning: 'screws of the cheeks, across the axle' },
    screwsY: { unit: 'mm', meaning: 'screws of the cheeks, along the axle to either side' },
    screwHole: { unit: 'mm', meaning: 'screw holes, diameter' },
    headRadius: { unit: 'mm', meaning: 'recesses of the screw heads, radius' },
    headDepth: { unit: 'mm', meaning: 'recesses of the screw heads, depth' },
    guideAngles: { unit: 'degrees', meaning: 'directions of the guides' },
    guideInner: { unit: 'mm', meaning: 'guides, face beside the tube from the axis' },
    guideOuter: { unit: 'mm', meaning: 'guides, radius of their outer edges' },
    guideWidth: { unit: 'mm', meaning: 'guides, width' },
    guideLength: { unit: 'mm', meaning: 'guides, length below the flange' },
  },

  dimensions: ({ rim, combs }: Machine): RimDimensions => ({
    innerRadius: rim.spigotInnerRadius,
    spigotRadius: rim.spigotFit.drawn / 2,
    spigotLength: rim.spigotLength,
    flangeRadius: rim.flangeRadius,
    flangeThickness: rim.flangeThickness,
    insertAt: combs.upper.screwAt,
    insertRadius: combs.upper.bracket.insertRadius,
    insertDepth: combs.upper.bracket.insertDepth,
    shelfFrom: rim.shelfFrom,
    screwsX: rim.screws.map(([x]) => x),
    screwsY: rim.screws[0]![1],
    screwHole: rim.screwHole,
    headRadius: rim.headRadius,
    headDepth: rim.headDepth,
    guideAngles: [...rim.guides.angles],
    guideInner: rim.guides.innerRadius,
    guideOuter: rim.guides.outerRadius,
    guideWidth: rim.guides.width,
    guideLength: rim.guides.length,
  }),

  bare: (d, k) => k.revolve(profile(d), sidesFor(d.flangeRadius)),

  build(d, k) {
    const tab = tabInside(d.insertAt, d.innerRadius, 0, d.flangeThickness, k);
    const under = d.flangeThickness - d.headDepth;
    return k.subtract(k.union([rimRing.bare(d, k), tab, ...shelf(d, k), ...guides(d, k)]), [
      ...screwPlaces(d).flatMap((at) => [
        k.extrude([holeLoop(d.screwHole / 2, at)], -1, under + 1),
        k.extrude([holeLoop(d.headRadius, at)], under, height(d) + 1),
        ...(isOpen(d, at) ? [opening(d, at, k)] : []),
      ]),
      k.extrude([holeLoop(d.insertRadius, [d.insertAt, 0])], -1, d.insertDepth),
      k.place(indexLine(d.insertAt, 0, k), { turn: [180, 0, 0], move: [0, 0, 0] }),
      engraver(k, engraving(d)),
    ]);
  },

  stated(d): Stated {
    const bareVolume = revolvedVolume(profile(d), sidesFor(d.flangeRadius));
    const tabVolume = integrate(() => tabInside.area(d.insertAt, d.innerRadius), 0, d.flangeThickness);
    const shelfVolume = 2 * segmentArea(d.innerRadius, d.shelfFrom) * d.flangeThickness;
    const volume =
      bareVolume +
      tabVolume +
      shelfVolume +
      guideVolume(d) -
      screwVolume(d) -
      holeVolume(d.insertRadius, sidesFor(d.insertRadius), d.insertDepth) -
      indexLine.volume -
      engravedVolume(engraving(d));
    const corner = d.guideAngles.map((angle) => Math.abs(angle % 90) * (Math.PI / 180));
    const reach = Math.max(
      d.flangeRadius,
      ...corner.map((angle) => guideFace(d) * Math.cos(angle) + (d.guideWidth / 2) * Math.sin(angle)),
    );
    return {
      genus: 1 + screwPlaces(d).length,
      pieces: 1,
      bounds: roundBounds(reach, height(d)),
      bareVolume,
      volume,
    };
  },

  place: (machine: Machine) => [
    {
      placement: { turn: [180, 0, 0], move: [0, 0, machine.tube.rimZ + machine.rim.flangeThickness] },
      moves: [intoRim(machine)],
    },
  ],

  fasteners: () => [
    { what: 'heat-set insert', size: 'M3', length: undefined, count: 1, use: 'upper comb’s locking screw' },
  ],
};
