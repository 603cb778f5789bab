import { describe, expect, it } from 'vitest';
import { type Electrode, sparkLength, voltageHeld } from '../../../parts/field/charge/approach.js';
import type { Circuit } from '../../../parts/field/charge/losses.js';

const circuit: Circuit = { current: 2e-6, leakResistance: 1e14, coronas: [], mobility: 1.8e-4 };
const LIMIT = 170e3;

/** An electrode that starts at 300 kV/m times distance plus 40 kV, and is crossed at 500 kV/m. */
const electrode = (distance: number): Electrode => ({
  distance,
  onset: 40e3 + 300e3 * distance,
  spark: 500e3 * distance,
});
const samples = [0.6, 0.4, 0.3, 0.2, 0.1, 0.05].map(electrode);

describe('a grounded electrode', () => {
  it('in corona holds the voltage a little above its onset', () => {
    const held = voltageHeld(circuit, LIMIT, electrode(0.3));
    expect(held).toBeGreaterThan(130e3);
    expect(held).toBeLessThan(135e3);
  });

  it('that is not in corona changes nothing', () =>
    expect(voltageHeld(circuit, LIMIT, electrode(0.5))).toBe(LIMIT));

  it('is reached at full voltage when brought near suddenly', () =>
    expect(sparkLength(circuit, LIMIT, samples).sudden).toBeCloseTo(170e3 / 500e3, 9));

  // Onset and spark meet at 40 kV/(200 kV/m) = 0.2 m; the belt holds a little more than the onset.
  it('is reached nearer by when brought near slowly', () => {
    const { slow, sudden } = sparkLength(circuit, LIMIT, samples);
    expect(slow).toBeLessThan(sudden!);
    expect(slow).toBeGreaterThan(0.2);
    expect(slow).toBeLessThan(0.22);
  });

  it('loses less by coming slowly to a machine of more current', () => {
    const strong = { ...circuit, current: 200e-6 };
    expect(sparkLength(strong, LIMIT, samples).slow).toBeGreaterThan(
      sparkLength(circuit, LIMIT, samples).slow!,
    );
  });

  it('is found in samples of any order', () =>
    expect(sparkLength(circuit, LIMIT, [...samples].reverse())).toEqual(
      sparkLength(circuit, LIMIT, samples),
    ));

  it('is not reached by a machine too weak, and is from the farthest sample by one strong enough', () => {
    expect(sparkLength(circuit, 10e3, samples)).toEqual({ sudden: undefined, slow: undefined });
    expect(sparkLength({ ...circuit, current: 1 }, 1e6, samples).sudden).toBe(0.6);
  });

  it('refuses nonsense', () => {
    expect(() => sparkLength(circuit, LIMIT, [])).toThrow(/at least/);
    expect(() => sparkLength(circuit, LIMIT, [electrode(0.1), electrode(0.1)])).toThrow(/once/);
    expect(() => sparkLength(circuit, LIMIT, [{ ...electrode(0.1), onset: Number.NaN }])).toThrow(/onset/);
  });
});
