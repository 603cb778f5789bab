import { describe, expect, it } from 'vitest';
import { axleSlope, bearingLife, bearingLoad, slopeAtBearings } from '../../parts/checks/axles.js';
import { gapByChance, gapContributions, gapRange } from '../../parts/checks/comb-gap.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

const A = starterMachine('travelling-demonstrator');

describe('an axle under the belt’s pull', () => {
  it.each(STARTERS)('%s: bends at both ends by a slope that its bearings bear', (starter) => {
    const machine = starterMachine(starter);
    for (const end of ['lower', 'upper'] as const) {
      expect(slopeAtBearings(machine, end)).toBeGreaterThan(0);
      expect(axleSlope(machine, end)).toMatchObject({ severity: 'ok', unit: 'mrad' });
    }
  });

  it('bends with the pull, and by the fourth power less when it is thicker', () => {
    const pulled = { ...A, belt: { ...A.belt, tension: 3 * A.belt.tension } };
    expect(bearingLoad(pulled, 'upper')).toBeCloseTo(3 * bearingLoad(A, 'upper'), 9);
    expect(slopeAtBearings(pulled, 'upper')).toBeCloseTo(3 * slopeAtBearings(A, 'upper'), 12);
    const { lower } = A.rollers;
    const thick = { ...lower, axle: { ...lower.axle, diameter: 2 * lower.axle.diameter } };
    const thicker = { ...A, rollers: { ...A.rollers, lower: thick } };
    expect(slopeAtBearings(thicker, 'lower')).toBeCloseTo(slopeAtBearings(A, 'lower') / 16, 12);
  });

  it('is a caution when it bends too far', () => {
    const strained = { ...A, belt: { ...A.belt, tension: 20 * A.belt.tension } };
    expect(axleSlope(strained, 'lower').severity).toBe('caution');
  });
});

describe('the life of bearings', () => {
  it('falls with the cube of the pull', () => {
    const B = starterMachine('lecture-hall');
    const life = bearingLife(B, 'upper');
    expect(life).toMatchObject({ id: 'strength/bearing-life-upper', severity: 'ok' });
    const less = bearingLife({ ...B, belt: { ...B.belt, tension: 2 * B.belt.tension } }, 'upper');
    expect(less.measured).toBeCloseTo(life.measured / 8, 0);
    const gone = bearingLife({ ...B, belt: { ...B.belt, tension: 100 * B.belt.tension } }, 'upper');
    expect(gone.severity).toBe('caution');
  });

  it('is that of the weakest bearing in stock where a bearing has no rating, and says so', () => {
    expect(A.rollers.upper.bearing.row.ratings).toBeUndefined();
    const life = bearingLife(A, 'upper');
    expect(life.basis).toContain('no rating of 696 in stock');
    expect(life.basis).toContain('623, C 0.54 kN');
    expect(life.severity).toBe('ok');
  });
});

it.each(STARTERS)('%s: a gap by chance lies within its worst cases', (starter) => {
  const machine = starterMachine(starter);
  for (const end of ['lower', 'upper'] as const) {
    const [worst, chance] = [gapRange(machine, end), gapByChance(machine, end)];
    expect(gapContributions(machine, end).length).toBeGreaterThan(3);
    expect(chance.least).toBeGreaterThan(worst.least);
    expect(chance.most).toBeLessThan(worst.most);
    expect(chance.least).toBeLessThan(machine.combs[end].gap);
  }
});
