import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { printability } from '../../parts/checks/printability.js';
import { ordersFor } from '../../parts/printed/catalog.js';
import { reachOf } from '../../parts/printed/tool-reach.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { randomMachine } from '../helpers/random-machine.js';

// What the starters keep, any machine keeps: its parts print without support and stand, and a tool gets to every screw.

const kernel = await loadKernel();
const SEED = 20_261_126;
const LONG = 300_000;
/** mm; two lines of a nozzle of 0.35. */
const LEAST_WALL = 0.7;

describe('machines thrown by dice', () => {
  it(`have parts that print as they lie, seed ${SEED}`, { timeout: LONG }, () => {
    fc.assert(
      fc.property(randomMachine, ({ machine }) =>
        kernel.scope(() => {
          const open = ordersFor(machine).flatMap((order) =>
            printability(machine, order, kernel.mesh(order.part.build(order.dimensions, kernel)))
              .findings.filter(({ id, severity, measured }) =>
                // A spacer is no thicker than the smallest bearing's inner ring: that is told, with a finer nozzle as remedy.
                id.startsWith('print/wall-') ? measured < LEAST_WALL : severity !== 'ok',
              )
              .map(({ id, measured, required }) => `${id} ${measured.toFixed(2)} of ${required.toFixed(2)}`),
          );
          expect(open).toEqual([]);
        }),
      ),
      { seed: SEED, numRuns: 12, endOnFailure: true },
    );
  });

  it(`have a tool for every screw, seed ${SEED}`, { timeout: LONG }, () => {
    fc.assert(
      fc.property(randomMachine, ({ machine }) => {
        const out = kernel
          .scope(() => reachOf(machine, kernel))
          .filter(({ tool }) => tool === undefined)
          .map(({ screw, blockedBy }) => `${screw.what}: ${blockedBy}`);
        expect(out).toEqual([]);
      }),
      { seed: SEED, numRuns: 12, endOnFailure: true },
    );
  });
});
