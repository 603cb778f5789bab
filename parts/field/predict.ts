import type { Machine } from '../machine/machine.js';
import { beltCurrent, densityCeiling } from './belt-current.js';
import { terminalCapacitance } from './capacitance.js';
import { bodyCapacitance, energyAt } from './energy.js';
import { ballGradient } from './gradients.js';
import { type Polarity, terminalPolarity } from './polarity.js';
import { combine, least, over, type Range, scaled, times } from './range.js';
import { textbookLimit } from './terminal-limit.js';
import type { LimitWay } from './way.js';
import { limitWays } from './ways.js';

/** A predicted quantity as a range, in `unit`, and the assumption that widens it most. */
export interface Quantity extends Range {
  readonly unit: string;
  readonly dominated_by: string;
}

/** What the machine is expected to do, from closed forms: the field is not solved. */
export interface Prediction {
  /** pF, terminal against ground */
  readonly capacitance: Quantity;
  /** kV, at the weakest way */
  readonly voltage: Quantity;
  /** uA, brought up by the belt */
  readonly current: Quantity;
  /** s, to that voltage */
  readonly charge_time: Quantity;
  /** mm, to a grounded ball of about 25 mm */
  readonly spark_to_ball: Quantity;
  /** J */
  readonly energy: Quantity;
  /** J, with a person on the terminal */
  readonly energy_with_person: Quantity;
  /** Every way with the voltage (kV) at which it gives way. */
  readonly limits: readonly { readonly id: string; readonly way: string; readonly voltage: Range }[];
  /** The way that gives way first at likely values. */
  readonly limiting: string;
  readonly polarity: Polarity;
  /** kV, at which the machine is meant to discharge: what ways are compared with. */
  readonly discharge: number;
  readonly closed_form: true;
  readonly basis: readonly string[];
}

/** Voltage (V) at which the machine is meant to discharge: the target, else where the terminal itself does. */
function dischargeVoltage(machine: Machine, ways: readonly LimitWay[]): number {
  return machine.targetVoltage ?? ways.find(({ kind }) => kind === 'terminal')!.voltage.likely;
}

/** Predicts by closed forms. Pure. The machine’s ways can be handed in where they are known already. */
export function predict(machine: Machine, ways: readonly LimitWay[] = limitWays(machine)): Prediction {
  const voltage = least(ways.map((way) => way.voltage));
  const limiting = ways.reduce((weakest, way) =>
    way.voltage.likely < weakest.voltage.likely ? way : weakest,
  );
  const capacitance = terminalCapacitance(machine);
  const current = beltCurrent(machine);
  const polarity = terminalPolarity(machine);
  const charge = times(capacitance, voltage);
  const withPerson = combine(
    [capacitance, bodyCapacitance(machine)],
    (terminal, person) => terminal! + person!,
  );
  const quantity = (range: Range, factor: number, unit: string, dominated_by: string): Quantity => ({
    ...scaled(range, factor),
    unit,
    dominated_by,
  });
  return {
    capacitance: quantity(capacitance, 1e12, 'pF', 'how far plate and floor act as ground'),
    voltage: quantity(voltage, 1e-3, 'kV', `${limiting.title}: ${limiting.basis}`),
    current: quantity(current, 1e6, 'uA', 'share of the ceiling that friction puts on the belt'),
    charge_time: quantity(over(charge, current), 1, 's', 'current of the belt'),
    spark_to_ball: quantity(
      over(voltage, ballGradient(polarity)),
      1e3,
      'mm',
      'voltage, and the mean gradient of a streamer',
    ),
    energy: quantity(energyAt(capacitance, voltage), 1, 'J', 'voltage, squared'),
    energy_with_person: quantity(
      energyAt(withPerson, voltage),
      1,
      'J',
      'capacitance of the person, 100 to 300 pF',
    ),
    limits: ways.map(({ id, title, voltage: limit }) => ({ id, way: title, voltage: scaled(limit, 1e-3) })),
    limiting: limiting.title,
    polarity,
    discharge: dischargeVoltage(machine, ways) / 1000,
    closed_form: true,
    basis: basisOf(machine, polarity, voltage),
  };
}

const SIGN: Record<Polarity, string> = {
  positive: 'the terminal is positive: negative streamers from the ball, 10 to 12 kV/cm',
  negative: 'the terminal is negative: positive streamers from the ball, 4.5 to 5 kV/cm',
  unknown: 'the terminal’s sign is not known: 4.5 to 12 kV/cm',
};

function basisOf(machine: Machine, polarity: Polarity, voltage: Range): string[] {
  const ceiling = densityCeiling(machine.site.relativeDensity) * 1e6;
  const textbook = textbookLimit(machine.terminal.diameter.mean / 2000) / 1000;
  const byRule = (voltage.likely / 30e5) * 1000;
  return [
    'Closed forms: the field around column and lip is not solved.',
    `Belt: ${ceiling.toFixed(1)} uC/m2 is the one-sided ceiling (eps0 times 3 MV/m); 0.1, 0.3, 0.6 of it are taken for friction (common practice).`,
    `Spark: ${SIGN[polarity]} as mean gradient; the rule of 30 kV/cm, for large electrodes, would say ${byRule.toFixed(0)} mm.`,
    `Terminal: the textbook’s 3 MV/m times its radius would say ${textbook.toFixed(0)} kV.`,
    'Not modelled: space charge, glow, brush limiting, leakage over the column’s surface, a hand that drains the terminal before it sparks.',
  ];
}
