import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { outlook, type Prediction, predict, type Quantity } from '../../parts/field/predict.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { randomMachine } from '../helpers/random-machine.js';
import { readings, variant } from '../helpers/variants.js';

const SEED = 20_261_125;
const A = 'travelling-demonstrator';

function expectOrdered({ low, likely, high }: Pick<Quantity, 'low' | 'likely' | 'high'>, what: string) {
  expect(
    [low, likely, high].every((value) => Number.isFinite(value) && value >= 0),
    what,
  ).toBe(true);
  expect(low, what).toBeLessThanOrEqual(likely);
  expect(likely, what).toBeLessThanOrEqual(high);
}

function quantitiesOf(prediction: object): [string, Quantity][] {
  return Object.entries(prediction).filter(
    (entry): entry is [string, Quantity] => typeof entry[1] === 'object' && 'dominated_by' in entry[1],
  );
}

it(`orders every range, for random machines, seed ${SEED}`, () => {
  fc.assert(
    fc.property(randomMachine, ({ machine }) => {
      const prediction = outlook(machine);
      for (const [name, quantity] of quantitiesOf(prediction)) {
        expectOrdered(quantity, name);
        expect(quantity.likely, name).toBeGreaterThan(0);
      }
      for (const { way, voltage } of prediction.limits) expectOrdered(voltage, way);
      // Losses take little beyond an onset: no way is outlived by more than the belt can feed.
      const breaking = prediction.limits.filter(({ id }) =>
        /column|terminal-to|tube-wall|printed-foot/.test(id),
      );
      expect(prediction.voltage.likely).toBeLessThanOrEqual(
        Math.min(...breaking.map(({ voltage }) => voltage.likely)) * (1 + 1e-9),
      );
    }),
    { seed: SEED, numRuns: 12 },
  );
});

describe('the starters', () => {
  it.each(STARTERS)('%s: says its basis, what was idealised, and what dominates', (name) => {
    const prediction = predict(starterMachine(name));
    expect(prediction.basis.join(' ')).toContain('Not modelled');
    expect(prediction.idealised.length).toBeGreaterThan(2);
    expect(prediction.field.capacitance_error).toBeLessThan(1e-3);
    expect(prediction.field.field_error).toBeLessThan(0.05);
    expect(quantitiesOf(prediction).length).toBe(14);
    for (const [name_, quantity] of quantitiesOf(prediction)) {
      expect(quantity.dominated_by, name_).not.toBe('');
      expectOrdered(quantity, name_);
    }
  });

  it('take the target as discharge voltage, and the terminal’s own limit without one', () => {
    expect(outlook(starterMachine(A)).discharge).toBe(170);
    const without = outlook(variant(A, { target: { voltage: undefined } }));
    const body = without.limits.find(({ id }) => id === 'way/terminal-body');
    expect(without.discharge).toBeCloseTo(body!.voltage.likely, 9);
  });

  it('charge in C V / I, or a little longer as losses set in', () => {
    const { charge, current, charge_time } = outlook(starterMachine('lecture-hall'));
    const bare = charge.likely / current.likely;
    expect(charge_time.likely).toBeGreaterThan(0.9 * bare);
    expect(charge_time.likely).toBeLessThan(1.5 * bare);
  });
});

