import { expect, it } from 'vitest';
import { starterMachine } from '../../helpers/machines.js';

/** The assumptions that a machine resolves to when its file states one. */
const assumed = (line: string) =>
  starterMachine('travelling-demonstrator', (text) => `${text}\nassume: { ${line} }\n`).assume;

it.each([
  ['streamer_gradient: 4.7', 'streamerGradient', 4.7],
  ['ln_n: 12', 'lnN', 12],
  ['belt_margin: 4', 'beltMargin', 4],
  ['belt_margin: 0.2 in', 'beltMargin', 5.08],
  ['roller_charge: 9', 'rollerCharge', 9],
  ['comb_onset: 2.5', 'combOnset', 2500],
  ['comb_onset: 2500 V', 'combOnset', 2500],
  ['surface_resistivity: 100 Gohm', 'surfaceResistivity', 1e11],
  ['corona_mobility: 1.5', 'coronaMobility', 1.5],
  ['corona_mobility: 1.5e-4 m2/Vs', 'coronaMobility', 1.5],
  ['spark_share: 0.9', 'sparkShare', 0.9],
  ['ozone_yield: 30 g/kWh', 'ozoneYield', 30],
  ['ozone_decay: 2', 'ozoneDecay', 2],
  ['air_changes: 4 1/h', 'airChanges', 4],
] as const)('%s', (line, key, value) => {
  expect(assumed(line)[key]).toBeCloseTo(value, 9);
  expect(assumed('surface_factor: 0.7')[key]).toBeUndefined();
});
