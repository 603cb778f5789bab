import type { Machine } from '../machine/machine.js';
import type { MachineValues } from '../machine/read.js';
import { resolveMachine } from '../machine/resolve.js';

/** The same machine with some of its values changed: how a remedy is tried before it is told. */
export function changed(machine: Machine, change: (values: MachineValues) => MachineValues): Machine {
  return resolveMachine(change(machine.values), machine.assumed);
}

export function withTubeLength(machine: Machine, length: number): Machine {
  return changed(machine, (values) => ({
    ...values,
    column: { ...values.column, tube: { ...values.column.tube, length } },
  }));
}

/**
 * The value closest to `from` at which something holds, between `from` (where it does not) and `to`, found by halving;
 * undefined when it does not hold at `to` either. What holds must go on holding from there to `to`.
 * @param step to which the answer is rounded, away from `from`
 */
export function nearestThatHolds(
  from: number,
  to: number,
  step: number,
  holds: (value: number) => boolean,
): number | undefined {
  if (!holds(to)) return undefined;
  let [bad, good] = [from, to];
  while (Math.abs(good - bad) > step / 8) {
    const middle = (bad + good) / 2;
    if (holds(middle)) good = middle;
    else bad = middle;
  }
  const rounded = (to > from ? Math.ceil(good / step) : Math.floor(good / step)) * step;
  return Math.abs(rounded - from) > Math.abs(to - from) ? to : rounded;
}

/** A length as the builder thinks of it: mm, and inches beside them where the machine file is in inches or feet. */
export function lengthText(machine: Machine, mm: number): string {
  const { units } = machine.values;
  const text = `${Number(mm.toFixed(mm < 10 ? 2 : 1))} mm`;
  return units === 'in' || units === 'ft' ? `${text} (${Number((mm / 25.4).toFixed(2))} in)` : text;
}