describe('sparks', () => {
  const sparksOf = (prediction: Prediction, to: string, terminal: string) =>
    prediction.sparks.find((spark) => spark.to === to && spark.terminal === terminal)!;

  it('reach farther to a hand from a negative terminal: the hand is then the anode', () => {
    const prediction = predict(starterMachine(A));
    expect(sparksOf(prediction, 'hand', 'negative').sudden.likely).toBeGreaterThan(
      1.3 * sparksOf(prediction, 'hand', 'positive').sudden.likely,
    );
  });

  it('are never longer on slow approach', () => {
    for (const { sudden, slow, to } of predict(starterMachine('lecture-hall')).sparks) {
      for (const end of ['low', 'likely', 'high'] as const)
        expect(slow[end], to).toBeLessThanOrEqual(sudden[end]);
    }
  });

  it('are told for the terminal’s own sign, or from the shorter to the longer where it is not known', () => {
    const known = predict(starterMachine(A));
    expect(known.polarity).toBe('positive');
    expect(known.spark_to_hand).toEqual(sparksOf(known, 'hand', 'positive').sudden);
    const unknown = predict(variant(A, { rollers: { lower: { material: 'pom' } } }));
    expect(unknown.polarity).toBe('unknown');
    expect(unknown.spark_to_hand.low).toBe(sparksOf(unknown, 'hand', 'positive').sudden.low);
    expect(unknown.spark_to_hand.high).toBe(sparksOf(unknown, 'hand', 'negative').sudden.high);
  });

  it('go by the ball that is asked for: a large one is reached at shorter distances', () => {
    const at = (ball: number) => predict(variant(A, { target: { ball } })).spark_to_ball.likely;
    expect(at(200)).toBeLessThan(at(25) * 1.01);
  });
});

describe('assumptions replaced by the builder', () => {
  it('shrink the range to what was measured', () => {
    const { current } = outlook(variant(A, { assume: { belt_fraction: 0.8 } }));
    expect(current.high / current.low).toBeLessThan(1.1);
    const wide = outlook(starterMachine(A)).limits.find(({ id }) => id === 'way/terminal-body')!.voltage;
    const body = outlook(variant(A, { assume: { surface_factor: 0.7 } })).limits.find(
      ({ id }) => id === 'way/terminal-body',
    )!.voltage;
    expect(body.likely).toBeCloseTo(wide.likely, 6);
    expect(body.high / body.low).toBeLessThan(wide.high / wide.low);
    const person = outlook(variant(A, { assume: { body_capacitance: 500 } })).energy_with_person;
    expect(person.dominated_by).not.toContain('person');
  });

  it('a belt that conducts limits the voltage', () => {
    const leaking = outlook(variant(A, { belt: { resistance: 1e11 } }));
    expect(leaking.limiting).toContain('belt');
    const leak = leaking.limits.find(({ id }) => id === 'way/belt-leakage')!;
    const whole = outlook(starterMachine(A));
    // The middle of the draws lies a little off the likely value.
    expect(leak.voltage.likely / ((whole.current.likely * 1e-6 * 1e11) / 4 / 1e3)).toBeCloseTo(1, 1);
    expect(leaking.limits.length).toBe(whole.limits.length + 1);
    expect(leaking.voltage.likely).toBeLessThan(leak.voltage.likely * 1.001);
    expect(leaking.voltage.likely).toBeLessThan(0.5 * whole.voltage.likely);
  });
});

describe('more of one thing', () => {
  it('a larger terminal holds more charge and discharges later', () => {
    const at = (diameter: number) => outlook(variant(A, { terminal: { diameter: readings(diameter) } }));
    const sizes = [220, 250, 300].map(at);
    for (const [i, larger] of sizes.slice(1).entries()) {
      const smaller = sizes[i]!;
      expect(larger.capacitance.likely).toBeGreaterThan(smaller.capacitance.likely);
      expect(larger.limits[0]!.voltage.likely).toBeGreaterThan(smaller.limits[0]!.voltage.likely);
    }
  });

  it('thinner air lowers the terminal’s limit and the belt’s current', () => {
    const at = (altitude: number) => outlook(variant(A, { site: { altitude } }));
    const [low, high] = [at(0), at(2500)];
    expect(high.limits[0]!.voltage.likely).toBeLessThan(low.limits[0]!.voltage.likely);
    expect(high.current.likely).toBeLessThan(low.current.likely);
  });

  it('a wetter column stays charged for less, and holds less', () => {
    const at = (humidity: number) => outlook(variant(A, { site: { humidity } }));
    const [dry, wet] = [at(40), at(85)];
    expect(wet.stays_charged.likely).toBeLessThan(dry.stays_charged.likely / 100);
    expect(wet.voltage.likely).toBeLessThan(dry.voltage.likely);
  });
});
