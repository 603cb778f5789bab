import { describe, expect, it } from 'vitest';
import { creepages } from '../../parts/distances/creepage.js';
import { type Item, Scene } from '../../parts/distances/scene.js';
import { ACCURACY, block, box, cylinder, item, kernel, legsOf, OPTIONS, SIDES } from './blocks.js';

// Creepage against closed forms. Where a body is round, forms are those of the circle; its polygon is 0.03 % shorter at most.

const wayOf = (items: readonly Item[], options: Partial<typeof OPTIONS> = {}) =>
  creepages(new Scene(items), 'a', 'b', { ...OPTIONS, ...options })[0];
const lengthOf = (items: readonly Item[], options: Partial<typeof OPTIONS> = {}) =>
  wayOf(items, options)?.length ?? Number.NaN;
const off = (length: number, exact: number) => Math.abs(length / exact - 1);

const A = block('A', 'a', [10, 19, 0]);
const B = block('B', 'b', [60, 19, 0]);
const plate = (...added: Parameters<typeof box>[]) =>
  kernel.union([box([0, 0, -10], [80, 40, 0]), ...added.map((each) => box(...each))]);
const without = (...cut: Parameters<typeof box>[]) =>
  kernel.subtract(
    plate(),
    cut.map((each) => box(...each)),
  );

/** Between the blocks, which are 48 mm apart, straight over the plate. */
const STRAIGHT = 48;

const CASES: readonly (readonly [string, readonly Item[], number])[] = [
  ['straight over a plate', [item('plate', plate()), A, B], STRAIGHT],
  [
    'askew over a plate',
    [item('plate', plate()), block('A', 'a', [10, 4, 0]), block('B', 'b', [60, 30, 0])],
    Math.hypot(48, 24),
  ],
  [
    'around an edge of a box',
    [
      item('box', box([0, 0, -30], [40, 40, 0])),
      block('A', 'a', [10, 20, 0]),
      block('B', 'b', [40, 20, -16]),
    ],
    28 + 14,
  ],
  [
    'over a groove that is narrower than X',
    [
      item(
        'plate',
        without([
          [40, -1, -3],
          [40.8, 41, 1],
        ]),
      ),
      A,
      B,
    ],
    STRAIGHT,
  ],
  [
    'through a groove that is wider than X',
    [
      item(
        'plate',
        without([
          [40, -1, -5],
          [42, 41, 1],
        ]),
      ),
      A,
      B,
    ],
    STRAIGHT + 10,
  ],
  [
    'over a rib',
    [
      item(
        'plate',
        plate([
          [38, 0, -1],
          [42, 40, 4],
        ]),
      ),
      A,
      B,
    ],
    STRAIGHT + 8,
  ],
  [
    'around a brick, where over it is further',
    [
      item(
        'plate',
        plate([
          [36, 14, -1],
          [44, 26, 30],
        ]),
      ),
      A,
      B,
    ],
    // From the corners of the blocks to those of the brick.
    Math.hypot(24, 5) + 8 + Math.hypot(16, 5),
  ],
  [
    'across two parts with 0.3 mm between them',
    [item('left', box([0, 0, -10], [39.7, 40, 0])), item('right', box([40, 0, -10], [80, 40, 0])), A, B],
    STRAIGHT,
  ],
  [
    'across a joint without gap',
    [item('left', box([0, 0, -10], [40, 40, 0])), item('right', box([40, 0, -10], [80, 40, 0])), A, B],
    STRAIGHT,
  ],
  [
    'under a barrier let into a groove, though that is narrower than X',
    [
      item(
        'plate',
        without([
          [40, -1, -3],
          [40.8, 41, 1],
        ]),
      ),
      item('barrier', box([40, 0, -3], [40.8, 40, 10])),
      A,
      B,
    ],
    // A joint without glue is a way: down one wall of the groove and up the other.
    STRAIGHT + 6,
  ],
  [
    'in a joint between two plates, from one face of them to the other',
    [
      item('lower', box([0, 0, -10], [80, 40, 0])),
      item('upper', box([20, 0, 0], [80, 40, 10])),
      block('A', 'a', [10, 19, 0]),
      block('B', 'b', [80, 19, -6]),
    ],
    // Under the upper plate to the end, and down the lower one’s side.
    68 + 4,
  ],
  [
    'straight along a bore',
    [
      item('tube', kernel.subtract(cylinder(20, 0, 100), [cylinder(17, -1, 101)])),
      item('A', kernel.subtract(cylinder(17, 10, 12), [cylinder(15, 9, 13)]), 'a'),
      item('B', kernel.subtract(cylinder(17, 80, 82), [cylinder(15, 79, 83)]), 'b'),
    ],
    68,
  ],
  [
    'askew on a cylinder: straight where it is unrolled',
    [
      item('rod', cylinder(20, 0, 100)),
      item('A', kernel.intersect(cylinder(22, 9, 10), box([0, -1, 0], [30, 1, 100])), 'a'),
      item('B', kernel.intersect(cylinder(22, 90, 91), box([-1, 0, 0], [1, 30, 100])), 'b'),
    ],
    // Both blocks stand in the rod; a quarter turn less half of both widths.
    Math.hypot(80, 20 * (Math.PI / 2 - 2 * Math.asin(1 / 20))),
  ],
  [
    'under a flange, out and over it',
    [
      item('spool', kernel.union([cylinder(10, 0, 60), cylinder(25, 29, 31)])),
      item('A', kernel.subtract(cylinder(12, 4, 5), [cylinder(10, 3, 6)]), 'a'),
      item('B', kernel.subtract(cylinder(12, 55, 56), [cylinder(10, 54, 57)]), 'b'),
    ],
    24 + 15 + 2 + 15 + 24,
  ],
];

