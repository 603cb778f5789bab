import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gapAt, tipFor } from '../../parts/machine/comb.js';
import { FIT_ALLOWANCE, FIT_CLASSES, printedHole, printedShaft } from '../../parts/machine/fits.js';
import { designGrip, ringTurn, SERIES_STEP } from '../../parts/machine/grip.js';
import type { Machine } from '../../parts/machine/machine.js';
import { readingOf } from '../../parts/machine/reading.js';
import { ordersFor } from '../../parts/printed/catalog.js';
import { fastener } from '../../parts/stock/fasteners.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

const A = starterMachine('travelling-demonstrator');
const B = starterMachine('lecture-hall');
const C = starterMachine('inch-built');
const calibration = { hole: -0.15, outside: 0.06, holeScale: 0, outsideScale: 0, scatter: 0.1 };

describe('readings', () => {
  it('are summed up with bounds widened by the instrument', () => {
    const reading = readingOf([79.6, 80.3, 79.8, 80.2], 0.03);
    expect(reading.mean).toBeCloseTo(79.975, 9);
    expect(reading.spread).toBeCloseTo(0.7, 9);
    expect(reading.low).toBeCloseTo(79.57, 9);
    expect(reading.high).toBeCloseTo(80.33, 9);
    expect(() => readingOf([], 0.03)).toThrow(RangeError);
    expect(() => readingOf([Number.NaN], 0.03)).toThrow(RangeError);
  });
});

describe('fits', () => {
  const bought = { low: 19.99, likely: 20, high: 20.01 };
  const wanted = { id: 'fit/x', title: 'x' };

  it.each(FIT_CLASSES)('%s: what is printed has the allowance when the printer is calibrated', (fitClass) => {
    const hole = printedHole({ ...wanted, class: fitClass }, bought, calibration);
    const shaft = printedShaft({ ...wanted, class: fitClass }, bought, calibration);
    const room = FIT_ALLOWANCE[fitClass].value;
    const [against, under] =
      fitClass === 'press' ? [bought.likely, bought.likely] : [bought.high, bought.low];
    expect(hole.asPrinted.likely - against).toBeCloseTo(room, 6);
    expect(under - shaft.asPrinted.likely).toBeCloseTo(room, 6);
    for (const { clearance } of [hole, shaft]) {
      expect(clearance.low).toBeLessThan(clearance.likely);
      expect(clearance.likely).toBeLessThan(clearance.high);
    }
  });

  it('draws a hole larger for a printer whose holes come out small', () => {
    const at = (hole: number) =>
      printedHole({ ...wanted, class: 'snug' }, bought, { ...calibration, hole, scatter: 0 }).drawn;
    expect(at(-0.2)).toBeCloseTo(at(0) + 0.2, 6);
  });
});

describe('the grip', () => {
  // Half the out-of-round, caliper, print 0.2, entry 0.2 and squeeze 0.15, added by hand.
  it.each([
    ['A', A, 0.93],
    ['B', B, 1.28],
    ['C', C, 0.78],
  ] as const)('needs %s: the radial travel of its readings', (_name, machine, travel) => {
    expect(machine.grip.travel.needed).toBeCloseTo(travel, 2);
    expect(machine.grip.travel.available).toBeGreaterThan(travel);
    expect(ringTurn(machine.grip, machine.grip.stroke.needed)).toBeLessThanOrEqual(270);
  });

  const grip = (mean: number, spread = 0.4) =>
    designGrip(
      { outer: readingOf([mean - spread / 2, mean + spread / 2], 0.03), innerRadius: mean / 2 - 3 },
      'snug',
      0.03,
      calibration,
    );

  it('comes in a stepped series that always holds the tube', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 30, max: 200, noNaN: true }),
        fc.double({ min: 0, max: 1.5, noNaN: true }),
        (mean, spread) => {
          const { series, mount, ring } = grip(mean, spread);
          expect(series % SERIES_STEP.value).toBeCloseTo(0, 9);
          expect(mount.headTopRadius - mount.fingerRadius).toBeGreaterThan(3 - 0.11);
          expect(mount.headTopRadius - mount.fingerRadius).toBeLessThan(3 + SERIES_STEP.value / 2 + 0.11);
          // The ring passes over the heads, and the tube through the ring.
          expect(ring.crestRadius).toBeGreaterThan(mount.headRadius);
          expect(mount.pilotTop - mount.pilotBottom).toBeGreaterThanOrEqual(10);
        },
      ),
      { seed: 20261125, numRuns: 300 },
    );
  });

  it('leaves ring and collar alone while the tube stays within a step', () => {
    const { pilotFit: _fit, mount, ...one } = grip(80);
    const { pilotFit: _other, mount: fatter, ...two } = grip(80.6);
    expect(two.ring).toEqual(one.ring);
    expect(two.series).toBe(one.series);
    expect(fatter.fingerRadius).toBeCloseTo(mount.fingerRadius + 0.3, 3);
    expect(fatter.footRadius).toBe(mount.footRadius);
    expect(grip(84).series).toBeGreaterThan(one.series);
  });
});

