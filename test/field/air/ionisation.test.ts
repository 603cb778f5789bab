import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DEFAULT_FIT, IONISATION_FITS } from '../../../parts/field/air/ionisation.js';
import { STATUSES } from '../../../parts/stock/row.js';

const density = fc.double({ min: 0.3, max: 1.4, noNaN: true });

it('has at least two fits, each with its source; the default is one of them', () => {
  expect(IONISATION_FITS.length).toBeGreaterThanOrEqual(2);
  expect(new Set(IONISATION_FITS.map(({ id }) => id)).size).toBe(IONISATION_FITS.length);
  for (const { source, status } of IONISATION_FITS) {
    expect(source).toMatch(/\d{4}/);
    expect(STATUSES).toContain(status);
  }
  expect(IONISATION_FITS).toContain(DEFAULT_FIT);
});

describe.each(IONISATION_FITS.map((fit) => [fit.id, fit] as const))('%s', (_, fit) => {
  it('changes its sign at its critical field', () => {
    expect(fit.alpha(fit.criticalField * 0.9999, 1)).toBeLessThan(0);
    expect(fit.alpha(fit.criticalField * 1.0001, 1)).toBeGreaterThan(0);
  });

  it('is negative and finite everywhere below, without any field too', () => {
    for (let share = 0; share < 0.99; share += 0.01) {
      const alpha = fit.alpha(share * fit.criticalField, 1);
      expect(alpha).toBeLessThan(0);
      expect(Number.isFinite(alpha)).toBe(true);
    }
  });

  it('never falls as the field rises above the critical one', () => {
    let last = 0;
    for (let field = fit.criticalField; field < 1e10; field *= 1.002) {
      const alpha = fit.alpha(field, 1);
      expect(alpha, `${field} V/m`).toBeGreaterThanOrEqual(last);
      last = alpha;
    }
  });

  // What counts is field over density. The three-body term of Morrow and Lowke alone goes with the density squared.
  it('goes with density times a function of field over density', () => {
    fc.assert(
      fc.property(fc.double({ min: 3.2e6, max: 2e7, noNaN: true }), density, (field, d) => {
        const similar = d * fit.alpha(field, 1);
        const tolerance = fit.id === 'morrow-lowke' ? 0.06 : 1e-12;
        expect(Math.abs(fit.alpha(field * d, d) / similar - 1)).toBeLessThan(tolerance);
      }),
      { seed: 11 },
    );
  });

  it('falls as the air gets denser, in the same field', () => {
    fc.assert(
      fc.property(fc.double({ min: 2.7e6, max: 5e6, noNaN: true }), (field) => {
        expect(fit.alpha(field, 1.05)).toBeLessThan(fit.alpha(field, 1));
      }),
      { seed: 12 },
    );
  });

  it.each([-1, Number.NaN, Number.POSITIVE_INFINITY])('refuses a field of %d V/m', (field) => {
    expect(() => fit.alpha(field, 1)).toThrow(/field of .* V\/m/);
  });
  it.each([0, -1, Number.NaN, Number.POSITIVE_INFINITY])('refuses a density of %d', (d) => {
    expect(() => fit.alpha(3e6, d)).toThrow(/relative density/);
  });
});

it('continues the quadratic fit as a straight line beyond its end', () => {
  const quadratic = IONISATION_FITS.find(({ id }) => id === 'quadratic')!;
  const { to } = quadratic.stated!;
  const slope = (field: number) => (quadratic.alpha(field + 1e5, 1) - quadratic.alpha(field, 1)) / 1e5;
  expect(slope(2 * to)).toBeCloseTo(slope(0.9 * to), 9);
});

it('holds the fit of Sarma and Janischewskyj beyond its end', () => {
  const sarma = IONISATION_FITS.find(({ id }) => id === 'sarma-janischewskyj')!;
  const { to } = sarma.stated!;
  expect(sarma.alpha(3 * to, 1)).toBe(sarma.alpha(to, 1));
  expect(sarma.alpha(0.9 * to, 1)).toBeLessThan(sarma.alpha(to, 1));
});
