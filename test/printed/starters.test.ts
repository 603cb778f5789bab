import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { describe, expect, it } from 'vitest';
import { ordersFor } from '../../parts/printed/catalog.js';
import { complaintsOf, proveStl } from '../../parts/sheets/proof.js';
import { writeStl } from '../../parts/sheets/stl.js';
import { readStl } from '../../parts/sheets/stl-read.js';
import { rectangle } from '../../parts/solid/facets.js';
import { meshFacts, soupOf } from '../../parts/solid/facts.js';
import { loadKernel, manifoldModule } from '../../parts/solid/manifold-kernel.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

// Every part of every starter, as written to an STL and read back by readers that know nothing of each other.

const kernel = await loadKernel();
const manifold = await manifoldModule();

/** Vertices of a soup that are the same place, made one, for readers that want an indexed mesh. */
function indexed(soup: ArrayLike<number>) {
  const index = new Map<string, number>();
  const positions: number[] = [];
  const triangles = Array.from({ length: soup.length / 3 }, (_, i) => {
    const point = [soup[3 * i]!, soup[3 * i + 1]!, soup[3 * i + 2]!];
    const key = point.join();
    if (!index.has(key)) {
      index.set(key, index.size);
      positions.push(...point);
    }
    return index.get(key)!;
  });
  return { positions: Float32Array.from(positions), triangles: Uint32Array.from(triangles) };
}

describe.each(STARTERS)('%s', (starter) => {
  const orders = ordersFor(starterMachine(starter));

  it.each(orders.map((order) => [order.part.id, order] as const))('%s is what it states', (_id, order) => {
    const { part, dimensions, stated } = order;
    const { mesh, bare } = kernel.scope(() => ({
      mesh: kernel.mesh(part.build(dimensions, kernel)),
      bare: kernel.volume(part.bare(dimensions, kernel)),
    }));
    const bytes = writeStl(mesh);
    const proof = proveStl(bytes, stated);
    expect(proof.complaints).toEqual([]);
    expect(proof.facts.closed).toBe(true);
    expect(Math.abs(bare / stated.bareVolume - 1)).toBeLessThan(0.001);
    expect(Math.abs(proof.facts.volume / stated.volume - 1)).toBeLessThan(0.005);

    // three's loader sees the same triangles.
    const geometry = new STLLoader().parse(bytes.buffer as ArrayBuffer);
    const positions = geometry.getAttribute('position').array;
    expect(meshFacts(positions)).toEqual(proof.facts);

    // Manifold takes it as a solid.
    const { positions: vertices, triangles } = indexed(readStl(bytes));
    const solid = new manifold.Manifold(
      new manifold.Mesh({ numProp: 3, vertProperties: vertices, triVerts: triangles }),
    );
    expect(solid.status()).toBe('NoError');
    expect(solid.volume()).toBeCloseTo(proof.facts.volume, 0);
    expect(solid.genus()).toBe(stated.genus + 1 - stated.pieces);
    solid.delete();
  });

  it.each(orders.map((order) => [order.part.id, order] as const))(
    '%s replaced by a box is found out',
    (_id, order) => {
      const { min, max } = order.stated.bounds;
      const box = kernel.extrude([rectangle(min[0], min[1], max[0], max[1])], min[2], max[2]);
      const { positions, triangles } = kernel.mesh(box);
      expect(complaintsOf(meshFacts(soupOf(positions, triangles)), order.stated)).not.toEqual([]);
    },
  );

  it('gives every part a code of its own', () => {
    const codes = orders.map(({ code }) => code);
    expect(new Set(codes).size).toBe(codes.length);
    for (const code of codes) expect(code).toMatch(/^[2-9A-HJKMNP-Z]{8}$/);
  });

  it('documents every dimension of every part', () => {
    for (const { part, dimensions } of orders) {
      expect(Object.keys(part.fields).sort(), part.id).toEqual(Object.keys(dimensions).sort());
    }
  });
});
