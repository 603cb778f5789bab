import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { assembly } from '../../parts/printed/assembly.js';
import { holeLoop, polygon, rectangle, reversed, sidesFor } from '../../parts/solid/facets.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { loopArea } from '../../parts/solid/sections.js';
import { cutDirections, sliceMesh } from '../../parts/solid/slice.js';
import { AT_ORIGIN, type Loop, placementMatrix } from '../../parts/solid/vector.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

const kernel = await loadKernel();

/** Area that loops enclose, holes taken off: by their sense. */
const area = (loops: readonly Loop[]) => loops.reduce((sum, loop) => sum + loopArea(loop), 0);

describe('a cut through the axis', () => {
  it('shows both walls of a tube, outlines counter-clockwise', () => {
    const tube = kernel.mesh(kernel.extrude([polygon(40, 720), reversed(polygon(37, 720))], 5, 645));
    for (const angle of [0, 17, 90, 180.5, 333]) {
      const loops = sliceMesh(tube, AT_ORIGIN, angle);
      expect(loops).toHaveLength(2);
      for (const loop of loops) expect(loopArea(loop)).toBeCloseTo(3 * 640, -1);
    }
  });

  it('runs holes clockwise: a ball with a hollow in it', () => {
    const ball = (radius: number) => {
      const profile = Array.from({ length: 181 }, (_, i): [number, number] => {
        const turn = ((i - 90) * Math.PI) / 180;
        return [i % 180 === 0 ? 0 : radius * Math.cos(turn), radius * Math.sin(turn)];
      });
      return kernel.revolve(profile, 360);
    };
    const loops = sliceMesh(kernel.mesh(kernel.subtract(ball(10), [ball(6)])), AT_ORIGIN, 30);
    const areas = loops.map(loopArea).sort((a, b) => a - b);
    expect(areas).toHaveLength(2);
    expect(areas[0]).toBeCloseTo(-Math.PI * 36, 0);
    expect(areas[1]).toBeCloseTo(Math.PI * 100, 0);
  });

  it('is seen from the side that is cut away: along to the right, z up', () => {
    const { along, normal } = cutDirections(40);
    // Right times up is towards whoever looks.
    const right = [along[0], along[1], 0] as const;
    const up = [0, 0, 1] as const;
    const towards = [
      right[1] * up[2] - right[2] * up[1],
      right[2] * up[0] - right[0] * up[2],
      right[0] * up[1] - right[1] * up[0],
    ];
    expect(towards).toEqual(normal.map((value) => expect.closeTo(value, 12)));
  });

  it('is where the kernel itself cuts, for pieces placed at random, seed 11', () => {
    const solid = kernel.subtract(kernel.extrude([rectangle(-20, -9, 20, 9)], -7, 25), [
      kernel.extrude([holeLoop(4, [6, 0])], -10, 30),
    ]);
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -180, max: 180, noNaN: true }), { minLength: 4, maxLength: 4 }),
        fc.array(fc.double({ min: -8, max: 8, noNaN: true }), { minLength: 3, maxLength: 3 }),
        ([x, y, z, angle], move) => {
          const placement = {
            turn: [x!, y!, z!],
            move: move as unknown as [number, number, number],
          } as const;
          const loops = sliceMesh(kernel.mesh(solid), placement, angle!);
          // A slab around the plane, as thin as is sensible, holds the section times its thickness.
          const thin = 0.002;
          const slab = kernel.place(kernel.extrude([rectangle(-200, -thin / 2, 200, thin / 2)], -200, 200), {
            turn: [0, 0, angle!],
            move: [0, 0, 0],
          });
          const common = kernel.volume(kernel.intersect(kernel.place(solid, placement), slab)) / thin;
          expect(Math.abs(area(loops) - common)).toBeLessThan(0.02 * Math.max(20, common));
        },
      ),
      { seed: 11, numRuns: 60 },
    );
  });

  it.each(STARTERS)(
    'closes every loop of every piece of %s, planes through vertices among them',
    (starter) => {
      for (const piece of assembly(starterMachine(starter))) {
        const mesh = kernel.scope(() => kernel.mesh(piece.build(kernel)));
        const { min, max } = kernel.scope(() => {
          const placed = kernel.place(piece.build(kernel), piece.placement);
          return kernel.bounds(placed);
        });
        for (const angle of [0, 30, 45, 90, 123, 180, 270]) {
          const loops = sliceMesh(mesh, piece.placement, angle);
          expect(area(loops), `${piece.id} at ${angle}`).toBeGreaterThanOrEqual(-1e-6);
          const reach = Math.max(...[min, max].flatMap(([x, y]) => [Math.abs(x), Math.abs(y)])) * Math.SQRT2;
          for (const [t, z] of loops.flat()) {
            expect(Math.abs(t)).toBeLessThanOrEqual(reach + 1e-3);
            expect(z).toBeGreaterThanOrEqual(min[2] - 1e-3);
            expect(z).toBeLessThanOrEqual(max[2] + 1e-3);
          }
        }
      }
    },
  );

  it('has as much area through a part as its bare profile says', () => {
    const loop: Loop = [
      [10, 0],
      [20, 0],
      [20, 5],
      [15, 12],
      [10, 12],
    ];
    const ring = kernel.mesh(kernel.revolve(loop, sidesFor(20)));
    expect(area(sliceMesh(ring, AT_ORIGIN, 0))).toBeCloseTo(2 * loopArea(loop), 3);
  });
});

describe('a placement as a matrix', () => {
  it('puts points where the kernel puts them, seed 5', () => {
    const solid = kernel.extrude([rectangle(0, 0, 1, 2)], 0, 3);
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -360, max: 360, noNaN: true }), { minLength: 6, maxLength: 6 }),
        ([a, b, c, d, e, f]) => {
          const placement = { turn: [a!, b!, c!], move: [d!, e!, f!] } as const;
          const m = placementMatrix(placement);
          const corners = [0, 1].flatMap((x) => [0, 2].flatMap((y) => [0, 3].map((z) => [x, y, z] as const)));
          const there = corners.map(([x, y, z]) =>
            [0, 4, 8].map((row) => m[row]! * x + m[row + 1]! * y + m[row + 2]! * z + m[row + 3]!),
          );
          const { min, max } = kernel.bounds(kernel.place(solid, placement));
          for (let axis = 0; axis < 3; axis++) {
            const values = there.map((point) => point[axis]!);
            expect(Math.min(...values)).toBeCloseTo(min[axis]!, 3);
            expect(Math.max(...values)).toBeCloseTo(max[axis]!, 3);
          }
        },
      ),
      { seed: 5, numRuns: 100 },
    );
  });
});
