import { describe, expect, it } from 'vitest';
import { BELT_MARGIN, CHARGED_SHARE } from '../../../parts/field/charge/assumptions.js';
import {
  beltCharge,
  chargedShare,
  chargedWidth,
  densityCeiling,
  lineCharge,
} from '../../../parts/field/charge/belt.js';
import {
  atBothRuns,
  beltNeeded,
  endToEndNeeded,
  resistivityNeeded,
} from '../../../parts/field/charge/belt-resistance.js';
import { starterMachine } from '../../helpers/machines.js';
import { variant } from '../../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');
const changed = (over: Parameters<typeof variant>[1]) => variant('travelling-demonstrator', over);

describe('the width that carries charge', () => {
  // Belt 45 mm, combs 38 mm: less 3, 4, 5 mm on each side leaves 39, 37, 35 mm.
  it('is the comb’s or what the belt’s edges leave, whichever is less', () =>
    expect(chargedWidth(A)).toEqual({ low: 0.035, likely: 0.037, high: 0.038 }));

  it('is the narrower comb’s', () => {
    const width = chargedWidth(changed({ combs: { upper: { width: 20 } } }));
    expect(width).toEqual({ low: 0.02, likely: 0.02, high: 0.02 });
  });

  it('follows a margin that was measured', () => {
    const width = chargedWidth(changed({ assume: { belt_margin: 10 } }));
    expect(width).toEqual({ low: 0.025, likely: 0.025, high: 0.025 });
  });

  it('leaves half of a belt too narrow for the strips', () => {
    const { low, high } = chargedWidth(
      changed({ belt: { width: 6 }, combs: { lower: { width: 6 }, upper: { width: 6 } } }),
    );
    expect(low).toBeCloseTo(0.003, 12);
    expect(high).toBeCloseTo(0.003, 12);
    expect(BELT_MARGIN.low.value).toBeGreaterThan(6 * 0.25);
  });
});

describe('the belt’s current', () => {
  it('is width times speed times share times ceiling at likely values', () => {
    const { current, density, lineCharge: charge } = beltCharge(A);
    const ceiling = densityCeiling(A.site.relativeDensity);
    expect(current.likely).toBeCloseTo(0.037 * A.belt.speed * 0.3 * ceiling, 12);
    expect(charge.likely * A.belt.speed).toBeCloseTo(current.likely, 15);
    expect(density.high / ceiling).toBeCloseTo(0.6, 12);
  });

  it('is dominated by the share, and by the width once the share is measured', () => {
    expect(beltCharge(A).current.dominatedBy).toContain('share of the ceiling');
    const measured = beltCharge(changed({ assume: { belt_fraction: 0.4 } })).current;
    expect(measured.dominatedBy).toContain('width');
    expect(measured.high / measured.likely).toBeCloseTo(38 / 37, 9);
  });

  it('is a point when both are measured', () => {
    const { low, likely, high } = beltCharge(
      changed({ assume: { belt_fraction: 0.4, belt_margin: 5 } }),
    ).current;
    expect(low).toBe(likely);
    expect(high).toBe(likely);
  });

  it('is more when a supply feeds the comb', () => {
    const sprayed = changed({ belt: { charging: 'sprayed' } });
    expect(chargedShare(sprayed).likely).toBe(CHARGED_SHARE.sprayed.likely.value);
    expect(beltCharge(sprayed).current.likely / beltCharge(A).current.likely).toBeCloseTo(2, 9);
  });

  it('is less in thin air', () => {
    const high = beltCharge(changed({ site: { altitude: 2500 } })).current;
    expect(high.likely).toBeLessThan(beltCharge(A).current.likely);
  });

  it('needs a belt that moves to make a line charge', () => {
    expect(lineCharge(2e-6, 5)).toBeCloseTo(0.4e-6, 15);
    expect(() => lineCharge(2e-6, 0)).toThrow(RangeError);
  });
});

describe('the belt’s resistance', () => {
  it('lies at both runs side by side', () => expect(atBothRuns(4e12)).toBe(1e12));

  it('takes down a tenth of the current at the resistance it needs', () => {
    const endToEnd = endToEndNeeded(160e3, 1.2e-6);
    expect(160e3 / atBothRuns(endToEnd)).toBeCloseTo(0.12e-6, 15);
  });

  it('follows from either resistivity by Ohm’s law', () => {
    const { surface, volume } = resistivityNeeded(1e12, { loop: 1.5, width: 0.05, thickness: 0.002 });
    expect((surface * 1.5) / (2 * (0.05 + 0.002))).toBeCloseTo(1e12, 0);
    expect((volume * 1.5) / (0.05 * 0.002)).toBeCloseTo(1e12, 0);
  });

  it('asks hundreds of gigaohms per square of a demonstrator’s belt', () => {
    const { surface, volume, endToEnd } = beltNeeded(A, 160e3, 1.2e-6);
    expect(endToEnd).toBe(endToEndNeeded(160e3, 1.2e-6));
    expect(surface).toBeGreaterThan(1e11);
    expect(surface).toBeLessThan(1e12);
    expect(volume).toBeGreaterThan(1e8);
    expect(volume).toBeLessThan(1e9);
  });

  it('refuses nonsense', () => {
    expect(() => endToEndNeeded(0, 1e-6)).toThrow(RangeError);
    expect(() => endToEndNeeded(1e5, Number.NaN)).toThrow(RangeError);
    expect(() => resistivityNeeded(1e12, { loop: 1, width: 0, thickness: 1e-3 })).toThrow(/width/);
  });
});
