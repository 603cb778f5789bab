import type { Finding } from '../checks/finding.js';
import type { Prediction } from '../field/predict.js';
import type { Fit } from '../machine/fits.js';

// How numbers are told to people: the same on the command line and on the page.

/** A number with no more digits than it deserves. */
export function number(value: number, digits = 3): string {
  if (!Number.isFinite(value)) return value > 0 ? 'no limit' : String(value);
  const size = value === 0 ? 0 : Math.floor(Math.log10(Math.abs(value)));
  const text = value.toFixed(Math.min(4, Math.max(0, digits - 1 - size)));
  return Number(text) === 0 ? '0' : text;
}

/** The quantities of a prediction in the order in which they are told, and their names. */
export const QUANTITIES = [
  ['voltage', 'voltage'],
  ['spark_to_ball', 'spark to a ball'],
  ['spark_to_ball_slow', '… brought near slowly'],
  ['spark_to_hand', 'spark to a hand'],
  ['spark_to_hand_slow', '… brought near slowly'],
  ['spark_rate', 'sparks to a near ball'],
  ['current', 'belt current'],
  ['charge_time', 'time to charge'],
  ['stays_charged', 'half its charge lasts'],
  ['capacitance', 'capacitance'],
  ['charge', 'charge'],
  ['energy', 'energy'],
  ['energy_with_person', '… with a person'],
  ['ozone', 'ozone in the room'],
] as const satisfies readonly (readonly [keyof Prediction, string])[];

/** A finding's numbers as they are shown. */
export interface FindingNumbers {
  readonly measured: string;
  /** "at least 2.00" */
  readonly bound: string;
  readonly unit: string;
  /** "+150 %"; empty where nothing is required. */
  readonly spare: string;
}

/** Measured, required, unit and margin: with as many digits as it takes to tell the first two apart. */
export function findingNumbers(finding: Finding): FindingNumbers {
  const { measured, required, unit, sense, margin } = finding;
  const spare = Number.isFinite(margin)
    ? `${margin < 0 ? '-' : '+'}${number(Math.abs(100 * margin), 2)} %`
    : '';
  const alike = (digits: number) => number(measured, digits) === number(required, digits);
  const digits = measured === required ? 3 : ([3, 4, 5].find((count) => !alike(count)) ?? 6);
  const bound = `${sense === 'min' ? 'at least' : 'at most'} ${number(required, digits)}`;
  return { measured: number(measured, digits), bound, unit, spare };
}

/** A fit's clearance on the diameter: "snug 0.22 mm (0.09 to 0.35)", likely and range; a squeeze where it is negative. */
export function fitInWords({ class: tightness, clearance }: Pick<Fit, 'class' | 'clearance'>): string {
  const { low, likely, high } = clearance;
  const two = (value: number) => (Math.abs(value) < 0.005 ? '0.00' : value.toFixed(2));
  return `${tightness} ${two(likely)} mm (${two(low)} to ${two(high)})`;
}
