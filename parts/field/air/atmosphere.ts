import {
  MAGNUS,
  REFERENCE_HUMIDITY,
  ROD_GAP_HUMIDITY,
  SPHERE_GAP_HUMIDITY,
  VAPOUR_GAS_CONSTANT,
} from '../../stock/air.js';

/** The air as far as breakdown depends on it. */
export interface Air {
  /** Relative to 20 C and 101.3 kPa, above 0. */
  readonly relativeDensity: number;
  /** Water vapour, g/m3, 0 or more. */
  readonly vapour: number;
}

/** Air in which no factor for humidity applies to inception: density 1, the vapour that sphere-gap tables are for. */
export const REFERENCE_AIR: Air = { relativeDensity: 1, vapour: SPHERE_GAP_HUMIDITY.reference.value };

const KELVIN = 273.15;

/**
 * Pressure (Pa) of saturated water vapour over water: Magnus's formula with the coefficients that WMO recommends.
 *
 * @param temperature C, -45 to 60
 * @throws RangeError outside that range
 */
export function saturationPressure(temperature: number): number {
  if (!(temperature >= MAGNUS.lowest.value && temperature <= MAGNUS.highest.value)) {
    throw new RangeError(
      `vapour pressure is known from ${MAGNUS.lowest.value} to ${MAGNUS.highest.value} C, not at ${temperature} C`,
    );
  }
  return (
    MAGNUS.pressure.value *
    Math.exp((MAGNUS.factor.value * temperature) / (MAGNUS.temperature.value + temperature))
  );
}

/**
 * Water vapour in the air, g/m3.
 *
 * @param temperature C, -45 to 60
 * @param humidity relative, %, 0 to 100
 * @throws RangeError outside these ranges
 */
export function vapourIn(temperature: number, humidity: number): number {
  if (!(humidity >= 0 && humidity <= 100)) {
    throw new RangeError(`not a relative humidity: ${humidity} %, expected is 0 to 100`);
  }
  const pressure = (humidity / 100) * saturationPressure(temperature);
  return (1e3 * pressure) / (VAPOUR_GAS_CONSTANT.value * (KELVIN + temperature));
}

/** The air at a machine's site. @throws RangeError for what is no density, temperature or humidity */
export function airOf(site: {
  readonly relativeDensity: number;
  readonly temperature: number;
  readonly humidity: number;
}): Air {
  const air = {
    relativeDensity: site.relativeDensity,
    vapour: vapourIn(site.temperature, site.humidity),
  };
  checkAir(air);
  return air;
}

/** @throws RangeError unless the density is above 0, the vapour at least 0, and both finite */
export function checkAir({ relativeDensity, vapour }: Air): void {
  if (!(relativeDensity > 0 && Number.isFinite(relativeDensity))) {
    throw new RangeError(`not a relative air density: ${relativeDensity}, above 0 is expected`);
  }
  if (!(vapour >= 0 && Number.isFinite(vapour))) {
    throw new RangeError(`not an amount of water vapour: ${vapour} g/m3, 0 or more is expected`);
  }
}

/**
 * Vapour over relative density (g/m3), held at the ends of 1 to 15, the range that IEC 60060-1 states its d.c. factor for.
 * The limits of IEC 60052's factor are not known here; the same are used.
 */
function reducedVapour({ relativeDensity, vapour }: Air): number {
  const { lowest, highest } = ROD_GAP_HUMIDITY;
  return Math.min(Math.max(vapour / relativeDensity, lowest.value), highest.value);
}

/**
 * What humidity makes of an inception voltage: k = 1 + 0.002 (h/d - 8.5), IEC 60052:2002. Outside 1 < h/d < 15 the end's
 * value is held: 0.985 to 1.013.
 *
 * @throws RangeError for impossible air
 */
export function inceptionHumidityFactor(air: Air): number {
  checkAir(air);
  const { reference, slope } = SPHERE_GAP_HUMIDITY;
  return 1 + slope.value * (reducedVapour(air) - reference.value);
}

/**
 * What humidity makes of the d.c. gradient that positive streamers cross a gap with:
 * k = 1 + 0.014 (h/d - 11) - 0.00022 (h/d - 11)^2, IEC 60060-1. Outside 1 < h/d < 15 the end's value is held: 0.838 to 1.052.
 *
 * @throws RangeError for impossible air
 */
export function streamerHumidityFactor(air: Air): number {
  checkAir(air);
  const { linear, quadratic } = ROD_GAP_HUMIDITY;
  const excess = reducedVapour(air) - REFERENCE_HUMIDITY.value;
  return 1 + linear.value * excess + quadratic.value * excess ** 2;
}
