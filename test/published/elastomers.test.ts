import { describe, expect, it } from 'vitest';
import { BELT_MATERIALS, beltMaterial } from '../../parts/stock/belts.js';
import { youngsFromShore } from '../../parts/stock/shore.js';

describe('modulus of rubber against published relations', () => {
  // Gent 1958, in three independent copies of the formula (verified); values computed from it. MPa.
  it.each([
    [30, 1.142],
    [40, 1.69],
    [50, 2.456],
    [60, 3.605],
    [80, 9.351],
  ])('%d Shore A: %d MPa after Gent', (shore, modulus) => {
    expect(youngsFromShore(shore)).toBeCloseTo(modulus, 3);
  });

  // Ruess: lg E = 0.0235 S - 0.6403, a web page (verified), base 10. It lies above Gent, by less than a factor of two.
  it.each([30, 40, 50, 60, 80])('at %d Shore A Ruess gives 1 to 2 times as much', (shore) => {
    const ruess = 10 ** (0.0235 * shore - 0.6403);
    expect(ruess / youngsFromShore(shore)).toBeGreaterThan(1);
    expect(ruess / youngsFromShore(shore)).toBeLessThan(2);
  });

  it.each([19.9, 80.1, Number.NaN])('refuses %d Shore A', (shore) => {
    expect(() => youngsFromShore(shore)).toThrow(/20 to 80 Shore A/);
  });

  // A property page gives 2 to 5 MPa (weak source, verified).
  it('puts neoprene between 2 and 5 MPa', () => {
    const { value } = beltMaterial('neoprene').youngsModulus;
    expect(value).toBeGreaterThan(2);
    expect(value).toBeLessThan(5);
  });
});

describe('triboelectric charge density of belts', () => {
  // Zou et al., Nature Communications 10:1427 (2019), from memory; neoprene and silk are not known.
  it('has no number for neoprene and silk', () => {
    const known = BELT_MATERIALS.filter((key) => beltMaterial(key).triboelectric);
    expect(known).toEqual(['natural-latex', 'silicone', 'polyurethane', 'nitrile']);
    expect(known.map((key) => beltMaterial(key).triboelectric?.value)).toEqual([
      -10.61, -94.03, -109.22, 2.49,
    ]);
    expect(known.map((key) => beltMaterial(key).triboelectric?.status)).toEqual(Array(4).fill('from-memory'));
  });
});
