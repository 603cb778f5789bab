import { nearest } from '../stock/nearest.js';

/** One spelling of a unit: base value = (written value - zero) * factor. */
interface Unit {
  readonly factor: number;
  readonly zero?: number;
}

interface Dimension {
  /** What the builder is asked for. */
  readonly noun: string;
  readonly example: string;
  /** The first is the base unit. */
  readonly units: Readonly<Record<string, Unit>>;
}

const scale = (factor: number): Unit => ({ factor });

/** Inch and foot are exact (25.4 mm, 304.8 mm), as is the degree Fahrenheit. */
export const DIMENSIONS = {
  length: {
    noun: 'a length',
    example: '79.8 or "3 1/2 in"',
    units: {
      mm: scale(1),
      cm: scale(10),
      m: scale(1000),
      in: scale(25.4),
      '"': scale(25.4),
      '″': scale(25.4),
      ft: scale(304.8),
      "'": scale(304.8),
      '′': scale(304.8),
      um: scale(0.001),
      // Micro sign and Greek mu look alike; both are typed.
      '\u00b5m': scale(0.001),
      '\u03bcm': scale(0.001),
    },
  },
  temperature: {
    noun: 'a temperature',
    example: '20 or "68 F"',
    units: {
      C: scale(1),
      '°C': scale(1),
      F: { factor: 5 / 9, zero: 32 },
      '°F': { factor: 5 / 9, zero: 32 },
    },
  },
  rotation: { noun: 'a speed of rotation', example: '5500 or "5500 rpm"', units: { rpm: scale(1) } },
  voltage: { noun: 'a voltage', example: '"12 V" or "170 kV"', units: { V: scale(1), kV: scale(1000) } },
  power: { noun: 'a power', example: '25 or "25 W"', units: { W: scale(1), kW: scale(1000) } },
  force: { noun: 'a force', example: '20 or "20 N"', units: { N: scale(1), kN: scale(1000) } },
  torque: {
    noun: 'a torque',
    example: '6 or "6 N m"',
    units: { 'N m': scale(1), Nm: scale(1), N·m: scale(1) },
  },
  share: { noun: 'a percentage', example: '8 or "8 %"', units: { '%': scale(1) } },
  pressure: {
    noun: 'an air pressure',
    example: '97.2 or "972 hPa"',
    units: { kPa: scale(1), hPa: scale(0.1), mbar: scale(0.1), Pa: scale(0.001), bar: scale(100) },
  },
  volume: {
    noun: 'a volume',
    example: '50 or "50 m3"',
    units: { m3: scale(1), 'm³': scale(1), l: scale(0.001) },
  },
  resistance: {
    noun: 'a resistance',
    example: '2e11 or "200 Gohm"',
    units: {
      ohm: scale(1),
      kohm: scale(1e3),
      Mohm: scale(1e6),
      Gohm: scale(1e9),
      Tohm: scale(1e12),
      Ω: scale(1),
      kΩ: scale(1e3),
      MΩ: scale(1e6),
      GΩ: scale(1e9),
      TΩ: scale(1e12),
    },
  },
  capacitance: {
    noun: 'a capacitance',
    example: '150 or "150 pF"',
    units: { pF: scale(1), nF: scale(1000) },
  },
  chargeDensity: {
    noun: 'a charge density',
    example: '16 or "16 uC/m2"',
    units: { 'uC/m2': scale(1), '\u00b5C/m2': scale(1), '\u00b5C/m²': scale(1), '\u03bcC/m²': scale(1) },
  },
  gradient: {
    noun: 'a voltage gradient',
    example: '4.5 or "4.5 kV/cm"',
    units: { 'kV/cm': scale(1), 'kV/m': scale(0.01), 'kV/mm': scale(10), 'MV/m': scale(10) },
  },
  mobility: {
    noun: 'a mobility of ions',
    example: '1.8 or "1.8 cm2/Vs"',
    units: { 'cm2/Vs': scale(1), 'cm²/Vs': scale(1), 'm2/Vs': scale(1e4) },
  },
  yield: { noun: 'a yield of ozone', example: '20 or "20 g/kWh"', units: { 'g/kWh': scale(1) } },
  rate: { noun: 'a rate per hour', example: '1 or "1 1/h"', units: { '1/h': scale(1), '/h': scale(1) } },
  number: { noun: 'a number', example: '0.7', units: {} },
} as const satisfies Record<string, Dimension>;

