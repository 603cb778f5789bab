import { describe, expect, it } from 'vitest';
import { creepages } from '../../parts/distances/creepage.js';
import { Scene } from '../../parts/distances/scene.js';
import { ACCURACY, box, item, kernel, OPTIONS } from './blocks.js';
import { boundsOfCreepage, type Footprint, randomTerrain, SIDE, type Terrain } from './second-creepage.js';

// On random assemblies, against an upper and a lower bound of a method that shares nothing with the one tested.

const SEEDS = Array.from({ length: 12 }, (_, i) => 2000 + i);
const POINTS = 64;

function sceneOf({ heights, a, b }: Terrain): Scene {
  const columns = heights.flatMap((row, x) =>
    row.map((height, y) => box([SIDE * x, SIDE * y, 0], [SIDE * (x + 1), SIDE * (y + 1), SIDE * height])),
  );
  const foot = (name: string, net: string, { cell: [x, y], from, size }: Footprint) => {
    const [px, py, z] = [SIDE * x + from[0], SIDE * y + from[1], SIDE * heights[x]![y]!];
    return item(name, box([px, py, z], [px + size, py + size, z + 1.5]), net);
  };
  return new Scene([item('terrain', kernel.union(columns)), foot('A', 'a', a), foot('B', 'b', b)]);
}

describe('creepage on random terrain', () => {
  it.each(SEEDS)('seed %i lies between both bounds', (seed) => {
    const terrain = randomTerrain(seed);
    const { lower, upper } = boundsOfCreepage(terrain, POINTS);
    expect(lower).toBeLessThanOrEqual(upper);
    expect(upper / lower - 1).toBeLessThan(0.03);
    const found = creepages(sceneOf(terrain), 'a', 'b', OPTIONS)[0]!.length;
    expect(found / upper).toBeLessThan(1 + ACCURACY);
    expect(found / lower).toBeGreaterThan(1 - ACCURACY);
  });

  it('whose bounds come closer to one another as their points do', () => {
    const gaps = [8, 16, 32].map((count) => {
      const { lower, upper } = boundsOfCreepage(randomTerrain(SEEDS[0]!), count);
      return upper - lower;
    });
    expect(gaps[1]!).toBeLessThan(gaps[0]!);
    expect(gaps[2]!).toBeLessThan(gaps[1]!);
  });
});
