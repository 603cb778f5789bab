import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  altitudeFactor,
  clearanceImpulse,
  clearanceSteady,
  creepage,
  type FieldCase,
  type MaterialGroup,
  type Pollution,
} from '../../parts/stock/iec60664.js';

const SEED = 60_664_1;
const RUNS = { seed: SEED, numRuns: 500 };

const cases = fc.constantFrom<FieldCase>('A', 'B');
const pollutions = fc.constantFrom<Pollution>(1, 2, 3);
const groups = fc.constantFrom<MaterialGroup>('I', 'II', 'IIIa', 'IIIb');
const two = (most: number) =>
  fc
    .tuple(fc.double({ min: 0, max: most, noNaN: true }), fc.double({ min: 0, max: most, noNaN: true }))
    .map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const);

describe(`a required distance never falls as the voltage rises (seed ${SEED})`, () => {
  it('steady clearance', () => {
    fc.assert(
      fc.property(two(120), cases, ([low, high], fieldCase) => {
        const [less, more] = [clearanceSteady(low, fieldCase), clearanceSteady(high, fieldCase)];
        expectRising(less.distance, more.distance);
      }),
      RUNS,
    );
  });

  it('impulse clearance, which also never falls with pollution', () => {
    fc.assert(
      fc.property(two(120), cases, pollutions, ([low, high], fieldCase, pollution) => {
        const less = clearanceImpulse(low, fieldCase, pollution);
        expectRising(less.distance, clearanceImpulse(high, fieldCase, pollution).distance);
        expectRising(less.distance, clearanceImpulse(low, fieldCase, 3).distance);
      }),
      RUNS,
    );
  });

  it('creepage, which also never falls with pollution or from group I to III', () => {
    fc.assert(
      fc.property(two(70000), pollutions, groups, ([low, high], pollution, group) => {
        const less = creepage(low, pollution, group);
        expectRising(less.distance, creepage(high, pollution, group).distance);
        expectRising(less.distance, creepage(low, 3, group).distance);
        expectRising(less.distance, creepage(low, pollution, 'IIIb').distance);
      }),
      RUNS,
    );
  });

  it('altitude factor', () => {
    fc.assert(
      fc.property(two(25000), ([low, high]) => {
        expectRising(altitudeFactor(low).factor, altitudeFactor(high).factor);
      }),
      RUNS,
    );
  });

  it('says whether the table answered, and answers exactly then', () => {
    fc.assert(
      fc.property(two(120), cases, ([voltage], fieldCase) => {
        const looked = clearanceSteady(voltage, fieldCase);
        expect(looked.inTable).toBe(looked.distance !== undefined);
        expect(looked.inTable).toBe(voltage <= (fieldCase === 'A' ? 50 : 100));
      }),
      RUNS,
    );
  });
});

/** Beyond the table there is no distance, and none comes back at a higher voltage. */
function expectRising(less: number | undefined, more: number | undefined): void {
  if (less === undefined) expect(more).toBeUndefined();
  else if (more !== undefined) expect(more).toBeGreaterThanOrEqual(less);
}

describe('reading between the rows', () => {
  it('interpolates clearances and names both rows', () => {
    expect(clearanceSteady(25 + 2.5, 'A').distance).toBeCloseTo((44 + 55) / 2, 9);
    expect(clearanceSteady(27.5, 'A').row).toBe('25 to 30 kV peak');
    expect(clearanceImpulse(90, 'B', 1).distance).toBeCloseTo(40, 9);
    expect(altitudeFactor(2500).factor).toBeCloseTo(1.07, 9);
  });

  it('takes the first row below the table', () => {
    expect(clearanceSteady(0, 'A')).toMatchObject({ distance: 0.001, inTable: true, row: '0.04 kV peak' });
    expect(clearanceImpulse(0.1, 'A', 2).distance).toBe(0.2);
  });

  it('mentions the believed restriction of group IIIb at degree 3', () => {
    expect(creepage(800, 3, 'IIIb').note).toMatch(/from memory/);
    expect(creepage(630, 3, 'IIIb').note).not.toMatch(/from memory/);
    expect(creepage(800, 3, 'IIIa').note).not.toMatch(/from memory/);
  });

  it.each([-1, Number.NaN])('refuses %d as a voltage', (voltage) => {
    expect(() => clearanceSteady(voltage, 'A')).toThrow(/not a voltage/);
    expect(() => clearanceImpulse(voltage, 'A', 1)).toThrow(/not a voltage/);
    expect(() => creepage(voltage, 1, 'I')).toThrow(/not a voltage/);
  });

  it.each([-501, Number.NaN])('refuses %d as an altitude', (altitude) => {
    expect(() => altitudeFactor(altitude)).toThrow(/not an altitude/);
  });
});
