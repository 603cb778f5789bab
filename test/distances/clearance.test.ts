import { describe, expect, it } from 'vitest';
import { clearances } from '../../parts/distances/clearance.js';
import { type Item, Scene } from '../../parts/distances/scene.js';
import { ACCURACY, block, box, cylinder, item, kernel, legsOf, OPTIONS } from './blocks.js';

// Clearance against closed forms, around insulators.

const wayOf = (items: readonly Item[], options: Partial<typeof OPTIONS> = {}) =>
  clearances(new Scene(items), 'a', 'b', { ...OPTIONS, ...options })[0]!;
const off = (length: number, exact: number) => Math.abs(length / exact - 1);

const A = block('A', 'a', [10, 0, 0]);
const B = block('B', 'b', [60, 0, 0]);
const wall = box([38, -100, -100], [42, 100, 100]);

/** Tangent, arc, tangent around a circle between points on either side of it, on one height above its axis. */
function aroundCircle(radius: number, distance: number, height: number): number {
  const away = Math.hypot(distance, height);
  const arc = Math.PI - 2 * Math.atan2(height, distance) - 2 * Math.acos(radius / away);
  return 2 * Math.sqrt(away ** 2 - radius ** 2) + radius * arc;
}

const CASES: readonly (readonly [string, readonly Item[], number])[] = [
  ['through free air', [A, B], 48],
  [
    'over a rib',
    [
      item('rib', kernel.union([box([0, -90, -3], [80, 90, 0]), box([38, -90, -1], [42, 90, 20])])),
      block('A', 'a', [10, 0, 0]),
      block('B', 'b', [60, 0, 0]),
    ],
    Math.hypot(26, 18) + 4 + Math.hypot(18, 18),
  ],
  [
    'through a slit in a wall',
    [item('wall', kernel.subtract(wall, [box([30, 30, -101], [50, 33, 101])])), A, B],
    Math.hypot(26, 28) + 4 + Math.hypot(18, 28),
  ],
  [
    'around two edges of a wall',
    [item('wall', box([38, -100, -100], [42, 30, 100])), A, B],
    Math.hypot(26, 28) + 4 + Math.hypot(18, 28),
  ],
  [
    'around a cylinder: tangent, arc, tangent',
    [
      item('rod', cylinder(20, -200, 200)),
      item('A', box([-42, -1, -1], [-40, 1, 1]), 'a'),
      item('B', box([40, -1, -1], [42, 1, 1]), 'b'),
    ],
    aroundCircle(20, 40, 1),
  ],
  [
    'around the rim of a disc',
    [
      item('disc', cylinder(30, -1, 1)),
      item('A', box([-1, -1, 11], [1, 1, 13]), 'a'),
      item('B', box([-1, -1, -13], [1, 1, -11]), 'b'),
    ],
    // From the blocks' corners, which reach out furthest.
    2 * Math.hypot(30 - Math.SQRT2, 10) + 2,
  ],
  [
    'through a gap of 0.3 mm between two plates',
    [
      item('left', box([-40, 0, 0], [40, 40, 3])),
      item('right', box([40.3, 0, 0], [120, 40, 3])),
      item('A', box([20, 20, -10], [22, 22, -8]), 'a'),
      item('B', box([20, 20, 11], [22, 22, 13]), 'b'),
    ],
    2 * Math.hypot(18, 8) + 3,
  ],
];

describe('clearance', () => {
  it.each(CASES)('%s is within 1 % of its closed form', (_, items, exact) => {
    expect(off(wayOf(items).length, exact)).toBeLessThan(ACCURACY);
  });

  it('counts nothing over floating metal, and names it', () => {
    const way = wayOf([A, B, item('rod', box([20, 0, 0], [50, 2, 2]), 'rod')]);
    expect(off(way.length, 48 - 30)).toBeLessThan(ACCURACY);
    expect(legsOf(way)).toEqual(['air:rod', 'metal:rod', 'air:B']);
  });

  it('leads around a plate, not through it, though gaps of its thickness are bridged', () => {
    const items = [
      item('sheet', box([0, -40, -0.5], [60, 40, 0])),
      item('A', box([30, -5, 0], [40, 5, 2]), 'a'),
      item('B', box([30, -5, -2.5], [40, 5, -0.5]), 'b'),
    ];
    expect(off(wayOf(items).length, 20 + 0.5 + 20)).toBeLessThan(ACCURACY);
  });

  it('is not more than creepage, nor less than the straight line', () => {
    for (const [name, items] of CASES) {
      const way = wayOf(items);
      const [first, last] = [way.legs[0]!.points[0]!, way.legs.at(-1)!.points.at(-1)!];
      const straight = Math.hypot(...first.map((value, axis) => value - last[axis]!));
      expect(way.length, name).toBeGreaterThanOrEqual(straight - 1e-6);
    }
  });

  it('comes closer to the closed form as places lie closer', () => {
    const [, items, exact] = CASES.find(([name]) => name.startsWith('around a cylinder'))!;
    const errors = [8, 4, 2].map((spacing) => off(wayOf(items, { spacing }).length, exact));
    expect(errors.at(-1)!).toBeLessThanOrEqual(errors[0]! + 2e-4);
    for (const error of errors) expect(error).toBeLessThan(ACCURACY);
  });
});
