import { describe, expect, it } from 'vitest';
import { densityCeiling } from '../../../parts/field/charge/belt.js';
import { combOnset, rollerDensityNeeded } from '../../../parts/field/charge/comb-onset.js';
import { chargingPair } from '../../../parts/field/charge/pair.js';
import { BELT_MATERIALS } from '../../../parts/stock/belts.js';
import { ROLLER_MATERIALS } from '../../../parts/stock/plastics.js';
import { starterMachine } from '../../helpers/machines.js';
import { variant } from '../../helpers/variants.js';

const changed = (over: Parameters<typeof variant>[1]) => variant('travelling-demonstrator', over);

describe('the sign of a pair', () => {
  it.each([
    // Densities and order agree.
    ['ptfe', 'natural-latex', 'positive', 'from-memory'],
    ['nylon', 'silicone', 'negative', 'verified'],
    // No density is published for neoprene: the order alone.
    ['ptfe', 'neoprene', 'positive', 'common-practice'],
    ['nylon', 'neoprene', 'negative', 'common-practice'],
    // The order has no place for polycarbonate: densities alone.
    ['polycarbonate', 'natural-latex', 'positive', 'from-memory'],
    // Too close in density to tell, clear in the order.
    ['nylon', 'natural-latex', 'negative', 'common-practice'],
    // Densities say one sign, the order the other.
    ['acrylic-cast', 'natural-latex', 'unknown', undefined],
    // Nothing known.
    ['pom', 'neoprene', 'unknown', undefined],
  ] as const)('%s below a belt of %s: %s, %s', (roller, belt, sign, status) => {
    const pair = chargingPair(roller, belt);
    expect(pair.terminal).toBe(sign);
    expect(pair.status).toBe(status);
  });

  it('never says the opposite of the qualitative order', () => {
    for (const roller of ROLLER_MATERIALS) {
      for (const belt of BELT_MATERIALS) {
        const { terminal, byOrder, status } = chargingPair(roller, belt);
        if (byOrder !== 'unknown') expect([byOrder, 'unknown']).toContain(terminal);
        expect(status === undefined).toBe(terminal === 'unknown');
      }
    }
  });
});

describe('the lower comb', () => {
  // sigma = 3 kV eps0/(3 mm + 1.5 mm/6.7), about 8 uC/m2.
  it('needs some 8 uC/m2 on the roller for 3 kV', () =>
    expect(rollerDensityNeeded(3000, 3e-3, 1.5e-3, 6.7) * 1e6).toBeCloseTo(8.24, 2));

  it('needs more at a smaller gap', () =>
    expect(rollerDensityNeeded(3000, 1.5e-3, 1e-3, 3)).toBeGreaterThan(
      rollerDensityNeeded(3000, 3e-3, 1e-3, 3),
    ));

  it('starts before PTFE, whichever rubber the belt is of', () => {
    const onset = combOnset(starterMachine('travelling-demonstrator'))!;
    expect(onset.known).toBe(false);
    expect(onset.ratio!.likely).toBeGreaterThan(1);
    expect(onset.reached!.high).toBeLessThanOrEqual(densityCeiling(1.1));
  });

  it('is less certain before nylon under natural rubber', () => {
    const onset = combOnset(
      changed({ rollers: { lower: { material: 'nylon' } }, belt: { material: 'natural-latex' } }),
    )!;
    expect(onset.known).toBe(true);
    expect(onset.ratio!.likely).toBeLessThan(1);
    expect(onset.ratio!.dominatedBy).toContain('friction reaches');
  });

  it('has no number for a roller that nobody measured', () => {
    const onset = combOnset(changed({ rollers: { lower: { material: 'pom' } } }))!;
    expect(onset.ratio).toBeUndefined();
    expect(onset.reached).toBeUndefined();
    expect(onset.known).toBe(false);
  });

  it('goes by the builder’s measurements', () => {
    const { ratio, known } = combOnset(
      changed({
        rollers: { lower: { material: 'pom' } },
        assume: { roller_charge: 10, comb_onset: 3000 },
      }),
    )!;
    expect(known).toBe(true);
    expect(ratio!.likely).toBeCloseTo(10e-6 / rollerDensityNeeded(3000, 3e-3, 1.2e-3, 6.7), 9);
    expect(ratio!.low).toBe(ratio!.high);
  });

  it('does not depend on friction when a supply feeds it', () =>
    expect(combOnset(changed({ belt: { charging: 'sprayed' } }))).toBeUndefined());

  it('refuses nonsense', () => {
    expect(() => rollerDensityNeeded(3000, 0, 1e-3, 3)).toThrow(/gap/);
    expect(() => rollerDensityNeeded(3000, 3e-3, 1e-3, 0.5)).toThrow(/permittivity/);
  });
});
