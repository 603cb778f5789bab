import type { Machine } from '../machine/machine.js';
import { COMB_ONSET } from './charge/assumptions.js';
import { beltCharge, densityCeiling } from './charge/belt.js';
import { sparkRate } from './charge/charging-time.js';
import { totalLoss } from './charge/losses.js';
import {
  likelyCircuit,
  machineCircuit,
  sparkShare,
  timeCharged,
  timeToWork,
  type UncertainCircuit,
  workingVoltage,
} from './charge/machine-circuit.js';
import { roomOzone } from './charge/ozone.js';
import { chargingPair } from './charge/pair.js';
import { bodyCapacitance, storedEnergy } from './energy.js';
import { boundField, IDEALISED } from './machine-field.js';
import type { Polarity } from './polarity.js';
import { asInput, type Quantity, quantity } from './quantity.js';
import { least, type Propagated, propagated, type Range, scaled, type Uncertain } from './range.js';
import { type Sparks, sparkLengths } from './spark-lengths.js';
import { textbookLimit } from './textbook.js';
import type { LimitWay } from './way.js';
import { limitWays } from './ways.js';

export type { Quantity } from './quantity.js';

/** What the machine is expected to do. */
export interface Prediction {
  /** pF, terminal against ground */
  readonly capacitance: Quantity;
  /** kV that the machine works at: where losses take the belt's current, or the weakest way sparks */
  readonly voltage: Quantity;
  /** uA, brought up by the belt; also into a short circuit */
  readonly current: Quantity;
  /** s, to that voltage */
  readonly charge_time: Quantity;
  /** s, until half the voltage is left with the drive off and nothing touched */
  readonly stays_charged: Quantity;
  /** uC, at that voltage */
  readonly charge: Quantity;
  /** J */
  readonly energy: Quantity;
  /** J, with a person on the terminal */
  readonly energy_with_person: Quantity;
  /** mm, to a grounded ball brought near at once, for the terminal's sign (for either where it is not known) */
  readonly spark_to_ball: Quantity;
  /** mm, to the same ball brought near slowly */
  readonly spark_to_ball_slow: Quantity;
  /** mm, to a hand brought near at once, and slowly */
  readonly spark_to_hand: Quantity;
  readonly spark_to_hand_slow: Quantity;
  /** 1/s, to a ball at the distance where it sparks at three quarters of the voltage */
  readonly spark_rate: Quantity;
  /** ppm in the room after hours of running */
  readonly ozone: Quantity;
  /** To ball and hand, for either sign. */
  readonly sparks: readonly Sparks[];
  /** Every way with the voltage (kV) at which it gives way. */
  readonly limits: readonly {
    readonly id: string;
    readonly way: string;
    readonly voltage: Range;
    readonly dominated_by: string;
  }[];
  /** The way that gives way first at likely values, or what takes the current. */
  readonly limiting: string;
  readonly polarity: Polarity;
  /** kV, at which the machine is meant to discharge: what ways are compared with. */
  readonly discharge: number;
  /** The field’s solution: unknowns, and estimated errors as shares. */
  readonly field: {
    readonly unknowns: number;
    readonly capacitance_error: number;
    readonly field_error: number;
  };
  readonly idealised: readonly string[];
  readonly basis: readonly string[];
}

/** Voltage (V) at which the machine is meant to discharge: the target, else where the terminal itself does. */
function dischargeVoltage(machine: Machine, ways: readonly LimitWay[]): number {
  return machine.targetVoltage ?? ways.find(({ kind }) => kind === 'terminal')!.voltage.likely;
}

const breaks = ({ kind }: LimitWay) => kind === 'spark' || kind === 'puncture';
/** Loses current to the air: the belt's own leakage is in the circuit already. */
const glows = ({ id, kind }: LimitWay) =>
  kind === 'terminal' || (kind === 'corona' && id !== 'way/belt-leakage');

