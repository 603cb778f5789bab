import { describe, expect, it } from 'vitest';
import { ridgeArea, type ThreadShape, threadSections, threadVolume } from '../../parts/printed/thread.js';
import type { Mesh } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';

const kernel = await loadKernel();
const shape: ThreadShape = { starts: 3, pitch: 4, depth: 1.2, crest: 0.8 };

function thread(root: number, side: 1 | -1, length: number): { volume: number; mesh: Mesh } {
  return kernel.scope(() => {
    const solid = kernel.loft(threadSections(shape, root, side, 0, length));
    return { volume: kernel.volume(solid), mesh: kernel.mesh(solid) };
  });
}

/** Least and greatest distance from the axis of corners and edge middles between two heights. */
function reach({ positions, triangles }: Mesh, from: number, to: number): { least: number; most: number } {
  const corner = (i: number) => [0, 1, 2].map((axis) => positions[3 * triangles[i]! + axis]!);
  let [least, most] = [Number.POSITIVE_INFINITY, 0];
  for (let t = 0; t < triangles.length; t += 3) {
    const face = [corner(t), corner(t + 1), corner(t + 2)];
    if (face.some(([, , z]) => z! < from || z! > to)) continue;
    for (const [i, [x, y]] of face.entries()) {
      const [u, v] = face[(i + 1) % 3]!;
      for (const radius of [Math.hypot(x!, y!), Math.hypot((x! + u!) / 2, (y! + v!) / 2)]) {
        least = Math.min(least, radius);
        most = Math.max(most, radius);
      }
    }
  }
  return { least, most };
}

describe.each([30, 48, 75, 100])('a thread on a root of %i mm', (root) => {
  it('never stands closer to its shaft than drawn, whatever its facets', () => {
    expect(reach(thread(root, -1, 16).mesh, 1.3, 14.7).least).toBeGreaterThan(root - shape.depth - 1e-4);
    expect(reach(thread(root, 1, 16).mesh, 1.3, 14.7).most).toBeLessThan(root + shape.depth + 1e-4);
  });

  it('loses no more in its root than half a step of its facets', () => {
    const sagitta = root * (1 - Math.cos((3 * Math.PI) / 180));
    expect(reach(thread(root, 1, 16).mesh, 1.3, 14.7).least).toBeGreaterThan(root - sagitta - 1e-3);
  });

  it.each([1, -1] as const)('side %i has the section that is stated', (side) => {
    const each = (thread(root, side, 28).volume - thread(root, side, 16).volume) / 12;
    expect(side * ridgeArea(shape, root, side, 0)).toBeCloseTo(each, 2);
  });
});

it('loses half of a chamfered end', () => {
  const long = threadVolume(shape, 100, 20);
  expect(long - threadVolume(shape, 100, 10)).toBeCloseTo(1000, 9);
  expect(long).toBeLessThan(2000);
  expect(long).toBeGreaterThan(100 * (20 - 2 * shape.depth));
});
