import type { Machine } from '../../machine/machine.js';
import {
  measuredOr,
  type Propagated,
  propagated,
  type Range,
  rangeOf,
  scaled,
  type Uncertain,
} from '../range.js';
import { CORONA_MOBILITY, SPARK_SHARE } from './assumptions.js';
import { type Balance, workingBalance } from './balance.js';
import { beltCharge } from './belt.js';
import { atBothRuns } from './belt-resistance.js';
import { chargingTime, sparkRate } from './charging-time.js';
import type { Circuit } from './losses.js';
import { type StaysCharged, sideBySide, staysCharged } from './stored.js';
import { columnLeakResistance } from './surface-leakage.js';

// SI throughout.

/** A place in corona, its onset as a range. */
export interface UncertainCorona {
  /** V */
  readonly onset: Uncertain;
  /** m to ground */
  readonly distance: number;
}

/** A machine's circuit with the range of each of its values. */
export interface UncertainCircuit {
  /** A */
  readonly current: Uncertain;
  /** ohm */
  readonly leakResistance: Uncertain;
  readonly beltResistance: number | undefined;
  readonly coronas: readonly UncertainCorona[];
  /** m2/Vs */
  readonly mobility: Uncertain;
}

/** Mobility (m2/Vs) of the ions that a corona's current is carried by. */
export function coronaMobility({ assume }: Machine): Range {
  return scaled(measuredOr(rangeOf(CORONA_MOBILITY), assume.coronaMobility), 1e-4);
}

/** Share of its charge that the terminal loses with one spark. */
export function sparkShare({ assume }: Machine): Range {
  return measuredOr(rangeOf(SPARK_SHARE), assume.sparkShare);
}

/** What charges and unloads a machine's terminal; where it goes into corona is for the field to say. */
export function machineCircuit(machine: Machine, coronas: readonly UncertainCorona[]): UncertainCircuit {
  const { current } = beltCharge(machine);
  const { resistance } = machine.belt;
  return {
    current: { range: current, what: current.dominatedBy },
    leakResistance: { range: columnLeakResistance(machine), what: 'surface resistivity of the column' },
    beltResistance: resistance === undefined ? undefined : atBothRuns(resistance),
    coronas,
    mobility: { range: coronaMobility(machine), what: 'mobility of ions' },
  };
}

const coronaName = (index: number) => `onset ${index}`;

/** Every uncertain value of a circuit under its name. */
function inputsOf({
  current,
  leakResistance,
  coronas,
  mobility,
}: UncertainCircuit): Record<string, Uncertain> {
  const onsets = coronas.map(({ onset }, index) => [coronaName(index), onset] as const);
  return { current, leakResistance, mobility, ...Object.fromEntries(onsets) };
}

/** The circuit that one choice of its uncertain values makes. */
function circuitAt(
  { beltResistance, coronas }: UncertainCircuit,
  at: Readonly<Record<string, number>>,
): Circuit {
  return {
    current: at.current!,
    leakResistance: at.leakResistance!,
    beltResistance,
    coronas: coronas.map(({ distance }, index) => ({ onset: at[coronaName(index)]!, distance })),
    mobility: at.mobility!,
  };
}

/** The circuit at its likely values. */
export function likelyCircuit(circuit: UncertainCircuit): Circuit {
  const likely = Object.entries(inputsOf(circuit)).map(([name, { range }]) => [name, range.likely] as const);
  return circuitAt(circuit, Object.fromEntries(likely));
}

/**
 * Voltage (V) that the machine works at as a range, with the balance at likely values.
 * @param spark V, of the weakest way that sparks
 */
export function workingVoltage(
  circuit: UncertainCircuit,
  spark: Uncertain,
): Propagated & { readonly balance: Balance } {
  const range = propagated(
    { ...inputsOf(circuit), spark },
    (at) => workingBalance(circuitAt(circuit, at), at.spark!).voltage,
  );
  return { ...range, balance: workingBalance(likelyCircuit(circuit), spark.range.likely) };
}

/**
 * Share of the voltage that a machine whose losses balance its current counts as charged at: the balance itself is only
 * approached.
 */
export const COUNTS_AS_CHARGED = 0.95;

/**
 * Time (s) to the voltage that the machine works at: all of it where it sparks, `COUNTS_AS_CHARGED` of it where losses
 * balance the current.
 */
export function timeToWork(capacitance: Uncertain, circuit: UncertainCircuit, spark: Uncertain): Propagated {
  return propagated({ ...inputsOf(circuit), capacitance, spark }, (at) => {
    const now = circuitAt(circuit, at);
    const { voltage, limitedBy } = workingBalance(now, at.spark!);
    const whole = limitedBy.kind === 'spark' ? chargingTime(at.capacitance!, now, voltage) : undefined;
    return whole ?? chargingTime(at.capacitance!, now, COUNTS_AS_CHARGED * voltage)!;
  });
}

/** Sparks a second at the weakest spark's voltage (V); undefined when losses keep the voltage below it at likely values. */
export function sparksASecond(
  machine: Machine,
  capacitance: Uncertain,
  circuit: UncertainCircuit,
  spark: Uncertain,
): Propagated | undefined {
  const likely = workingBalance(likelyCircuit(circuit), spark.range.likely);
  if (likely.limitedBy.kind !== 'spark') return undefined;
  const share = { range: sparkShare(machine), what: 'share of the charge that a spark takes' };
  return propagated({ ...inputsOf(circuit), capacitance, spark, share }, (at) =>
    sparkRate(at.capacitance!, circuitAt(circuit, at), at.spark!, at.share!),
  );
}

/** How long (s) the terminal stays charged with the drive off, over the column's surfaces and the belt. */
export function timeCharged(
  capacitance: Uncertain,
  { leakResistance, beltResistance }: UncertainCircuit,
): Readonly<Record<keyof StaysCharged, Propagated>> {
  const range = (key: keyof StaysCharged) =>
    propagated(
      { capacitance, leakResistance },
      (at) => staysCharged(at.capacitance, sideBySide(at.leakResistance, beltResistance)!)[key],
    );
  return { half: range('half'), timeConstant: range('timeConstant') };
}
