import type { BeltCharging } from '../../machine/machine.js';
import type { Constant, Sourced } from '../../stock/row.js';

/** Least, likely and greatest value of one assumed quantity. */
export type Spread = Readonly<Record<'low' | 'likely' | 'high', Constant>>;

const PRACTICE: Sourced = { source: 'common practice, no source', status: 'common-practice' };
const MEMORY = (source: string): Sourced => ({ source, status: 'from-memory' });

function spread(
  [low, likely, high]: readonly [number, number, number],
  unit: string,
  meaning: string,
  { source, status }: Sourced,
): Spread {
  const constant = (value: number): Constant => ({ value, unit, meaning, source, status });
  return { low: constant(low), likely: constant(likely), high: constant(high) };
}

const charged = (by: string) => `share of the one-sided ceiling that a belt charged by ${by} carries`;

/** Share of the density at which air breaks down on one side of the belt. `assume.belt_fraction` replaces it. */
export const CHARGED_SHARE: Readonly<Record<BeltCharging, Spread>> = {
  friction: spread([0.1, 0.3, 0.6], '1', charged('friction'), PRACTICE),
  sprayed: spread([0.3, 0.6, 0.9], '1', charged('a comb on a supply'), PRACTICE),
};

/** Strip at each edge of the belt from which charge creeps off. `assume.belt_margin` replaces it. */
export const BELT_MARGIN: Spread = spread([3, 4, 5], 'mm', 'strip at each edge without charge', PRACTICE);

/** On a belt so narrow that the strips would leave little, each takes this share of the width. */
export const MOST_MARGIN: Constant = {
  value: 0.25,
  unit: '1',
  meaning: 'greatest share of the belt’s width that the strip at one edge takes',
  ...PRACTICE,
};

/**
 * Share of the difference between two materials' densities against mercury that rubbing them together reaches: rubber
 * bears bloom and dust, contact is partial, humid air takes some away. `assume.roller_charge` replaces the result.
 */
export const CONTACT_SHARE: Spread = spread(
  [0.1, 0.5, 1],
  '1',
  'share of the difference of two densities that friction reaches',
  PRACTICE,
);

/** Voltage between a grounded comb's points and the roller's surface. `assume.comb_onset` replaces it. */
export const COMB_ONSET: Spread = spread(
  [2, 3, 4],
  'kV',
  'voltage at which a comb a few millimetres from the belt starts to spray',
  PRACTICE,
);

/** Of small ions in air; positive ones are slower than negative ones. `assume.corona_mobility` replaces it. */
export const CORONA_MOBILITY: Spread = spread(
  [1.3, 1.8, 2.2],
  'cm2/Vs',
  'mobility of the ions of a corona in air',
  MEMORY('textbooks on corona and gas discharges'),
);

/** `assume.spark_share` replaces it. */
export const SPARK_SHARE: Spread = spread(
  [0.5, 0.8, 1],
  '1',
  'share of the terminal’s charge that one spark takes',
  PRACTICE,
);

/** Likely is the geometric middle. `assume.ozone_yield` replaces it. */
export const OZONE_YIELD: Spread = spread(
  [10, 22, 50],
  'g/kWh',
  'ozone that corona in air makes for the energy it takes',
  MEMORY('papers on ozone from corona: 10 to 50 g/kWh'),
);

/** `assume.ozone_decay` replaces it. */
export const OZONE_DECAY: Constant = {
  value: 1.5,
  unit: '1/h',
  meaning: 'rate at which the surfaces of a room take up ozone',
  ...MEMORY('papers on indoor ozone'),
};

/** `assume.air_changes` replaces it. */
export const AIR_CHANGES: Spread = spread([0.5, 1, 3], '1/h', 'air changes of a room', PRACTICE);

/** Share of the charging current that a belt may lose by conducting. */
export const BELT_LOSS: Constant = {
  value: 0.1,
  unit: '1',
  meaning: 'share of the charging current that a belt may take down by conducting',
  ...PRACTICE,
};

/** Share of the voltage that a machine whose losses balance its current counts as charged at: the balance is only approached. */
export const COUNTS_AS_CHARGED = 0.95;
