import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { innerColumn, outerColumn } from '../../parts/field/columns.js';
import { lowerMetalOutside } from '../../parts/field/metal.js';
import { acrossWall, printedFoot, tubeWall } from '../../parts/field/punctures.js';
import { nearestOnTerminal, terminalOutline } from '../../parts/field/terminal-distance.js';
import { limitWays, terminalToBench, terminalToPlateEdge } from '../../parts/field/ways.js';
import { starterMachine } from '../helpers/machines.js';
import { readings, variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');
const SEED = 20_261_126;

describe('along the column', () => {
  it('runs outside from the lip to the highest grounded metal', () => {
    const way = outerColumn(A);
    const highest = Math.max(...lowerMetalOutside(A).map(({ z }) => z));
    expect(way.path[0]![2]).toBe(A.terminal.lipZ);
    expect(way.path.at(-1)![2]).toBe(highest);
    expect(way.length).toBeGreaterThanOrEqual(A.terminal.lipZ - highest);
    expect(way.length).toBeLessThan(A.terminal.lipZ);
  });

  it('holds 3, 4.5 and 5 kV/cm when clean and dry', () => {
    const { voltage, length } = outerColumn(A);
    expect(voltage.low / (length * 100)).toBeCloseTo(3, 9);
    expect(voltage.likely / (length * 100)).toBeCloseTo(4.5, 9);
    expect(voltage.high / (length * 100)).toBeCloseTo(5, 9);
  });

  it.each([{ cleanliness: 'dusty' }, { cleanliness: 'damp' }, { humidity: 61 }] as const)(
    'holds half with %o',
    (site) => {
      expect(outerColumn(variant('travelling-demonstrator', { site })).voltage.likely).toBeCloseTo(
        outerColumn(A).voltage.likely / 2,
        6,
      );
    },
  );

  it('is not halved at 60 % humidity', () => {
    expect(outerColumn(variant('travelling-demonstrator', { site: { humidity: 60 } })).voltage).toEqual(
      outerColumn(A).voltage,
    );
  });

  it('takes the builder’s gradient as it is', () => {
    const { voltage, length } = outerColumn(
      variant('travelling-demonstrator', { assume: { column_gradient: 2.5 } }),
    );
    expect(voltage.likely / (length * 100)).toBeCloseTo(2.5, 9);
    expect(voltage.low).toBeCloseTo(voltage.likely, 6);
  });

  it(`never loses by a longer tube, seed ${SEED}`, () => {
    const lengths = fc.tuple(
      fc.double({ min: 300, max: 1500, noNaN: true }),
      fc.double({ min: 0, max: 500, noNaN: true }),
    );
    fc.assert(
      fc.property(lengths, ([length, more]) => {
        const at = (mm: number) => variant('travelling-demonstrator', { column: { tube: { length: mm } } });
        const [short, long] = [at(length), at(length + more)];
        expect(outerColumn(long).voltage.likely).toBeGreaterThanOrEqual(
          outerColumn(short).voltage.likely - 1e-6,
        );
        expect(innerColumn(long).voltage.likely).toBeGreaterThanOrEqual(
          innerColumn(short).voltage.likely - 1e-6,
        );
      }),
      { seed: SEED, numRuns: 100 },
    );
  });

  it('runs inside from the lowest metal above the rim to the plate’s opening', () => {
    const way = innerColumn(A);
    expect(way.path[0]![2]).toBeGreaterThanOrEqual(A.tube.rimZ);
    expect(way.path.at(-1)).toEqual([A.base.plate.openingRadius, 0, 0]);
  });

  it('a print that conducts shortens both', () => {
    const conducting = variant('travelling-demonstrator', { print: { conductive: true } });
    expect(outerColumn(conducting).length).toBeLessThan(outerColumn(A).length - 50);
    expect(innerColumn(conducting).length).toBeLessThan(innerColumn(A).length);
    expect(limitWays(conducting).map(({ id }) => id)).not.toContain('way/printed-foot');
  });
});

describe('through air', () => {
  it('measures from the terminal’s outline', () => {
    const { centreZ, diameter, topZ } = A.terminal;
    const radius = diameter.mean / 2;
    expect(nearestOnTerminal(A, [radius + 100, centreZ]).distance).toBeCloseTo(100, 6);
    expect(nearestOnTerminal(A, [0, topZ + 30]).distance).toBeCloseTo(30, 6);
    const slant = nearestOnTerminal(A, [300, centreZ + 400]).distance;
    expect(Math.abs(slant / (500 - radius) - 1)).toBeLessThan(0.001);
  });

  it('has the lip’s bead as its lowest place', () => {
    expect(Math.min(...terminalOutline(A).map(([, z]) => z))).toBeCloseTo(A.terminal.lipZ, 6);
    const C = starterMachine('inch-built');
    expect(Math.min(...terminalOutline(C).map(([, z]) => z))).toBeCloseTo(C.terminal.lipZ, 6);
  });

  it('gets shorter to a wider plate, and to a bench with lower feet', () => {
    const plate = (diameter: number) =>
      terminalToPlateEdge(variant('travelling-demonstrator', { base: { plate: { diameter } } })).voltage
        .likely;
    expect(plate(200)).toBeLessThan(plate(700));
    const bench = (feet: number) =>
      terminalToBench(variant('travelling-demonstrator', { base: { feet } })).voltage.likely;
    expect(bench(90)).toBeLessThan(bench(200));
  });
});

describe('through walls', () => {
  it('the tube’s wall holds its strength times its least thickness', () => {
    const way = tubeWall(A);
    const across = acrossWall(A, A.tube.inner.likely / 2);
    expect((way.voltage.likely * across) / 1000 / A.tube.wall.low).toBeCloseTo(15.7, 9);
    expect(way.voltage.low).toBeLessThan(way.voltage.likely / 2);
  });

  it('holds less when thinner', () => {
    const thin = variant('travelling-demonstrator', { column: { tube: { wall: readings(1.5) } } });
    expect(tubeWall(thin).voltage.likely).toBeLessThan(tubeWall(A).voltage.likely);
  });

  it('counts a thick print as no better than air beyond 5 mm', () => {
    const { voltage, length } = printedFoot(A);
    const reach = Math.max(...lowerMetalOutside(A).map(({ z }) => z));
    expect((voltage.likely * acrossWall(A, reach)) / 1000).toBeCloseTo(5 * 1 + (length - 5) * 0.45, 9);
  });
});
