import { ionisationFit, REFERENCE_BAR } from './ionisation-fit.js';

// Over pressure at 20 C: x = E/p in kV/(mm bar), alpha/p in 1/(mm bar).
const CURVATURE = 1.6053;
const VERTEX = 2.165;
const LEAST = -0.2873;
/** From here on a straight line. */
const JOIN = 7.943;
const LINE_SLOPE = 16.7766;
const LINE_OFFSET = -80.006;
/** x at which alpha is 0, and x up to which the line is given. */
const STATED = { from: 2.588, to: 14 };

/** V/m at density 1 for 1 kV/(mm bar). */
const FIELD = 1e6 * REFERENCE_BAR;
/** 1/m at density 1 for 1/(mm bar). */
const COEFFICIENT = 1e3 * REFERENCE_BAR;

/**
 * alpha/p = 1.6053 (E/p - 2.165)^2 - 0.2873 and, from 7.943, 16.7766 E/p - 80.006. Beyond 14, where the source ends, the
 * line is continued. Below its zero at 2.588 the parabola is followed to its vertex and that value held: -2.9 per cm, where
 * the other fits have -3 to -4 at 20 kV/cm.
 */
export const QUADRATIC_FIT = ionisationFit(
  {
    id: 'quadratic',
    title: 'quadratic fit of Zaengl and Petcharaks',
    source: 'Petcharaks, thesis ETH Zurich 1995, and Zaengl 1994; pressure counted at 20 C',
    status: 'from-memory',
    stated: { from: STATED.from * FIELD, to: STATED.to * FIELD },
  },
  (field, density) => {
    const x = field / (FIELD * density);
    const overPressure =
      x >= JOIN ? LINE_SLOPE * x + LINE_OFFSET : CURVATURE * Math.max(x - VERTEX, 0) ** 2 + LEAST;
    return overPressure * COEFFICIENT * density;
  },
);
