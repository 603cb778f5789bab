import { describe, expect, it } from 'vitest';
import type { Costs } from '../../parts/distances/costs.js';
import { creepages } from '../../parts/distances/creepage.js';
import { type Item, Scene } from '../../parts/distances/scene.js';
import { block, box, item, kernel, legsOf, OPTIONS } from './blocks.js';

// Ways by what their stretches cost, through walls where that is less.

/** A mm of wall counts `perMm`, a mm of surface or gap 1. */
const costs = (perMm: number): Costs => ({ surface: 1, gap: 1, wall: (_, length) => perMm * length });
const weakest = (items: readonly Item[], perMm: number, thickest = 12) =>
  creepages(new Scene(items), 'a', 'b', { ...OPTIONS, upTo: 1, thickest, costs: costs(perMm) })[0]!;

/** Blocks on both faces of a wall of 3 mm, 30 mm and more from its edges. */
const A = item('A', box([-2, 29, 30], [0, 31, 32]), 'a');
const B = item('B', box([3, 29, 44], [5, 31, 46]), 'b');
const wall = item('wall', box([0, 0, 0], [3, 60, 80]));

describe('the weakest way', () => {
  it('leads through a wall where that costs less than the way around it', () => {
    const way = weakest([wall, A, B], 2);
    // 12 mm up the face, wherever it goes through.
    expect(way.cost / (12 + 6)).toBeCloseTo(1, 2);
    expect(legsOf(way)).toContain('wall:wall');
    const through = way.legs.find(({ kind }) => kind === 'wall')!;
    expect(through.length).toBeCloseTo(3, 3);
    // Straight through, from one face to the other.
    expect(Math.abs(through.points[0]![0] - through.points[1]![0])).toBeCloseTo(3, 3);
  });

  it('leads around the wall where that costs less', () => {
    const around = 29 + 3 + Math.hypot(29, 12);
    const way = weakest([wall, A, B], 100);
    expect(legsOf(way)).not.toContain('wall:wall');
    expect(way.cost).toBeLessThan(around + 1);
    expect(way.cost).toBeCloseTo(way.length, 6);
  });

  it('looks through no wall that is thicker than asked', () => {
    expect(legsOf(weakest([wall, A, B], 2, 2.5))).not.toContain('wall:wall');
  });

  it('finds the thin place of a wall', () => {
    const dented = item(
      'wall',
      kernel.subtract(box([0, 0, 0], [8, 60, 80]), [box([0.8, 26, 34], [9, 34, 42])]),
    );
    const far = item('B', box([8, 29, 50], [10, 31, 52]), 'b');
    const way = weakest([dented, block('A', 'a', [-2, 29, 30]), far], 10);
    const through = way.legs.find(({ kind }) => kind === 'wall')!;
    expect(through.length).toBeCloseTo(0.8, 3);
  });

  it('leads through two walls with a gap between, each counted', () => {
    const two = [
      item('near', box([0, 0, 0], [2, 60, 80])),
      item('far', box([2.5, 0, 0], [4.5, 60, 80])),
      block('A', 'a', [-2, 29, 40]),
      item('B', box([4.5, 29, 40], [6.5, 31, 42]), 'b'),
    ];
    const way = weakest(two, 2);
    expect(way.cost).toBeCloseTo(2 * 2 + 0.5 + 2 * 2, 1);
    expect(legsOf(way).filter((leg) => leg.startsWith('wall:'))).toEqual(['wall:near', 'wall:far']);
  });
});
