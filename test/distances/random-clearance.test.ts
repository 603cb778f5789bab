import { describe, expect, it } from 'vitest';
import { clearances } from '../../parts/distances/clearance.js';
import { Scene } from '../../parts/distances/scene.js';
import { ACCURACY, box, item, OPTIONS } from './blocks.js';
import { randomBoxes } from './random-boxes.js';
import { boundsOfClearance } from './second-clearance.js';

// On random assemblies, against an upper and a lower bound of a method that shares nothing with the one tested.

const SEEDS = Array.from({ length: 12 }, (_, i) => 1000 + i);
const STEP = 0.15;

describe('clearance on random boxes', () => {
  it.each(SEEDS)('seed %i lies between both bounds', (seed) => {
    const { a, b, insulators } = randomBoxes(seed);
    const { lower, upper } = boundsOfClearance(a, b, insulators, STEP);
    expect(lower).toBeLessThanOrEqual(upper);
    expect(upper / lower - 1).toBeLessThan(0.03);
    const scene = new Scene([
      item('A', box(a.min, a.max), 'a'),
      item('B', box(b.min, b.max), 'b'),
      ...insulators.map(({ min, max }, i) => item(`box ${i}`, box(min, max))),
    ]);
    const found = clearances(scene, 'a', 'b', OPTIONS)[0]!.length;
    expect(found / upper).toBeLessThan(1 + ACCURACY);
    expect(found / lower).toBeGreaterThan(1 - ACCURACY);
  });

  it('whose bounds come closer to one another as their points do', () => {
    const { a, b, insulators } = randomBoxes(SEEDS[0]!);
    const gaps = [2, 1, 0.5].map((step) => {
      const { lower, upper } = boundsOfClearance(a, b, insulators, step);
      return upper - lower;
    });
    expect(gaps[1]!).toBeLessThan(gaps[0]!);
    expect(gaps[2]!).toBeLessThan(gaps[1]!);
  });
});
