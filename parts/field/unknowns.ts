import type { Machine } from '../machine/machine.js';
import { LN_N } from '../stock/air.js';
import { airOf } from './air/atmosphere.js';
import { crossingGradient } from './air/crossing.js';
import { beltCharge } from './charge/belt.js';
import { coronaMobility, sparkShare } from './charge/machine-circuit.js';
import { columnLeakResistance } from './charge/surface-leakage.js';
import { columnGradient, PEAK_OVER_MEAN } from './gradients.js';
import { measuredOr, type Propagated, propagated, type Range, rangeOf, type Uncertain } from './range.js';
import { surfaceFactor } from './surface-factor.js';

// SI throughout.

/** Everything about a machine and its air that a prediction has to take as a range: each one independent of the others. */
export interface Unknowns {
  /** Share of the way (in the logarithm of a limit) from a column that is only polarised to one with an even gradient. */
  readonly column: number;
  /** A, brought up by the belt. */
  readonly current: number;
  /** Share of the belt’s charge that the falling run does not make up for. */
  readonly net: number;
  /** ln of the electrons in a critical avalanche. */
  readonly lnN: number;
  /** Share of a perfect surface’s inception voltage. */
  readonly surface: number;
  /** V/m, mean, that carries a flashover along the column. */
  readonly columnGradient: number;
  /** V/m, mean, that carries positive and negative streamers through air. */
  readonly positiveGradient: number;
  readonly negativeGradient: number;
  /** Voltage across a wall along the column over that of the mean gradient. */
  readonly acrossWall: number;
  /** ohm, over the column’s surfaces. */
  readonly leak: number;
  /** m2/Vs, of a corona’s ions. */
  readonly mobility: number;
  /** Share of the charge that a spark takes. */
  readonly sparkShare: number;
}
export type UnknownName = keyof Unknowns;

const COLUMN: Range = { low: 0, likely: 0.5, high: 1 };
const NET: Range = { low: 0, likely: 1, high: 1 };

/** The ranges of a machine’s unknowns, with the builder’s own measurements in their place. */
export function unknownsOf(machine: Machine): Readonly<Record<UnknownName, Uncertain>> {
  const { assume } = machine;
  const air = airOf(machine.site);
  const { current } = beltCharge(machine);
  const streamers = (polarity: 'positive' | 'negative') =>
    measuredOr(crossingGradient(polarity, air), assume.streamerGradient && assume.streamerGradient * 1e5);
  return {
    column: { range: COLUMN, what: 'charge on the column, none to an even gradient' },
    current: { range: current, what: current.dominatedBy },
    net: { range: NET, what: 'charge on the belt’s falling run' },
    lnN: { range: measuredOr(rangeOf(LN_N), assume.lnN), what: 'size of a critical avalanche' },
    surface: { range: surfaceFactor(machine), what: 'seams, dents and dust on the metal' },
    columnGradient: { range: columnGradient(machine), what: 'mean gradient that carries a flashover' },
    positiveGradient: { range: streamers('positive'), what: 'mean gradient that carries a streamer' },
    negativeGradient: { range: streamers('negative'), what: 'mean gradient that carries a streamer' },
    acrossWall: {
      range: { low: 1, likely: 1, high: PEAK_OVER_MEAN.value },
      what: 'share of the column’s voltage that lies across the wall',
    },
    leak: { range: columnLeakResistance(machine), what: 'surface resistivity of the column' },
    mobility: { range: coronaMobility(machine), what: 'mobility of ions' },
    sparkShare: { range: sparkShare(machine), what: 'share of the charge that a spark takes' },
  };
}

/** Range of what follows from a machine’s unknowns, and from others that only this quantity has. */
export function rangeFrom<Name extends string = never>(
  machine: Machine,
  of: (values: Unknowns & Readonly<Record<Name, number>>) => number,
  others: Readonly<Record<Name, Uncertain>> = {} as Readonly<Record<Name, Uncertain>>,
): Propagated {
  return propagated<UnknownName | Name>({ ...unknownsOf(machine), ...others }, of as never);
}

/** Every unknown at its likely value. */
export function likelyUnknowns(machine: Machine): Unknowns {
  return Object.fromEntries(
    Object.entries(unknownsOf(machine)).map(([name, { range }]) => [name, range.likely]),
  ) as unknown as Unknowns;
}
