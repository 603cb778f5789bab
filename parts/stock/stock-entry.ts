import type { Constant, Sourced, Status } from './row.js';

/** One printed statement about a stocked thing. */
export interface StockFact {
  readonly label: string;
  readonly value: string | number;
  readonly unit: string;
  readonly source: string;
  readonly status: Status;
}

/** What the tables know of one thing; `missing` names what they do not. */
export interface StockEntry {
  readonly kind: string;
  readonly name: string;
  readonly facts: readonly StockFact[];
  readonly missing: readonly string[];
}

/** Facts of one origin: label, value, unit. Undefined values are left out. */
export function factsOf(
  { source, status }: Sourced,
  ...rows: readonly (readonly [label: string, value: string | number | undefined, unit?: string])[]
): StockFact[] {
  return rows.flatMap(([label, value, unit = 'mm']) =>
    value === undefined ? [] : [{ label, value, unit, source, status }],
  );
}

export function factOf({ meaning, value, unit, source, status }: Constant): StockFact {
  return { label: meaning, value, unit: unit === '1' ? '' : unit, source, status };
}

/** Where a fact says nothing but that it is not there. */
export function entry(
  kind: string,
  name: string,
  facts: readonly StockFact[],
  missing: readonly string[] = [],
): StockEntry {
  return { kind, name, facts, missing };
}
