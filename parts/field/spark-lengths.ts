import type { Machine } from '../machine/machine.js';
import type { Constant } from '../stock/row.js';
import { sparkLength } from './charge/approach.js';
import { type Quantity, quantity } from './quantity.js';
import type { Range } from './range.js';
import { ballAt } from './sparks.js';
import { rangeFrom, type Unknowns } from './unknowns.js';

/** A fingertip or knuckle counts as a ball of this size. */
export const HAND: Constant = {
  value: 25,
  unit: 'mm',
  meaning: 'diameter of the ball that stands for a hand',
  source: 'common practice, no source',
  status: 'common-practice',
};

/** Sparks to one grounded electrode over the terminal’s top, for one sign of the terminal. */
export interface Sparks {
  readonly to: 'ball' | 'hand';
  /** mm */
  readonly diameter: number;
  readonly terminal: 'positive' | 'negative';
  /** mm, when it comes near faster than the terminal loses its charge. */
  readonly sudden: Quantity;
  /** mm, when it comes near slowly and its corona takes charge off first; 0 where it bleeds the terminal without a spark. */
  readonly slow: Quantity;
}

/**
 * Sparks to a ball and to a hand, for either sign.
 * @param workingAt V that the machine works at, for one choice of what is not known
 */
export function sparkLengths(machine: Machine, workingAt: (values: Unknowns) => number): Sparks[] {
  const electrodes = [
    ['ball', machine.ball],
    ['hand', HAND.value],
  ] as const;
  return electrodes.flatMap(([to, diameter]) => {
    const balls = ballAt(machine, diameter / 1000);
    return (['positive', 'negative'] as const).map((terminal): Sparks => {
      const length = (approach: 'sudden' | 'slow') =>
        quantity(
          rangeFrom(machine, (values) => {
            const { current, mobility, lnN, positiveGradient, negativeGradient } = values;
            const [own, other] =
              terminal === 'positive'
                ? [positiveGradient, negativeGradient]
                : [negativeGradient, positiveGradient];
            const at = balls({ lnN, terminalGradient: own, ballGradient: other });
            const charged = { current, coronas: [], mobility };
            return sparkLength(charged, workingAt(values), at)[approach] ?? 0;
          }),
          1000,
          'mm',
        );
      const sudden = length('sudden');
      return { to, diameter, terminal, sudden, slow: within(length('slow'), sudden) };
    });
  });
}

/** Slow sparks are never longer than sudden ones; combining deviations may say so at the ends of the ranges. */
function within(slow: Quantity, sudden: Range): Quantity {
  return {
    ...slow,
    low: Math.min(slow.low, sudden.low),
    likely: Math.min(slow.likely, sudden.likely),
    high: Math.min(slow.high, sudden.high),
  };
}
