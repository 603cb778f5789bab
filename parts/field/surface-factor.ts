import type { Machine } from '../machine/machine.js';
import type { Constant } from '../stock/row.js';
import { measuredOr, type Range, rangeOf } from './range.js';

const surface = (value: number): Constant => ({
  value,
  unit: '',
  meaning: 'share of the ideal inception voltage that a terminal with seams, dents and dust reaches',
  source: 'common practice, no source',
  status: 'common-practice',
});

/** Real terminals against perfect ones. */
export const SURFACE_FACTOR = { low: surface(0.5), likely: surface(0.7), high: surface(0.9) };

export function surfaceFactor({ assume }: Machine): Range {
  return measuredOr(rangeOf(SURFACE_FACTOR), assume.surfaceFactor);
}
