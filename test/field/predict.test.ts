import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Prediction, predict, type Quantity } from '../../parts/field/predict.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { randomMachine } from '../helpers/random-machine.js';
import { readings, variant } from '../helpers/variants.js';

const SEED = 20_261_125;
const QUANTITIES = [
  'capacitance',
  'voltage',
  'current',
  'charge_time',
  'spark_to_ball',
  'energy',
  'energy_with_person',
] as const satisfies readonly (keyof Prediction)[];

function expectOrdered({ low, likely, high }: Pick<Quantity, 'low' | 'likely' | 'high'>, what: string) {
  expect(
    [low, likely, high].every((value) => Number.isFinite(value) && value > 0),
    what,
  ).toBe(true);
  expect(low, what).toBeLessThanOrEqual(likely);
  expect(likely, what).toBeLessThanOrEqual(high);
}

it(`orders every range, for random machines, seed ${SEED}`, () => {
  fc.assert(
    fc.property(randomMachine, ({ machine }) => {
      const prediction = predict(machine);
      for (const name of QUANTITIES) expectOrdered(prediction[name], name);
      for (const { way, voltage } of prediction.limits) expectOrdered(voltage, way);
      const least = Math.min(...prediction.limits.map(({ voltage }) => voltage.likely));
      expect(prediction.voltage.likely).toBeCloseTo(least, 6);
      expect(prediction.limits.find(({ way }) => way === prediction.limiting)?.voltage.likely).toBeCloseTo(
        least,
        6,
      );
    }),
    { seed: SEED, numRuns: 200 },
  );
});

describe('the starters', () => {
  it.each(STARTERS)('%s: says that it is a closed form, its basis and what dominates', (name) => {
    const prediction = predict(starterMachine(name));
    expect(prediction.closed_form).toBe(true);
    expect(prediction.basis.join(' ')).toContain('Not modelled');
    for (const quantity of QUANTITIES) expect(prediction[quantity].dominated_by).not.toBe('');
  });

  // Boundary-element solutions of these machines, outside this package: 15.1 and 24.2 pF.
  it.each([
    ['travelling-demonstrator', 15.1],
    ['lecture-hall', 24.2],
  ] as const)('%s: its capacitance holds what a solved field gives', (name, solved) => {
    const { low, high } = predict(starterMachine(name)).capacitance;
    expect(solved).toBeGreaterThan(low);
    expect(solved).toBeLessThan(high);
  });

  it('take the target as discharge voltage, and the terminal’s own limit without one', () => {
    expect(predict(starterMachine('travelling-demonstrator')).discharge).toBe(170);
    const without = predict(variant('travelling-demonstrator', { target: { voltage: undefined } }));
    const body = without.limits.find(({ id }) => id === 'way/terminal-body');
    expect(without.discharge).toBeCloseTo(body!.voltage.likely, 9);
  });

  it('charge in C V / I', () => {
    const { capacitance, voltage, current, charge_time } = predict(starterMachine('lecture-hall'));
    expect(charge_time.likely).toBeCloseTo(
      (capacitance.likely * 1e-12 * voltage.likely * 1e3) / (current.likely * 1e-6),
      9,
    );
  });

  it('spark farther from a negative terminal', () => {
    const spark = (material: 'ptfe' | 'nylon') =>
      predict(variant('travelling-demonstrator', { rollers: { lower: { material } } }));
    expect(spark('ptfe').polarity).toBe('positive');
    expect(spark('nylon').polarity).toBe('negative');
    expect(spark('nylon').spark_to_ball.likely).toBeGreaterThan(2 * spark('ptfe').spark_to_ball.likely);
  });

  it('do not predict more for a higher target', () => {
    const at = (voltage: number) => predict(variant('travelling-demonstrator', { target: { voltage } }));
    expect(at(500e3).voltage).toEqual(at(100e3).voltage);
  });
});

describe('assumptions replaced by the builder', () => {
  it('take the place of the likely value and keep the order', () => {
    const { current } = predict(variant('travelling-demonstrator', { assume: { belt_fraction: 0.8 } }));
    expect(current.likely).toBe(current.high);
    const { limits } = predict(variant('travelling-demonstrator', { assume: { surface_factor: 0.4 } }));
    const body = limits.find(({ id }) => id === 'way/terminal-body')!.voltage;
    expect(body.low / body.likely).toBeGreaterThan(0.9);
    expectOrdered(body, 'body');
    const { energy_with_person: person } = predict(
      variant('travelling-demonstrator', { assume: { body_capacitance: 500 } }),
    );
    expectOrdered(person, 'person');
  });

  it('a belt that conducts limits the voltage', () => {
    const { limiting, limits } = predict(variant('travelling-demonstrator', { belt: { resistance: 1e11 } }));
    expect(limiting).toContain('belt');
    const leak = limits.find(({ id }) => id === 'way/belt-leakage')!;
    const { current } = predict(variant('travelling-demonstrator'));
    expect(leak.voltage.likely).toBeCloseTo((current.likely * 1e-6 * 1e11) / 4 / 1e3, 6);
    expect(limits.length).toBe(predict(variant('travelling-demonstrator')).limits.length + 1);
  });
});

describe('more of one thing', () => {
  it('a larger terminal holds more charge and discharges later', () => {
    const at = (diameter: number) =>
      predict(variant('travelling-demonstrator', { terminal: { diameter: readings(diameter) } }));
    const sizes = [220, 250, 300, 400].map(at);
    for (const [i, larger] of sizes.slice(1).entries()) {
      const smaller = sizes[i]!;
      expect(larger.capacitance.likely).toBeGreaterThan(smaller.capacitance.likely);
      expect(larger.limits[0]!.voltage.likely).toBeGreaterThan(smaller.limits[0]!.voltage.likely);
    }
  });

  it('thinner air lowers the terminal’s limit and the belt’s current', () => {
    const at = (altitude: number) => predict(variant('travelling-demonstrator', { site: { altitude } }));
    const [low, high] = [at(0), at(2500)];
    expect(high.limits[0]!.voltage.likely).toBeLessThan(low.limits[0]!.voltage.likely);
    expect(high.current.likely).toBeLessThan(low.current.likely);
  });
});
