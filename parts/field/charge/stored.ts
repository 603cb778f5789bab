import { mustBePositive } from './door.js';

// SI throughout.

/** Charge (C) on a capacitance (F) at a voltage (V): textbook formula. */
export function storedCharge(capacitance: number, voltage: number): number {
  return capacitance * voltage;
}

/** How long a terminal stays charged when nothing brings up more. */
export interface StaysCharged {
  /** s, until half the voltage is left */
  readonly half: number;
  /** s, until 1/e of it is left: R C */
  readonly timeConstant: number;
}

/** Resistances (ohm) side by side; undefined ones are absent. Undefined when none is there. */
export function sideBySide(...resistances: readonly (number | undefined)[]): number | undefined {
  const present = resistances.filter((each) => each !== undefined);
  for (const resistance of present) mustBePositive(resistance, 'a resistance');
  return present.length === 0 ? undefined : 1 / present.reduce((sum, each) => sum + 1 / each, 0);
}

/** Discharge of a capacitance (F) over a resistance (ohm): textbook formula. Coronas, which end below their onset, are left out. */
export function staysCharged(capacitance: number, resistance: number): StaysCharged {
  mustBePositive(capacitance, 'a capacitance');
  mustBePositive(resistance, 'a resistance');
  const timeConstant = resistance * capacitance;
  return { half: timeConstant * Math.LN2, timeConstant };
}
