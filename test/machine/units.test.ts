import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { convert, type DimensionName, parseQuantity, quantityPattern } from '../../parts/machine/units.js';

const value = (input: string | number, dimension: DimensionName, bare = 'mm', into?: string) => {
  const parsed = parseQuantity(input, dimension, bare, into);
  if (!parsed.ok) throw new Error(`${input}: expected ${parsed.expected}`);
  return parsed.value;
};
const refusal = (input: string | number, dimension: DimensionName = 'length', bare = 'mm') => {
  const parsed = parseQuantity(input, dimension, bare);
  if (parsed.ok) throw new Error(`${input} was read as ${parsed.value}`);
  return parsed;
};

describe('lengths', () => {
  it.each([
    ['79.8 mm', 79.8],
    ['79.8mm', 79.8],
    [' 8 cm ', 80],
    ['0.64 m', 640],
    ['.5 mm', 0.5],
    ['5. mm', 5],
    ['1e2 mm', 100],
    ['-0.15 mm', -0.15],
    ['+2 mm', 2],
    ['50 um', 0.05],
    ['50 \u00b5m', 0.05],
    ['50 \u03bcm', 0.05],
    ['3.5 in', 88.9],
    ['3 1/2 in', 88.9],
    ['3-1/2 in', 88.9],
    ['1-1/8"', 28.575],
    ['1 1/8 in', 28.575],
    ['3/8"', 9.525],
    ['3/8 in', 9.525],
    ['-1/8 in', -3.175],
    ['10-1/2 in', 266.7],
    ['2500 ft', 762_000],
    ['5 ft 2 in', 1574.8],
    ['5\' 2 1/2"', 1587.5],
    ['1/4 ft', 76.2],
  ])('%s', (text, mm) => expect(value(text, 'length')).toBeCloseTo(mm, 9));

  it('reads a bare number in the bare unit', () => {
    expect(value(3.508, 'length', 'in')).toBeCloseTo(89.1032, 9);
    expect(value(79.8, 'length', 'mm')).toBe(79.8);
    expect(value(350, 'length', 'm', 'm')).toBe(350);
  });

  it('returns what was asked for', () => expect(value('2500 ft', 'length', 'm', 'm')).toBeCloseTo(762, 9));

  it.each([
    '',
    ' ',
    'mm',
    '12abc',
    '7l mm',
    '1/0 in',
    '3 5/4 in',
    '3 4/4 in',
    '3.5/2 in',
    '1 2 mm',
    '0x10 mm',
    'NaN mm',
    'Infinity mm',
    '1e999 mm',
    '1_000 mm',
    '12 mm mm',
    '5 ft 13 in',
    '5 ft -1 in',
    '--1 mm',
    '12 constructor',
    '12 __proto__',
  ])('refuses %j', (text) => expect(refusal(text).expected).toContain('a length'));

  it.each([Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])('refuses %s', (number) => {
    expect(refusal(number).expected).toContain('finite');
  });

  it('asks for the unit that a text has to carry', () => {
    expect(refusal('79.8').expected).toContain('carries its unit');
    expect(refusal('3 1/2').expected).toContain('carries its unit');
  });

  it('names the nearest unit', () => {
    expect(refusal('12 mmm').nearest).toBe('mm');
    expect(refusal('170 KV', 'voltage').nearest).toBe('kV');
  });

  it('names a decimal comma', () => {
    expect(refusal('1,5 mm').expected).toBe('a decimal point, not a comma: use a point: 1.5 mm');
    expect(refusal('79,8').expected).toContain('use a point: 79.8');
    expect(refusal(',5 mm').expected).toContain('use a point: 0.5 mm');
    expect(refusal('1,500 mm').expected).toBe(
      'no comma in a number: 1.500 mm with a decimal point, or 1500 mm',
    );
  });
});

describe('other dimensions', () => {
  it.each<[string, DimensionName, number]>([
    ['68 F', 'temperature', 20],
    ['32 °F', 'temperature', 0],
    ['-40 F', 'temperature', -40],
    ['20 C', 'temperature', 20],
    ['5500 rpm', 'rotation', 5500],
    ['170 kV', 'voltage', 170_000],
    ['12 V', 'voltage', 12],
    ['0.025 kW', 'power', 25],
    ['20 N', 'force', 20],
    ['6 N m', 'torque', 6],
    ['6 N·m', 'torque', 6],
    ['8 %', 'share', 8],
    ['8%', 'share', 8],
    ['972 hPa', 'pressure', 97.2],
    ['50 m3', 'volume', 50],
    ['200 Gohm', 'resistance', 2e11],
    ['150 pF', 'capacitance', 150],
    ['16 uC/m2', 'chargeDensity', 16],
    ['0.45 MV/m', 'gradient', 4.5],
    ['450 kV/m', 'gradient', 4.5],
  ])('%s of %s', (text, dimension, expected) => expect(value(text, dimension)).toBeCloseTo(expected, 9));

  it('keeps dimensions apart', () => {
    expect(refusal('20 mm', 'voltage').expected).toContain('V kV');
    expect(refusal('1/2 kV', 'voltage').expected).toContain('a voltage');
    expect(refusal('0.7', 'number').expected).toContain('without quotes');
    expect(refusal('0.7 mm', 'number').expected).toContain('without a unit');
  });

  it('refuses a conversion that makes no sense', () => {
    expect(() => convert(1, 'length', 'mm', 'kV')).toThrow(RangeError);
  });
});

describe('the pattern for schemas', () => {
  const length = new RegExp(quantityPattern('length')!, 'u');

  it.each(['79.8 mm', '3 1/2 in', '1-1/8"', '5 ft 2 in', '-0.15 mm', '5\' 2 1/2"'])('takes %s', (text) => {
    expect(length.test(text)).toBe(true);
  });
  it.each(['', '12abc', '1,5 mm', '79.8', '0x10 mm', 'NaN mm'])('refuses %j', (text) => {
    expect(length.test(text)).toBe(false);
  });

  it('takes every text that is read', () => {
    const numbers = fc.oneof(
      fc
        .tuple(fc.integer({ min: 0, max: 99 }), fc.integer({ min: 1, max: 15 }))
        .map(([a, b]) => `${a} ${b}/16`),
      fc.double({ min: -1e6, max: 1e6, noNaN: true }).map(String),
    );
    const units = fc.constantFrom('mm', 'in', '"', 'ft', 'cm', 'm', 'um', 'rpm', '', ' in');
    fc.assert(
      fc.property(numbers, units, (number, unit) => {
        const text = `${number} ${unit}`;
        if (parseQuantity(text, 'length', 'mm').ok) expect(text).toMatch(length);
      }),
      { seed: 20, numRuns: 300 },
    );
  });
});

it('never throws and never returns what is not finite', () => {
  fc.assert(
    fc.property(
      fc.string(),
      fc.constantFrom<DimensionName>('length', 'temperature', 'voltage'),
      (text, dimension) => {
        const parsed = parseQuantity(text, dimension, 'mm');
        if (parsed.ok) expect(Number.isFinite(parsed.value)).toBe(true);
        else expect(parsed.expected).not.toBe('');
      },
    ),
    { seed: 21, numRuns: 500 },
  );
});
