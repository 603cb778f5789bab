import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { balanceVoltage, workingBalance } from '../../../parts/field/charge/balance.js';
import { chargingTime, sparkRate } from '../../../parts/field/charge/charging-time.js';
import { type Circuit, coronaCurrent, totalLoss } from '../../../parts/field/charge/losses.js';

const SEED = 20_261_125;
const MOBILITY = 1.8e-4;
const bare = (current: number, over: Partial<Circuit> = {}): Circuit => ({
  current,
  coronas: [],
  mobility: MOBILITY,
  ...over,
});

const voltage = fc.double({ min: 1e3, max: 1e6, noNaN: true });
const decades = (from: number, to: number) =>
  fc.double({ min: from, max: to, noNaN: true }).map((exponent) => 10 ** exponent);
const anyCircuit: fc.Arbitrary<Circuit> = fc.record({
  current: decades(-9, -3),
  leakResistance: fc.option(decades(9, 17), { nil: undefined }),
  beltResistance: fc.option(decades(9, 17), { nil: undefined }),
  coronas: fc.array(fc.record({ onset: voltage, distance: decades(-2, 1) }), { maxLength: 4 }),
  mobility: fc.constant(MOBILITY),
});

describe('a corona', () => {
  const corona = { onset: 1e5, distance: 0.3 };
  it('carries nothing up to its onset', () => {
    expect(coronaCurrent(0, corona, MOBILITY)).toBe(0);
    expect(coronaCurrent(1e5, corona, MOBILITY)).toBe(0);
  });
  // 2 mu eps0 V^2/d at 170 kV over 0.3 m: about 300 uA.
  it('comes near the space-charge limit far above onset', () => {
    const limit = 2 * MOBILITY * 8.8541878128e-12 * (170e3 ** 2 / 0.3);
    expect(limit).toBeCloseTo(307e-6, 6);
    const far = coronaCurrent(170e3, { onset: 1, distance: 0.3 }, MOBILITY);
    expect(far / limit).toBeCloseTo(1, 4);
  });
  it('refuses nonsense', () => {
    expect(() => coronaCurrent(1, { onset: 0, distance: 1 }, MOBILITY)).toThrow(/onset/);
    expect(() => coronaCurrent(1, { onset: 1, distance: Number.NaN }, MOBILITY)).toThrow(/distance/);
    expect(() => coronaCurrent(1, corona, 0)).toThrow(/mobility/);
  });
});

describe('the balance', () => {
  it('is I R with a resistance alone, and both resistances side by side', () => {
    expect(balanceVoltage(bare(2e-6, { leakResistance: 1e11 }))).toBeCloseTo(2e5, 6);
    expect(balanceVoltage(bare(2e-6, { leakResistance: 1e11, beltResistance: 1e11 }))).toBeCloseTo(1e5, 6);
  });

  it('rises on where nothing takes the current', () => {
    expect(balanceVoltage(bare(2e-6))).toBeUndefined();
    expect(workingBalance(bare(2e-6), 1.5e5)).toEqual({
      voltage: 1.5e5,
      limitedBy: { kind: 'spark' },
      losses: { leakage: 0, belt: 0, coronas: [] },
      spare: 2e-6,
    });
  });

  it('stays at 0 without a current', () => {
    expect(balanceVoltage(bare(0))).toBe(0);
    expect(workingBalance(bare(0, { leakResistance: 1e12 }), 1e5).voltage).toBe(0);
  });

  // V (V - Von) = I d/(2 mu eps0): a quadratic that is solved here by itself.
  it('stands a little above the onset of a corona', () => {
    const corona = { onset: 1e5, distance: 0.3 };
    const k = (2 * MOBILITY * 8.8541878128e-12) / 0.3;
    const expected = (1e5 + Math.sqrt(1e10 + (4 * 2e-6) / k)) / 2;
    const { voltage: found, limitedBy, spare } = workingBalance(bare(2e-6, { coronas: [corona] }), 3e5);
    expect(found).toBeCloseTo(expected, 6);
    expect(found).toBeLessThan(1.03e5);
    expect(limitedBy).toEqual({ kind: 'corona', index: 0 });
    expect(spare).toBe(0);
  });

  it('names the loss that takes most', () => {
    const kind = (over: Partial<Circuit>) => workingBalance(bare(2e-6, over), 1e6).limitedBy;
    expect(kind({ leakResistance: 1e11, beltResistance: 1e12 })).toEqual({ kind: 'leakage' });
    expect(kind({ leakResistance: 1e12, beltResistance: 1e11 })).toEqual({ kind: 'belt' });
    const late = { onset: 9e5, distance: 0.3 };
    const early = { onset: 1e5, distance: 0.3 };
    expect(kind({ leakResistance: 1e13, coronas: [late, early] })).toEqual({ kind: 'corona', index: 1 });
  });

  it(`loses just what comes in, for any circuit, seed ${SEED}`, () => {
    fc.assert(
      fc.property(anyCircuit, (circuit) => {
        const balanced = balanceVoltage(circuit);
        const way = circuit.leakResistance ?? circuit.beltResistance;
        if (balanced === undefined) {
          expect(way).toBeUndefined();
          expect(circuit.coronas).toEqual([]);
        } else expect(Math.abs(totalLoss(circuit, balanced) / circuit.current - 1)).toBeLessThan(1e-6);
      }),
      { seed: SEED, numRuns: 500 },
    );
  });

  it(`falls with another loss, rises with current, and never passes the spark, seed ${SEED}`, () => {
    fc.assert(
      fc.property(anyCircuit, voltage, voltage, (circuit, spark, onset) => {
        const { voltage: now, spare, losses } = workingBalance(circuit, spark);
        expect(now).toBeGreaterThan(0);
        expect(now).toBeLessThanOrEqual(spark);
        expect(spare).toBeGreaterThanOrEqual(0);
        expect(losses.coronas.length).toBe(circuit.coronas.length);
        const more = { ...circuit, coronas: [...circuit.coronas, { onset, distance: 0.3 }] };
        expect(workingBalance(more, spark).voltage).toBeLessThanOrEqual(now * (1 + 1e-12));
        const fed = { ...circuit, current: 2 * circuit.current };
        expect(workingBalance(fed, spark).voltage).toBeGreaterThanOrEqual(now * (1 - 1e-12));
      }),
      { seed: SEED, numRuns: 300 },
    );
  });

  it.each([
    ['current', bare(Number.NaN), 1e5],
    ['current', bare(-1e-6), 1e5],
    ['column’s resistance', bare(1e-6, { leakResistance: 0 }), 1e5],
    ['belt’s resistance', bare(1e-6, { beltResistance: Number.POSITIVE_INFINITY }), 1e5],
    ['mobility', bare(1e-6, { mobility: 0 }), 1e5],
    ['onset', bare(1e-6, { coronas: [{ onset: -1, distance: 1 }] }), 1e5],
    ['weakest spark', bare(1e-6), Number.POSITIVE_INFINITY],
  ])('refuses a %s that is none', (what, circuit, spark) =>
    expect(() => workingBalance(circuit, spark)).toThrow(new RegExp(what)),
  );
});

