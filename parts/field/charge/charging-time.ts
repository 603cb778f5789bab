import { balanceVoltage } from './balance.js';
import { mustBePositive, mustNotBeNegative } from './door.js';
import { type Circuit, checkCircuit, stretches, stretchRoot } from './losses.js';

// SI throughout.

/**
 * Time (s) in which the current, less its losses, brings the terminal from one voltage to another; undefined when it never
 * gets there, as for the balance itself, which it only approaches. The integral of C dV/(I - b V - a V^2) in closed form;
 * without losses C V/I, with a resistance alone -R C ln(1 - V/(I R)).
 * @param capacitance F, above 0
 * @param to V, not below `from`
 */
export function chargingTime(
  capacitance: number,
  circuit: Circuit,
  to: number,
  from = 0,
): number | undefined {
  mustBePositive(capacitance, 'a capacitance');
  mustNotBeNegative(from, 'the voltage to start from');
  mustNotBeNegative(to, 'the voltage to reach');
  if (to < from) throw new RangeError(`${to} V lies below the ${from} V to start from`);
  checkCircuit(circuit);
  if (to === from) return 0;
  const balance = balanceVoltage(circuit);
  if (balance !== undefined && to >= balance) return undefined;

  const { current } = circuit;
  let seconds = 0;
  for (const stretch of stretches(circuit)) {
    const start = Math.max(from, stretch.from);
    const end = Math.min(to, stretch.to);
    if (end <= start) continue;
    const { a, b } = stretch;
    const root = stretchRoot(stretch, current);
    // Without a division by a or b, so that it holds for either or both at 0.
    const left = current - a * start * end - (b * (start + end)) / 2 - (root * (end - start)) / 2;
    if (!(left > 0)) return undefined;
    const x = (root * (end - start)) / left;
    seconds += ((capacitance * (end - start)) / left) * (x < 1e-12 ? 1 : Math.log1p(x) / x);
  }
  return Number.isFinite(seconds) ? seconds : undefined;
}

/**
 * Sparks a second: each takes a share of the charge, and the current less its losses brings it back. I/(C V share) without
 * losses; 0 where the voltage is not reached.
 * @param share of the charge, above 0, at most 1
 */
export function sparkRate(capacitance: number, circuit: Circuit, voltage: number, share: number): number {
  mustBePositive(voltage, 'the voltage of a spark');
  if (!(share > 0 && share <= 1)) throw new RangeError(`a spark takes a share of above 0 to 1, not ${share}`);
  const between = chargingTime(capacitance, circuit, voltage, voltage * (1 - share));
  return between === undefined ? 0 : 1 / between;
}
