import { describe, expect, it } from 'vitest';
import { fitLine, student95 } from '../../parts/machine/least-squares.js';

/**
 * NIST Statistical Reference Datasets, linear regression, Norris (itl.nist.gov/div898/strd/lls/data/Norris.shtml): calibration of
 * ozone monitors, 36 points. Status: secondary, data and certified values as several libraries' tests repeat them alike.
 */
const X = [
  0.2, 337.4, 118.2, 884.6, 10.1, 226.5, 666.3, 996.3, 448.6, 777.0, 558.2, 0.4, 0.6, 775.5, 666.9, 338.0,
  447.5, 11.6, 556.0, 228.1, 995.8, 887.6, 120.2, 0.3, 0.3, 556.8, 339.1, 887.2, 999.0, 779.0, 11.1, 118.3,
  229.2, 669.1, 448.9, 0.5,
];
const Y = [
  0.1, 338.8, 118.1, 888.0, 9.2, 228.1, 668.5, 998.5, 449.1, 778.9, 559.2, 0.3, 0.1, 778.1, 668.8, 339.3,
  448.9, 10.8, 557.7, 228.3, 998.0, 888.8, 119.6, 0.3, 0.6, 557.6, 339.3, 888.0, 998.5, 778.9, 10.2, 117.6,
  228.9, 668.4, 449.2, 0.2,
];

describe('least squares', () => {
  it('gives the certified values of Norris', () => {
    const line = fitLine(X.map((x, i) => [x, Y[i]!] as const));
    expect(line.slope).toBeCloseTo(1.00211681802045, 12);
    expect(line.intercept).toBeCloseTo(-0.262323073774029, 10);
    expect(line.slopeError).toBeCloseTo(0.429796848199937e-3, 13);
    expect(line.interceptError).toBeCloseTo(0.232818234301152, 11);
    // Residual sum of squares 26.6173985294224, 34 degrees of freedom.
    expect(line.residualDeviation ** 2 * 34).toBeCloseTo(26.6173985294224, 8);
  });

  it('never knows better than what is known of the points', () => {
    const straight = [0, 1, 2, 3].map((x) => [x, 1 + 2 * x] as const);
    expect(fitLine(straight).slopeError).toBe(0);
    expect(fitLine(straight, 0.1).slopeError).toBeCloseTo(0.1 / Math.sqrt(5), 12);
  });

  it('refuses what makes no line', () => {
    const point = [1, 1] as const;
    expect(() => fitLine([point, [2, 1]])).toThrow(RangeError);
    expect(() => fitLine([point, point, point])).toThrow(RangeError);
  });
});

/** Share of Student's distribution within +-t, by integrating its density; the constant cancels. */
function shareWithin(t: number, freedom: number): number {
  // x = sqrt(freedom) tan(a) makes the density cos^(freedom - 1) over a finite range.
  const integral = (to: number) => {
    const steps = 20_000;
    let sum = 0;
    for (let i = 0; i < steps; i++) sum += Math.cos(((i + 0.5) * to) / steps) ** (freedom - 1);
    return (sum * to) / steps;
  };
  return integral(Math.atan(t / Math.sqrt(freedom))) / integral(Math.PI / 2);
}

describe("Student's t", () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8, 9, 10])('holds 95 %% with %i degrees of freedom', (freedom) => {
    expect(shareWithin(student95(freedom), freedom)).toBeCloseTo(0.95, 4);
  });
  it('is not known beyond', () => expect(() => student95(11)).toThrow(RangeError));
});
