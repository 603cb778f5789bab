import type { Machine } from '../machine/machine.js';
import type { Constant } from '../stock/row.js';
import { combine, type Range, withLikely } from './range.js';

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

export function energyAt(capacitance: Range, voltage: Range): Range {
  return combine([capacitance, voltage], (farads, volts) => storedEnergy(farads!, volts!));
}

/** F */
export function bodyCapacitance({ assume }: Machine): Range {
  const { low, likely, high } = BODY_CAPACITANCE;
  const picofarads = withLikely(
    { low: low.value, likely: likely.value, high: high.value },
    assume.bodyCapacitance,
  );
  return combine([picofarads], (value) => value * 1e-12);
}
