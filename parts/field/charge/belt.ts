import type { Machine } from '../../machine/machine.js';
import { BREAKDOWN_FIELD, VACUUM_PERMITTIVITY } from '../../stock/air.js';
import { measuredOr, type Propagated, propagated, type Range, rangeOf, scaled } from '../range.js';
import { BELT_MARGIN, CHARGED_SHARE, MOST_MARGIN } from './assumptions.js';
import { mustBePositive } from './door.js';

// SI throughout.

/** What the belt's current leaves out; to be said beside it. */
export const BELT_LEFT_OUT =
  'the falling run is taken as discharged: an upper comb that charges it oppositely would add to the current and take from the net charge along the column';

/**
 * Charge density (C/m2) of a sheet whose field on one side reaches the breakdown of air: eps0 E, 26.6 uC/m2 at density 1
 * (textbook formula with OpenStax' 3 MV/m). Twice as much where the field leaves on both sides.
 * @param relativeDensity of air, 1 at 20 C and 101.3 kPa
 */
export function densityCeiling(relativeDensity: number): number {
  return VACUUM_PERMITTIVITY.value * BREAKDOWN_FIELD.value * relativeDensity;
}

/** Current (A) of a sheet of charge that moves: width (m) times speed (m/s) times density (C/m2). */
export function sheetCurrent(width: number, speed: number, density: number): number {
  return width * speed * density;
}

/** Charge (C/m) along a run that carries a current (A) at a speed (m/s). */
export function lineCharge(current: number, speed: number): number {
  mustBePositive(speed, 'the belt’s speed');
  return current / speed;
}

/** Width (m) of belt that carries charge: what passes under both combs, less the strips at the belt's edges. */
export function chargedWidth({ belt, combs, assume }: Machine): Range {
  const table = rangeOf(BELT_MARGIN);
  const most = MOST_MARGIN.value * belt.width;
  const margin = measuredOr(
    {
      low: Math.min(table.low, most),
      likely: Math.min(table.likely, most),
      high: Math.min(table.high, most),
    },
    assume.beltMargin,
  );
  const under = Math.min(combs.lower.width, combs.upper.width);
  const left = (strip: number) => Math.min(under, belt.width - 2 * strip) / 1000;
  return { low: left(margin.high), likely: left(margin.likely), high: left(margin.low) };
}

/** Share of the one-sided ceiling that the belt reaches, by the way it is charged. */
export function chargedShare({ belt, assume }: Machine): Range {
  return measuredOr(rangeOf(CHARGED_SHARE[belt.charging]), assume.beltFraction);
}

export interface BeltCharge {
  /** A, brought up; also what the terminal gives into a short circuit. */
  readonly current: Propagated;
  /** C/m along the rising run, without sign. */
  readonly lineCharge: Range;
  /** C/m2 on the rising run, without sign. */
  readonly density: Range;
}

/** What the belt carries and brings up. The falling run is taken as discharged, see `BELT_LEFT_OUT`. */
export function beltCharge(machine: Machine): BeltCharge {
  const { belt, site } = machine;
  const ceiling = densityCeiling(site.relativeDensity);
  const share = chargedShare(machine);
  const current = propagated(
    {
      share: { range: share, what: `share of the ceiling that a belt carries, charging ${belt.charging}` },
      width: { range: chargedWidth(machine), what: 'width of belt that carries charge' },
    },
    (at) => sheetCurrent(at.width, belt.speed, at.share * ceiling),
  );
  return { current, lineCharge: scaled(current, 1 / belt.speed), density: scaled(share, ceiling) };
}
