import { describe, expect, it } from 'vitest';
import { clearances } from '../../parts/distances/clearance.js';
import { creepages } from '../../parts/distances/creepage.js';
import { type Item, Scene } from '../../parts/distances/scene.js';
import { grooveWidth } from '../../parts/stock/iec60664-grooves.js';
import { ACCURACY, block, box, item, kernel } from './blocks.js';

// The examples of IEC 60664-1:2020, 6.8, from memory and in words of our own: how clearance and creepage are counted over
// grooves, ribs, joints and floating metal. X is that of pollution degree 2.

const X = grooveWidth(2);
const OPTIONS = { bridge: X, spacing: 5, upTo: 1 };

/** Two conductors on a plate, 48 mm apart; long enough that no way leads around its sides. */
const A = block('A', 'a', [10, 49, 0]);
const B = block('B', 'b', [60, 49, 0]);
const STRAIGHT = 48;
const plate = box([0, 0, -12], [72, 100, 0]);
const all = (x: number, to: number, low: number, high: number) => box([x, -1, low], [to, 101, high]);
const cut = (...cutters: ReturnType<typeof box>[]) => item('plate', kernel.subtract(plate, cutters));

/** A groove with straight walls that include an angle at its bottom: half width and depth. */
const vee = (half: number, depth: number) =>
  kernel.place(
    kernel.extrude(
      [
        [
          [36, -depth],
          [36 + 2 * half, depth],
          [36 - 2 * half, depth],
        ],
      ],
      -1,
      101,
    ),
    // Drawn in the plane across the plate, stood up along it.
    { turn: [90, 0, 0], move: [0, 100, 0] },
  );

interface Example {
  readonly what: string;
  readonly items: readonly Item[];
  readonly clearance: number;
  readonly creepage: number;
}

const rib = (height: number) => item('plate', kernel.union([plate, box([35, 0, -1], [37, 100, height])]));
/** Over a rib the air is straight from edge to edge of conductors that are 2 mm high. */
const overRib = (height: number) => 2 * Math.hypot(23, height - 2) + 2;
const joint = (left: number, right: number, depth: number): Item[] => [
  item(
    'left',
    kernel.subtract(box([0, 0, -12], [36, 100, 0]), left > 0 ? [all(36 - left, 37, -depth, 1)] : []),
  ),
  item(
    'right',
    kernel.subtract(box([36, 0, -12], [72, 100, 0]), right > 0 ? [all(35, 36 + right, -depth, 1)] : []),
  ),
];

const EXAMPLES: readonly Example[] = [
  {
    what: '1: a groove with parallel walls that is narrower than X is counted straight across, however deep',
    items: [cut(all(36, 36 + 0.9 * X, -8, 1))],
    clearance: STRAIGHT,
    creepage: STRAIGHT,
  },
  {
    what: '2: one that is X wide or wider is followed along its walls',
    items: [cut(all(36, 36 + 1.1 * X, -8, 1))],
    clearance: STRAIGHT,
    creepage: STRAIGHT + 16,
  },
  {
    what: '4: over a rib creepage follows it and clearance leads straight over its top',
    items: [rib(6)],
    clearance: overRib(6),
    creepage: STRAIGHT + 12,
  },
  {
    what: '5: a joint that is not glued, with grooves narrower than X, is counted straight across',
    items: joint(0.3, 0.3, 6),
    clearance: STRAIGHT,
    creepage: STRAIGHT,
  },
  {
    what: '6: a joint that is not glued, with grooves wider than X on both sides, is followed',
    items: joint(2, 2, 6),
    clearance: STRAIGHT,
    creepage: STRAIGHT + 12,
  },
  {
    what: '7: the same with a groove on one side alone',
    items: joint(0, 2, 6),
    clearance: STRAIGHT,
    creepage: STRAIGHT + 12,
  },
  {
    what: '11: floating metal between takes its own length away from both',
    items: [item('plate', plate), item('strip', box([28, 0, 0], [40, 100, 2]), 'strip')],
    clearance: STRAIGHT - 12,
    creepage: STRAIGHT - 12,
  },
];

describe('the standard’s examples', () => {
  it.each(EXAMPLES)('$what', ({ items, clearance, creepage }) => {
    const scene = new Scene([...items, A, B]);
    expect(creepages(scene, 'a', 'b', OPTIONS)[0]!.length / creepage).toBeCloseTo(1, 2);
    expect(clearances(scene, 'a', 'b', OPTIONS)[0]!.length / clearance).toBeCloseTo(1, 2);
  });

  it('3: in a groove that narrows to its bottom the bottom is cut short where it is X wide', () => {
    // 60 degrees between the walls, 10 mm deep.
    const half = 10 * Math.tan(Math.PI / 6);
    const found = creepages(new Scene([cut(vee(half, 10)), A, B]), 'a', 'b', OPTIONS)[0]!.length;
    const wall = 10 / Math.cos(Math.PI / 6);
    const short = X / 2 / Math.sin(Math.PI / 6);
    const exact = STRAIGHT - 2 * half + 2 * (wall - short) + X;
    expect(Math.abs(found / exact - 1)).toBeLessThan(ACCURACY);
  });

  it('3: and is followed to its bottom where its walls include more than 80 degrees', () => {
    const half = 4 * Math.tan(Math.PI / 3.6);
    const found = creepages(new Scene([cut(vee(half, 4)), A, B]), 'a', 'b', OPTIONS)[0]!.length;
    const exact = STRAIGHT - 2 * half + (2 * 4) / Math.cos(Math.PI / 3.6);
    expect(Math.abs(found / exact - 1)).toBeLessThan(ACCURACY);
  });

  it('9, 10: a gap beside a sunk screw counts only where it is X wide', () => {
    // A screw’s head in a recess, 4 mm deep: down its wall, over its floor.
    const sunk = (gap: number) => {
      const recess = box([50 - gap, 49 - gap, -4], [54 + gap, 53 + gap, 1]);
      const screw = item('screw', box([50, 49, -4], [54, 53, -1]), 'b');
      return creepages(new Scene([cut(recess), A, screw]), 'a', 'b', OPTIONS)[0]!.length;
    };
    const toRecess = (gap: number) => 50 - gap - 12;
    // Narrower: across to the head as soon as the way comes down to its height, 1 mm below the rim.
    expect(Math.abs(sunk(0.5) / (toRecess(0.5) + 1 + 0.5) - 1)).toBeLessThan(ACCURACY);
    // Wider: to the recess’s floor, where the head stands.
    expect(Math.abs(sunk(1.5) / (toRecess(1.5) + 4 + 1.5) - 1)).toBeLessThan(ACCURACY);
  });
});
