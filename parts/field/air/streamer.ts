import { LN_N } from '../../stock/air.js';
import type { Range } from '../range.js';
import { type Air, inceptionHumidityFactor } from './atmosphere.js';
import { type AvalanchePath, avalancheAlong, DEFAULT_PATH } from './avalanche.js';
import { DEFAULT_FIT, type IonisationFit } from './ionisation.js';
import { type FieldProfile, stepsAlong } from './profile.js';
import { rootBetween } from './root.js';

export type { FieldProfile } from './profile.js';

/**
 * The effective ionisation coefficient summed along a field line: ln of the electrons in the avalanche. By default from
 * the electrode outward, up to the first place where attachment wins or the line's end (the opposite electrode); 0 where
 * attachment wins on the electrode already. Humidity counts as a field lower by its factor on inception voltages.
 *
 * @param voltage of the terminal, V, 0 or more; its sign does not matter to an avalanche
 * @throws RangeError for an impossible profile, voltage or air
 */
export function streamerIntegral(
  profile: FieldProfile,
  voltage: number,
  air: Air,
  fit: IonisationFit = DEFAULT_FIT,
  path: AvalanchePath = DEFAULT_PATH,
): number {
  if (!(voltage >= 0 && Number.isFinite(voltage))) {
    throw new RangeError(`not a voltage to judge: ${voltage} V, 0 or more is expected`);
  }
  const factor = inceptionHumidityFactor(air);
  const steps = stepsAlong(profile);
  const alpha = (perVolt: number) => fit.alpha((perVolt * voltage) / factor, air.relativeDensity);
  return avalancheAlong(steps, profile.perVolt[0]!, alpha, path);
}

/** A search for a voltage starts at this share of the one with the critical field at the line's worst place. */
const START = 0.5;
const STRIDE = 1.5;
/** 1.5 to this power times the start: fields of some 5e11 V/m, beyond any gap's. */
const MOST_STRIDES = 32;

/**
 * Voltage (V) at which streamers start: where the integral reaches ln N. The integral does not fall as the voltage rises.
 * Summed from the electrode it may jump over ln N, where a dip of the field farther out starts to ionise and all that lies
 * beyond it counts at once; then it is the voltage of the jump.
 *
 * @param lnN ln of the electrons in a critical avalanche, above 0
 * @throws RangeError for an impossible profile, air or ln N, and when no voltage suffices (a gap of micrometres, with a
 *   fit that levels off)
 */
export function inceptionVoltage(
  profile: FieldProfile,
  air: Air,
  lnN: number = LN_N.likely.value,
  fit: IonisationFit = DEFAULT_FIT,
  path: AvalanchePath = DEFAULT_PATH,
): number {
  if (!(lnN > 0 && Number.isFinite(lnN))) {
    throw new RangeError(`not ln N of an avalanche: ${lnN}, above 0 is expected`);
  }
  const factor = inceptionHumidityFactor(air);
  const density = air.relativeDensity;
  const steps = stepsAlong(profile);
  const onElectrode = profile.perVolt[0]!;
  const greatest = steps.reduce((most, { end }) => Math.max(most, end), onElectrode);
  const excess = (voltage: number) =>
    avalancheAlong(steps, onElectrode, (perVolt) => fit.alpha(perVolt * voltage, density), path) - lnN;
  let low = (START * fit.criticalField * density) / greatest;
  while (excess(low) >= 0) low *= START;
  let high = low * STRIDE;
  for (let stride = 0; excess(high) < 0; stride++) {
    if (stride === MOST_STRIDES) {
      throw new RangeError(
        `no voltage brings the ${fit.title} to ln N = ${lnN} over ${profile.s[profile.s.length - 1]} m`,
      );
    }
    [low, high] = [high, high * STRIDE];
  }
  return factor * rootBetween(excess, low, high);
}

/** Inception voltage (V) over the range of ln N that is published. @throws RangeError as `inceptionVoltage` does */
export function inceptionRange(
  profile: FieldProfile,
  air: Air,
  fit: IonisationFit = DEFAULT_FIT,
  path: AvalanchePath = DEFAULT_PATH,
): Range {
  const at = (end: keyof Range) => inceptionVoltage(profile, air, LN_N[end].value, fit, path);
  return { low: at('low'), likely: at('likely'), high: at('high') };
}
