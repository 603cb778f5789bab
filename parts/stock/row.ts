/**
 * How far a number has been confirmed. One list for code, findings, tables and documents.
 *
 * - `verified`: the named source (or a text of it) was read
 * - `secondary`: read in a text that quotes the named source
 * - `computed`: arithmetic from the formula named with it
 * - `from-memory`: believed to be in the named source; not confirmed
 * - `common-practice`: no published source behind it
 */
export const STATUSES = ['verified', 'secondary', 'computed', 'from-memory', 'common-practice'] as const;
export type Status = (typeof STATUSES)[number];

/** Anything taken from outside: where it is from and how far that was confirmed. */
export interface Sourced {
  readonly source: string;
  readonly status: Status;
}

/** One physical number with its unit, meaning and origin. */
export interface Constant extends Sourced {
  readonly value: number;
  readonly unit: string;
  readonly meaning: string;
}
