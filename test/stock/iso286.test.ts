import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { limits, toleranceGrade } from '../../parts/stock/iso286.js';

const SEED = 286_001;
const GRADES = Array.from({ length: 10 }, (_, i) => `IT${i + 5}`);

describe('what the tables do not hold', () => {
  it.each([0, -1, 250.001, Number.NaN, Number.POSITIVE_INFINITY])('refuses a size of %d mm', (size) => {
    expect(() => limits(size, 'H7')).toThrow(/above 0 up to 250 mm/);
    expect(() => toleranceGrade(size, 'IT7')).toThrow(RangeError);
  });

  it.each(['', 'H', '7', 'H4', 'H15', 'k8', 'K9', 'P8', 'e7', 'Z7', 'J6', 'H7 ', 'h07x'])(
    'refuses zone %j',
    (zone) => {
      expect(() => limits(25, zone)).toThrow(/tables hold f5-14, g5-14/);
    },
  );

  it('refuses grades it has no column for', () => {
    expect(() => toleranceGrade(25, 'IT4')).toThrow(/holds IT5, IT6/);
    expect(() => toleranceGrade(25, '7')).toThrow(RangeError);
  });

  it('refuses J7 and the delta rule where they are not held', () => {
    expect(() => limits(8, 'J7')).toThrow(/above 10 up to 120 mm/);
    expect(() => limits(150, 'J7')).toThrow(/above 10 up to 120 mm/);
    expect(() => limits(2, 'N7')).toThrow(/above 3 mm/);
  });
});

describe(`tolerance zones (seed ${SEED})`, () => {
  const size = fc.double({ min: 0.1, max: 250, noNaN: true });
  const run = (property: fc.IProperty<[number, string]>) => fc.assert(property, { seed: SEED, numRuns: 300 });

  it('are as wide as their grade', () => {
    run(
      fc.property(
        size,
        fc.constantFrom('f', 'g', 'h', 'js', 'm', 'n', 'p', 'F', 'G', 'H', 'JS'),
        (nominal, letter) => {
          for (const grade of GRADES) {
            const { lower, upper } = limits(nominal, `${letter}${grade.slice(2)}`);
            expect(upper - lower).toBeCloseTo(toleranceGrade(nominal, grade), 9);
          }
        },
      ),
    );
  });

  it('grow with the size', () => {
    run(
      fc.property(size, fc.constantFrom(...GRADES), (nominal, grade) => {
        const larger = Math.min(250, nominal * 1.5);
        expect(toleranceGrade(larger, grade)).toBeGreaterThanOrEqual(toleranceGrade(nominal, grade));
      }),
    );
  });

  it('of a hole mirror those of the shaft', () => {
    run(
      fc.property(size, fc.constantFrom('f7', 'g6', 'h11', 'js9'), (nominal, zone) => {
        const shaft = limits(nominal, zone);
        const hole = limits(nominal, zone.toUpperCase());
        expect(hole.lower).toBeCloseTo(-shaft.upper, 9);
        expect(hole.upper).toBeCloseTo(-shaft.lower, 9);
      }),
    );
  });
});