/** F: charge on the column lowers what the terminal holds. */
function capacitanceOf(machine: Machine): Uncertain {
  const polarised = boundField(machine, 'polarised').capacitance;
  const graded = boundField(machine, 'graded').capacitance;
  return {
    range: { low: Math.min(graded, polarised), likely: polarised, high: Math.max(graded, polarised) },
    what: 'charge on the column, none to an even gradient',
  };
}

function circuitOf(machine: Machine, ways: readonly LimitWay[]): UncertainCircuit {
  const { plate, terminal } = machine;
  const down = (terminal.centreZ + plate.thickness + plate.feet) / 1000;
  return machineCircuit(
    machine,
    ways.filter(glows).map(({ title, voltage, dominatedBy }) => ({
      onset: { range: voltage, what: `${title}: ${dominatedBy}` },
      distance: down,
    })),
  );
}

/** V of the weakest way that breaks down, end by end. */
function weakestSpark(ways: readonly LimitWay[]): Uncertain {
  const breaking = ways.filter(breaks);
  const weakest = breaking.reduce((so, way) => (way.voltage.likely < so.voltage.likely ? way : so));
  return {
    range: least(breaking.map(({ voltage }) => voltage)),
    what: `${weakest.title}: ${weakest.dominatedBy}`,
  };
}

/** What keeps the voltage where it is, by its name. */
function limitingWay(ways: readonly LimitWay[], working: ReturnType<typeof workingVoltage>): string {
  const { limitedBy } = working.balance;
  switch (limitedBy.kind) {
    case 'corona':
      return ways.filter(glows)[limitedBy.index]!.title;
    case 'leakage':
      return 'leakage over the column’s surface';
    case 'belt':
      return 'belt takes down what it brings up';
    case 'spark':
      return ways.filter(breaks).reduce((so, way) => (way.voltage.likely < so.voltage.likely ? way : so))
        .title;
  }
}

/** Share of the working voltage at which the ball of the spark rate is set to spark. Common practice, no source. */
const SPARK_SET = 0.75;

/** Predicts from the solved field. Pure. The machine’s ways can be handed in where they are known already. */
export function predict(machine: Machine, ways: readonly LimitWay[] = limitWays(machine)): Prediction {
  const capacitance = capacitanceOf(machine);
  const circuit = circuitOf(machine, ways);
  const spark = weakestSpark(ways);
  const working = workingVoltage(circuit, spark);
  const voltage = asInput(working);
  const polarity = chargingPair(machine.rollers.lower.material, machine.belt.material).terminal;
  const sparks = sparkLengths(machine, circuit, voltage);
  const person = { range: bodyCapacitance(machine), what: 'capacitance of the person' };
  const polarised = boundField(machine, 'polarised');
  const told = (electrode: Sparks['to'], approach: 'sudden' | 'slow') =>
    ownSign(
      sparks.filter(({ to }) => to === electrode),
      approach,
      polarity,
    );
  return {
    voltage: quantity(working, 1e-3, 'kV'),
    current: quantity(beltCharge(machine).current, 1e6, 'uA'),
    charge_time: quantity(timeToWork(capacitance, circuit, spark), 1, 's'),
    stays_charged: quantity(timeCharged(capacitance, circuit).half, 1, 's'),
    capacitance: quantity({ ...capacitance.range, dominatedBy: capacitance.what }, 1e12, 'pF'),
    charge: quantity(
      propagated({ capacitance, voltage }, (at) => at.capacitance * at.voltage),
      1e6,
      'uC',
    ),
    energy: quantity(
      propagated({ capacitance, voltage }, (at) => storedEnergy(at.capacitance, at.voltage)),
      1,
      'J',
    ),
    energy_with_person: quantity(
      propagated({ capacitance, voltage, person }, (at) =>
        storedEnergy(at.capacitance + at.person, at.voltage),
      ),
      1,
      'J',
    ),
    spark_to_ball: told('ball', 'sudden'),
    spark_to_ball_slow: told('ball', 'slow'),
    spark_to_hand: told('hand', 'sudden'),
    spark_to_hand_slow: told('hand', 'slow'),
    spark_rate: quantity(rateOf(machine, capacitance, circuit, voltage), 1, '1/s'),
    ozone: quantity(roomOzone(machine, coronaPower(circuit, voltage)), 1, 'ppm'),
    sparks,
    limits: ways.map(({ id, title, voltage: limit, dominatedBy }) => ({
      id,
      way: title,
      voltage: scaled(limit, 1e-3),
      dominated_by: dominatedBy,
    })),
    limiting: limitingWay(ways, working),
    polarity,
    discharge: dischargeVoltage(machine, ways) / 1000,
    field: {
      unknowns: polarised.unknowns,
      capacitance_error: polarised.error.capacitance,
      field_error: polarised.error.field,
    },
    idealised: IDEALISED,
    basis: basisOf(machine, working.likely),
  };
}

