import type { Machine } from '../machine/machine.js';
import type { Constant } from '../stock/row.js';
import { measuredOr, type Range, rangeOf, scaled } from './range.js';

const body = (value: number): Constant => ({
  value,
  unit: 'pF',
  meaning: 'capacitance of a person against ground',
  source: 'common practice, no source; makers of static-control gear quote tens of pF to 500 pF',
  status: 'common-practice',
});
export const BODY_CAPACITANCE = { low: body(100), likely: body(150), high: body(300) };

/** Energy (J) in a capacitance (F) at a voltage (V): textbook formula. */
export function storedEnergy(capacitance: number, voltage: number): number {
  return 0.5 * capacitance * voltage ** 2;
}

/** F */
export function bodyCapacitance({ assume }: Machine): Range {
  return scaled(measuredOr(rangeOf(BODY_CAPACITANCE), assume.bodyCapacitance), 1e-12);
}
