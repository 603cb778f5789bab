import { describe, expect, it } from 'vitest';
import type { Kernel, Solid } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { overhangOf } from '../../parts/solid/overhang.js';
import { RayIndex } from '../../parts/solid/rays.js';
import { convexOutline, stanceOf } from '../../parts/solid/stance.js';
import { thicknessOf } from '../../parts/solid/thickness.js';
import type { Loop, Vec3 } from '../../parts/solid/vector.js';

// Shapes whose overhang, thickness and stance are known in closed form.

const kernel = await loadKernel();
const indexOf = (build: (k: Kernel) => Solid) => kernel.scope(() => new RayIndex(kernel.mesh(build(kernel))));
const PRINTER = { layer: 0.2, angle: 45, bridge: 10 };
const SIDES = 192;

const block = (x0: number, y0: number, x1: number, y1: number): Loop => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];
const box = (k: Kernel, from: Vec3, to: Vec3) =>
  k.extrude([block(from[0], from[1], to[0], to[1])], from[2], to[2]);

describe('rays', () => {
  const sphere = indexOf((k) => {
    const points = Array.from({ length: 65 }, (_, i): [number, number] => {
      const angle = Math.PI * (i / 64 - 0.5);
      return [i === 0 || i === 64 ? 0 : 10 * Math.cos(angle), 10 * Math.sin(angle)];
    });
    return k.revolve(points, 128);
  });

  it('meet a sphere where it is, from outside and from inside', () => {
    for (let i = 0; i < 500; i++) {
      const [turn, z] = [i * 2.399963, 1 - (2 * i + 1) / 500];
      const flat = Math.sqrt(1 - z * z);
      const out: Vec3 = [flat * Math.cos(turn), flat * Math.sin(turn), z];
      const into: Vec3 = [-out[0], -out[1], -out[2]];
      const far: Vec3 = [30 * out[0], 30 * out[1], 30 * out[2]];
      const entering = sphere.first(far, into, 100)!;
      expect(entering.distance).toBeCloseTo(20, 1);
      expect(entering.leaving).toBeLessThan(-0.99);
      const leaving = sphere.first([0, 0, 0], out, 100)!;
      expect(leaving.distance).toBeCloseTo(10, 1);
      expect(leaving.leaving).toBeGreaterThan(0.99);
      expect(sphere.first(far, into, 19)).toBeUndefined();
      expect(sphere.first(far, out, 100)).toBeUndefined();
    }
  });

  it('tell what is inside', () => {
    let inside = 0;
    const side = 24;
    for (let i = 0; i < side ** 3; i++) {
      const at = [i % side, Math.floor(i / side) % side, Math.floor(i / side / side)];
      const [x, y, z] = at.map((each) => ((each + 0.5) / side - 0.5) * 24) as [number, number, number];
      const from = Math.hypot(x, y, z);
      if (sphere.holds([x, y, z])) inside++;
      if (from < 9.9) expect(sphere.holds([x, y, z])).toBe(true);
      if (from > 10) expect(sphere.holds([x, y, z])).toBe(false);
    }
    expect(inside / ((4 / 3) * Math.PI * 10 ** 3)).toBeCloseTo(1, 1);
  });

  it('of a mesh without triangles meet nothing', () => {
    const nothing = new RayIndex({ positions: new Float32Array(), triangles: new Uint32Array() });
    expect(nothing.first([0, 0, 0], [0, 0, 1], 1)).toBeUndefined();
    expect(nothing.holds([0, 0, 0])).toBe(false);
  });
});

