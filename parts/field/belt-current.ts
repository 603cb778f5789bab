import type { Machine } from '../machine/machine.js';
import { CHARGED_SHARE } from './charge/assumptions.js';
import { densityCeiling, sheetCurrent } from './charge/belt.js';
import { atBothRuns } from './charge/belt-resistance.js';
import { type Range, rangeOf, scaled, withLikely } from './range.js';

export { densityCeiling, sheetCurrent } from './charge/belt.js';

// SI throughout.

/** Current (A) that the belt brings up; only what passes under both combs counts. */
export function beltCurrent({ combs, belt, site, assume }: Machine): Range {
  const width = Math.min(combs.lower.width, combs.upper.width) / 1000;
  const share = withLikely(rangeOf(CHARGED_SHARE[belt.charging]), assume.beltFraction);
  return scaled(share, sheetCurrent(width, belt.speed, densityCeiling(site.relativeDensity)));
}

/** Voltage (V) at which a belt that conducts takes down what it brings up. */
export function leakageLimit(machine: Machine): Range | undefined {
  const { resistance } = machine.belt;
  return resistance === undefined ? undefined : scaled(beltCurrent(machine), atBothRuns(resistance));
}
