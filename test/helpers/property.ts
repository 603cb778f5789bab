import fc from 'fast-check';
import { expect, it } from 'vitest';
import { ordersFor } from '../../parts/printed/catalog.js';
import { complaintsOf } from '../../parts/sheets/proof.js';
import { meshFacts, soupOf } from '../../parts/solid/facts.js';
import type { Kernel, Solid } from '../../parts/solid/kernel.js';
import { overlaps, wrongOverlaps } from './mating.js';
import { randomMachine } from './random-machine.js';

/**
 * The property that the whole library stands on, for machines thrown by dice: every part is closed and what it states, and
 * pieces in their places overlap by what their fits declare. The seed stands in the test's name.
 */
export function everyMachineGoesTogether(kernel: Kernel, seed: number, runs: number): void {
  it(`holds for ${runs} random machines, seed ${seed}`, { timeout: 600_000 }, () => {
    fc.assert(
      fc.property(randomMachine, ({ machine }) =>
        kernel.scope(() => {
          const built = new Map<string, Solid>();
          for (const { part, dimensions, stated } of ordersFor(machine)) {
            const solid = part.build(dimensions, kernel);
            built.set(part.id, solid);
            const { positions, triangles } = kernel.mesh(solid);
            expect(complaintsOf(meshFacts(soupOf(positions, triangles)), stated), part.id).toEqual([]);
            const bare = kernel.volume(part.bare(dimensions, kernel));
            expect(Math.abs(bare / stated.bareVolume - 1), part.id).toBeLessThan(0.001);
          }
          expect(wrongOverlaps(overlaps(machine, kernel, undefined, built))).toEqual([]);
        }),
      ),
      { seed, numRuns: runs, endOnFailure: true },
    );
  });
}
