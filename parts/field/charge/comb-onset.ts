import type { Machine } from '../../machine/machine.js';
import { VACUUM_PERMITTIVITY } from '../../stock/air.js';
import { beltMaterial } from '../../stock/belts.js';
import { triboelectric } from '../../stock/triboelectric.js';
import { measuredOr, type Propagated, propagated, type Range, rangeOf, scaled } from '../range.js';
import { COMB_ONSET, CONTACT_SHARE } from './assumptions.js';
import { densityCeiling } from './belt.js';
import { mustBePositive } from './door.js';
import { chargingPair } from './pair.js';

// SI throughout.

/** What the comb's onset leaves out; to be said beside it. */
export const ONSET_LEFT_OUT =
  'charge already on the belt, humidity and dust on the roller are left out, and the roller’s surface is taken to insulate';

/**
 * Charge density (C/m2) that the roller needs for the comb before it to reach a voltage: the roller's field, crossing belt
 * and gap, sigma = V eps0/(g + t/er).
 * @param onset V between comb and roller
 * @param gap m of air, comb to belt
 * @param thickness m of belt
 * @param permittivity of the belt, relative, 1 or more
 */
export function rollerDensityNeeded(
  onset: number,
  gap: number,
  thickness: number,
  permittivity: number,
): number {
  mustBePositive(onset, 'an onset voltage');
  mustBePositive(gap, 'a comb’s gap');
  mustBePositive(thickness, 'a belt’s thickness');
  if (!(permittivity >= 1 && Number.isFinite(permittivity)))
    throw new RangeError(`no relative permittivity: ${permittivity}`);
  return (onset * VACUUM_PERMITTIVITY.value) / (gap + thickness / permittivity);
}

/** Difference (C/m2) of roller's and belt's densities; a belt nobody measured is taken as one of the rubbers that were. */
function pairDifference({ rollers, belt }: Machine): { difference: Range; known: boolean } | undefined {
  const pair = chargingPair(rollers.lower.surface, belt.material);
  const roller = pair.roller?.value;
  if (roller === undefined) return undefined;
  const others = pair.belt ? [pair.belt.value] : UNMEASURED_BELT.map((key) => triboelectric(key).value);
  const apart = others.map((other) => Math.abs(roller - other) * 1e-6);
  const [low, high] = [Math.min(...apart), Math.max(...apart)];
  return { difference: { low, likely: (low + high) / 2, high }, known: pair.belt !== undefined };
}

/** What a belt without a published density is taken to lie between (common practice, no source). */
const UNMEASURED_BELT = ['natural-rubber', 'nitrile'] as const;

export interface CombOnset {
  /** C/m2 on the lower roller with which its comb starts. */
  readonly needed: Propagated;
  /** C/m2 that friction puts there; undefined where the roller's material has no published density. */
  readonly reached: Propagated | undefined;
  /** Reached over needed: from 1 on the comb starts. */
  readonly ratio: Propagated | undefined;
  /** Whether both materials have a published density, or the builder measured the roller. */
  readonly known: boolean;
}

/**
 * Whether friction makes the lower comb start: the charge of the roller against what the comb needs. Air takes away what
 * exceeds its ceiling. Undefined for a belt that a supply charges.
 */
export function combOnset(machine: Machine): CombOnset | undefined {
  const { belt, combs, site, assume } = machine;
  if (belt.charging !== 'friction') return undefined;
  const { permittivity } = beltMaterial(belt.material);
  const onset = measuredOr(scaled(rangeOf(COMB_ONSET), 1000), assume.combOnset);
  const need = (volts: number) =>
    rollerDensityNeeded(volts, combs.lower.gap / 1000, belt.thickness / 1000, permittivity.value);
  const needed = propagated({ onset: { range: onset, what: 'voltage at which a comb starts' } }, (at) =>
    need(at.onset),
  );
  const ceiling = densityCeiling(site.relativeDensity);

  if (assume.rollerCharge !== undefined) {
    const measured = measuredOr({ low: 0, likely: 0, high: 0 }, assume.rollerCharge * 1e-6);
    const reached = propagated(
      { roller: { range: measured, what: 'charge measured on the roller' } },
      (at) => at.roller,
    );
    return { needed, reached, ratio: ratioOf(reached, needed), known: true };
  }
  const pair = pairDifference(machine);
  if (!pair) return { needed, reached: undefined, ratio: undefined, known: false };
  const reached = propagated(
    {
      difference: { range: pair.difference, what: 'triboelectric densities of roller and belt' },
      share: { range: rangeOf(CONTACT_SHARE), what: 'share of it that friction reaches' },
    },
    (at) => Math.min(ceiling, at.difference * at.share),
  );
  return { needed, reached, ratio: ratioOf(reached, needed), known: pair.known };
}

function ratioOf(reached: Propagated, needed: Propagated): Propagated {
  return propagated(
    {
      reached: { range: reached, what: reached.dominatedBy },
      needed: { range: needed, what: needed.dominatedBy },
    },
    (at) => at.reached / at.needed,
  );
}
