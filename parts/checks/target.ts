import { outlook } from '../field/predict.js';
import { attempt } from './change.js';
import type { Check } from './check.js';
import { judge } from './judge.js';

/** Whether the machine gets to its target before anything else gives way. No finding without a target. */
export const checkTarget: Check = (machine, { prediction }) => {
  const { targetVoltage, terminal } = machine;
  if (targetVoltage === undefined) return [];
  const { voltage, limiting } = prediction;
  return [
    judge({
      id: 'target/voltage',
      title: 'Predicted voltage against the target',
      measured: voltage.likely,
      worst: voltage.low,
      required: targetVoltage / 1000,
      unit: 'kV',
      sense: 'min',
      basis: `prediction ${voltage.low.toFixed(0)}, ${voltage.likely.toFixed(0)}, ${voltage.high.toFixed(0)} kV (low, likely, high); first to give way: ${limiting}`,
      // The limits behind it rest on surface factors and gradients of common practice.
      status: 'common-practice',
      remedy: () => {
        const low = Math.floor(voltage.low);
        return {
          text: `a target of ${low} kV is reached even at the low end, one of ${Math.floor(voltage.likely)} kV probably; see the findings of the ways for what raises them`,
          tries: attempt(
            machine,
            `a target of ${low} kV`,
            { 'target.voltage': low * 1000 },
            (tried) => outlook(tried).voltage.low * 1000 >= tried.targetVoltage!,
          ),
        };
      },
      at: { point: [0, 0, terminal.topZ] },
    }),
  ];
};
