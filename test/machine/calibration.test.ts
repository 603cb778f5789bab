import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Calibration,
  drawnHole,
  drawnOutside,
  holeOffset,
  outsideOffset,
  printedHole,
  printedShaft,
} from '../../parts/machine/fits.js';
import type { Machine } from '../../parts/machine/machine.js';
import { shoulderFor } from '../../parts/stock/shoulders.js';
import { STARTERS } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';

const offset = fc.double({ min: -1, max: 1, noNaN: true });
const scale = fc.double({ min: -3, max: 3, noNaN: true });
const calibrations: fc.Arbitrary<Calibration> = fc.record({
  hole: offset,
  outside: offset,
  holeScale: scale,
  outsideScale: scale,
  scatter: fc.constant(0.1),
});
const diameter = fc.double({ min: 3, max: 300, noNaN: true });

describe('calibration', () => {
  it('has a constant part and one that grows with the size', () => {
    const printer = { hole: -0.2, holeScale: -0.5, outside: 0.1, outsideScale: 0.25, scatter: 0 };
    expect(holeOffset(printer, 40)).toBeCloseTo(-0.4, 12);
    expect(outsideOffset(printer, 40)).toBeCloseTo(0.2, 12);
    expect(drawnHole(printer, 39.6)).toBeCloseTo(40, 12);
    expect(drawnOutside(printer, 40.2)).toBeCloseTo(40, 12);
  });

  it('draws what comes out as wanted, at any size, seed 20261126', () => {
    fc.assert(
      fc.property(calibrations, diameter, (printer, wanted) => {
        const hole = drawnHole(printer, wanted);
        const outside = drawnOutside(printer, wanted);
        expect(hole + holeOffset(printer, hole)).toBeCloseTo(wanted, 9);
        expect(outside + outsideOffset(printer, outside)).toBeCloseTo(wanted, 9);
      }),
      { seed: 20261126 },
    );
  });

  it('does not change what a fit comes out as, seed 20261127', () => {
    const exact = { hole: 0, outside: 0, holeScale: 0, outsideScale: 0, scatter: 0.1 };
    const wanted = { id: 'fit/x', title: 'x', class: 'snug' } as const;
    fc.assert(
      fc.property(calibrations, diameter, (printer, size) => {
        const bought = { low: size - 0.02, likely: size, high: size + 0.02 };
        for (const made of [printedHole, printedShaft]) {
          const { asPrinted } = made(wanted, bought, printer);
          expect(Math.abs(asPrinted.likely - made(wanted, bought, exact).asPrinted.likely)).toBeLessThan(
            2e-3,
          );
        }
      }),
      { seed: 20261127 },
    );
  });
});

/** Diameters that come off the printer, of all that its calibration enters, mm. */
function asPrinted({ grip, base, hubs, combs, rim, print }: Machine): Record<string, number> {
  const hole = (drawn: number) => drawn + holeOffset(print.calibration, drawn);
  const outside = (drawn: number) => drawn + outsideOffset(print.calibration, drawn);
  const { mount, ring } = grip;
  return {
    pilot: hole(2 * mount.pilotRadius),
    fingers: hole(2 * mount.fingerRadius),
    heads: outside(2 * mount.headRadius),
    threadRoot: outside(2 * mount.threadRoot),
    threadCrest: outside(2 * mount.threadCrest),
    foot: outside(2 * mount.footRadius),
    ringCrest: hole(2 * ring.crestRadius),
    ringRoot: hole(2 * ring.rootRadius),
    ringCone: hole(2 * ring.coneRadius),
    seat: hole(2 * base.collar.seatRadius),
    lip: hole(2 * base.collar.lipRadius),
    keyInItsNotch: hole(grip.key.width) - outside(base.collar.keyWidth),
    spigot: outside(rim.spigotFit.drawn),
    bore: hole(hubs.lower.live!.boreFit.drawn),
    nut: hole(hubs.lower.live!.nutFlats),
    bearing: hole(hubs.upper.dead!.seatFit.drawn),
    shoulder: hole(2 * hubs.upper.dead!.shoulderRadius),
    insert: hole(2 * combs.lower.bracket.insertRadius),
  };
}

describe.each(STARTERS)('%s comes out the same', (starter) => {
  it.each([
    { hole: -0.3, outside: 0.15, hole_scale: -0.6, outside_scale: -0.4 },
    { hole: 0.2, outside: -0.1, hole_scale: 0.5, outside_scale: 0.9 },
  ])('of a printer with %o', (calibration) => {
    const exact = variant(starter, {
      print: { calibration: { hole: 0, outside: 0, hole_scale: 0, outside_scale: 0 } },
    });
    const wanted = asPrinted(exact);
    const machine = variant(starter, { print: { calibration } });
    // Radii are rounded to 0.001 mm, some twice.
    for (const [name, printed] of Object.entries(asPrinted(machine)))
      expect(Math.abs(printed - wanted[name]!), name).toBeLessThan(4.1e-3);
    expect(asPrinted(machine).shoulder).toBeCloseTo(
      shoulderFor(machine.rollers.upper.bearing.row).outerShoulderBoreMax,
      2,
    );
  });
});
