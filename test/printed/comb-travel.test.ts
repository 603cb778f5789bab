import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gapAt } from '../../parts/machine/comb.js';
import type { Machine } from '../../parts/machine/machine.js';
import { assembly } from '../../parts/printed/assembly.js';
import type { Kernel } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { randomMachine } from '../helpers/random-machine.js';

// A comb's bracket with its bar, slid from stop to stop, touches neither belt nor roller nor what it is screwed to.

const kernel = await loadKernel();
/** mm3; solids that lie on each other share this much by rounding. */
const TOUCH = 0.1;
const STOPS = ['least', 'most'] as const;

/** How far (mm) the bracket is slid from its set place to a stop; towards the belt is negative. */
function slide({ combs }: Machine, end: 'lower' | 'upper', stop: 'least' | 'most'): number {
  const { screwAt, tip, bracket } = combs[end];
  return screwAt - (stop === 'least' ? bracket.slotTo : bracket.slotFrom) - tip;
}

function touched(machine: Machine, k: Kernel): string[] {
  const pieces = assembly(machine);
  const found: string[] = [];
  for (const end of ['lower', 'upper'] as const) {
    const near = [
      'belt',
      `roller-shell-${end}`,
      `roller-hub-${end}`,
      `axle-${end}`,
      'base-skirt',
      'rim-ring',
      'plate',
      'tube',
    ];
    const others = pieces
      .filter(({ of }) => near.includes(of))
      .map((piece) => ({ id: piece.id, solid: k.place(piece.build(k), piece.placement) }));
    for (const moved of pieces.filter(({ of }) => [`comb-bracket-${end}`, `comb-bar-${end}`].includes(of))) {
      const own = moved.build(k);
      for (const stop of STOPS) {
        const [x, y, z] = moved.placement.move;
        const move = [x + slide(machine, end, stop), y, z] as const;
        const solid = k.place(own, { ...moved.placement, move });
        for (const other of others) {
          const volume = k.volume(k.intersect(solid, other.solid));
          if (volume > TOUCH)
            found.push(`${moved.of} at its ${stop} gap: ${volume.toFixed(2)} mm3 of ${other.id}`);
        }
      }
    }
  }
  return found;
}

describe.each(STARTERS)('the combs of %s', (starter) => {
  const machine = starterMachine(starter);

  it('clear belt, roller and seat at both stops', () => {
    expect(kernel.scope(() => touched(machine, kernel))).toEqual([]);
  });

  it.each(['lower', 'upper'] as const)('stop at the gaps that are told (%s)', (end) => {
    const { tip, beltRadius, offset, gapRange } = machine.combs[end];
    for (const stop of STOPS) {
      expect(gapAt(tip + slide(machine, end, stop), beltRadius, offset)).toBeCloseTo(gapRange[stop], 2);
    }
  });
});

it('clear belt, roller and seat in machines thrown by dice, seed 20261110', { timeout: 300_000 }, () => {
  fc.assert(
    fc.property(randomMachine, ({ machine }) => {
      kernel.scope(() => expect(touched(machine, kernel)).toEqual([]));
    }),
    { seed: 20261110, numRuns: 6, endOnFailure: true },
  );
});

it('are found in the belt when their stop is missing', () => {
  const sound = starterMachine('travelling-demonstrator');
  const { upper } = sound.combs;
  const bracket = {
    ...upper.bracket,
    slotTo: upper.bracket.slotTo + upper.gap + upper.bracket.protrusion + 1,
  };
  const combs = { ...sound.combs, upper: { ...upper, bracket } };
  expect(kernel.scope(() => touched({ ...sound, combs }, kernel)).join()).toContain('of belt');
});