describe('overhang', () => {
  /** A cone that widens upwards on a foot, leaning out by so many degrees from upright. */
  const cone = (lean: number) => {
    const [from, to] = [10, 20];
    const rise = (to - from) / Math.tan((lean * Math.PI) / 180);
    return indexOf((k) =>
      k.revolve(
        [
          [0, 0],
          [from, 0],
          [from, 5],
          [to, 5 + rise],
          [to, 10 + rise],
          [0, 10 + rise],
        ],
        SIDES,
      ),
    );
  };

  it.each([20, 30, 40, 45])('a cone that leans out by %d degrees prints', (lean) => {
    expect(overhangOf(cone(lean), PRINTER)).toMatchObject({ unsupported: 0, widest: undefined });
  });

  /** mm; the width of what hangs beside what holds it, and needs nothing: a layer at 45 degrees and a facet's degree. */
  const held = 0.2 * Math.tan((46 * Math.PI) / 180);

  it.each([50, 60, 75])(
    'of a cone that leans out by %d degrees all hangs but its root: pi (R2 - r2) / sin',
    (lean) => {
      const area = (Math.PI * (20 ** 2 - (10 + held) ** 2)) / Math.sin((lean * Math.PI) / 180);
      const found = overhangOf(cone(lean), PRINTER);
      expect(found.unsupported / area).toBeCloseTo(1, 2);
      expect(found.at![2]).toBeLessThan(6);
    },
  );

  /** A bridge between two piers. */
  const bridge = (span: number) =>
    indexOf((k) =>
      k.subtract(box(k, [-20, -6, 0], [20, 6, 20]), [box(k, [-span / 2, -7, -1], [span / 2, 7, 15])]),
    );

  it.each([3, 7, 9.9])('a gap of %d mm is bridged', (span) => {
    const found = overhangOf(bridge(span), PRINTER);
    expect(found.unsupported).toBe(0);
    expect(found.widest!.span).toBeCloseTo(span, 3);
    expect(found.widest!.at[2]).toBeCloseTo(15, 4);
  });

  it('a gap that is too wide hangs, and its width is told', () => {
    const found = overhangOf(bridge(14), PRINTER);
    expect(found.unsupported / ((14 - 2 * held) * 12)).toBeCloseTo(1, 2);
    expect(found.widest!.span).toBeCloseTo(14, 3);
  });

  it('a board that one side holds hangs but for its first layer’s width, and so does one that ends short of a post', () => {
    const board = overhangOf(
      indexOf((k) => k.union([box(k, [0, 0, 0], [5, 12, 20]), box(k, [4, 0, 18], [11, 12, 20])])),
      PRINTER,
    );
    expect(board.unsupported / ((6 - held) * 12)).toBeCloseTo(1, 1);
    expect(board.widest).toBeUndefined();
    const short = overhangOf(
      indexOf((k) =>
        k.union([
          box(k, [0, 0, 0], [5, 12, 20]),
          box(k, [4, 0, 18], [11, 12, 20]),
          box(k, [12, 0, 0], [15, 12, 25]),
          box(k, [0, 0, 0], [15, 12, 2]),
        ]),
      ),
      PRINTER,
    );
    expect(short.unsupported / board.unsupported).toBeCloseTo(1, 1);
  });

  it('the roof of a well counts by the well’s width, with a hole in it or without', () => {
    const well = (hole: number) =>
      overhangOf(
        indexOf((k) =>
          k.subtract(box(k, [-15, -15, 0], [15, 15, 10]), [
            box(k, [-4, -8, -1], [4, 8, 6]),
            ...(hole > 0 ? [box(k, [-hole / 2, -hole / 2, 5], [hole / 2, hole / 2, 11])] : []),
          ]),
        ),
        PRINTER,
      );
    for (const hole of [0, 3]) {
      expect(well(hole).unsupported).toBe(0);
      expect(well(hole).widest!.span).toBeCloseTo(8, 3);
    }
  });

  it('a ring around a hole is bridged in one direction only, and so counts by the whole well', () => {
    const ring = overhangOf(
      indexOf((k) =>
        k.revolve(
          [
            [7, 0],
            [12, 0],
            [12, 10],
            [6, 10],
            [6, 5],
            [7, 5],
          ],
          SIDES,
        ),
      ),
      PRINTER,
    );
    // A line beside the hole would be 2 sqrt(7^2 - 6^2) = 7.2 long.
    expect(ring.widest!.span).toBeGreaterThan(13);
    expect(ring.unsupported).toBeGreaterThan(10);
  });

  it('a ledge no wider than a layer is high needs nothing, a wider one does', () => {
    const ledge = (out: number) =>
      overhangOf(
        indexOf((k) =>
          k.union([box(k, [-10, -10, 0], [10, 10, 5]), box(k, [-10 - out, -10, 5], [10, 10, 8])]),
        ),
        PRINTER,
      ).unsupported;
    expect(ledge(0.15)).toBe(0);
    expect(ledge(1)).toBeGreaterThan(15);
  });
});

