import { describe, expect, it } from 'vitest';
import { surfacesOf } from '../../parts/index.js';
import { holeLoop, polygon, rectangle, reversed, shaftLoop } from '../../parts/solid/facets.js';
import type { Solid } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { AT_ORIGIN, type Placement } from '../../parts/solid/vector.js';
import { shortestBetween, surfaceSoup } from '../../viewer/scene/distance.js';
import type { DressedMesh } from '../../viewer/worker/messages.js';

const kernel = await loadKernel();

function dress(solid: Solid): DressedMesh {
  const mesh = kernel.mesh(solid);
  return { mesh, surfaces: surfacesOf(mesh) };
}

/** The number of the surface whose triangles all lie where the test says. */
function surfaceWhere(dressed: DressedMesh, holds: (x: number, y: number, z: number) => boolean): number {
  const { mesh, surfaces } = dressed;
  const found = [...new Set(surfaces.of)].filter((surface) => {
    const soup = surfaceSoup(dressed, surface, AT_ORIGIN);
    for (let i = 0; i < soup.length; i += 3) if (!holds(soup[i]!, soup[i + 1]!, soup[i + 2]!)) return false;
    return true;
  });
  expect(found, `${mesh.triangles.length / 3} triangles`).toHaveLength(1);
  return found[0]!;
}

const at = (x: number, y: number, z: number, turn: Placement['turn'] = [0, 0, 0]): Placement => ({
  turn,
  move: [x, y, z],
});

describe('the shortest way between two surfaces', () => {
  const block = dress(kernel.extrude([rectangle(-5, -5, 5, 5)], 0, 10));
  const top = surfaceWhere(block, (_x, _y, z) => z > 9.99);
  const side = surfaceWhere(block, (x) => x > 4.99);

  it('is the gap between two faces that face each other', () => {
    const a = surfaceSoup(block, top, AT_ORIGIN);
    const b = surfaceSoup(block, top, at(0, 0, 37.5, [180, 0, 0]));
    expect(shortestBetween(a, b).distance).toBeCloseTo(17.5, 5);
  });

  it('runs from edge to edge and from corner to corner where faces pass each other', () => {
    const a = surfaceSoup(block, top, AT_ORIGIN);
    expect(shortestBetween(a, surfaceSoup(block, top, at(13, 0, 4))).distance).toBeCloseTo(5, 5);
    const corner = shortestBetween(a, surfaceSoup(block, top, at(12, 13, 6)));
    expect(corner.distance).toBeCloseTo(Math.hypot(2, 3, 6), 5);
    expect([...corner.from, ...corner.to]).toEqual(
      [5, 5, 10, 7, 8, 16].map((value) => expect.closeTo(value, 4)),
    );
  });

  it('is nothing where they touch or cross', () => {
    const a = surfaceSoup(block, top, AT_ORIGIN);
    expect(shortestBetween(a, surfaceSoup(block, side, AT_ORIGIN)).distance).toBeCloseTo(0, 6);
    expect(shortestBetween(a, surfaceSoup(block, side, at(-7, 1, 5, [0, 12, 0]))).distance).toBeCloseTo(0, 6);
  });

  it('is the radial clearance of a shaft in its bore, and less by how far it stands aside', () => {
    const bore = dress(kernel.extrude([polygon(30, 256), reversed(holeLoop(20.25))], 0, 40));
    const shaft = dress(kernel.extrude([shaftLoop(20)], 0, 60));
    const inside = surfaceWhere(bore, (x, y) => Math.hypot(x, y) < 21);
    // The shaft's side is the one surface that has both ends.
    const around = [...new Set(shaft.surfaces.of)].find((surface) => {
      const soup = surfaceSoup(shaft, surface, AT_ORIGIN);
      const heights = Array.from(soup).filter((_, i) => i % 3 === 2);
      return Math.min(...heights) < 1 && Math.max(...heights) > 59;
    })!;
    const hole = surfaceSoup(bore, inside, AT_ORIGIN);
    // Facets stand off the circle by 0.02 at most.
    const centred = shortestBetween(hole, surfaceSoup(shaft, around, at(0, 0, -5))).distance;
    expect(Math.abs(centred - 0.25)).toBeLessThan(0.03);
    const aside = shortestBetween(hole, surfaceSoup(shaft, around, at(0.15, 0, -5))).distance;
    expect(Math.abs(aside - 0.1)).toBeLessThan(0.03);
  });

  it('is the same both ways, and needs a triangle at each end', () => {
    const a = surfaceSoup(block, top, AT_ORIGIN);
    const b = surfaceSoup(block, side, at(20, 30, -40, [20, 30, 40]));
    const [there, back] = [shortestBetween(a, b), shortestBetween(b, a)];
    expect(there.distance).toBeCloseTo(back.distance, 6);
    expect(there.distance).toBeGreaterThan(20);
    expect(() => shortestBetween(a, new Float32Array())).toThrow(RangeError);
  });
});
