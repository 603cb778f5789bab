import { describe, expect, it } from 'vitest';
import { CHARGED_SHARE } from '../../parts/field/charge/assumptions.js';
import { densityCeiling, lineCharge, sheetCurrent } from '../../parts/field/charge/belt.js';
import { OZONE_LIMIT, ozoneParts } from '../../parts/field/charge/ozone.js';
import { staysCharged, storedCharge } from '../../parts/field/charge/stored.js';
import { storedEnergy } from '../../parts/field/energy.js';
import { isolatedSphere } from '../../parts/field/textbook.js';
import { VACUUM_PERMITTIVITY } from '../../parts/stock/air.js';
import { triboelectric } from '../../parts/stock/triboelectric.js';

/** Equal to so many parts in all. */
const within = (measured: number, expected: number, share: number) =>
  expect(Math.abs(measured / expected - 1), `${measured} against ${expected}`).toBeLessThanOrEqual(share);

/** As the book prints it, to its digits: it works with 8.99e9 for 1/(4 pi eps0), which is 0.03 % more. */
const printed = (measured: number, text: string) => within(measured, Number(text), 0.004);

/** V at a distance (m) from the centre of a charge (C). */
const potential = (charge: number, distance: number) => charge / isolatedSphere(distance);

describe('OpenStax, College Physics 19.3 and University Physics 2, 7.3, printed answers (verified)', () => {
  it('a sphere of 0.500 cm with 40.0 pC: 144 V', () => printed(potential(40e-12, 0.0025), '144'));
  it('5.00 cm from -3.00 nC: -539 V', () => printed(potential(-3e-9, 0.05), '-539'));
  it('1.00 C at 5.00 MV: 1.80 km', () => printed(1 / isolatedSphere(5e6), '1.80e3'));
  it('a research terminal of 2.00 m with 5.00 mC: 45.0 MV, and 1.00 MV at 45.0 m', () => {
    printed(potential(5e-3, 1), '45.0e6');
    printed(potential(5e-3, 45), '1.00e6');
  });
  // From 1 MV down to 45 MV as an ion sees it: 3 times 44 MV.
  it('oxygen stripped of three electrons gains 132 MeV between the two', () =>
    printed(3 * (potential(5e-3, 1) - potential(5e-3, 45)), '132e6'));
});

// OpenStax, College Physics 19.5 (verified): plates of 1.00 m2, 1.00 mm apart, at 3.00 kV: 8.85 nF, 26.6 uC.
it('charges OpenStax’ parallel plates', () => {
  const capacitance = VACUUM_PERMITTIVITY.value / 1e-3;
  printed(capacitance, '8.85e-9');
  printed(storedCharge(capacitance, 3000), '26.6e-6');
});

describe('ceilings of a belt', () => {
  // de Queiroz, notes on electrostatic machines, UFRJ (verified): eps0 times 3 MV/m; both sides by Gauss (computed).
  it('is 26.56 uC/m2 on one side and 53.13 on both', () => {
    within(densityCeiling(1), 26.56e-6, 1e-4);
    within(2 * densityCeiling(1), 53.13e-6, 1e-4);
  });

  // Width (mm), speed (m/s), current (uA) with the field on one side and on both: computed from the same formula.
  it.each([
    [30, 5, 3.98, 7.97],
    [50, 5, 6.64, 13.28],
    [50, 10, 13.28, 26.56],
    [100, 10, 26.56, 53.13],
  ])('a belt of %d mm at %d m/s: %f and %f uA at most', (width, speed, oneSide, bothSides) => {
    const current = sheetCurrent(width / 1000, speed, densityCeiling(1));
    within(current, oneSide * 1e-6, 0.002);
    within(2 * current, bothSides * 1e-6, 0.002);
  });

  // Phys. Rev. 38, 1919A (1931): a belt of silk 2.2 in wide at 3500 ft/min, sprayed by a supply, brought up about 25 uA
  // (from memory): 25.2 uC/m2, 0.95 of the ceiling (computed). More than friction is taken to reach, and at the upper end
  // of what a supply is taken to spray.
  it('holds the belt of the first machine in open air', () => {
    const density = lineCharge(25e-6, (3500 * 0.3048) / 60) / (2.2 * 0.0254);
    within(density, 25.2e-6, 0.002);
    expect(density / densityCeiling(1)).toBeCloseTo(0.95, 2);
    expect(density / densityCeiling(1)).toBeGreaterThan(CHARGED_SHARE.friction.high.value);
    expect(density / densityCeiling(1)).toBeGreaterThan(CHARGED_SHARE.sprayed.likely.value);
  });
});

// Data notes that quote Zou et al., Nature Communications 10:1427 (2019) (secondary): uC/m2 against mercury.
it.each([
  ['ptfe', -113],
  ['silicone-pdms', -102],
  ['polyimide', -93],
  ['pvdf', -87],
  ['leather', -54],
  ['acrylic', -49],
  ['nylon', -18],
  ['paper', -18],
] as const)('%s keeps %d uC/m2', (key, density) => {
  expect(triboelectric(key)).toMatchObject({ value: density, unit: 'uC/m2', status: 'secondary' });
});

// The same series: what PTFE takes up exceeds what air lets any free surface keep (computed).
it('knows that air takes away most of what PTFE takes up', () =>
  expect(Math.abs(triboelectric('ptfe').value) * 1e-6).toBeGreaterThan(2 * densityCeiling(1)));

// ANSI/ESDA/JEDEC JS-001 (verified): the human body model is 100 pF over 1.5 kohm, time constant 150 ns; 8 kV give 5.33 A.
it('discharges the human body model', () => {
  within(staysCharged(100e-12, 1500).timeConstant, 150e-9, 1e-12);
  within(8000 / 1500, 5.33, 0.001);
  within(storedCharge(100e-12, 8000), 0.8e-6, 1e-12);
});

// OHM, supplement of 1995, as quoted (verified): a body of 100 pF holds 0.45, 1.3, 5.0 mJ at 3, 5, 10 kV.
it.each([
  [3, 0.45],
  [5, 1.25],
  [10, 5],
])('a body at %d kV holds %f mJ', (kilovolts, millijoules) =>
  within(storedEnergy(100e-12, kilovolts * 1e3), millijoules * 1e-3, 1e-9),
);

// IEC 60335-1, 8.1.4 (verified): 45 uC up to 15 kV; 3 nF hold as much there (computed).
it('holds 45 uC at 15 kV in 3 nF', () => within(storedCharge(3e-9, 15e3), 45e-6, 1e-12));

// OSHA, chemical sampling sheet (verified): 0.1 ppm of ozone is printed as 0.2 mg/m3.
it('gives OSHA’s limit of ozone in both units', () => {
  expect(OZONE_LIMIT).toMatchObject({ value: 0.1, unit: 'ppm', status: 'verified' });
  within(ozoneParts(0.2e-6, 25, 101.325), OZONE_LIMIT.value, 0.025);
});
