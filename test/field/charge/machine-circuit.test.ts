import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  COUNTS_AS_CHARGED,
  likelyCircuit,
  machineCircuit,
  sparksASecond,
  timeCharged,
  timeToWork,
  type UncertainCorona,
  workingVoltage,
} from '../../../parts/field/charge/machine-circuit.js';
import { sideBySide, staysCharged, storedCharge } from '../../../parts/field/charge/stored.js';
import { starterMachine } from '../../helpers/machines.js';
import { randomMachine } from '../../helpers/random-machine.js';
import { variant } from '../../helpers/variants.js';

const SEED = 20_261_125;
const A = starterMachine('travelling-demonstrator');
const changed = (over: Parameters<typeof variant>[1]) => variant('travelling-demonstrator', over);
const spread = (likely: number, what: string) => ({
  range: { low: 0.8 * likely, likely, high: 1.2 * likely },
  what,
});
const spark = spread(170e3, 'weakest spark');
const capacitance = spread(15e-12, 'capacitance');
const lip: UncertainCorona = { onset: spread(120e3, 'onset at the lip'), distance: 0.3 };

describe('the voltage a machine works at', () => {
  it('is the weakest spark’s where nothing else limits', () => {
    const { low, likely, high, balance, dominatedBy } = workingVoltage(machineCircuit(A, []), spark);
    expect(likely).toBe(170e3);
    expect([low, high].map(Math.round)).toEqual([136e3, 204e3]);
    expect(balance.limitedBy).toEqual({ kind: 'spark' });
    expect(dominatedBy).toBe('weakest spark');
  });

  it('is a corona’s a little above its onset', () => {
    const { likely, balance, dominatedBy } = workingVoltage(machineCircuit(A, [lip]), spark);
    expect(likely).toBeGreaterThan(120e3);
    expect(likely).toBeLessThan(125e3);
    expect(balance.limitedBy).toEqual({ kind: 'corona', index: 0 });
    expect(dominatedBy).toBe('onset at the lip');
  });

  it('is the column’s when it is wet, and the belt’s when it conducts', () => {
    const wet = changed({ site: { humidity: 95, cleanliness: 'damp' } });
    const { likely, balance, dominatedBy } = workingVoltage(machineCircuit(wet, []), spark);
    expect(likely).toBeLessThan(50e3);
    expect(balance.limitedBy).toEqual({ kind: 'leakage' });
    expect(dominatedBy).toBe('surface resistivity of the column');
    const carbon = changed({ belt: { resistance: 1e9 } });
    expect(workingVoltage(machineCircuit(carbon, []), spark).balance.limitedBy).toEqual({ kind: 'belt' });
  });

  it(`and the times keep their order, for random machines, seed ${SEED}`, () => {
    fc.assert(
      fc.property(randomMachine, fc.boolean(), ({ machine }, corona) => {
        const circuit = machineCircuit(machine, corona ? [lip] : []);
        const ranges = [
          workingVoltage(circuit, spark),
          timeToWork(capacitance, circuit, spark),
          ...Object.values(timeCharged(capacitance, circuit)),
        ];
        for (const { low, likely, high } of ranges) {
          expect(low).toBeGreaterThan(0);
          expect(low).toBeLessThanOrEqual(likely);
          expect(likely).toBeLessThanOrEqual(high);
          expect(Number.isFinite(high)).toBe(true);
        }
      }),
      { seed: SEED, numRuns: 60 },
    );
  });
});

describe('its times', () => {
  it('charges in about C V/I when dry', () => {
    const circuit = machineCircuit(A, []);
    const { current } = likelyCircuit(circuit);
    expect(timeToWork(capacitance, circuit, spark).likely).toBeCloseTo((15e-12 * 170e3) / current, 2);
  });

  it('counts as charged short of a balance that is only approached', () => {
    const leaky = machineCircuit(changed({ assume: { surface_resistivity: 1e10, belt_fraction: 0.3 } }), []);
    const { leakResistance } = likelyCircuit(leaky);
    expect(workingVoltage(leaky, spark).balance.limitedBy.kind).toBe('leakage');
    expect(timeToWork(capacitance, leaky, spark).likely).toBeCloseTo(
      -leakResistance! * 15e-12 * Math.log(1 - COUNTS_AS_CHARGED),
      9,
    );
  });

  // 1e14 ohm per square on an 80 mm tube: about half an hour.
  it('stays charged for tens of minutes when clean and dry, shorter with a belt that conducts', () => {
    const dry = timeCharged(capacitance, machineCircuit(A, [])).timeConstant.likely;
    expect(dry).toBeGreaterThan(20 * 60);
    expect(dry).toBeLessThan(40 * 60);
    const carbon = machineCircuit(changed({ belt: { resistance: 1e12 } }), []);
    expect(timeCharged(capacitance, carbon).timeConstant.likely).toBeLessThan(4);
  });

  it('sparks at a rate only where it sparks', () => {
    const circuit = machineCircuit(A, []);
    const { current } = likelyCircuit(circuit);
    const rate = sparksASecond(A, capacitance, circuit, spark)!;
    expect(rate.likely).toBeCloseTo(current / (15e-12 * 170e3 * 0.8), 2);
    expect(sparksASecond(A, capacitance, machineCircuit(A, [lip]), spark)).toBeUndefined();
    const all = changed({ assume: { spark_share: 1 } });
    expect(sparksASecond(all, capacitance, circuit, spark)!.likely).toBeCloseTo(0.8 * rate.likely, 3);
  });
});

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