describe('the time to a voltage', () => {
  const C = 15e-12;
  it('is C V/I without losses', () => expect(chargingTime(C, bare(2e-6), 1.6e5)).toBeCloseTo(1.2, 12));

  it('is -R C ln(1 - V/(I R)) with a resistance', () => {
    const [R, I] = [1e11, 2e-6];
    expect(chargingTime(C, bare(I, { leakResistance: R }), 1.6e5)).toBeCloseTo(
      -R * C * Math.log(1 - 1.6e5 / (I * R)),
      9,
    );
  });

  it('hardly differs from C V/I with a resistance that hardly leaks', () =>
    expect(chargingTime(C, bare(2e-6, { leakResistance: 1e22 }), 1.6e5)).toBeCloseTo(1.2, 9));

  it('has no end at the balance and above', () => {
    const circuit = bare(2e-6, { leakResistance: 1e11 });
    expect(chargingTime(C, circuit, 2e5)).toBeUndefined();
    expect(chargingTime(C, circuit, 3e5)).toBeUndefined();
    expect(chargingTime(C, circuit, 1.999e5)).toBeGreaterThan(0);
  });

  // Simpson's rule on C dV/(I - losses), between the places where a corona starts.
  it(`is the integral of C dV over what is left of the current, seed ${SEED}`, () => {
    const integral = (circuit: Circuit, from: number, to: number) => {
      const kinks = circuit.coronas.map(({ onset }) => onset).filter((onset) => onset > from && onset < to);
      const ends = [from, ...kinks.sort((a, b) => a - b), to];
      const f = (V: number) => C / (circuit.current - totalLoss(circuit, V));
      let sum = 0;
      for (const [i, start] of ends.slice(0, -1).entries()) {
        const h = (ends[i + 1]! - start) / 2000;
        for (let n = 0; n < 1000; n++) {
          const V = start + 2 * n * h;
          sum += (h / 3) * (f(V) + 4 * f(V + h) + f(V + 2 * h));
        }
      }
      return sum;
    };
    const share = fc.double({ min: 0, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(anyCircuit, share, share, (circuit, one, other) => {
        const balance = Math.min(balanceVoltage(circuit) ?? 1e6, 1e6);
        const [from, to] = [Math.min(one, other) * balance, Math.max(one, other) * balance];
        const expected = integral(circuit, from, to);
        const found = chargingTime(C, circuit, to, from)!;
        expect(Math.abs(found - expected)).toBeLessThanOrEqual(1e-6 * expected + 1e-15);
      }),
      { seed: SEED, numRuns: 100 },
    );
  });

  it('adds up', () => {
    const circuit = bare(2e-6, { leakResistance: 1e12, coronas: [{ onset: 9e4, distance: 0.3 }] });
    const whole = chargingTime(C, circuit, 9.1e4)!;
    expect(chargingTime(C, circuit, 5e4)! + chargingTime(C, circuit, 9.1e4, 5e4)!).toBeCloseTo(whole, 9);
    expect(chargingTime(C, circuit, 5e4, 5e4)).toBe(0);
  });

  it('refuses to go down, and nonsense', () => {
    expect(() => chargingTime(C, bare(1e-6), 1, 2)).toThrow(/below/);
    expect(() => chargingTime(0, bare(1e-6), 1)).toThrow(/capacitance/);
    expect(() => chargingTime(C, bare(1e-6), Number.NaN)).toThrow(RangeError);
  });
});

describe('the rate of sparks', () => {
  it('is I/(C V share) without losses', () => {
    expect(sparkRate(15e-12, bare(2e-6), 1.6e5, 1)).toBeCloseTo(1 / 1.2, 12);
    expect(sparkRate(15e-12, bare(2e-6), 1.6e5, 0.5)).toBeCloseTo(2 / 1.2, 12);
  });
  it('is less with losses, and none where the voltage is not reached', () => {
    const leaky = bare(2e-6, { leakResistance: 1e11 });
    expect(sparkRate(15e-12, leaky, 1.6e5, 1)).toBeLessThan(1 / 1.2);
    expect(sparkRate(15e-12, leaky, 2.5e5, 1)).toBe(0);
  });
  it('refuses a share that is none', () =>
    expect(() => sparkRate(15e-12, bare(2e-6), 1e5, 1.2)).toThrow(/share/));
});
