import { describe, expect, it } from 'vitest';
import {
  columnLeakResistance,
  leakLength,
  surfaceResistivity,
  tubeLeakResistance,
} from '../../../parts/field/charge/surface-leakage.js';
import { TUBE_MATERIALS } from '../../../parts/stock/plastics.js';
import { starterMachine } from '../../helpers/machines.js';
import { variant } from '../../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');
const changed = (over: Parameters<typeof variant>[1]) => variant('travelling-demonstrator', over);
const air = (humidity: number, cleanliness: 'clean' | 'dusty' | 'damp' = 'clean') => ({
  humidity,
  cleanliness,
});

describe('surface resistivity', () => {
  it('is flat up to 50 % and falls a decade in 12 % for acrylic', () => {
    const at = (humidity: number) => surfaceResistivity('acrylic-cast', air(humidity)).likely;
    expect(at(0)).toBe(1e14);
    expect(at(50)).toBe(1e14);
    expect(at(62) / 1e13).toBeCloseTo(1, 9);
    expect(at(74) / 1e12).toBeCloseTo(1, 9);
  });

  it('falls two decades with dust or damp', () => {
    for (const foul of ['dusty', 'damp'] as const)
      expect(surfaceResistivity('acrylic-cast', air(45, foul)).likely / 1e12).toBeCloseTo(1, 9);
  });

  it.each(TUBE_MATERIALS)('%s: ordered, a decade to either side, never better in moist air', (material) => {
    let last = Number.POSITIVE_INFINITY;
    for (let humidity = 0; humidity <= 100; humidity += 5) {
      const { low, likely, high } = surfaceResistivity(material, air(humidity));
      expect(likely / low).toBeCloseTo(10, 9);
      expect(high / likely).toBeCloseTo(10, 9);
      expect(likely).toBeLessThanOrEqual(last);
      last = likely;
    }
    expect(last).toBeGreaterThan(0);
  });

  it('refuses humidity that air cannot have', () =>
    expect(() => surfaceResistivity('pvc', air(101))).toThrow(RangeError));
});

describe('the column', () => {
  // A square of sheet: a tube as long as both circumferences together.
  it('has the resistance of one square where its length equals both circumferences', () =>
    expect(tubeLeakResistance(1e14, Math.PI * 0.15, 0.08, 0.07)).toBeCloseTo(1e14, 0));

  it('leaks some nanoamperes at 160 kV when clean and dry', () => {
    const leak = 160e3 / columnLeakResistance(A).likely;
    expect(leak).toBeGreaterThan(1e-9);
    expect(leak).toBeLessThan(2e-9);
    expect(leakLength(A)).toBeCloseTo((A.terminal.lipZ - A.grip.mount.headTop) / 1000, 12);
  });

  it('goes by the resistivity that was measured', () => {
    const { low, likely, high } = columnLeakResistance(changed({ assume: { surface_resistivity: 1e11 } }));
    expect(low).toBe(high);
    expect(likely / columnLeakResistance(A).likely).toBeCloseTo(1e-3, 9);
  });

  it('leaks less when longer', () =>
    expect(columnLeakResistance(changed({ column: { tube: { length: 900 } } })).likely).toBeGreaterThan(
      columnLeakResistance(A).likely,
    ));

  it('leaks even where the lip stands as low as the mount', () => {
    const short = changed({ terminal: { insertion: 640 } });
    expect(leakLength(short)).toBe(short.tube.wall.mean / 1000);
    expect(columnLeakResistance(short).low).toBeGreaterThan(0);
  });

  it('refuses nonsense', () => expect(() => tubeLeakResistance(1e14, 0, 0.08, 0.07)).toThrow(/length/));
});