describe('thickness', () => {
  const shell = (outer: number, wall: number) => (k: Kernel) =>
    k.subtract(box(k, [-outer, -outer, 0], [outer, outer, 20]), [
      box(k, [wall - outer, wall - outer, 3], [outer - wall, outer - wall, 21]),
    ]);

  it.each([0.4, 0.8, 1.6])('of a box’s wall of %d mm', (wall) => {
    expect(thicknessOf(indexOf(shell(9, wall))).wall!.width).toBeCloseTo(wall, 4);
  });

  it('of a tube, between facets of the same turn', () => {
    const wall = 1.2;
    const found = thicknessOf(
      indexOf((k) =>
        k.revolve(
          [
            [15 - wall, 0],
            [15, 0],
            [15, 30],
            [15 - wall, 30],
          ],
          SIDES,
        ),
      ),
    );
    expect(found.wall!.width).toBeCloseTo(wall * Math.cos(Math.PI / SIDES), 3);
    // Across the bore is further than anything is looked for.
    expect(found.gap).toBeUndefined();
  });

  it('of a hollow sphere', () => {
    const arc = (radius: number, sides: number) =>
      Array.from({ length: sides + 1 }, (_, i): [number, number] => {
        const angle = Math.PI * (i / sides - 0.5);
        return [i === 0 || i === sides ? 0 : radius * Math.cos(angle), radius * Math.sin(angle)];
      });
    const found = thicknessOf(
      indexOf((k) => k.subtract(k.revolve(arc(12, 96), SIDES), [k.revolve(arc(11, 96), SIDES)])),
    );
    expect(found.wall!.width).toBeCloseTo(1, 1);
  });

  it('of a slot, not of a groove that is only scratched in', () => {
    const slotted = (depth: number) =>
      thicknessOf(
        indexOf((k) =>
          k.subtract(box(k, [-10, -10, 0], [10, 10, 10]), [box(k, [-0.25, -11, 10 - depth], [0.25, 11, 11])]),
        ),
      );
    expect(slotted(6).gap!.width).toBeCloseTo(0.5, 4);
    expect(slotted(0.5).gap).toBeUndefined();
  });

  it('is not taken at the tip of an edge of 45 degrees', () => {
    const wedge: Loop = [
      [0, 0],
      [12, 0],
      [12, 12],
    ];
    expect(thicknessOf(indexOf((k) => k.extrude([wedge], 0, 8))).wall!.width).toBeGreaterThan(3);
  });
});

describe('stance', () => {
  it('of a block: its breadth over its height', () => {
    const found = stanceOf(indexOf((k) => box(k, [-3, -10, 0], [3, 10, 30])).mesh);
    expect(found).toMatchObject({ contact: 120, height: 30 });
    expect(found.volume).toBeCloseTo(3600, 6);
    expect(found.margin).toBeCloseTo(3, 6);
  });

  it('of an L-beam: its centre of mass by the sum of two blocks', () => {
    // A post 4 wide and 40 high, and an arm 20 long and 5 high at its top.
    const found = stanceOf(
      indexOf((k) => k.union([box(k, [0, 0, 0], [4, 10, 40]), box(k, [3, 0, 35], [24, 10, 40])])).mesh,
    );
    const [post, arm] = [4 * 10 * 40, 20 * 10 * 5];
    const centre = (post * 2 + arm * 14) / (post + arm);
    expect(found.centre[0]).toBeCloseTo(centre, 6);
    expect(found.margin).toBeCloseTo(4 - centre, 6);
    expect(found.margin).toBeLessThan(0);
  });

  it('counts what lies between feet', () => {
    const found = stanceOf(
      indexOf((k) =>
        k.union([
          box(k, [-10, -10, 5], [10, 10, 8]),
          box(k, [-10, -10, 0], [-8, 10, 6]),
          box(k, [8, -10, 0], [10, 10, 6]),
        ]),
      ).mesh,
    );
    expect(found.contact).toBeCloseTo(80, 6);
    expect(found.margin).toBeCloseTo(10, 6);
  });

  it('draws the convex outline of points', () => {
    const square = [...block(0, 0, 2, 2), [1, 1], [1, 0]] as Loop;
    expect(convexOutline(square)).toEqual(block(0, 0, 2, 2));
  });
});
