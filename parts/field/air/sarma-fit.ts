import { ionisationFit, REFERENCE_TORR } from './ionisation-fit.js';

// Over pressure: x = E/p in V/(cm torr), alpha/p in 1/(cm torr).
/** Where the lower branch ends, and where the upper one does. */
const JOIN = 60;
const END = 240;
const START = 25;

/** V/m at density 1 for 1 V/(cm torr), and 1/m for 1/(cm torr). */
const FIELD = 100 * REFERENCE_TORR;
const COEFFICIENT = 100 * REFERENCE_TORR;

const exponential = (factor: number, slope: number, x: number) => (x > 0 ? factor * Math.exp(-slope / x) : 0);
const attachment = (x: number) => 0.01298 - 0.541e-3 * x + 0.87e-5 * x ** 2;
const lowerBranch = (x: number) => exponential(4.7786, 221, x) - attachment(x);
const upperBranch = (x: number) => exponential(9.682, 264.2, x) - attachment(JOIN);

/**
 * alpha/p = 4.7786 exp(-221 p/E) from 25 to 60, 9.682 exp(-264.2 p/E) from 60 to 240, attachment over p
 * 0.01298 - 0.541e-3 E/p + 0.87e-5 (E/p)^2. Attachment is held above 60, the whole above 240. The upper branch starts
 * 1.6 % below the lower one's end: that end is held until it is passed, so that the coefficient never falls. The source's
 * temperature is not known here; pressure is counted at 20 C (at 25 C all fields would be 1.7 % higher).
 */
export const SARMA_FIT = ionisationFit(
  {
    id: 'sarma-janischewskyj',
    title: 'fit of Sarma and Janischewskyj',
    source: 'Sarma and Janischewskyj, Proc. IEE 116 (1969) 161; pressure counted at 20 C',
    status: 'from-memory',
    stated: { from: START * FIELD, to: END * FIELD },
  },
  (field, density) => {
    const x = Math.min(field / (FIELD * density), END);
    const overPressure = x > JOIN ? Math.max(upperBranch(x), lowerBranch(JOIN)) : lowerBranch(x);
    return overPressure * COEFFICIENT * density;
  },
);