export type DimensionName = keyof typeof DIMENSIONS;

/** The units a bare length of the machine may be in. */
export const LENGTH_UNITS = ['mm', 'cm', 'm', 'in', 'ft'] as const;
export type LengthUnit = (typeof LENGTH_UNITS)[number];

export type Parsed =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly expected: string; readonly nearest?: string };

const DECIMAL = String.raw`(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d+)?`;
const FRACTION = String.raw`(?:(\d+)(?:\s+|-))?(\d+)\s*\/\s*(\d+)`;
const FEET = `(?:ft|'|′)`;
const INCHES = `(?:in|"|″)`;

/** How a number may be written in a file: decimal, no hexadecimal, no infinity. */
export const DECIMAL_TEXT = new RegExp(`^[+-]?${DECIMAL}$`);
const DECIMAL_AND_UNIT = new RegExp(String.raw`^([+-]?${DECIMAL})\s*(\S.*)?$`);
const FRACTION_AND_UNIT = new RegExp(String.raw`^([+-]?)${FRACTION}\s*(\S.*)?$`);
const FEET_AND_INCHES = new RegExp(String.raw`^(${DECIMAL})\s*${FEET}\s*(.*?)\s*${INCHES}$`);
const COMMA = /^([+-]?\d*),(\d+)(.*)$/;
const THOUSANDS = /^[+-]?\d{1,3}(?:,\d{3})+(?:\.\d+)?(?=$|\s|[a-z])/i;

const dimensionOf = (name: DimensionName): Dimension => DIMENSIONS[name];

function unitNamed(dimension: DimensionName, name: string): Unit | undefined {
  const { units } = dimensionOf(dimension);
  return Object.hasOwn(units, name) ? units[name] : undefined;
}

/** The unit that values of this dimension are returned in; empty for a plain number. */
export function baseUnit(dimension: DimensionName): string {
  return Object.keys(dimensionOf(dimension).units)[0] ?? '';
}

/**
 * Converts between two units of one dimension.
 * @throws RangeError for a unit that the dimension does not have
 */
export function convert(value: number, dimension: DimensionName, from: string, to: string): number {
  if (from === to) return value;
  const source = unitNamed(dimension, from);
  const target = unitNamed(dimension, to);
  if (!source || !target) throw new RangeError(`no conversion from ${from} to ${to} in ${dimension}`);
  return ((value - (source.zero ?? 0)) * source.factor) / target.factor + (target.zero ?? 0);
}

/** What a value of this dimension looks like, for messages. */
export function example(dimension: DimensionName): string {
  const { noun, example: shown } = dimensionOf(dimension);
  return `${noun} such as ${shown}`;
}

/**
 * Reads a number with its unit.
 *
 * @param input a bare number, or a text that carries its unit: `79.8 mm`, `3 1/2 in`, `1-1/8"`, `5 ft 2 in`, `68 F`
 * @param bareUnit the unit of a bare number
 * @param into the unit of the returned value; the dimension's base unit (mm, C, rpm, V, W, N, N m, %, kPa, m3, ohm, pF,
 *   uC/m2, kV/cm, cm2/Vs, g/kWh, 1/h) when not given
 * @returns the finite value, or what was expected instead and the nearest known unit
 */
export function parseQuantity(
  input: string | number,
  dimension: DimensionName,
  bareUnit: string,
  into: string = baseUnit(dimension),
): Parsed {
  if (typeof input === 'number') {
    if (!Number.isFinite(input)) return { ok: false, expected: `${example(dimension)}, finite` };
    return finite(convert(input, dimension, bareUnit, into), dimension);
  }
  const text = input.trim();
  const comma = commaProblem(text);
  if (comma) return { ok: false, expected: comma };

  const written =
    dimension === 'length' ? (feetAndInches(text) ?? fraction(text) ?? decimal(text)) : decimal(text);
  if (!written) return { ok: false, expected: example(dimension) };
  return withUnit(written, dimension, into);
}

