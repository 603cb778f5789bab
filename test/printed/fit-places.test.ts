import { describe, expect, it } from 'vitest';
import { assembly } from '../../parts/printed/assembly.js';
import { type FitPlace, fitPlaces, fitPointsInCut } from '../../parts/printed/fit-places.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { sliceMesh } from '../../parts/solid/slice.js';
import type { Loop, Vec2 } from '../../parts/solid/vector.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

const kernel = await loadKernel();

/** Distance of a point from the outline of what was cut, mm. */
function toOutline([x, z]: Vec2, loops: readonly Loop[]): number {
  const distances = loops.flatMap((loop) =>
    loop.map(([ax, az], i) => {
      const [bx, bz] = loop[(i + 1) % loop.length]!;
      const [dx, dz] = [bx - ax, bz - az];
      const share = Math.min(1, Math.max(0, ((x - ax) * dx + (z - az) * dz) / (dx * dx + dz * dz || 1)));
      return Math.hypot(x - ax - share * dx, z - az - share * dz);
    }),
  );
  return Math.min(...distances);
}

describe.each(STARTERS)('the fits of %s', (starter) => {
  const machine = starterMachine(starter);
  const pieces = assembly(machine);
  const places = fitPlaces(machine);

  it('are all placed, each between pieces that there are', () => {
    expect(places.map(({ fit }) => fit)).toEqual(expect.arrayContaining([...machine.fits]));
    expect(places).toHaveLength(machine.fits.length);
    for (const { part, piece, from, to } of places) {
      expect(
        pieces.some(({ of }) => of === part),
        part,
      ).toBe(true);
      expect(
        pieces.some(({ of }) => of.replace(/-(left|right)$/, '') === piece),
        piece,
      ).toBe(true);
      expect(to).toBeGreaterThan(from);
    }
  });

  it.each([0, 35, 75, 90, 140, 270])('lie where the cut at %i degrees shows both pieces', (angle) => {
    const section = (which: (of: string) => boolean) =>
      pieces
        .filter(({ of }) => which(of))
        .flatMap((piece) =>
          kernel.scope(() => sliceMesh(kernel.mesh(piece.build(kernel)), piece.placement, angle)),
        );
    for (const place of places) {
      const part = section((of) => of === place.part);
      const piece = section((of) => of.replace(/-(left|right)$/, '') === place.piece);
      for (const point of fitPointsInCut(place, angle)) {
        // As far as clearance, facets and slant of the cut allow. A slot or notch may pass through one of them.
        const far = Math.min(toOutline(point, part), toOutline(point, piece));
        expect(far, `${place.fit.id} ${point}`).toBeLessThan(1);
      }
    }
  });
});

describe('a fit in a cut', () => {
  const place = (over: Partial<FitPlace>): FitPlace => ({
    fit: starterMachine('travelling-demonstrator').fits[0]!,
    part: 'a',
    piece: 'b',
    axis: 'z',
    centreZ: 0,
    radius: 10,
    from: 4,
    to: 8,
    ...over,
  });

  it('around the column is on both sides, whatever the angle', () => {
    for (const angle of [0, 45, 222]) {
      expect(fitPointsInCut(place({}), angle)).toEqual([
        [-10, 6],
        [10, 6],
      ]);
    }
  });

  it('at a roller shows only in a plane that meets it', () => {
    const roller = place({ axis: 'y', centreZ: 100, from: 20, to: 30 });
    expect(fitPointsInCut(roller, 0)).toEqual([]);
    expect(fitPointsInCut(roller, 60)).toEqual([]);
    expect(fitPointsInCut(roller, 90)).toEqual(
      [
        [-25, 90],
        [-25, 110],
        [25, 90],
        [25, 110],
      ].map((point) => point.map((value) => expect.closeTo(value, 9))),
    );
    // The plane runs aslant through it: farther out along the plane, and nearer to the axis's height.
    const aslant = fitPointsInCut(roller, 75);
    expect(aslant).toHaveLength(4);
    expect(aslant[3]![0]).toBeCloseTo(25 / Math.sin((75 * Math.PI) / 180), 9);
    expect(aslant[3]![1]).toBeCloseTo(100 + Math.sqrt(100 - (25 / Math.tan((75 * Math.PI) / 180)) ** 2), 9);
  });
});
