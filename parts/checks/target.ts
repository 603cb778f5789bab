import type { Check } from './check.js';
import { judge } from './judge.js';

/** Whether the machine gets to its target before anything else gives way. No finding without a target. */
export const checkTarget: Check = ({ targetVoltage, terminal }, { prediction }) => {
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
      basis: `closed-form prediction ${voltage.low.toFixed(0)}, ${voltage.likely.toFixed(0)}, ${voltage.high.toFixed(0)} kV (low, likely, high); first to give way: ${limiting}`,
      // The limits behind it rest on surface factors and gradients of common practice.
      status: 'common-practice',
      remedy: () =>
        `a target of ${Math.floor(voltage.low)} kV is reached even at the low end, one of ${Math.floor(voltage.likely)} kV probably; see the findings of the ways for what raises them`,
      at: { point: [0, 0, terminal.topZ] },
    }),
  ];
};
