import type { Machine } from '../machine/machine.js';
import type { Constant } from '../stock/row.js';
import { sparkLength } from './charge/approach.js';
import type { Quantity } from './quantity.js';
import { ballAt } from './sparks.js';
import type { Unknowns } from './unknowns.js';

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

/** What a spark goes by, for one draw of what is not known. */
type SparkDraw = Pick<Unknowns, 'current' | 'mobility' | 'lnN' | 'positiveGradient' | 'negativeGradient'> & {
  /** V that the machine works at. */
  readonly working: number;
};

/**
 * Sparks to a ball and to a hand, for either sign.
 * @param told range of what follows from each draw
 */
export function sparkLengths(
  machine: Machine,
  told: (of: (draw: SparkDraw) => number, factor: number, unit: string) => Quantity,
): Sparks[] {
  const electrodes = [
    ['ball', machine.ball],
    ['hand', HAND.value],
  ] as const;
  return electrodes.flatMap(([to, diameter]) => {
    const balls = ballAt(machine, diameter / 1000);
    return (['positive', 'negative'] as const).map((terminal): Sparks => {
      const length = (approach: 'sudden' | 'slow') =>
        told(
          ({ current, mobility, lnN, positiveGradient, negativeGradient, working }) => {
            const [own, other] =
              terminal === 'positive'
                ? [positiveGradient, negativeGradient]
                : [negativeGradient, positiveGradient];
            const at = balls({ lnN, terminalGradient: own, ballGradient: other });
            return sparkLength({ current, coronas: [], mobility }, working, at)[approach] ?? 0;
          },
          1000,
          'mm',
        );
      return { to, diameter, terminal, sudden: length('sudden'), slow: length('slow') };
    });
  });
}
