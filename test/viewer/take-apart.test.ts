import { describe, expect, it } from 'vitest';
import { assembly, type Bounds, placeOnWay, stagesOf } from '../../parts/index.js';
import type { Solid } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { boundsAt, TakeApart } from '../../viewer/session/take-apart.js';
import { STARTERS, type Starter, starterMachine } from '../helpers/machines.js';

const kernel = await loadKernel();

function opened(starter: Starter) {
  const pieces = assembly(starterMachine(starter));
  const solids = new Map<string, Solid>();
  for (const piece of pieces) if (!solids.has(piece.key)) solids.set(piece.key, piece.build(kernel));
  const meshes = new Map([...solids].map(([key, solid]) => [key, kernel.mesh(solid)]));
  const takeApart = new TakeApart(pieces, (piece) => boundsAt(meshes.get(piece.key)!, piece.placement));
  return { pieces, solids, meshes, takeApart };
}

const apart = (a: Bounds, b: Bounds) => a.min.some((min, i) => min >= b.max[i]! || b.min[i]! >= a.max[i]!);

describe.each(STARTERS)('%s taken apart', (starter) => {
  const { pieces, solids, meshes, takeApart } = opened(starter);

  it('is together at 0, and every piece that has moves is somewhere else at 1', () => {
    const [together, out] = [takeApart.at(0), takeApart.at(1)];
    expect(together.step).toBeUndefined();
    expect(out.step).toBeUndefined();
    for (const piece of pieces) {
      expect(together.placements.get(piece.id)).toEqual(piece.placement);
      const moved = out.placements
        .get(piece.id)!
        .move.map((value, axis) => value - piece.placement.move[axis]!);
      if (piece.moves.length === 0) expect(Math.hypot(...moved)).toBe(0);
      else expect(Math.hypot(...moved), piece.id).toBeGreaterThan(5);
    }
  });

  it('has no piece in another when all is apart', () => {
    const { placements } = takeApart.at(1);
    const bounds = pieces.map((piece) => ({
      id: piece.id,
      box: boundsAt(meshes.get(piece.key)!, placements.get(piece.id)!),
    }));
    const met = bounds.flatMap((a, i) =>
      bounds
        .slice(i + 1)
        .filter((b) => !apart(a.box, b.box))
        .map((b) => `${a.id} + ${b.id}`),
    );
    // Boxes may meet where a piece lies in the opening of another; their solids may not.
    for (const pair of met) {
      const [a, b] = pair.split(' + ').map((id) => {
        const piece = pieces.find((each) => each.id === id)!;
        return kernel.place(solids.get(piece.key)!, placements.get(id)!);
      }) as [Solid, Solid];
      expect(kernel.volume(kernel.intersect(a, b)), pair).toBeLessThan(0.1);
    }
  });

  it('has no piece that is out in one that is still coming, half-way through each step', () => {
    for (let number = 0; number < takeApart.steps; number++) {
      const { placements } = takeApart.at((number + 0.5) / takeApart.steps);
      const stages = stagesOf(pieces).reverse();
      const { legs } = stages[number]!;
      const under = legs.map(({ piece }) => piece);
      // What gives way to a piece on its way is declared with the move.
      const gives = (a: string, b: string) =>
        legs.some(
          ({ piece, from, to }) =>
            piece.id === a && piece.moves.slice(from, to).some(({ stretches }) => stretches === b),
        );
      const coming = new Set(stages.slice(number).flatMap(({ legs }) => legs.map(({ piece }) => piece)));
      const out = pieces.filter((piece) => piece.moves.length > 0 && !coming.has(piece));
      for (const a of under) {
        const boxA = boundsAt(meshes.get(a.key)!, placements.get(a.id)!);
        for (const b of out) {
          if (apart(boxA, boundsAt(meshes.get(b.key)!, placements.get(b.id)!))) continue;
          if (gives(a.id, b.id)) continue;
          const volume = kernel.scope(() =>
            kernel.volume(
              kernel.intersect(
                kernel.place(solids.get(a.key)!, placements.get(a.id)!),
                kernel.place(solids.get(b.key)!, placements.get(b.id)!),
              ),
            ),
          );
          expect(volume, `${a.id} in ${b.id}`).toBeLessThan(1);
        }
      }
    }
  });

  it('moves without a jump', () => {
    const steps = 400;
    let before = takeApart.at(0).placements;
    for (let i = 1; i <= steps; i++) {
      const { placements } = takeApart.at(i / steps);
      for (const { id } of pieces) {
        const jump = placements.get(id)!.move.map((value, axis) => value - before.get(id)!.move[axis]!);
        // A step is one stage’s share of the slider; no way is longer than three metres.
        expect(Math.hypot(...jump), `${id} at ${i / steps}`).toBeLessThan((3000 * takeApart.steps) / steps);
      }
      before = placements;
    }
  });
});

describe('a step of the slider', () => {
  const { pieces, takeApart } = opened('travelling-demonstrator');

  it('goes back along the piece’s own moves', () => {
    const ring = pieces.find(({ of }) => of === 'lock-ring')!;
    const number = stagesOf(pieces)
      .reverse()
      .findIndex(({ legs }) => legs.some(({ piece }) => piece === ring));
    const { placements, step } = takeApart.at((number + 0.02) / takeApart.steps);
    expect(step).toMatchObject({
      titles: 'lock-ring',
      of: takeApart.steps,
      number: takeApart.steps - number,
    });
    // It is being screwed: turned as it rises, by the thread's lead.
    const last = ring.moves.at(-1)!;
    const there = placements.get(ring.id)!;
    const [risen, turned] = [there.move[2] - ring.placement.move[2], there.turn[2] - ring.placement.turn[2]];
    expect(risen).toBeGreaterThan(0);
    expect(risen / turned).toBeCloseTo(last.slide[2] / last.turn, 6);
    const onWay = placeOnWay(ring, ring.moves.length - 1, 1 - risen / -last.slide[2]);
    expect(there.move).toEqual(onWay.move.map((value) => expect.closeTo(value, 6)));
  });

  it('begins with what was put on last, and keeps within the slider', () => {
    expect(takeApart.at(0.001).step?.titles).toBe('terminal');
    expect(takeApart.at(-1).placements).toEqual(takeApart.at(0).placements);
    expect(takeApart.at(7).placements).toEqual(takeApart.at(1).placements);
  });
});
