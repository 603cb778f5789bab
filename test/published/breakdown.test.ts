import { describe, expect, it } from 'vitest';
import { REFERENCE_AIR } from '../../parts/field/air/atmosphere.js';
import type { AvalanchePath } from '../../parts/field/air/avalanche.js';
import { DEFAULT_FIT, IONISATION_FITS } from '../../parts/field/air/ionisation.js';
import { inceptionRange, inceptionVoltage } from '../../parts/field/air/streamer.js';
import { peekSphereField } from '../../parts/field/textbook.js';
import { LN_N, relativeDensity, SPHERE_GAP_HUMIDITY } from '../../parts/stock/air.js';
import { gapProfile, plateProfile, sphereProfile } from '../helpers/two-spheres.js';

// No constant behind these numbers was adjusted to them: one fit, one ln N for all.

/** Equal to so many parts in all. */
const within = (measured: number, expected: number, share: number) =>
  expect(Math.abs(measured / expected - 1), `${measured} against ${expected}`).toBeLessThanOrEqual(share);

const STANDARD_PRESSURE = 101.325;
/** Air of a pressure (kPa) and temperature (C) with the vapour at which humidity changes nothing. */
function neutralAir(pressure: number, temperature: number) {
  const density = relativeDensity(pressure, temperature);
  return { relativeDensity: density, vapour: SPHERE_GAP_HUMIDITY.reference.value * density };
}
const AT_20 = neutralAir(STANDARD_PRESSURE, 20);
const AT_25 = neutralAir(STANDARD_PRESSURE, 25);

const fitCalled = (id: string) => IONISATION_FITS.find((fit) => fit.id === id)!;

describe('fits of the ionisation coefficient', () => {
  // Values computed from the published coefficients at 20 C and 101.325 kPa (Morrow and Lowke verified, the others from memory).
  it.each([
    ['quadratic', 26.22],
    ['morrow-lowke', 26.951],
    ['sarma-janischewskyj', 24.162],
  ])('%s: critical field %d kV/cm', (id, expected) =>
    within((fitCalled(id).criticalField * AT_20.relativeDensity) / 1e5, expected, 2e-4),
  );

  it.each([
    ['quadratic', 28, 2.913],
    ['quadratic', 30, 7.389],
    ['quadratic', 35, 24.124],
    ['quadratic', 40, 48.781],
    ['quadratic', 50, 121.86],
    ['morrow-lowke', 27.5, 0.964],
    ['morrow-lowke', 35, 20.536],
    ['morrow-lowke', 50, 121.86],
  ])('%s at %d kV/cm: %d per cm', (id, field, expected) =>
    within(fitCalled(id).alpha(field * 1e5, AT_20.relativeDensity) / 100, expected, 5e-4),
  );

  // The source's two branches meet at 7.943 kV/(mm bar) and 53.3 1/(mm bar): from memory, consistent in itself.
  it('quadratic: parabola and line meet', () => {
    const below = fitCalled('quadratic').alpha(7.9429e6 * 1.013, 1);
    const above = fitCalled('quadratic').alpha(7.9431e6 * 1.013, 1);
    within(above, below, 1e-3);
    within(above / (1e3 * 1.013), 53.3, 2e-3);
  });

  it('differ by a tenth in the critical field, and by less than a fifth from 35 to 50 kV/cm', () => {
    const critical = IONISATION_FITS.map(({ criticalField }) => criticalField);
    const spread = Math.max(...critical) / Math.min(...critical) - 1;
    expect(spread).toBeGreaterThan(0.1);
    expect(spread).toBeLessThan(0.12);
    for (const field of [3.5e6, 4e6, 5e6]) {
      const alphas = IONISATION_FITS.map((fit) => fit.alpha(field, 1));
      expect(Math.max(...alphas) / Math.min(...alphas)).toBeLessThan(1.23);
    }
  });
});

