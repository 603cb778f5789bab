import { VACUUM_PERMITTIVITY } from '../../stock/air.js';
import { mustBePositive, mustNotBeNegative } from './door.js';

// SI throughout.

/** A place that loses current to the air from an onset voltage (V) on, over a distance (m) to ground. */
export interface Corona {
  readonly onset: number;
  readonly distance: number;
}

/** The terminal as a circuit: a current in, and ways out. */
export interface Circuit {
  /** A, brought up by the belt whatever the voltage */
  readonly current: number;
  /** ohm, over the column's surfaces; left out for none */
  readonly leakResistance?: number | undefined;
  /** ohm, down both runs of the belt; left out for none */
  readonly beltResistance?: number | undefined;
  readonly coronas: readonly Corona[];
  /** m2/Vs, of the coronas' ions */
  readonly mobility: number;
}

/**
 * Current (A) of a unipolar corona: I = 2 mu eps0 V (V - Von)/d above its onset. A law of Townsend's form, scaled so that far
 * above onset it goes over into the space-charge limit of about 2 mu eps0 V^2/d (from memory). An upper estimate.
 */
export function coronaCurrent(voltage: number, { onset, distance }: Corona, mobility: number): number {
  mustBePositive(onset, 'a corona’s onset voltage');
  mustBePositive(distance, 'a corona’s distance to ground');
  mustBePositive(mobility, 'a mobility');
  return voltage <= onset ? 0 : coronaFactor(distance, mobility) * voltage * (voltage - onset);
}

const coronaFactor = (distance: number, mobility: number) =>
  (2 * mobility * VACUUM_PERMITTIVITY.value) / distance;

export function checkCircuit({ current, leakResistance, beltResistance, coronas, mobility }: Circuit): void {
  mustNotBeNegative(current, 'the charging current');
  if (leakResistance !== undefined) mustBePositive(leakResistance, 'the column’s resistance');
  if (beltResistance !== undefined) mustBePositive(beltResistance, 'the belt’s resistance');
  mustBePositive(mobility, 'a mobility');
  for (const { onset, distance } of coronas) {
    mustBePositive(onset, 'a corona’s onset voltage');
    mustBePositive(distance, 'a corona’s distance to ground');
  }
}

/** Currents (A) out of the terminal at a voltage. */
export interface Losses {
  readonly leakage: number;
  readonly belt: number;
  readonly coronas: readonly number[];
}

export function lossesAt(circuit: Circuit, voltage: number): Losses {
  const ohmic = (resistance: number | undefined) => (resistance === undefined ? 0 : voltage / resistance);
  return {
    leakage: ohmic(circuit.leakResistance),
    belt: ohmic(circuit.beltResistance),
    coronas: circuit.coronas.map((corona) => coronaCurrent(voltage, corona, circuit.mobility)),
  };
}

export function totalLoss(circuit: Circuit, voltage: number): number {
  const { leakage, belt, coronas } = lossesAt(circuit, voltage);
  return coronas.reduce((sum, each) => sum + each, leakage + belt);
}

/** Between two onsets the losses are a V^2 + b V exactly, a >= 0. */
export interface Stretch {
  readonly from: number;
  /** V; infinite for the last stretch. */
  readonly to: number;
  readonly a: number;
  readonly b: number;
}

export function stretches(circuit: Circuit): Stretch[] {
  const per = (resistance: number | undefined) => (resistance === undefined ? 0 : 1 / resistance);
  const conductance = per(circuit.leakResistance) + per(circuit.beltResistance);
  const burning = [...circuit.coronas].sort((one, other) => one.onset - other.onset);
  const ends = [0, ...burning.map(({ onset }) => onset)];
  return ends.map((from, count) => {
    const lit = burning.slice(0, count).map(({ onset, distance }) => ({
      onset,
      factor: coronaFactor(distance, circuit.mobility),
    }));
    return {
      from,
      to: ends[count + 1] ?? Number.POSITIVE_INFINITY,
      a: lit.reduce((sum, { factor }) => sum + factor, 0),
      b: lit.reduce((sum, { factor, onset }) => sum - factor * onset, conductance),
    };
  });
}

/** sqrt(b^2 + 4 a I): what both the balance and the time to a voltage need of a stretch. */
export const stretchRoot = ({ a, b }: Stretch, current: number): number => Math.sqrt(b * b + 4 * a * current);
