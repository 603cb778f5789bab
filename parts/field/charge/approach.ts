import { workingBalance } from './balance.js';
import { mustBePositive } from './door.js';
import type { Circuit } from './losses.js';

// SI throughout.

/** A grounded ball or hand at a distance: where it goes into corona, and where a spark crosses to it. */
export interface Electrode {
  /** m to the terminal */
  readonly distance: number;
  /** V on the terminal at which corona starts from the electrode */
  readonly onset: number;
  /** V on the terminal at which a spark crosses */
  readonly spark: number;
}

/**
 * Voltage (V) that a terminal holds with a grounded electrode in corona before it: the electrode's current is one more
 * loss.
 * @param limit V, of the weakest spark elsewhere
 */
export function voltageHeld(circuit: Circuit, limit: number, { onset, distance }: Electrode): number {
  return workingBalance({ ...circuit, coronas: [...circuit.coronas, { onset, distance }] }, limit).voltage;
}

export interface SparkLength {
  /** m, when the electrode is brought near faster than the terminal loses charge; undefined when no spark crosses. */
  readonly sudden: number | undefined;
  /** m, when it is brought near slowly and its corona unloads the terminal first; never more than `sudden`. */
  readonly slow: number | undefined;
}

/**
 * Longest spark to a grounded electrode that comes nearer, at full voltage and with its corona in the balance. The electrode
 * is known at some distances, and taken to change evenly between them.
 * @param samples in any order, each distance once, at least one
 * @throws RangeError for samples that are no electrodes
 */
export function sparkLength(circuit: Circuit, limit: number, samples: readonly Electrode[]): SparkLength {
  if (samples.length === 0) throw new RangeError('an approach needs the electrode at one distance at least');
  for (const { distance, onset, spark } of samples) {
    mustBePositive(distance, 'an electrode’s distance');
    mustBePositive(onset, 'an electrode’s onset voltage');
    mustBePositive(spark, 'an electrode’s spark voltage');
  }
  const nearing = [...samples].sort((one, other) => other.distance - one.distance);
  if (nearing.some(({ distance }, i) => distance === nearing[i + 1]?.distance))
    throw new RangeError('an approach needs each distance once');
  const full = workingBalance(circuit, limit).voltage;
  const sudden = firstCrossing(nearing, () => full);
  const slow = firstCrossing(nearing, (electrode) => voltageHeld(circuit, limit, electrode));
  return { sudden, slow };
}

const between = (from: Electrode, to: Electrode, share: number): Electrode => {
  const mix = (key: keyof Electrode) => from[key] + share * (to[key] - from[key]);
  return { distance: mix('distance'), onset: mix('onset'), spark: mix('spark') };
};

/** Halvings of a stretch between two samples: beyond the digits of a double. */
const HALVINGS = 60;

/** Greatest distance (m) at which the voltage held reaches the spark's, coming from afar. */
function firstCrossing(nearing: readonly Electrode[], held: (at: Electrode) => number): number | undefined {
  const crosses = (electrode: Electrode) => held(electrode) >= electrode.spark;
  const first = nearing.findIndex(crosses);
  if (first < 0) return undefined;
  const near = nearing[first]!;
  const far = nearing[first - 1];
  if (!far) return near.distance;
  let [short, long] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (short + long) / 2;
    if (crosses(between(far, near, middle))) long = middle;
    else short = middle;
  }
  return between(far, near, long).distance;
}
