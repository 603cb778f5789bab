import { describe, expect, it } from 'vitest';
import { clearances } from '../../parts/distances/clearance.js';
import { creepages } from '../../parts/distances/creepage.js';
import { type Item, Scene } from '../../parts/distances/scene.js';
import type { Mesh } from '../../parts/solid/kernel.js';
import { ACCURACY, block, box, cylinder, item, kernel, OPTIONS } from './blocks.js';

// What must not change a result: turning and mirroring everything, other triangles for the same surface, another scale.

/** Ribbed plate, a rod across it and a plate beside it: grooves, joints, edges and something round. */
const ITEMS: readonly Item[] = [
  item(
    'plate',
    kernel.subtract(kernel.union([box([0, 0, -8], [60, 40, 0]), box([24, -5, -8], [27, 45, 6])]), [
      box([40, -1, -4], [42.5, 41, 1]),
      box([14, -1, -2], [14.6, 41, 1]),
    ]),
  ),
  item('rod', kernel.place(cylinder(5, 0, 30), { turn: [0, 90, 0], move: [30, 20, 5] })),
  item('beside', box([60.4, 0, -8], [90, 40, 0])),
  block('A', 'a', [4, 6, 0]),
  block('B', 'b', [80, 30, 0]),
  block('C', 'c', [50, 4, 0]),
];

type Move = (p: readonly [number, number, number]) => [number, number, number];

/** The same solid with every point moved; a mirrored one is turned inside out again. */
function moved({ positions, triangles }: Mesh, move: Move, mirrored = false): Mesh {
  const to = new Float32Array(positions.length);
  for (let i = 0; i < positions.length; i += 3)
    to.set(move([positions[i]!, positions[i + 1]!, positions[i + 2]!]), i);
  const round = triangles.slice();
  if (mirrored)
    for (let i = 0; i < round.length; i += 3)
      [round[i + 1], round[i + 2]] = [triangles[i + 2]!, triangles[i + 1]!];
  return { positions: to, triangles: round };
}

/** Each triangle made four, by the middles of its sides. */
function finer({ positions, triangles }: Mesh): Mesh {
  const points = [...positions];
  const middles = new Map<string, number>();
  const middle = (a: number, b: number): number => {
    const key = [a, b].sort((p, q) => p - q).join();
    const known = middles.get(key);
    if (known !== undefined) return known;
    const number = points.length / 3;
    for (let axis = 0; axis < 3; axis++) points.push((points[3 * a + axis]! + points[3 * b + axis]!) / 2);
    middles.set(key, number);
    return number;
  };
  const made: number[] = [];
  for (let i = 0; i < triangles.length; i += 3) {
    const [a, b, c] = [triangles[i]!, triangles[i + 1]!, triangles[i + 2]!];
    const [ab, bc, ca] = [middle(a, b), middle(b, c), middle(c, a)];
    made.push(a, ab, ca, ab, b, bc, ca, bc, c, ab, bc, ca);
  }
  return { positions: Float32Array.from(points), triangles: Uint32Array.from(made) };
}

const all = (change: (mesh: Mesh) => Mesh): Item[] =>
  ITEMS.map((each) => ({ ...each, mesh: change(each.mesh) }));
const lengths = (items: readonly Item[], scale = 1) => {
  const scene = new Scene(items);
  const options = { bridge: scale, spacing: 5 * scale, upTo: 1 };
  return [creepages(scene, 'a', 'b', options)[0]!.length, clearances(scene, 'a', 'b', options)[0]!.length];
};
const ordinary = lengths(ITEMS);

const turned: Move = ([x, y, z]) => {
  const [a, b] = [0.7, 0.4];
  const [u, v] = [x * Math.cos(a) - y * Math.sin(a), x * Math.sin(a) + y * Math.cos(a)];
  return [u, v * Math.cos(b) - z * Math.sin(b) + 11, v * Math.sin(b) + z * Math.cos(b) - 7];
};

describe('a result', () => {
  it.each<[string, readonly Item[], number]>([
    ['everything turned and moved', all((mesh) => moved(mesh, turned)), 1],
    [
      'everything turned by placing it',
      ITEMS.map((each) => ({ ...each, placement: { turn: [20, 30, 40], move: [5, 6, 7] } })),
      1,
    ],
    ['everything mirrored', all((mesh) => moved(mesh, ([x, y, z]) => [-x, y, z], true)), 1],
    ['four times the triangles', all(finer), 1],
    ['everything three times as large', all((mesh) => moved(mesh, ([x, y, z]) => [3 * x, 3 * y, 3 * z])), 3],
    ['everything a third as large', all((mesh) => moved(mesh, ([x, y, z]) => [x / 3, y / 3, z / 3])), 1 / 3],
  ])('is the same within its accuracy with %s', (_, items, scale) => {
    const found = lengths(items, scale);
    for (const [i, length] of found.entries())
      expect(Math.abs(length / (scale * ordinary[i]!) - 1)).toBeLessThan(ACCURACY);
  });

  it('does not depend on the order of pieces', () => {
    const found = lengths([...ITEMS].reverse());
    for (const [i, length] of found.entries())
      expect(Math.abs(length / ordinary[i]! - 1)).toBeLessThan(ACCURACY);
  });

  it('follows a conductor that is moved', () => {
    const further = ITEMS.map((each) => (each.name === 'B' ? block('B', 'b', [84, 30, 0]) : each));
    expect(lengths(further)[0]! - ordinary[0]!).toBeGreaterThan(2);
    expect(lengths(further)[0]! - ordinary[0]!).toBeLessThan(4.3);
  });
});

it('an open mesh and two pieces of one name are refused', () => {
  const open: Mesh = { positions: new Float32Array(9), triangles: Uint32Array.from([0, 1, 2]) };
  expect(() => new Scene([{ ...ITEMS[0]!, mesh: open }])).toThrow(RangeError);
  expect(() => new Scene([ITEMS[0]!, ITEMS[0]!])).toThrow(RangeError);
  expect(() => creepages(new Scene(ITEMS), 'a', 'nowhere', OPTIONS)).toThrow(RangeError);
});
