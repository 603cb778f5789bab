import { chargingPair } from '../field/charge/pair.js';
import { CLEAR_PLACES, placesApart } from '../field/polarity.js';
import type { Machine } from '../machine/machine.js';
import { beltMaterial } from '../stock/belts.js';
import { attempt } from './change.js';
import type { Check } from './check.js';
import type { Finding } from './finding.js';
import { judge } from './judge.js';

export const checkCharging: Check = (machine) => [charging(machine)];

/** Places between lower roller and belt, whichever way; 0 where the roller's is not agreed on. */
function placesBetween({ rollers, belt }: Machine): number {
  return Math.abs(placesApart(rollers.lower.surface, belt.material) ?? 0);
}

/**
 * Belt and lower roller charge each other with a sign that is known. How much is not: the prediction takes a range. An
 * unknown sign is a caution, never a danger, since the machine charges all the same.
 */
export function charging(machine: Machine): Finding {
  const { rollers, belt } = machine;
  const apart = placesApart(rollers.lower.surface, belt.material);
  const { terminal: sign, why } = chargingPair(rollers.lower.surface, belt.material);
  const published = beltMaterial(belt.material).triboelectric;
  const density = published
    ? `${belt.material} ${published.value} uC/m2 (${published.source})`
    : `no published charge density of ${belt.material}`;
  const place =
    apart === undefined
      ? `the place of ${rollers.lower.surface} is not agreed on`
      : `terminal ${sign}, ${why}`;
  return judge({
    id: 'belt/charging',
    title: `Belt of ${belt.material} on a lower roller of ${rollers.lower.surface}: places apart in the triboelectric order`,
    measured: placesBetween(machine),
    required: CLEAR_PLACES,
    unit: 'places',
    sense: 'min',
    basis: `${place}; qualitative order nylon, acrylic, metals, rubbers (between the ends: common practice, no source), PE, PVC, PTFE, silicone; ${density}`,
    status: 'common-practice',
    remedy: () => ({
      text: 'a lower roller of PTFE (terminal positive) or nylon (terminal negative) under a rubber belt, or find the sign with a charged scrap of known sign',
      tries: (['ptfe', 'nylon'] as const).flatMap((material) =>
        attempt(
          machine,
          `a lower roller of ${material}`,
          { 'rollers.lower.material': material },
          (tried) => placesBetween(tried) >= CLEAR_PLACES,
        ),
      ),
    }),
    at: { point: [rollers.lower.outer.mean / 2, 0, rollers.lower.axisZ] },
  });
}
