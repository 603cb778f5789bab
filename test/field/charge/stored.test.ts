import { describe, expect, it } from 'vitest';
import { sideBySide, staysCharged, storedCharge } from '../../../parts/field/charge/stored.js';

describe('what is stored', () => {
  it('is C V', () => expect(storedCharge(15e-12, 170e3)).toBeCloseTo(2.55e-6, 15));
  it('halves in ln 2 time constants', () => {
    const { half, timeConstant } = staysCharged(15e-12, 1e14);
    expect(timeConstant).toBeCloseTo(1500, 9);
    expect(Math.exp(-half / timeConstant)).toBeCloseTo(0.5, 12);
  });
  it('goes by what lies side by side', () => {
    expect(sideBySide(undefined, 2e12)).toBe(2e12);
    expect(sideBySide(2e12, 2e12)).toBe(1e12);
    expect(sideBySide(undefined, undefined)).toBeUndefined();
    expect(() => sideBySide(0)).toThrow(RangeError);
    expect(() => staysCharged(15e-12, Number.NaN)).toThrow(RangeError);
  });
});