/** For the terminal's sign; where that is not known, from the shorter to the longer of both signs. */
function ownSign(sparks: readonly Sparks[], approach: 'sudden' | 'slow', polarity: Polarity): Quantity {
  const own = sparks.find(({ terminal }) => terminal === polarity);
  if (own) return own[approach];
  const [one, other] = sparks.map((each) => each[approach]) as [Quantity, Quantity];
  return {
    low: Math.min(one.low, other.low),
    likely: (one.likely + other.likely) / 2,
    high: Math.max(one.high, other.high),
    unit: one.unit,
    dominated_by: 'sign of the terminal',
  };
}

function rateOf(
  machine: Machine,
  capacitance: Uncertain,
  circuit: UncertainCircuit,
  voltage: Uncertain,
): Propagated {
  const { leakResistance } = likelyCircuit(circuit);
  return propagated(
    {
      capacitance,
      voltage,
      current: circuit.current,
      share: { range: sparkShare(machine), what: 'share of the charge that a spark takes' },
    },
    (at) => {
      const bare = {
        current: at.current,
        leakResistance,
        coronas: [],
        mobility: circuit.mobility.range.likely,
      };
      return sparkRate(at.capacitance, bare, SPARK_SET * at.voltage, at.share);
    },
  );
}

/** W that coronas take at the working voltage, the combs’ own among them. */
function coronaPower(circuit: UncertainCircuit, voltage: Uncertain): Uncertain {
  const likely = likelyCircuit(circuit);
  const glow = propagated({ current: circuit.current, voltage }, (at) => {
    // What leaves through the air at the likely voltage never exceeds what the belt brings.
    const lost = Math.min(
      at.current,
      totalLoss({ ...likely, current: at.current, leakResistance: undefined }, voltage.range.likely),
    );
    return lost * at.voltage + 2 * at.current * COMB_ONSET.likely.value * 1000;
  });
  return asInput(glow);
}

function basisOf(machine: Machine, working: number): string[] {
  const ceiling = densityCeiling(machine.site.relativeDensity) * 1e6;
  const textbook = textbookLimit(machine.terminal.diameter.mean / 2000) / 1000;
  const { why } = chargingPair(machine.rollers.lower.material, machine.belt.material);
  return [
    'Field: axisymmetric boundary elements, the column once only polarised and once with an even gradient on it; the likely values lie in the geometric middle.',
    'Breakdown: streamer criterion, ln N 9.15, 11, 18.4, with the quadratic fit of the effective ionisation coefficient (from memory); a spark crosses where the mean gradient carries streamers of that sign.',
    `Belt: ${ceiling.toFixed(1)} uC/m2 is the one-sided ceiling (eps0 times 3 MV/m); sign of the terminal ${why}.`,
    `Rules of thumb for comparison: 3 MV/m times the terminal’s radius says ${textbook.toFixed(0)} kV; 30 kV/cm of spark says ${((working / 30e5) * 1000).toFixed(0)} mm.`,
    'Ranges: independent assumptions are combined by root of the sum of squares; what widens each most is named with it.',
    'Not modelled: space charge, glow stabilisation, brush limiting, walls and people near by, a spark’s own branching.',
  ];
}
