import type { Constant } from '../stock/row.js';

/** A requirement that has no published source behind it. */
export const practice = (value: number, unit: string, meaning: string): Constant => ({
  value,
  unit,
  meaning,
  source: 'common practice, no source',
  status: 'common-practice',
});