describe('uniform field, 20 C and 101.325 kPa', () => {
  const kilovolts = (gap: number, lnN = LN_N.likely.value, fit = DEFAULT_FIT) =>
    inceptionVoltage(plateProfile(gap / 100), AT_20, lnN, fit) / 1e3;
  const GAPS = [0.5, 0.7, 1, 1.5, 2, 3, 5, 7, 10];

  // Kuffel, Zaengl, Kuffel, High Voltage Engineering, chapter 5: 6.72 sqrt(p d) + 24.36 p d, p in bar at 20 C, d in cm (from memory).
  it.each(GAPS)('%d cm: within two percent of 6.72 sqrt(p d) + 24.36 p d', (gap) => {
    const product = (STANDARD_PRESSURE / 100) * gap;
    within(kilovolts(gap), 6.72 * Math.sqrt(product) + 24.36 * product, 0.02);
  });

  // 24.22 x + 6.08 sqrt(x), x = 293 p d / (760 T), p torr, d cm: Naidu and Kamaraju, Bruce 1947 (secondary).
  it.each(GAPS)('%d cm: within six percent of 24.22 x + 6.08 sqrt(x)', (gap) =>
    within(kilovolts(gap), 24.22 * gap + 6.08 * Math.sqrt(gap), 0.06),
  );

  // With ln N 9.15 (computed from the fit), and the fit of Sarma and Janischewskyj with 18.42 (computed).
  it.each([
    [0.1, 4.635],
    [0.5, 16.754],
    [1, 30.662],
    [2, 57.622],
    [5, 137.04],
    [10, 268.51],
  ])('%d cm: quadratic fit with 9.15 gives %d kV', (gap, expected) =>
    within(kilovolts(gap, 9.15), expected, 1e-4),
  );
  it.each([
    [1, 33.162],
    [2, 59.744],
    [5, 135.21],
    [10, 257.72],
  ])('%d cm: Sarma and Janischewskyj with 18.42 give %d kV', (gap, expected) =>
    within(kilovolts(gap, 18.42, fitCalled('sarma-janischewskyj')), expected, 1e-4),
  );

  it.each(GAPS)('%d cm: the three fits lie within a tenth of each other', (gap) => {
    const all = IONISATION_FITS.map((fit) => kilovolts(gap, LN_N.likely.value, fit));
    expect(Math.max(...all) / Math.min(...all)).toBeLessThan(1.1);
  });

  it.each([0.5, 1, 2, 3, 5])('%d cm: the range of ln N spans the first formula', (gap) => {
    const product = (STANDARD_PRESSURE / 100) * gap;
    const formula = 6.72 * Math.sqrt(product) + 24.36 * product;
    expect(kilovolts(gap, LN_N.low.value)).toBeLessThan(formula);
    expect(kilovolts(gap, LN_N.high.value)).toBeGreaterThan(formula);
  });
});

type Row = readonly [diameter: number, gap: number, kilovolts: number];

/**
 * AIEE sphere-gap table, kV peak at cm, spheres of 10 and 25 cm, 25 C and 760 mmHg, as a data sheet reprints it (verified),
 * from 20 kV to half a diameter. It is a table for ungrounded pairs (computed with Peek's law). Humidity is not stated.
 */
const SPHERE_GAPS: readonly Row[] = [
  [10, 0.62, 20],
  [10, 0.95, 30],
  [10, 1.29, 40],
  [10, 1.65, 50],
  [10, 2.02, 60],
  [10, 2.42, 70],
  [10, 3.28, 90],
  [10, 3.75, 100],
  [10, 4.78, 120],
  [25, 0.64, 20],
  [25, 0.98, 30],
  [25, 1.32, 40],
  [25, 1.66, 50],
  [25, 2.01, 60],
  [25, 2.37, 70],
  [25, 3.11, 90],
  [25, 3.49, 100],
  [25, 4.28, 120],
  [25, 6.84, 180],
  [25, 7.76, 200],
  [25, 8.73, 220],
  [25, 10.3, 250],
];

/** Rows in which the default pair misses the printed figure by more than 4 %. */
const MISSED: Readonly<Record<AvalanchePath, readonly (readonly [diameter: number, gap: number])[]>> = {
  // By 4.7 % and 4.03 %. The table's rounding of the spacing is worth 0.8 % and 0.2 % there; at 0.64 cm the formula of the uniform
  // field, over the pair's field factor, is 2.7 % above the table too.
  'anywhere-on-line': [
    [25, 0.64],
    [25, 2.37],
  ],
  // And by 4.6, 5.6 and 6.3 %: in a wide gap between small spheres the field half-way falls below the critical one. Ending the
  // sum there drops what the avalanche gains before the other sphere.
  'from-electrode': [
    [10, 3.28],
    [10, 3.75],
    [10, 4.78],
    [25, 0.64],
    [25, 2.37],
  ],
};

describe.each(['anywhere-on-line', 'from-electrode'] as const)('sphere-gap table, avalanche %s', (path) => {
  const deviation = ([diameter, gap, expected]: Row) =>
    inceptionVoltage(gapProfile(diameter / 200, gap / 100), AT_25, LN_N.likely.value, DEFAULT_FIT, path) /
      (expected * 1e3) -
    1;
  const isMissed = ([diameter, gap]: Row) =>
    MISSED[path].some(([otherDiameter, otherGap]) => otherDiameter === diameter && otherGap === gap);

  it.each(SPHERE_GAPS.filter((row) => !isMissed(row)))(
    '%d cm spheres, %d cm apart, %d kV: within four percent',
    (...row) => expect(Math.abs(deviation(row))).toBeLessThanOrEqual(0.04),
  );

  it.each(SPHERE_GAPS.filter(isMissed))(
    '%d cm spheres, %d cm apart, %d kV: missed by less than 6.5 percent',
    (...row) => {
      expect(Math.abs(deviation(row))).toBeGreaterThan(0.04);
      expect(Math.abs(deviation(row))).toBeLessThan(0.065);
    },
  );
});

