import { describe, expect, it } from 'vitest';
import { severityOfWay } from '../../parts/checks/way-severity.js';
import { airOf } from '../../parts/field/air/atmosphere.js';
import { inceptionAlong, lineFrom } from '../../parts/field/inception.js';
import { boundField, worstPlace } from '../../parts/field/machine-field.js';
import { BOUNDS } from '../../parts/field/machine-problem.js';
import { outlook } from '../../parts/field/predict.js';
import { limitWay } from '../../parts/field/ways.js';
import { starterMachine } from '../helpers/machines.js';
import { readings, variant } from '../helpers/variants.js';

/**
 * The first open-air pair of belt-charged generators: 24-inch spheres on 7-ft Pyrex rods, about 1.5 MV between the two,
 * limited by brush discharge from the whole of the spheres. Physical Review 38, 1919A (1931), abstract: verified. The rest
 * of the machine (belt, rollers, opening) is invented to fill our file; the sphere’s own limit hardly depends on it.
 */
const pair1931 = () =>
  variant('lecture-hall', {
    site: { altitude: 0, temperature: 20 },
    target: { voltage: 750e3 },
    terminal: { diameter: readings(609.6), opening: { diameter: readings(132), lip: 8 }, insertion: 40 },
    column: { tube: { material: 'borosilicate-glass', length: 2133.6 } },
    base: { bench: 0 },
  });

describe('the pair of 1931, 750 kV on each sphere', () => {
  it('lies inside what is predicted for the terminal, a range of at most 2 to 1', () => {
    const body = outlook(pair1931()).limits.find(({ id }) => id === 'way/terminal-body')!.voltage;
    expect(body.low).toBeLessThan(750);
    expect(body.high).toBeGreaterThan(750);
    expect(body.high / body.low).toBeLessThan(2);
  });

  it('lies inside the working voltage, a range of at most 2 to 1', () => {
    const { voltage } = outlook(pair1931());
    expect(voltage.low).toBeLessThan(750);
    expect(voltage.high).toBeGreaterThan(750);
    expect(voltage.high / voltage.low).toBeLessThanOrEqual(2);
  });

  it('has a column that is a caution: 3.5 kV/cm', () => {
    const machine = pair1931();
    expect(severityOfWay(limitWay(machine, 'way/column-outer')!, 750e3)).toBe('caution');
  });
});

/**
 * Three demo machines of ours; capacitance and field at the lip from boundary-element and finite-element solutions made
 * outside this package (status: computed), rounded there.
 */
describe('solutions of the demo machines made elsewhere', () => {
  it.each([
    ['travelling-demonstrator', 15.1],
    ['lecture-hall', 24.2],
  ] as const)('%s: capacitance within 2 %%', (name, picofarads) => {
    const { capacitance } = boundField(starterMachine(name), 'polarised');
    expect(Math.abs((capacitance * 1e12) / picofarads - 1)).toBeLessThan(0.02);
  });

  it.each([
    ['travelling-demonstrator', 15.6],
    ['lecture-hall', 9.8],
  ] as const)('%s: field at the lip, column polarised, within 2 %%', (name, perMetre) => {
    const machine = starterMachine(name);
    const lip = worstPlace(machine, boundField(machine, 'polarised'), 'lip')!;
    expect(Math.abs(lip.field / perMetre - 1)).toBeLessThan(0.02);
  });

  // Bead radius 2, 4, 6, 8, 12 mm: 229, 258, 275, 283, 293 kV at density 1, a perfect surface.
  it.each([
    [2, 229],
    [4, 258],
    [6, 275],
    [8, 283],
    [12, 293],
  ])('a bead of %d mm on the first machine starts corona at %d kV, within 4 %%', (lip, kilovolts) => {
    const machine = variant('travelling-demonstrator', {
      site: { altitude: 0, temperature: 20, pressure: 101.3 },
      terminal: { opening: { lip } },
    });
    const field = boundField(machine, 'polarised');
    const line = lineFrom(field, worstPlace(machine, field, 'lip')!, lip / 1000);
    const onset = inceptionAlong(line, airOf(machine.site), 11, 0);
    expect(Math.abs(onset / 1000 / kilovolts - 1)).toBeLessThan(0.04);
  });

  it('an even gradient takes field off the lip, in every machine', () => {
    for (const name of ['travelling-demonstrator', 'lecture-hall', 'inch-built'] as const) {
      const machine = starterMachine(name);
      const [polarised, graded] = BOUNDS.map(
        (bound) => worstPlace(machine, boundField(machine, bound), 'lip')!.field,
      );
      expect(graded!).toBeLessThan(0.6 * polarised!);
    }
  });
});
