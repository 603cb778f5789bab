import type { Status } from '../stock/row.js';

export const SEVERITIES = ['danger', 'caution', 'ok'] as const;
/**
 * - `danger`: a requirement missed at likely values, or pieces that cannot go together
 * - `caution`: missed only in the worst case, or the requirement is common practice or from memory
 * - `ok`
 */
export type Severity = (typeof SEVERITIES)[number];

export type Point = readonly [number, number, number];

/** A change of values in the machine file that was found to lower a finding’s severity by computing again. */
export interface Trial {
  /** In short words, as `a tube of 653 mm`. */
  readonly what: string;
  /** By full key, each in the unit of its declaration; a measured value becomes one reading. */
  readonly values: readonly {
    readonly key: string;
    readonly value: number | string;
    readonly unit: string;
  }[];
}

/** What to change, and those of the changes that the machine file can hold. */
export interface Remedy {
  readonly text: string;
  readonly tries: readonly Trial[];
}

/** One checked statement. Numbers in `unit`; places in the machine’s frame, mm. */
export interface Finding {
  /** Stable: the same statement keeps its id from run to run, as `creepage/upper-comb-to-collar`. */
  readonly id: string;
  readonly severity: Severity;
  readonly title: string;
  readonly measured: number;
  readonly required: number;
  readonly unit: string;
  /** `min`: measured should be at least required. */
  readonly sense: 'min' | 'max';
  /** (measured - required) / required, sign turned for `max`: positive is room to spare. */
  readonly margin: number;
  /** Standard and table, textbook, or "common practice, no source". */
  readonly basis: string;
  readonly status: Status;
  /** What to change and by how much, tried by computing again; empty when nothing needs changing. */
  readonly remedy: string;
  /** The remedy’s alternatives that are changes of values; absent where nothing in the file mends it. */
  readonly tries?: readonly Trial[];
  readonly at?:
    | { readonly point: Point }
    | { readonly path: readonly Point[]; readonly surfaces: readonly string[] };
}

export function isLower(severity: Severity, than: Severity): boolean {
  return SEVERITIES.indexOf(severity) > SEVERITIES.indexOf(than);
}

/** Gravest first, then by id. */
export function byGravity(a: Finding, b: Finding): number {
  const grave = SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity);
  return grave || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}

/** What a finding tells as its remedy: nothing where nothing is wrong, and then the remedy is not worked out. */
export function told(severity: Severity, remedy: () => string | Remedy): Pick<Finding, 'remedy' | 'tries'> {
  if (severity === 'ok') return { remedy: '' };
  const worked = remedy();
  if (typeof worked === 'string') return { remedy: worked };
  return { remedy: worked.text, ...(worked.tries.length > 0 && { tries: worked.tries }) };
}

/** Margin of a requirement; infinite when nothing is required. */
export function marginOf(measured: number, required: number, sense: 'min' | 'max'): number {
  if (required === 0) return measured === 0 ? 0 : Number.POSITIVE_INFINITY * (sense === 'min' ? 1 : -1);
  const margin = (measured - required) / Math.abs(required);
  // Adding zero turns -0 into 0.
  return (sense === 'min' ? margin : -margin) + 0;
}