describe('sphere-gap table', () => {
  // IEC 60052 as quoted by a page: 3 % is the accuracy of such tables (secondary).
  it.each(SPHERE_GAPS)(
    '%d cm spheres, %d cm apart, %d kV: spanned by the range of ln N, to three percent',
    (...row) => {
      const [diameter, gap, expected] = row;
      const range = inceptionRange(
        gapProfile(diameter / 200, gap / 100),
        AT_25,
        DEFAULT_FIT,
        'anywhere-on-line',
      );
      expect(range.low / 1e3).toBeLessThan(expected * 1.03);
      expect(range.high / 1e3).toBeGreaterThan(expected * 0.97);
    },
  );

  // The field of the pair is right: Peek's law on it (computed) repeats the table from 40 kV.
  it.each(SPHERE_GAPS.filter(([, , expected]) => expected >= 40))(
    '%d cm spheres, %d cm apart, %d kV: within one percent by Peek',
    (diameter, gap, expected) => {
      const radius = diameter / 200;
      const worst = gapProfile(radius, gap / 100).perVolt[0]!;
      within(peekSphereField(radius, 1) / worst / 1e3, expected, 0.01);
    },
  );
});

// One sphere earthed, 25 cm spheres, 20 C and 101.3 kPa: a page quotes Naidu and Kamaraju's table (secondary).
it.each([
  [1, 31.2],
  [2, 58],
  [3, 85],
  [7.5, 195],
])('repeats the table of earthed pairs: 25 cm spheres, %d cm apart, %d kV', (gap, expected) => {
  const profile = gapProfile(0.125, gap / 100, 41, [1, 0]);
  const range = inceptionRange(profile, REFERENCE_AIR);
  within(range.likely / 1e3, expected, 0.04);
  expect(range.low / 1e3).toBeLessThan(expected * 1.03);
  expect(range.high / 1e3).toBeGreaterThan(expected * 0.97);
});

describe('density', () => {
  const pair = (gap: number) => gapProfile(0.125, gap);

  const THIN = { relativeDensity: 0.85, vapour: SPHERE_GAP_HUMIDITY.reference.value * 0.85 };

  // IEC 60052: V = d V0 (secondary). It leaves out that V over gap grows toward thin air and short gaps: 2.02 % at 1 cm.
  it.each([0.015, 0.02, 0.03, 0.05, 0.08, 0.125])('0.85 scales a gap of %d m as V = d V0', (gap) =>
    within(inceptionVoltage(pair(gap), THIN) / inceptionVoltage(pair(gap), REFERENCE_AIR), 0.85, 0.02),
  );

  // 6.72 sqrt(p d) + 24.36 p d (from memory) has that growth in it.
  it.each([0.5, 1, 2, 5, 10])('0.85 scales a uniform gap of %d cm as the formula does', (gap) => {
    const formula = (bar: number) => 6.72 * Math.sqrt(bar * gap) + 24.36 * bar * gap;
    const at = (air: typeof REFERENCE_AIR) => inceptionVoltage(plateProfile(gap / 100), air);
    within(at(THIN) / at(REFERENCE_AIR), formula(0.85 * 1.013) / formula(1.013), 0.005);
  });

  // The data sheet of the AIEE table: multiply a measured spacing by these before looking the voltage up; 720, 740, 760 and
  // 780 mmHg (verified).
  it.each([
    [0, [1.04, 1.06, 1.09, 1.12]],
    [10, [1, 1.02, 1.05, 1.08]],
    [20, [0.96, 0.99, 1.02, 1.04]],
    [30, [0.93, 0.96, 0.98, 1.01]],
  ])('at %d C scales as the multipliers of the AIEE table', (temperature, multipliers) => {
    multipliers.forEach((multiplier, index) => {
      const torr = 720 + 20 * index;
      const air = neutralAir((torr * STANDARD_PRESSURE) / 760, temperature);
      const gap = 0.03;
      within(inceptionVoltage(pair(gap), air), inceptionVoltage(pair(gap * multiplier), AT_25), 0.015);
    });
  });
});

// Peek's law for spheres at density 1, which he counts at 25 C; its printed values are checked beside it in electrostatics.test.ts.
const RADII = [5, 7.5, 10, 12.5, 15, 20, 25];

describe('spheres alone', () => {
  it.each(RADII)('radius %d cm: streamers start within a tenth of Peek’s field', (radius) => {
    const voltage = inceptionVoltage(sphereProfile(radius / 100), AT_25);
    within(voltage / (radius / 100), peekSphereField(radius / 100, 1), 0.1);
  });
});
