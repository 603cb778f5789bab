import { type BeltKey, beltMaterial } from '../../stock/belts.js';
import { type PlasticKey, plastic } from '../../stock/plastics.js';
import { type Constant, STATUSES, type Status } from '../../stock/row.js';
import { CLEAR_PLACES, type Polarity, placesApart } from '../polarity.js';

/** Closer densities than this do not tell a sign. */
export const CLEAR_DENSITY: Constant = {
  value: 10,
  unit: 'uC/m2',
  meaning: 'difference of two charge densities below which additives, bloom and wear decide the sign',
  source: 'common practice, no source',
  status: 'common-practice',
};

/** What lower roller and belt are known to do to each other. */
export interface Pair {
  /** uC/m2 against mercury; undefined where no value is known. */
  readonly roller: Constant | undefined;
  readonly belt: Constant | undefined;
  /** Sign of the terminal by the published densities, and by the qualitative order. */
  readonly byDensity: Polarity;
  readonly byOrder: Polarity;
  /** Sign of the terminal; unknown where neither tells, or where they contradict each other. */
  readonly terminal: Polarity;
  /** Of what the sign rests on; undefined for an unknown sign. */
  readonly status: Status | undefined;
  readonly why: string;
}

const rank = (status: Status) => STATUSES.indexOf(status);
const weaker = (a: Status, b: Status) => (rank(a) > rank(b) ? a : b);
const stronger = (a: Status, b: Status) => (rank(a) < rank(b) ? a : b);

/** The roller charged less than the belt is the negative one, and makes the terminal positive. */
const signOf = (rollerBelowBelt: number, clear: number): Polarity => {
  if (Math.abs(rollerBelowBelt) < clear) return 'unknown';
  return rollerBelowBelt > 0 ? 'positive' : 'negative';
};

/**
 * Sign that a lower roller and a belt give the terminal, by two independent lists: published densities, and the
 * qualitative order. The roller takes one sign, the lower comb sprays the other one onto the belt.
 */
export function chargingPair(rollerKey: PlasticKey, beltKey: BeltKey): Pair {
  const roller = plastic(rollerKey).triboelectric;
  const belt = beltMaterial(beltKey).triboelectric;
  const byDensity = roller && belt ? signOf(belt.value - roller.value, CLEAR_DENSITY.value) : 'unknown';
  const byOrder = signOf(placesApart(rollerKey, beltKey) ?? 0, CLEAR_PLACES);
  // Only silicone has a place of its own in the published order; the other belts are taken to lie between its ends.
  const orderStatus: Status = beltKey === 'silicone' ? 'verified' : 'common-practice';
  const densityStatus = roller && belt && weaker(roller.status, belt.status);
  const pair = { roller, belt, byDensity, byOrder };

  if (byDensity === 'unknown' && byOrder === 'unknown')
    return {
      ...pair,
      terminal: 'unknown',
      status: undefined,
      why: 'neither densities nor order tell the sign',
    };
  if (byDensity === 'unknown')
    return { ...pair, terminal: byOrder, status: orderStatus, why: 'by the qualitative order' };
  if (byOrder === 'unknown')
    return { ...pair, terminal: byDensity, status: densityStatus, why: 'by the published densities' };
  if (byDensity !== byOrder)
    return {
      ...pair,
      terminal: 'unknown',
      status: undefined,
      why: `published densities make the terminal ${byDensity}, the qualitative order ${byOrder}`,
    };
  return {
    ...pair,
    terminal: byOrder,
    status: stronger(densityStatus!, orderStatus),
    why: 'by published densities and qualitative order alike',
  };
}
