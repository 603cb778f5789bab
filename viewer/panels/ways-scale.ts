import type { Prediction } from '../../parts/index.js';

type Limits = Prediction['limits'];

/** How many times the voltage aimed for the scale reaches at most: what is stronger still need not be told apart. */
const MOST = 2.5;
/** And at least: the line of the voltage aimed for is not to stand at its end. */
const LEAST = 1.25;

/** Ways by their likely voltage, the weakest first; of the same, by the lower low one. */
export function ranked(limits: Limits): Limits {
  return [...limits].sort((a, b) => a.voltage.likely - b.voltage.likely || a.voltage.low - b.voltage.low);
}

/** kV at the end of the scale that all ways share. */
export function fullScale(limits: Limits, discharge: number): number {
  const highest = Math.max(0, ...limits.map(({ voltage }) => voltage.high));
  return Math.min(MOST * discharge, Math.max(LEAST * discharge, highest));
}
