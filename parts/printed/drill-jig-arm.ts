import type { Machine } from '../machine/machine.js';
import { convexOutline } from '../solid/convex.js';
import { holeLoop, shaftLoop, sidesFor } from '../solid/facets.js';
import { type Engraving, engravedVolume, lineWidth, MARK_DEPTH, MARK_STROKE } from '../solid/marks.js';
import { holeVolume, loopArea } from '../solid/sections.js';
import type { Loop, Vec2 } from '../solid/vector.js';
import { codeFor, type PrintedPart, type Stated } from './part.js';

type ArmDimensions = {
  readonly thickness: number;
  readonly guide: number;
  readonly pinsX: readonly number[];
  readonly pinsY: readonly number[];
  readonly bracketX: readonly number[];
  readonly bracketY: readonly number[];
  readonly feetX: readonly number[];
  readonly feetY: readonly number[];
};

/** mm; plastic around a guide. */
const AROUND = 7;
const CODE_HEIGHT = 3.5;
const LETTER_HEIGHT = 4;
/** From a guide's middle to its letter's, along x towards the column. */
const TO_LETTER = 5;
/** From the code's end to the edge beside the pins. */
const TO_EDGE = 1.5;

const zip = (x: readonly number[], y: readonly number[]): Vec2[] => x.map((each, i) => [each, y[i]!]);
const pins = (d: ArmDimensions) => zip(d.pinsX, d.pinsY);
const feet = (d: ArmDimensions) => zip(d.feetX, d.feetY);

/** Every hole, from the column's axis with the arm as it lies for the bracket. */
function holes(d: ArmDimensions): Vec2[] {
  return [...pins(d), ...zip(d.bracketX, d.bracketY), ...feet(d)];
}

const around = (d: ArmDimensions): Loop =>
  convexOutline(holes(d).flatMap((at) => [...shaftLoop(AROUND, at)]));

/** Where the column's axis lies from the part's own middle. */
export function armOrigin(d: ArmDimensions): Vec2 {
  const loop = around(d);
  const middle = (axis: 0 | 1) => {
    const values = loop.map((point) => point[axis]);
    return -(Math.min(...values) + Math.max(...values)) / 2;
  };
  return [middle(0), middle(1)];
}

const moved = (loop: Loop, [x, y]: Vec2): Loop => loop.map(([px, py]) => [px + x, py + y]);
const outline = (d: ArmDimensions): Loop => moved(around(d), armOrigin(d));

/** F at the guides for feet, and the code between the pins. */
function marks(d: ArmDimensions): Engraving[] {
  const [x0, y0] = armOrigin(d);
  const line = { stroke: MARK_STROKE, depth: MARK_DEPTH, mirrored: false };
  const code = codeFor(drillJigArm, d);
  const from = d.pinsX[0]! + x0 + AROUND - TO_EDGE;
  return [
    {
      ...line,
      text: code,
      height: CODE_HEIGHT,
      layout: {
        kind: 'line',
        centre: [from - lineWidth(code, CODE_HEIGHT) / 2, (d.pinsY[0]! + d.pinsY[1]!) / 2 + y0],
        heading: 0,
      },
    },
    ...feet(d).map(
      ([x, y]): Engraving => ({
        ...line,
        text: 'F',
        height: LETTER_HEIGHT,
        layout: { kind: 'line', centre: [x + x0 + TO_LETTER, y + y0], heading: 0 },
      }),
    ),
  ];
}

/** Carries the drill to what lies outside the drill jig: two pins in bolt holes that it has drilled. */
export const drillJigArm: PrintedPart<ArmDimensions> = {
  id: 'drill-jig-arm',
  revision: 1,
  role: 'tool',
  purpose:
    'guides a drill of 3 mm to the plate’s holes for the motor’s bracket and, marked F, for the feet, from two neighbouring C holes that the drill-jig has drilled',
  copies: 1,
  step: 0,
  print: { walls: 3, infill: 30, orientation: 'flat, letters up' },
  assembly:
    'Take the drill-jig off. Set 3 mm pins, the shanks of drills, through the arm’s two holes beside its code into the C holes named under CUT AND DRILL, the face with the letters up or down as it says there, and drill 3 mm through. Drill the C holes out to their size afterwards.',
  fields: {
    thickness: { unit: 'mm', meaning: 'thickness' },
    guide: { unit: 'mm', meaning: 'guide holes, diameter' },
    pinsX: { unit: 'mm', meaning: 'pins, x' },
    pinsY: { unit: 'mm', meaning: 'pins, y' },
    bracketX: { unit: 'mm', meaning: 'bracket’s guides, x' },
    bracketY: { unit: 'mm', meaning: 'bracket’s guides, y' },
    feetX: { unit: 'mm', meaning: 'feet’s guides, x' },
    feetY: { unit: 'mm', meaning: 'feet’s guides, y' },
  },

  dimensions({ jigs: { arm, pilot } }: Machine): ArmDimensions {
    const [x, y] = [([each]: Vec2) => each, ([, each]: Vec2) => each];
    return {
      thickness: arm.thickness,
      guide: pilot.drawn,
      pinsX: arm.pins.map(x),
      pinsY: arm.pins.map(y),
      bracketX: arm.bracket.map(x),
      bracketY: arm.bracket.map(y),
      feetX: arm.feet.map(x),
      feetY: arm.feet.map(y),
    };
  },

  bare: (d, k) => k.extrude([outline(d)], 0, d.thickness),

  build(d, k) {
    return k.subtract(drillJigArm.bare(d, k), [
      ...holes(d).map((at) =>
        k.extrude([moved(holeLoop(d.guide / 2, at), armOrigin(d))], -1, d.thickness + 1),
      ),
      ...marks(d).map((mark) => k.extrude(k.characters(mark), d.thickness - mark.depth, d.thickness + 1)),
    ]);
  },

  stated(d): Stated {
    const loop = outline(d);
    const bareVolume = loopArea(loop) * d.thickness;
    const count = holes(d).length;
    const guide = holeVolume(d.guide / 2, sidesFor(d.guide / 2), d.thickness);
    const engraved = marks(d).reduce((sum, mark) => sum + engravedVolume(mark), 0);
    const [right, back] = [0, 1].map((axis) => Math.max(...loop.map((point) => point[axis]!))) as [
      number,
      number,
    ];
    return {
      genus: count,
      pieces: 1,
      bounds: { min: [-right, -back, 0], max: [right, back, d.thickness] },
      bareVolume,
      volume: bareVolume - count * guide - engraved,
    };
  },

  place: () => [],
  fasteners: () => [],
};
