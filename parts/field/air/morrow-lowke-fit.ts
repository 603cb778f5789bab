import { BOLTZMANN, REFERENCE_PRESSURE, REFERENCE_TEMPERATURE } from '../../stock/air.js';
import { ionisationFit } from './ionisation-fit.js';

// Over the number of molecules: x = E/N in V cm2; alpha/N and eta2/N in cm2, eta3/N2 in cm5.
const IONISATION_JOIN = 1.5e-15;
const ATTACHMENT_JOIN = 1.05e-15;
/** Below this x the three-body term would grow without bound; alpha is far below 0 there. */
const LEAST_REDUCED = 1e-17;
/** Above this x (some 2500 kV/cm at density 1) the coefficient is held: soon after it would fall. The source gives no end. */
const GREATEST_REDUCED = 1e-13;

const KELVIN = 273.15;
/** Molecules in a cubic centimetre at density 1. */
const MOLECULES =
  (REFERENCE_PRESSURE.value * 1e3) / (BOLTZMANN.value * (KELVIN + REFERENCE_TEMPERATURE.value)) / 1e6;

const ionisation = (x: number) =>
  x > IONISATION_JOIN ? 2e-16 * Math.exp(-7.248e-15 / x) : 6.619e-17 * Math.exp(-5.593e-15 / x);

const twoBodyAttachment = (x: number) =>
  x > ATTACHMENT_JOIN ? 8.889e-5 * x + 2.567e-19 : Math.max(6.089e-4 * x - 2.893e-19, 0);

const threeBodyAttachment = (x: number) => 4.7778e-59 * x ** -1.2749;

/**
 * Ionisation less two- and three-body attachment. The three-body term goes with the square of the density, so that this
 * fit's critical field over density rises a little with density (0.8 % from none to 1).
 */
export const MORROW_LOWKE_FIT = ionisationFit(
  {
    id: 'morrow-lowke',
    title: 'fit of Morrow and Lowke',
    source: 'Morrow and Lowke, J. Phys. D 30 (1997) 614, appendix, as several open programs have it',
    status: 'verified',
  },
  (field, density) => {
    const molecules = MOLECULES * density;
    const perCentimetre = field / 100 / molecules;
    const x = Math.min(Math.max(perCentimetre, LEAST_REDUCED), GREATEST_REDUCED);
    const alpha =
      molecules * (ionisation(x) - twoBodyAttachment(x)) - molecules ** 2 * threeBodyAttachment(x);
    return alpha * 100;
  },
);
