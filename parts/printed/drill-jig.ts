import type { Machine } from '../machine/machine.js';
import { onCircle } from '../machine/plate-holes.js';
import { holeLoop, polygonFactor, rectangle, reversed, shaftLoop, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { type Engraving, engravedVolume, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { holeVolume, slotThroughRing } from '../solid/sections.js';
import { radians, type Vec2 } from '../solid/vector.js';
import { codeFor, type PrintedPart, roundBounds, type Stated } from './part.js';

type JigDimensions = {
  readonly openingRadius: number;
  readonly outerRadius: number;
  readonly thickness: number;
  readonly circle: number;
  readonly boltAngles: readonly number[];
  readonly skirtAngles: readonly number[];
  readonly studAngle: number;
  readonly guide: number;
};

/** mm */
const HUB_RADIUS = 10;
const SPOKE_WIDTH = 14;
/** Degrees; the first carries the mark. */
const SPOKES = [0, 120, 240];
const LETTER_HEIGHT = 5;
const CODE_HEIGHT = 3.5;
/** From a guide's middle to its letter's. */
const TO_LETTER = 8;

/** Every guide with the letter of its kind: bolts of the collar, of the skirt, ground stud. */
function guides(d: JigDimensions): { readonly letter: string; readonly angle: number }[] {
  return [
    ...d.boltAngles.map((angle) => ({ letter: 'C', angle })),
    ...d.skirtAngles.map((angle) => ({ letter: 'S', angle })),
    { letter: 'G', angle: d.studAngle },
  ];
}

const line = { stroke: MARK_STROKE, depth: MARK_DEPTH, mirrored: false };

/** A letter inside each guide, X on the spoke that points where the belt rises, and the code beyond it on the bolts' circle. */
function marks(d: JigDimensions): Engraving[] {
  const letters = guides(d).map(
    ({ letter, angle }): Engraving => ({
      ...line,
      text: letter,
      height: LETTER_HEIGHT,
      layout: { kind: 'arc', radius: d.circle - TO_LETTER, middle: radians(angle) },
    }),
  );
  return [
    ...letters,
    {
      ...line,
      text: 'X',
      height: LETTER_HEIGHT,
      layout: { kind: 'line', centre: [(HUB_RADIUS + d.openingRadius) / 2 + 2, 0], heading: -Math.PI / 2 },
    },
    {
      ...line,
      text: codeFor(drillJig, d),
      height: CODE_HEIGHT,
      layout: { kind: 'arc', radius: d.circle, middle: 0 },
    },
  ];
}

/** Half the length of the groove that points along +x, from the ring's outside inwards. */
const INDEX = { length: 4, width: 1, depth: 1 };

function spokes(d: JigDimensions, k: Kernel): Solid[] {
  const reach = d.openingRadius + SPOKE_WIDTH / 2;
  const one = k.extrude([rectangle(0, -SPOKE_WIDTH / 2, reach, SPOKE_WIDTH / 2)], 0, d.thickness);
  return SPOKES.map((angle) => k.place(one, { turn: [0, 0, angle], move: [0, 0, 0] }));
}

const discArea = (radius: number) => Math.PI * radius ** 2 * polygonFactor(sidesFor(radius));
const holeArea = (radius: number) => holeVolume(radius, sidesFor(radius), 1);

/** mm2, the ring alone. */
const ringArea = (d: JigDimensions) => discArea(d.outerRadius) - holeArea(d.openingRadius);

/** Drills the plate around the column, and shows the opening for the belt along its inside. */
export const drillJig: PrintedPart<JigDimensions> = {
  id: 'drill-jig',
  revision: 1,
  role: 'tool',
  purpose:
    'guides a drill of 3 mm to the plate’s holes around the column: C for the collar’s bolts, S for the skirt’s own two, G for the ground stud; its inside is the belt opening’s edge',
  copies: 1,
  step: 0,
  print: { walls: 3, infill: 30, orientation: 'flat, letters up' },
  assembly:
    'Drill 3 mm through the plate’s centre mark and set a 3 mm pin, the shank of a drill, through jig and plate. Turn X to the side where the belt rises and clamp the jig, letters up. Drill one C hole 3 mm and set a second pin in it, then drill all the others; scribe along the inside between the spokes, turn the jig by a sixth for the rest of the circle. Drill the holes out to their sizes and cut the opening last: until then the middle holds the jig. Anything outside it is the drill-jig-arm’s.',
  fields: {
    openingRadius: { unit: 'mm', meaning: 'inside, the opening’s edge, radius' },
    outerRadius: { unit: 'mm', meaning: 'outside, radius' },
    thickness: { unit: 'mm', meaning: 'thickness' },
    circle: { unit: 'mm', meaning: 'circle of the guides, radius' },
    boltAngles: { unit: 'degrees', meaning: 'directions of the collar’s bolts' },
    skirtAngles: { unit: 'degrees', meaning: 'directions of the skirt’s bolts' },
    studAngle: { unit: 'degrees', meaning: 'direction of the ground stud' },
    guide: { unit: 'mm', meaning: 'guide holes, diameter' },
  },

  dimensions: ({ jigs: { drill, pilot } }: Machine): JigDimensions => ({
    ...drill,
    boltAngles: [...drill.boltAngles],
    skirtAngles: [...drill.skirtAngles],
    guide: pilot.drawn,
  }),

  bare: (d, k) => k.extrude([shaftLoop(d.outerRadius), reversed(holeLoop(d.openingRadius))], 0, d.thickness),

  build(d, k) {
    const hub = k.extrude([shaftLoop(HUB_RADIUS)], 0, d.thickness);
    const solid = k.union([drillJig.bare(d, k), hub, ...spokes(d, k)]);
    const through = (at: Vec2) => k.extrude([holeLoop(d.guide / 2, at)], -1, d.thickness + 1);
    return k.subtract(solid, [
      through([0, 0]),
      ...guides(d).map(({ angle }) => through(onCircle(d.circle, angle))),
      k.extrude(
        [rectangle(d.outerRadius - INDEX.length, -INDEX.width / 2, d.outerRadius + 1, INDEX.width / 2)],
        d.thickness - INDEX.depth,
        d.thickness + 1,
      ),
      ...marks(d).map((mark) => k.extrude(k.characters(mark), d.thickness - mark.depth, d.thickness + 1)),
    ]);
  },

  stated(d): Stated {
    const bareVolume = ringArea(d) * d.thickness;
    const spoke = slotThroughRing(HUB_RADIUS, d.openingRadius, SPOKE_WIDTH);
    const holes = guides(d).length + 1;
    const index = INDEX.length * INDEX.width * INDEX.depth;
    const engraved = marks(d).reduce((sum, mark) => sum + engravedVolume(mark), 0);
    const area = ringArea(d) + discArea(HUB_RADIUS) + SPOKES.length * spoke - holes * holeArea(d.guide / 2);
    return {
      genus: holes + SPOKES.length,
      pieces: 1,
      bounds: roundBounds(d.outerRadius, d.thickness),
      bareVolume,
      volume: area * d.thickness - engraved - index,
    };
  },

  place: () => [],
  fasteners: () => [],
};
