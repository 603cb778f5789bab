import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assembly } from '../../parts/printed/assembly.js';
import { holeLoop, polygon, rectangle, reversed, sidesFor } from '../../parts/solid/facets.js';
import type { Mesh } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { type Surfaces, surfacesOf } from '../../parts/solid/surfaces.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

const kernel = await loadKernel();

const box = () => kernel.mesh(kernel.extrude([rectangle(-1, -2, 1, 2)], 0, 3));
const pipe = (outer: number, inner: number, height: number) =>
  kernel.mesh(
    kernel.extrude([polygon(outer, sidesFor(outer)), reversed(polygon(inner, sidesFor(inner)))], 0, height),
  );

/** Length of all edges between surfaces, mm. */
function edgeLength({ edges }: Surfaces): number {
  let sum = 0;
  for (let i = 0; i < edges.length; i += 6) {
    sum += Math.hypot(
      edges[i]! - edges[i + 3]!,
      edges[i + 1]! - edges[i + 4]!,
      edges[i + 2]! - edges[i + 5]!,
    );
  }
  return sum;
}

/** Area of each surface, mm2. */
function areas({ positions, triangles }: Mesh, { of, count }: Surfaces): number[] {
  const sums = Array.from({ length: count }, () => 0);
  for (let t = 0; t < of.length; t++) {
    const [a, b, c] = [0, 1, 2].map((corner) => {
      const at = 3 * triangles[3 * t + corner]!;
      return [positions[at]!, positions[at + 1]!, positions[at + 2]!] as const;
    }) as unknown as [readonly number[], readonly number[], readonly number[]];
    const [u, v] = [b, c].map((end) => end.map((value, axis) => value - a[axis]!)) as [number[], number[]];
    const normal = [
      u[1]! * v[2]! - u[2]! * v[1]!,
      u[2]! * v[0]! - u[0]! * v[2]!,
      u[0]! * v[1]! - u[1]! * v[0]!,
    ];
    sums[of[t]!]! += Math.hypot(...normal) / 2;
  }
  return sums.sort((x, y) => x - y);
}

describe('the surfaces of a mesh', () => {
  it('are the six faces of a box, with its twelve edges between them', () => {
    const mesh = box();
    const surfaces = surfacesOf(mesh);
    expect(surfaces.count).toBe(6);
    expect(areas(mesh, surfaces)).toEqual([6, 6, 8, 8, 12, 12].map((area) => expect.closeTo(area, 4)).sort());
    expect(edgeLength(surfaces)).toBeCloseTo(4 * (2 + 4 + 3), 4);
  });

  it('are two rings, an outside and a bore of a pipe, whatever their facets', () => {
    for (const [outer, inner] of [
      [3, 1.5],
      [40, 37],
      [200, 4],
    ] as const) {
      const surfaces = surfacesOf(pipe(outer, inner, 10));
      expect(surfaces.count).toBe(4);
      const around = 2 * (sidesFor(outer) * 2 * outer * Math.sin(Math.PI / sidesFor(outer)));
      const inside = 2 * (sidesFor(inner) * 2 * inner * Math.sin(Math.PI / sidesFor(inner)));
      expect(edgeLength(surfaces)).toBeCloseTo(around + inside, 1);
    }
  });

  it('have normals of length one that point straight out of a cylinder at its corners', () => {
    const mesh = pipe(20, 10, 5);
    const { normals } = surfacesOf(mesh);
    let smooth = 0;
    for (let corner = 0; corner < mesh.triangles.length; corner++) {
      const [x, y, z] = [0, 1, 2].map((axis) => normals[3 * corner + axis]!) as [number, number, number];
      expect(Math.hypot(x, y, z)).toBeCloseTo(1, 5);
      if (Math.abs(z) > 0.5) continue;
      const at = 3 * mesh.triangles[corner]!;
      const [px, py] = [mesh.positions[at]!, mesh.positions[at + 1]!];
      const radial = (x * px + y * py) / Math.hypot(px, py);
      expect(Math.abs(radial)).toBeGreaterThan(0.999);
      smooth++;
    }
    expect(smooth).toBeGreaterThan(100);
  });

  it('of a cylinder do not depend on how it lies, seed 7', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -180, max: 180, noNaN: true }), { minLength: 3, maxLength: 3 }),
        (turn) => {
          const solid = kernel.extrude([holeLoop(12)], 0, 30);
          const placed = kernel.place(solid, { turn: turn as [number, number, number], move: [5, 6, 7] });
          expect(surfacesOf(kernel.mesh(placed)).count).toBe(3);
        },
      ),
      { seed: 7, numRuns: 30 },
    );
  });

  it.each(STARTERS)('cover every triangle of every piece of %s', (starter) => {
    for (const piece of assembly(starterMachine(starter))) {
      const mesh = kernel.scope(() => kernel.mesh(piece.build(kernel)));
      const { of, count, normals } = surfacesOf(mesh);
      expect(
        of.every((surface) => surface < count),
        piece.id,
      ).toBe(true);
      expect(new Set(of).size, piece.id).toBe(count);
      expect(normals.every(Number.isFinite), piece.id).toBe(true);
    }
  });
});
