import { mustBePositive } from './door.js';
import {
  type Circuit,
  checkCircuit,
  type Losses,
  lossesAt,
  type Stretch,
  stretches,
  stretchRoot,
  totalLoss,
} from './losses.js';

// SI throughout.

/** What keeps the voltage from rising: a spark, or the loss that takes most of the current. */
export type LimitedBy =
  | { readonly kind: 'spark' | 'leakage' | 'belt' }
  /** Index into the circuit's coronas. */
  | { readonly kind: 'corona'; readonly index: number };

export interface Balance {
  /** V, 0 without a current */
  readonly voltage: number;
  readonly limitedBy: LimitedBy;
  /** A, at that voltage */
  readonly losses: Losses;
  /** A, left over to recharge after sparks; 0 in a balance of losses. */
  readonly spare: number;
}

/**
 * Voltage (V) at which the losses take all of the current; undefined when nothing takes it and the voltage rises on.
 * Exact: losses are quadratic between onsets, grow with voltage, and never jump.
 */
export function balanceVoltage(circuit: Circuit): number | undefined {
  checkCircuit(circuit);
  const { current } = circuit;
  if (current === 0) return 0;
  for (const stretch of stretches(circuit)) {
    const lost =
      stretch.to < Number.POSITIVE_INFINITY ? totalLoss(circuit, stretch.to) : Number.POSITIVE_INFINITY;
    if (lost >= current) return rootWithin(stretch, current);
  }
  return undefined;
}

/** The voltage in a stretch where a V^2 + b V reaches the current, written so that no digits cancel. */
function rootWithin(stretch: Stretch, current: number): number | undefined {
  const { a, b, from, to } = stretch;
  if (a === 0 && b <= 0) return undefined;
  const root = stretchRoot(stretch, current);
  const voltage = b >= 0 ? (2 * current) / (b + root) : (root - b) / (2 * a);
  return Math.min(Math.max(voltage, from), to);
}

/**
 * Voltage that a terminal works at: where belt current and losses balance, or the lowest voltage at which something
 * sparks if that comes first.
 * @param spark V, above 0
 * @throws RangeError for anything that is not finite or out of its range
 */
export function workingBalance(circuit: Circuit, spark: number): Balance {
  mustBePositive(spark, 'the voltage of the weakest spark');
  const balanced = balanceVoltage(circuit);
  const sparks = balanced === undefined || balanced >= spark;
  const voltage = sparks ? spark : balanced;
  const losses = lossesAt(circuit, voltage);
  const limitedBy: LimitedBy = sparks ? { kind: 'spark' } : greatestLoss(losses);
  return {
    voltage,
    limitedBy,
    losses,
    spare: sparks ? Math.max(0, circuit.current - totalLoss(circuit, voltage)) : 0,
  };
}

function greatestLoss({ leakage, belt, coronas }: Losses): LimitedBy {
  const strongest = Math.max(0, ...coronas);
  if (strongest > leakage && strongest > belt) return { kind: 'corona', index: coronas.indexOf(strongest) };
  return { kind: belt > leakage ? 'belt' : 'leakage' };
}