interface Written {
  readonly value: number;
  readonly unit: string;
}

function withUnit({ value, unit }: Written, dimension: DimensionName, into: string): Parsed {
  const spellings = Object.keys(dimensionOf(dimension).units);
  if (dimension === 'number') {
    return { ok: false, expected: `${example(dimension)}, ${unit ? 'without a unit' : 'without quotes'}` };
  }
  if (!unit) {
    return { ok: false, expected: `${example(dimension)} (a number in quotes carries its unit)` };
  }
  const known = unit.replace(/\s+/g, ' ');
  if (!unitNamed(dimension, known)) {
    const meant = nearest(known, spellings);
    return {
      ok: false,
      expected: `${example(dimension)}, in one of the units ${spellings.join(' ')}`,
      ...(meant !== undefined && { nearest: meant }),
    };
  }
  return finite(convert(value, dimension, known, into), dimension);
}

function finite(value: number, dimension: DimensionName): Parsed {
  // Adding zero turns -0 into 0.
  return Number.isFinite(value)
    ? { ok: true, value: value + 0 }
    : { ok: false, expected: `${example(dimension)}, finite` };
}

function decimal(text: string): Written | undefined {
  const match = DECIMAL_AND_UNIT.exec(text);
  return match ? { value: Number(match[1]), unit: match[2] ?? '' } : undefined;
}

/** `3/8`, `3 1/2` and `3-1/2`; a mixed number's fraction is a proper one. */
function fraction(text: string): Written | undefined {
  const match = FRACTION_AND_UNIT.exec(text);
  if (!match) return undefined;
  const [, sign, whole, numerator, denominator, unit] = match;
  const [above, below] = [Number(numerator), Number(denominator)];
  if (below === 0 || (whole !== undefined && above >= below)) return undefined;
  const value = Number(whole ?? 0) + above / below;
  return { value: sign === '-' ? -value : value, unit: unit ?? '' };
}

function feetAndInches(text: string): Written | undefined {
  const match = FEET_AND_INCHES.exec(text);
  if (!match) return undefined;
  const inches = fraction(`${match[2]} in`) ?? decimal(`${match[2]} in`);
  if (inches?.unit !== 'in' || inches.value < 0 || inches.value >= 12) return undefined;
  return { value: Number(match[1]) * 12 + inches.value, unit: 'in' };
}

/** What a text of this dimension looks like, for schemas; undefined for a plain number, which is never a text. */
export function quantityPattern(dimension: DimensionName): string | undefined {
  const spellings = Object.keys(dimensionOf(dimension).units);
  if (spellings.length === 0) return undefined;
  const unit = spellings.map((name) => name.replace(/[/.]/g, '\\$&').replace(' ', ' +')).join('|');
  const numbers =
    dimension === 'length'
      ? `${DECIMAL}|(?:\\d+(?:\\s+|-))?\\d+\\s*\\/\\s*\\d+|${DECIMAL}\\s*${FEET}\\s*\\d[\\d\\s./-]*`
      : DECIMAL;
  return `^\\s*[+-]?(?:${numbers})\\s*(?:${unit})\\s*$`;
}

/** What to write instead of a comma, or undefined when there is none between digits. */
function commaProblem(text: string): string | undefined {
  const match = COMMA.exec(text);
  if (!match) return undefined;
  const [, whole, decimals, rest] = match;
  const asDecimal = `${whole || '0'}.${decimals}${rest}`;
  return THOUSANDS.test(text)
    ? `no comma in a number: ${asDecimal} with a decimal point, or ${text.replaceAll(',', '')}`
    : `a decimal point, not a comma: use a point: ${asDecimal}`;
}

/** Six significant digits, no trailing zeros, large ones with an exponent. */
export function short(value: number): string {
  if (Math.abs(value) >= 1e7) return Number(value.toPrecision(6)).toExponential().replace('e+', 'e');
  return String(Number(value.toPrecision(6)));
}