describe('the belt’s path', () => {
  // Added up by hand for the invented machines: 2 C + pi (d + t); free length over 1 + stretch.
  it('has the loop that was added up by hand', () => {
    expect(A.rollers.lower.axisZ).toBe(-40);
    expect(A.rollers.upper.axisZ).toBe(668);
    expect(A.belt.loopLength).toBeCloseTo(2 * 708 + Math.PI * (28.05 + 1.2), 6);
    expect(A.belt.freeLength).toBeCloseTo(A.belt.loopLength / 1.08, 6);
    expect(A.belt.speed).toBeCloseTo((5500 / 60) * (20 / 30) * Math.PI * 0.02925, 6);
    expect(B.rollers.lower.axisZ).toBe(-50);
    expect(C.rollers.lower.axisZ).toBe(-45);
  });
});

describe('combs', () => {
  it('stand at their gap, and the scale reads what the gap is', () => {
    for (const machine of [A, B, C]) {
      for (const comb of [machine.combs.lower, machine.combs.upper]) {
        expect(gapAt(comb.tip, comb.beltRadius, comb.offset)).toBeCloseTo(comb.gap, 2);
        for (const { gap, at } of comb.bracket.scale) {
          // The mark that stands over the index tells the gap: the index is at the screw.
          expect(gapAt(comb.screwAt - at, comb.beltRadius, comb.offset)).toBeCloseTo(gap, 2);
        }
      }
    }
  });

  it('cannot be pushed into the belt: the slot ends first', () => {
    for (const { combs } of [A, B, C]) {
      for (const comb of [combs.lower, combs.upper]) {
        const pushed = comb.screwAt - comb.bracket.slotTo;
        expect(gapAt(pushed, comb.beltRadius, comb.offset)).toBeCloseTo(comb.gapRange.least, 2);
        expect(comb.gapRange.least).toBeGreaterThanOrEqual(1.5);
      }
    }
  });

  it('has tips and gaps that undo each other', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 12, noNaN: true }),
        fc.double({ min: 8, max: 40, noNaN: true }),
        (gap, radius) => {
          expect(gapAt(tipFor(gap, radius, radius / 5), radius, radius / 5)).toBeCloseTo(gap, 9);
        },
      ),
      { seed: 20261125 },
    );
  });
});

describe.each(STARTERS)('screws of %s', (starter) => {
  const machine: Machine = starterMachine(starter);
  const { base, plate } = machine;

  it('reach through what they hold and a full nut, and not much further', () => {
    const screw = fastener(base.screw);
    const toNutSeat = plate.thickness + base.skirt.thickness - base.skirt.nutDepth;
    const collar =
      base.screwLength - (base.collar.height - base.collar.headDepth + base.collar.clampGap + toNutSeat);
    const skirt = base.skirtScrewLength - (screw.washer.thickness + toNutSeat);
    for (const beyond of [collar, skirt]) {
      expect(beyond).toBeGreaterThanOrEqual(screw.nutHeight);
      expect(beyond).toBeLessThan(screw.nutHeight + 6);
    }
  });

  it('have a key’s way to every head, and wall around every hole', () => {
    const screw = fastener(base.screw);
    // Heads stand outside the lock ring’s ribs, with room for the key’s own thickness.
    const ringReach = machine.grip.ring.outerRadius + 2.5;
    expect(base.boltRadius - screw.headDiameter / 2).toBeGreaterThan(ringReach);
    const all = [...base.boltAngles, ...base.skirtBoltAngles, base.stud.angle];
    for (const [i, one] of all.entries()) {
      for (const other of all.slice(i + 1)) {
        const apart = 2 * base.boltRadius * Math.abs(Math.sin(((one - other) * Math.PI) / 360));
        expect(apart).toBeGreaterThan(2 * (screw.headDiameter / 2 + 2));
      }
    }
  });

  it('lie on the plate', () => {
    expect(base.collar.flangeRadius).toBeLessThan(plate.diameter / 2);
  });
});

describe('a part’s identity', () => {
  it('is the same for the same file, and another for any changed dimension', () => {
    const again = starterMachine('travelling-demonstrator');
    expect(ordersFor(again).map(({ code }) => code)).toEqual(ordersFor(A).map(({ code }) => code));
    const fatter = starterMachine('travelling-demonstrator', (text) =>
      text.replace('[79.6, 80.3, 79.8, 80.2]', '[80.2, 80.9, 80.4, 80.8]'),
    );
    const changed = ordersFor(fatter).filter(({ code }, i) => code !== ordersFor(A)[i]!.code);
    expect(changed.map(({ part }) => part.id)).toEqual(['tube-mount', 'rim-ring', 'tube-end-guide']);
  });

  it('does not hang on the length of the tube: a longer one needs no new part', () => {
    const codes = (machine: Machine) => ordersFor(machine).map(({ code }) => code);
    expect(codes(starterMachine('inch-built-longer-tube'))).toEqual(codes(C));
    const longer = starterMachine('travelling-demonstrator', (text) =>
      text.replace('length: 640', 'length: 700.4'),
    );
    expect(codes(longer)).toEqual(codes(A));
  });
});
