import type { Machine } from '../machine/machine.js';
import { COUNTS_AS_CHARGED } from './charge/assumptions.js';
import { type Balance, workingBalance } from './charge/balance.js';
import { beltCharge, densityCeiling } from './charge/belt.js';
import { beltNeeded } from './charge/belt-resistance.js';
import { chargingTime, sparkRate } from './charge/charging-time.js';
import type { Circuit } from './charge/losses.js';
import { circuitOf } from './charge/machine-circuit.js';
import { roomOzone } from './charge/ozone.js';
import { chargingPair } from './charge/pair.js';
import { sideBySide, staysCharged, storedCharge } from './charge/stored.js';
import { dischargeOf } from './discharge.js';
import { type Draw, drawFrom, rangeOfDraws } from './draws.js';
import { bodyCapacitance, storedEnergy } from './energy.js';
import { boundField, IDEALISED } from './machine-field.js';
import type { Polarity } from './polarity.js';
import { asInput, type Quantity, quantity } from './quantity.js';
import { type Range, scaled } from './range.js';
import { type Sparks, sparkLengths } from './spark-lengths.js';
import { textbookLimit } from './textbook.js';
import { likelyUnknowns, type UnknownName, type Unknowns, unknownsOf } from './unknowns.js';
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

const breaks = ({ kind }: LimitWay) => kind === 'spark' || kind === 'puncture';
/** Loses current to the air: the belt's own leakage is in the circuit already. */
const glows = ({ id, kind }: LimitWay) =>
  kind === 'terminal' || (kind === 'corona' && id !== 'way/belt-leakage');

/** F, between both bounds of the column: charge on it lowers what the terminal holds. */
function capacitanceOf(machine: Machine): Range {
  const polarised = boundField(machine, 'polarised').capacitance;
  const graded = boundField(machine, 'graded').capacitance;
  return { low: Math.min(graded, polarised), likely: polarised, high: Math.max(graded, polarised) };
}

/** The balance that a machine works at, for one choice of what is not known. */
type BalanceAt = (values: Unknowns) => { readonly circuit: Circuit; readonly balance: Balance };

function balanceOf(machine: Machine, ways: readonly LimitWay[]): BalanceAt {
  const { plate, terminal } = machine;
  const distance = (terminal.centreZ + plate.thickness + plate.feet) / 1000;
  const glowing = ways.filter(glows);
  const breaking = ways.filter(breaks);
  return (values) => {
    const coronas = glowing.map((way) => ({ onset: way.at(values), distance }));
    const circuit = circuitOf(machine, values, coronas);
    return { circuit, balance: workingBalance(circuit, Math.min(...breaking.map((way) => way.at(values)))) };
  };
}

/** What keeps the voltage where it is, by its name. */
function limitingWay(ways: readonly LimitWay[], { limitedBy }: Balance, likely: Unknowns): string {
  switch (limitedBy.kind) {
    case 'corona':
      return ways.filter(glows)[limitedBy.index]!.title;
    case 'leakage':
      return 'leakage over the column’s surface';
    case 'belt':
      return 'belt takes down what it brings up';
    case 'spark':
      return ways.filter(breaks).reduce((so, way) => (way.at(likely) < so.at(likely) ? way : so)).title;
  }
}

/** Share of the working voltage at which the ball of the spark rate is set to spark. Common practice, no source. */
const SPARK_SET = 0.75;

/** What findings go by: all but what takes more solving. */
export type Outlook = Omit<Prediction, keyof SparkQuantities | 'field'>;
type SparkQuantities = Pick<
  Prediction,
  'spark_to_ball' | 'spark_to_ball_slow' | 'spark_to_hand' | 'spark_to_hand_slow' | 'sparks'
>;

/** Predicts from the solved field. Pure. The machine’s ways can be handed in where they are known already. */
export function predict(machine: Machine, ways: readonly LimitWay[] = limitWays(machine)): Prediction {
  const { unknowns, error } = boundField(machine, 'polarised');
  const { capacitance, field } = error();
  return {
    ...outlook(machine, ways),
    ...sparksOf(machine, ways),
    field: { unknowns, capacitance_error: capacitance, field_error: field },
  };
}

/** Draws of what is not known: for what is quickly worked out, and for sparks. */
const DRAWS = 400;
const SPARK_DRAWS = 120;

type DrawName = UnknownName | 'capacitance' | 'person';
type Drawn = Draw<DrawName> & ReturnType<BalanceAt> & { readonly working: number };

/** A function from what follows from each draw to its range. */
function drawn(machine: Machine, ways: readonly LimitWay[], count: number) {
  const inputs = {
    ...unknownsOf(machine),
    capacitance: { range: capacitanceOf(machine), what: 'charge on the column, none to an even gradient' },
    person: { range: bodyCapacitance(machine), what: 'capacitance of the person' },
  };
  const draws = drawFrom<DrawName>(inputs, count);
  const balanceAt = balanceOf(machine, ways);
  const all = draws.values.map((values): Drawn => {
    const balance = balanceAt(values);
    return { ...values, ...balance, working: balance.balance.voltage };
  });
  const rangeOf = (of: (draw: Drawn) => number) => rangeOfDraws(draws, all.map(of));
  return {
    rangeOf,
    told: (of: (draw: Drawn) => number, factor: number, unit: string) => quantity(rangeOf(of), factor, unit),
  };
}

