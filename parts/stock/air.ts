import type { Constant } from './row.js';

/** CODATA's value; OpenStax College Physics prints 8.85e-12 F/m. */
export const VACUUM_PERMITTIVITY: Constant = {
  value: 8.8541878128e-12,
  unit: 'F/m',
  meaning: 'electric constant',
  source: 'CODATA 2018',
  status: 'from-memory',
};

/** What breakdown values are stated for. */
export const REFERENCE_TEMPERATURE: Constant = {
  value: 20,
  unit: 'C',
  meaning: 'temperature of the reference atmosphere',
  source: 'IEC 60060-1',
  status: 'verified',
};

export const REFERENCE_PRESSURE: Constant = {
  value: 101.3,
  unit: 'kPa',
  meaning: 'pressure of the reference atmosphere',
  source: 'IEC 60060-1',
  status: 'verified',
};

export const REFERENCE_HUMIDITY: Constant = {
  value: 11,
  unit: 'g/m3',
  meaning: 'water vapour in the reference atmosphere',
  source: 'IEC 60060-1',
  status: 'verified',
};

export const BREAKDOWN_FIELD: Constant = {
  value: 3e6,
  unit: 'V/m',
  meaning: 'breakdown field of air between large smooth electrodes',
  source: 'OpenStax College Physics, Table 19.1',
  status: 'verified',
};

/** Peek's law of visual corona on a sphere: E = g d (1 + k / sqrt(d R)), E in kV/cm, R in cm, d = 1 at 25 C, 101.3 kPa. */
export const PEEK_SPHERE_FIELD: Constant = {
  value: 27.2,
  unit: 'kV/cm',
  meaning: "g of Peek's law for spheres",
  source:
    'Peek, Dielectric Phenomena in High-Voltage Engineering; repeats the AIEE sphere-gap table to 0.5 %',
  status: 'from-memory',
};

export const PEEK_SPHERE_FACTOR: Constant = {
  value: 0.54,
  unit: 'cm^0.5',
  meaning: "k of Peek's law for spheres",
  source: PEEK_SPHERE_FIELD.source,
  status: PEEK_SPHERE_FIELD.status,
};

/** Relative density is 1 at this temperature in Peek's law. */
export const PEEK_TEMPERATURE: Constant = {
  value: 25,
  unit: 'C',
  meaning: "temperature at which d = 1 in Peek's law",
  source: PEEK_SPHERE_FIELD.source,
  status: PEEK_SPHERE_FIELD.status,
};

const PRACTICE = { source: 'common practice, no source', status: 'common-practice' } as const;
const COLUMN = 'mean gradient along a clean, dry, smooth column';

/** Mean gradient at which a column flashes over, metal to metal. Dust or damp halve it. */
export const COLUMN_GRADIENT: Readonly<Record<'low' | 'likely' | 'high', Constant>> = {
  low: { value: 3, unit: 'kV/cm', meaning: `${COLUMN}, low end`, ...PRACTICE },
  likely: { value: 4.5, unit: 'kV/cm', meaning: `${COLUMN}, likely`, ...PRACTICE },
  high: { value: 5, unit: 'kV/cm', meaning: `${COLUMN}, high end`, ...PRACTICE },
};

export const FOUL_COLUMN_FACTOR: Constant = {
  value: 0.5,
  unit: '1',
  meaning: 'column gradient with dust, or above 60 % humidity, over the clean and dry one',
  ...PRACTICE,
};

/** Mean gradient that lets a streamer cross a gap. */
export const STREAMER_GRADIENT: Readonly<Record<'positive' | 'negative', { low: Constant; high: Constant }>> =
  {
    positive: {
      low: streamer(
        'positive',
        4.5,
        'Francisco, Teunissen, Bagheri, Ebert 2021: measured 4.5 to 5',
        'verified',
      ),
      high: streamer(
        'positive',
        5,
        'Francisco, Teunissen, Bagheri, Ebert 2021: measured 4.5 to 5',
        'verified',
      ),
    },
    negative: {
      low: streamer('negative', 10, 'high-voltage textbooks: 10 to 12', 'from-memory'),
      high: streamer('negative', 12, 'high-voltage textbooks: 10 to 12', 'from-memory'),
    },
  };

function streamer(sign: string, value: number, source: string, status: Constant['status']): Constant {
  return {
    value,
    unit: 'kV/cm',
    meaning: `mean gradient that a ${sign} streamer needs to cross`,
    source,
    status,
  };
}

/**
 * Density of air over that at the reference atmosphere: (p / 101.3 kPa) (293 K / T), IEC 60060-1.
 *
 * @param pressure kPa, above 0
 * @param temperature C, above -273
 * @throws RangeError for anything else
 */
export function relativeDensity(pressure: number, temperature: number): number {
  if (!(pressure > 0 && Number.isFinite(pressure)))
    throw new RangeError(`not an air pressure: ${pressure} kPa`);
  if (!(temperature > -273 && Number.isFinite(temperature))) {
    throw new RangeError(`not an air temperature: ${temperature} C`);
  }
  const kelvin = (celsius: number) => 273 + celsius;
  return (pressure / REFERENCE_PRESSURE.value) * (kelvin(REFERENCE_TEMPERATURE.value) / kelvin(temperature));
}

/** Where the standard atmosphere's formula for the troposphere holds, m. */
const LOWEST = -500;
const HIGHEST = 11000;

/**
 * Pressure (kPa) of the standard atmosphere at an altitude: 101.325 (1 - 2.25577e-5 h)^5.25588, ISO 2533 (from memory).
 * Weather moves it by some 3 %.
 *
 * @param altitude m, -500 to 11000
 * @throws RangeError outside that range
 */
export function pressureAt(altitude: number): number {
  if (!(altitude >= LOWEST && altitude <= HIGHEST)) {
    throw new RangeError(
      `the standard atmosphere is held from ${LOWEST} to ${HIGHEST} m, not for ${altitude} m`,
    );
  }
  return 101.325 * (1 - 2.25577e-5 * altitude) ** 5.25588;
}
