import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Machine } from '../../parts/machine/machine.js';
import { assembly, type Piece } from '../../parts/printed/assembly.js';
import { declaredOverlaps } from '../../parts/printed/mates.js';
import { placeOnWay, stagesOf } from '../../parts/printed/way-in.js';
import type { Kernel, Solid } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import type { Bounds, Placement } from '../../parts/solid/vector.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { randomMachine } from '../helpers/random-machine.js';

// Every piece goes along its moves to its place and runs into nothing that is there before it. What is there:
// printed parts of lower steps (a copy before the next), and bought pieces by their own steps, see BOUGHT_STEPS.

const kernel = await loadKernel();

/** Places looked at on each move, both ends among them. */
const SAMPLES = 12;
/** What two solids may share by rounding where they touch, mm3. */
const TOUCH = 0.1;
/** The same for two bought pieces, which are drawn round and touch by design: belt and roller differ in their facets. */
const ROUND_TOUCH = 1;

interface Met {
  readonly piece: string;
  readonly move: number;
  readonly share: number;
  readonly other: string;
  readonly volume: number;
}

const apart = (a: Bounds, b: Bounds) => a.min.some((min, i) => min >= b.max[i]! || b.min[i]! >= a.max[i]!);
const kindOf = (piece: Piece) => piece.of.replace(/-(left|right)$/, '');
const pairOf = (a: string, b: string) => [a, b].sort().join(' + ');

/** Everything that pieces share with what is there on their way, stage by stage. */
function metOnTheWay(machine: Machine, k: Kernel): Met[] {
  const pieces = assembly(machine);
  const built = new Map<string, Solid>();
  const own = (piece: Piece): Solid => {
    const key = piece.printed ? piece.of : piece.id;
    const solid = built.get(key) ?? piece.build(k);
    built.set(key, solid);
    return solid;
  };
  interface There {
    readonly piece: Piece;
    readonly solid: Solid;
    readonly bounds: Bounds;
  }
  const there = new Map<Piece, There>();
  const at = (piece: Piece, placement: Placement): There => {
    const solid = k.place(own(piece), placement);
    return { piece, solid, bounds: k.bounds(solid) };
  };
  const met: Met[] = [];
  const meet = (mover: There, other: There, move: number, share: number) => {
    if (apart(mover.bounds, other.bounds) || mover.piece.moves[move]!.stretches === other.piece.id) return;
    const volume = k.volume(k.intersect(mover.solid, other.solid));
    const touch = mover.piece.printed || other.piece.printed ? TOUCH : ROUND_TOUCH;
    if (volume > touch)
      met.push({ piece: kindOf(mover.piece), move, share, other: kindOf(other.piece), volume });
  };
  for (const piece of pieces) if (piece.moves.length === 0) there.set(piece, at(piece, piece.placement));
  for (const { legs, group } of stagesOf(pieces)) {
    const movers = new Set(legs.map(({ piece }) => piece));
    // Who only moves with its group lies ready where the group is put together.
    for (const piece of pieces) {
      const ready = piece.moves[0]?.with !== undefined && piece.step <= legs[0]!.piece.step;
      if (ready && !there.has(piece)) there.set(piece, at(piece, placeOnWay(piece, 0, 0)));
    }
    if (group === undefined) {
      // Copies of one step come one after the other.
      for (const { piece, from, to } of legs) {
        for (let move = from; move < to; move++)
          for (let i = 0; i < SAMPLES; i++) {
            const share = i / (SAMPLES - 1);
            const moving = at(piece, placeOnWay(piece, move, share));
            for (const other of there.values()) meet(moving, other, move, share);
          }
        there.set(piece, at(piece, placeOnWay(piece, to - 1, 1)));
      }
      continue;
    }
    const others = [...there.values()].filter(({ piece }) => !movers.has(piece));
    for (let i = 0; i < SAMPLES; i++) {
      const share = i / (SAMPLES - 1);
      for (const { piece, from } of legs) {
        const moving = at(piece, placeOnWay(piece, from, share));
        for (const other of others) meet(moving, other, from, share);
      }
    }
    for (const { piece, from } of legs) there.set(piece, at(piece, placeOnWay(piece, from, 1)));
  }
  return met;
}

/** What is met beyond what a fit declares: a press fit grows on the way in, fingers only give in the ring's last move. */
function collisions(machine: Machine, k: Kernel): string[] {
  const declared = new Map(declaredOverlaps(machine).map((each) => [pairOf(each.a, each.b), each.volume]));
  return metOnTheWay(machine, k)
    .filter(({ piece, move, other, volume }) => {
      const allowed = piece === 'lock-ring' && move < 2 ? 0 : (declared.get(pairOf(piece, other)) ?? 0);
      return volume > Math.max(TOUCH, 1.02 * allowed);
    })
    .map(
      ({ piece, move, share, other, volume }) =>
        `${piece}, move ${move} at ${share.toFixed(2)}: ${volume.toFixed(2)} mm3 in ${other}`,
    );
}

describe.each(STARTERS)('the way in of every piece of %s', (starter) => {
  it('is free', () => {
    expect(kernel.scope(() => collisions(starterMachine(starter), kernel))).toEqual([]);
  });
});

it('is free in machines thrown by dice, seed 20261107', { timeout: 300_000 }, () => {
  fc.assert(
    fc.property(randomMachine, ({ machine }) => {
      kernel.scope(() => expect(collisions(machine, kernel)).toEqual([]));
    }),
    { seed: 20261107, numRuns: 4, endOnFailure: true },
  );
});

it('is not free when the ring is pushed on instead of screwed', () => {
  const machine = starterMachine('travelling-demonstrator');
  const ring = assembly(machine).find(({ of }) => of === 'lock-ring')!;
  const mount = assembly(machine).find(({ of }) => of === 'tube-mount')!;
  const pushed = { ...ring, moves: [{ slide: [0, 0, -4] as const, turn: 0, why: 'pushed' }] };
  const volume = kernel.scope(() =>
    kernel.volume(
      kernel.intersect(
        kernel.place(mount.build(kernel), mount.placement),
        kernel.place(ring.build(kernel), placeOnWay(pushed, 0, 0.5)),
      ),
    ),
  );
  expect(volume).toBeGreaterThan(100);
});

describe('the place on a way', () => {
  const placed = {
    placement: { turn: [0, 0, 30], move: [0, 0, 5] },
    moves: [
      { slide: [0, 0, -60], turn: 0, why: '' },
      { slide: [0, 0, -6], turn: -180, why: '' },
    ],
  } as const;

  it('starts with every move before it and ends in its place', () => {
    expect(placeOnWay(placed, 0, 0)).toEqual({ turn: [0, 0, 210], move: [0, 0, 71] });
    expect(placeOnWay(placed, 0, 1)).toEqual(placeOnWay(placed, 1, 0));
    expect(placeOnWay(placed, 1, 0.5)).toEqual({ turn: [0, 0, 120], move: [0, 0, 8] });
    expect(placeOnWay(placed, 1, 1)).toEqual(placed.placement);
    expect(() => placeOnWay(placed, 2, 0)).toThrow(RangeError);
  });
});