function sparksOf(machine: Machine, ways: readonly LimitWay[]): SparkQuantities {
  const sparks = sparkLengths(machine, drawn(machine, ways, SPARK_DRAWS).told);
  const polarity = signOf(machine);
  const own = (electrode: Sparks['to'], approach: 'sudden' | 'slow') =>
    ownSign(
      sparks.filter(({ to }) => to === electrode),
      approach,
      polarity,
    );
  return {
    spark_to_ball: own('ball', 'sudden'),
    spark_to_ball_slow: own('ball', 'slow'),
    spark_to_hand: own('hand', 'sudden'),
    spark_to_hand_slow: own('hand', 'slow'),
    sparks,
  };
}

const signOf = ({ rollers, belt }: Machine) => chargingPair(rollers.lower.surface, belt.material).terminal;

/** What a machine will do, but for sparks to ball and hand. */
export function outlook(machine: Machine, ways: readonly LimitWay[] = limitWays(machine)): Outlook {
  const { told, rangeOf } = drawn(machine, ways, DRAWS);
  const likely = likelyUnknowns(machine);
  const working = rangeOf((draw) => draw.working);
  return {
    voltage: quantity(working, 1e-3, 'kV'),
    current: told(({ current }) => current, 1e6, 'uA'),
    charge_time: told((draw) => chargingAt(draw, draw.capacitance), 1, 's'),
    stays_charged: told(({ circuit, capacitance }) => staysChargedAt(circuit, capacitance), 1, 's'),
    capacitance: told(({ capacitance }) => capacitance, 1e12, 'pF'),
    charge: told((draw) => storedCharge(draw.capacitance, draw.working), 1e6, 'uC'),
    energy: told((draw) => storedEnergy(draw.capacitance, draw.working), 1, 'J'),
    energy_with_person: told((draw) => storedEnergy(draw.capacitance + draw.person, draw.working), 1, 'J'),
    spark_rate: told(
      (draw) => sparkRate(draw.capacitance, draw.circuit, SPARK_SET * draw.working, draw.sparkShare),
      1,
      '1/s',
    ),
    // In the end all that the belt brings up goes into coronas and sparks.
    ozone: quantity(roomOzone(machine, asInput(rangeOf((draw) => draw.current * draw.working))), 1, 'ppm'),
    limits: ways.map(({ id, title, voltage: limit, dominatedBy }) => ({
      id,
      way: title,
      voltage: scaled(limit, 1e-3),
      dominated_by: dominatedBy,
    })),
    limiting: limitingWay(ways, balanceOf(machine, ways)(likely).balance, likely),
    polarity: signOf(machine),
    discharge: dischargeOf(machine) / 1000,
    idealised: IDEALISED,
    basis: basisOf(machine, working.likely),
  };
}

/** s to the working voltage where the machine sparks, to nearly all of it where its losses balance the current. */
function chargingAt({ circuit, balance }: ReturnType<BalanceAt>, capacitance: number): number {
  const whole =
    balance.limitedBy.kind === 'spark' ? chargingTime(capacitance, circuit, balance.voltage) : undefined;
  return whole ?? chargingTime(capacitance, circuit, COUNTS_AS_CHARGED * balance.voltage)!;
}

/** s until half the voltage is left. */
function staysChargedAt({ leakResistance, beltResistance }: Circuit, capacitance: number): number {
  return staysCharged(capacitance, sideBySide(leakResistance, beltResistance)!).half;
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

/** What the belt’s resistance must be, which nothing but a measurement tells. */
function beltText(machine: Machine, working: number): string {
  const { endToEnd, surface, volume } = beltNeeded(machine, working, beltCharge(machine).current.likely);
  const measured =
    machine.belt.resistance === undefined
      ? 'not measured'
      : `measured ${machine.belt.resistance.toExponential(1)} ohm`;
  return `Belt as a conductor: ${measured}; to lose no more than a tenth it needs ${endToEnd.toExponential(1)} ohm end to end (surface ${surface.toExponential(0)} ohm/sq, volume ${volume.toExponential(0)} ohm m). One that reads at all on a 1 kV insulation tester is of no use (common practice, no source).`;
}

function basisOf(machine: Machine, working: number): string[] {
  const ceiling = densityCeiling(machine.site.relativeDensity) * 1e6;
  const textbook = textbookLimit(machine.terminal.diameter.mean / 2000) / 1000;
  const { why } = chargingPair(machine.rollers.lower.surface, machine.belt.material);
  return [
    'Field: axisymmetric boundary elements, the column once only polarised and once with an even gradient on it; the likely values lie in the geometric middle.',
    'Breakdown: streamer criterion, ln N 9.15, 11, 18.4, with the quadratic fit of the effective ionisation coefficient (from memory); a spark crosses where the mean gradient carries streamers of that sign.',
    `Belt: ${ceiling.toFixed(1)} uC/m2 is the one-sided ceiling (eps0 times 3 MV/m); sign of the terminal ${why}.`,
    beltText(machine, working),
    `Rules of thumb for comparison: 3 MV/m times the terminal’s radius says ${textbook.toFixed(0)} kV; 30 kV/cm of spark says ${((working / 30e5) * 1000).toFixed(0)} mm.`,
    `Ranges: ${DRAWS} draws of all assumptions together (JCGM 101), likely the middle, low and high what 95 of 100 lie between; each way’s own range by root of the sum of squares (JCGM 100). What widens each most is named with it.`,
    'Not modelled: space charge, glow stabilisation, brush limiting, walls and people near by, a spark’s own branching.',
  ];
}
