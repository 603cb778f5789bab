import { type Propagated, type Range, scaled, type Uncertain } from './range.js';

/** A predicted quantity as a range, in `unit`, and the assumption that widens it most. */
export interface Quantity extends Range {
  readonly unit: string;
  readonly dominated_by: string;
}

/** A range in SI as a quantity in the unit it is told in. @param factor SI to that unit */
export function quantity({ dominatedBy, ...range }: Propagated, factor: number, unit: string): Quantity {
  return { ...scaled(range, factor), unit, dominated_by: dominatedBy };
}

/** What was worked out as the input of something else. */
export const asInput = ({ dominatedBy, low, likely, high }: Propagated): Uncertain => ({
  range: { low, likely, high },
  what: dominatedBy,
});