describe('creepage', () => {
  it.each(CASES)('%s is within 1 % of its closed form', (_, items, exact) => {
    expect(off(lengthOf(items), exact)).toBeLessThan(ACCURACY);
  });

  it('on a cone is straight where it is unrolled', () => {
    // Slant 100, half angle 30 degrees: unrolled a turn takes half a full angle.
    const [slant, sine] = [100, 0.5];
    const cone = kernel.revolve(
      [
        [0, 0],
        [slant * sine, 0],
        [0, slant * Math.cos(Math.asin(sine))],
      ],
      SIDES,
    );
    // Little blocks on the cone, 60 mm from its tip and a third of a turn apart.
    const at = 60;
    const z = (slant - at) * Math.cos(Math.asin(sine));
    const radius = at * sine;
    const stud = (name: string, net: string, turn: number) =>
      item(name, box([radius - 0.6, -0.6, z - 0.6], [radius + 1, 0.6, z + 0.6]), net, {
        turn: [0, 0, turn],
        move: [0, 0, 0],
      });
    const found = lengthOf([item('cone', cone), stud('A', 'a', 0), stud('B', 'b', 120)], { spacing: 4 });
    const chord = 2 * at * Math.sin(((120 * sine) / 2) * (Math.PI / 180));
    // From stud to stud: their halves are not walked. The way leads up towards the tip.
    expect(found).toBeGreaterThan(chord - 2.4);
    expect(found).toBeLessThan(chord);
    // Along the circle it would be further by more than that.
    expect((2 * Math.PI * radius) / 3 - 1.2).toBeGreaterThan(chord);
  });

  it.each([0.06, 0.5, 0.99])(
    'leads around a plate of %s mm, not through it, though X is 1 mm',
    (thickness) => {
      const items = [
        item('sheet', box([0, -40, -thickness], [60, 40, 0])),
        item('A', box([30, -5, 0], [40, 5, 2]), 'a'),
        item('B', box([30, -5, -thickness - 2], [40, 5, -thickness]), 'b'),
      ];
      expect(off(lengthOf(items), 20 + thickness + 20)).toBeLessThan(ACCURACY);
    },
  );

  it.each([7, 5, 4, 3, 2.5, 2, 1.5, 1])('is found on long facets with %s mm between places', (spacing) => {
    // Facets 1.3 to 2.6 mm wide and 60 long: rows of places on neighbouring ones may all lie far apart.
    for (const sides of [48, 96]) {
      const rod = kernel.revolve(
        [
          [0, 0],
          [20, 0],
          [20, 60],
          [0, 60],
        ],
        sides,
      );
      const pockets = [box([18, -0.2, 14.8], [30, 0.2, 15.2]), box([-0.2, 18, 44.8], [0.2, 30, 45.2])];
      const items = [
        item('rod', kernel.subtract(rod, pockets)),
        ...pockets.map((pocket, i) => item('AB'[i]!, kernel.intersect(rod, pocket), 'ab'[i]!)),
      ];
      const exact = Math.hypot(29.6, 20 * (Math.PI / 2 - 2 * Math.asin(0.2 / 20)));
      expect(off(lengthOf(items, { spacing }), exact), `${sides} sides`).toBeLessThan(0.003);
    }
  });

  it('does not lead across a gap that is wider than X', () => {
    const apart = [
      item('left', box([0, 0, -10], [38.5, 40, 0])),
      item('right', box([40, 0, -10], [80, 40, 0])),
      A,
      B,
    ];
    expect(wayOf(apart)).toBeUndefined();
    expect(off(lengthOf(apart, { bridge: 2 }), STRAIGHT)).toBeLessThan(ACCURACY);
  });

  it('counts nothing over floating metal, and names it', () => {
    const between = [item('plate', plate()), A, B, item('strip', box([30, 0, 0], [45, 40, 1]), 'strip')];
    const way = wayOf(between)!;
    expect(off(way.length, STRAIGHT - 15)).toBeLessThan(ACCURACY);
    expect(legsOf(way)).toContain('metal:strip');
  });

  it('is the same in both directions', () => {
    const items = [
      item(
        'plate',
        plate([
          [38, 0, -1],
          [42, 40, 4],
        ]),
      ),
      A,
      B,
    ];
    const there = creepages(new Scene(items), 'a', 'b', OPTIONS)[0]!;
    const back = creepages(new Scene(items), 'b', 'a', OPTIONS)[0]!;
    expect(off(there.length, back.length)).toBeLessThan(1e-3);
    expect([back.from, back.to]).toEqual([there.to, there.from]);
  });

  it('comes closer to the closed form as places lie closer', () => {
    const [, items, exact] = CASES.find(([name]) => name.startsWith('askew on a cylinder'))!;
    const errors = [8, 4, 2].map((spacing) => off(lengthOf(items, { spacing }), exact));
    expect(errors.at(-1)!).toBeLessThanOrEqual(errors[0]! + 2e-4);
    for (const error of errors) expect(error).toBeLessThan(ACCURACY);
  });

  it('reports conductors of one kind once, and how many are reached alike', () => {
    const many = [
      item('plate', plate()),
      block('A', 'a', [39, 19, 0]),
      ...[10, 68].map((x, i) => block(`B${i}`, 'b', [x, 19, 0])),
      block('B2', 'b', [39, 35, 0]),
    ];
    const ways = creepages(new Scene(many), 'a', 'b', { ...OPTIONS, upTo: 10, kind: (name) => name[0]! });
    expect(ways).toHaveLength(1);
    expect(ways[0]!.to).toBe('B2');
    expect(ways[0]!.alike).toBe(1);
  });
});
