import type { Machine } from '../machine/machine.js';
import type { Constant } from '../stock/row.js';
import { sparkLength } from './charge/approach.js';
import type { UncertainCircuit } from './charge/machine-circuit.js';
import type { Polarity } from './polarity.js';
import { type Quantity, quantity } from './quantity.js';
import { propagated, type Uncertain } from './range.js';
import { ballAt, sparkTerms } from './sparks.js';

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

const SIGNS = ['positive', 'negative'] as const satisfies readonly Polarity[];

/** Sparks to a ball and to a hand, for either sign. @param voltage V that the machine works at */
export function sparkLengths(machine: Machine, circuit: UncertainCircuit, voltage: Uncertain): Sparks[] {
  const electrodes = [
    ['ball', machine.ball],
    ['hand', HAND.value],
  ] as const;
  return electrodes.flatMap(([to, diameter]) => {
    const balls = ballAt(machine, diameter / 1000);
    return SIGNS.map((terminal): Sparks => {
      const terms = sparkTerms(machine, terminal);
      const inputs = {
        voltage,
        current: circuit.current,
        mobility: circuit.mobility,
        lnN: { range: terms.lnN, what: 'size of a critical avalanche' },
        ballGradient: { range: terms.ballGradient, what: 'mean gradient of a streamer' },
        terminalGradient: { range: terms.terminalGradient, what: 'mean gradient of a streamer' },
      };
      const length = (approach: 'sudden' | 'slow') =>
        quantity(
          propagated(inputs, (at) => {
            const charged = { current: at.current, coronas: [], mobility: at.mobility };
            return sparkLength(charged, at.voltage, balls(at))[approach] ?? 0;
          }),
          1000,
          'mm',
        );
      return { to, diameter, terminal, sudden: length('sudden'), slow: length('slow') };
    });
  });
}
