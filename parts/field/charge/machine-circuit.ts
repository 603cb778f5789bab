import type { Machine } from '../../machine/machine.js';
import { measuredOr, type Range, rangeOf, scaled } from '../range.js';
import { CORONA_MOBILITY, SPARK_SHARE } from './assumptions.js';
import { atBothRuns } from './belt-resistance.js';
import type { Circuit, Corona } from './losses.js';

// SI throughout.

/** Mobility (m2/Vs) of the ions that a corona's current is carried by. */
export function coronaMobility({ assume }: Machine): Range {
  return scaled(measuredOr(rangeOf(CORONA_MOBILITY), assume.coronaMobility), 1e-4);
}

/** Share of its charge that the terminal loses with one spark. */
export function sparkShare({ assume }: Machine): Range {
  return measuredOr(rangeOf(SPARK_SHARE), assume.sparkShare);
}

/** What a circuit takes from what is not known of a machine. */
export interface CircuitValues {
  /** A */
  readonly current: number;
  /** ohm */
  readonly leak: number;
  /** m2/Vs */
  readonly mobility: number;
}

/** What charges and unloads a machine's terminal; where it goes into corona is for the field to say. */
export function circuitOf(
  { belt: { resistance } }: Machine,
  { current, leak, mobility }: CircuitValues,
  coronas: readonly Corona[],
): Circuit {
  return {
    current,
    leakResistance: leak,
    beltResistance: resistance === undefined ? undefined : atBothRuns(resistance),
    coronas,
    mobility,
  };
}
