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

/** Number of molecules follows from pressure and temperature with it. */
export const BOLTZMANN: Constant = {
  value: 1.380649e-23,
  unit: 'J/K',
  meaning: 'Boltzmann constant',
  source: 'SI 2019, exact',
  status: 'from-memory',
};

export const VAPOUR_GAS_CONSTANT: Constant = {
  value: 461.5,
  unit: 'J/(kg K)',
  meaning: 'gas constant of water vapour',
  source: 'documentation of an open meteorology package (alpTempR)',
  status: 'secondary',
};

const MAGNUS_SOURCE = {
  source: 'Sonntag 1990, as WMO recommends; quoted in the documentation of an open package (bigleaf)',
  status: 'secondary',
} as const;

/** Magnus's formula for the pressure of saturated vapour over water: A exp(B t / (C + t)), t in C. */
export const MAGNUS = {
  pressure: { value: 611.2, unit: 'Pa', meaning: 'saturation pressure at 0 C', ...MAGNUS_SOURCE },
  factor: { value: 17.62, unit: '1', meaning: "factor in Magnus's exponent", ...MAGNUS_SOURCE },
  temperature: { value: 243.12, unit: 'C', meaning: "temperature in Magnus's exponent", ...MAGNUS_SOURCE },
  lowest: {
    value: -45,
    unit: 'C',
    meaning: 'lowest temperature the formula is stated for',
    source: 'WMO guide to instruments',
    status: 'from-memory',
  },
  highest: {
    value: 60,
    unit: 'C',
    meaning: 'highest temperature the formula is stated for',
    source: 'WMO guide to instruments',
    status: 'from-memory',
  },
} as const satisfies Record<string, Constant>;

const SPHERE_GAP_SOURCE = {
  source: 'IEC 60052:2002, k = 1 + 0.002 (h/d - 8.5)',
  status: 'from-memory',
} as const;

/** How water vapour h (g/m3) at relative density d raises the voltage of a sphere gap. */
export const SPHERE_GAP_HUMIDITY = {
  reference: {
    value: 8.5,
    unit: 'g/m3',
    meaning: 'vapour over relative density that sphere-gap tables are for',
    ...SPHERE_GAP_SOURCE,
  },
  slope: {
    value: 0.002,
    unit: 'm3/g',
    meaning: 'growth of the voltage with vapour over density',
    ...SPHERE_GAP_SOURCE,
  },
} as const satisfies Record<string, Constant>;

const ROD_GAP_SOURCE = {
  source: 'IEC 60060-1, d.c.: k = 1 + 0.014 (h/d - 11) - 0.00022 (h/d - 11)^2 for 1 < h/d < 15',
  status: 'from-memory',
} as const;

/** How water vapour h (g/m3) at relative density d raises the d.c. voltage of a gap that streamers cross. */
export const ROD_GAP_HUMIDITY = {
  linear: { value: 0.014, unit: 'm3/g', meaning: 'linear term of k for d.c.', ...ROD_GAP_SOURCE },
  quadratic: { value: -0.00022, unit: 'm6/g2', meaning: 'quadratic term of k for d.c.', ...ROD_GAP_SOURCE },
  lowest: { value: 1, unit: 'g/m3', meaning: 'least h/d that k is stated for', ...ROD_GAP_SOURCE },
  highest: { value: 15, unit: 'g/m3', meaning: 'greatest h/d that k is stated for', ...ROD_GAP_SOURCE },
} as const satisfies Record<string, Constant>;

const AVALANCHE = 'ln of the electrons in an avalanche that turns into a streamer';

/** Streamer criterion: the ionisation coefficient summed along the field line reaches this. */
export const LN_N: Readonly<Record<'low' | 'likely' | 'high', Constant>> = {
  low: {
    value: 9.15,
    unit: '1',
    meaning: `${AVALANCHE}, low end`,
    source: 'Schroeder, for use with the quadratic fit of the ionisation coefficient',
    status: 'from-memory',
  },
  likely: {
    value: 11,
    unit: '1',
    meaning: `${AVALANCHE}, likely`,
    source: 'a value between the two ends, set for everything in this project; not fitted to any one table',
    status: 'common-practice',
  },
  high: {
    value: 18.4,
    unit: '1',
    meaning: `${AVALANCHE}, high end: ln 1e8`,
    source: "Meek's and Raether's constant as used in Abdel-Salam, High-Voltage Engineering, example 5.2",
    status: 'verified',
  },
};

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
