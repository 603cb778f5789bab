import { describe, expect, it } from 'vitest';
import { massesOf, terminalMass, together } from '../../parts/checks/masses.js';
import {
  distanceToEdge,
  pushThatTips,
  stance,
  tipAngle,
  tipPush,
  tipsAt,
} from '../../parts/checks/tipping.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');

describe('tipping by statics', () => {
  // r 35.27 and 53.59 mm at a height of 200 mm tip at 10 and 15 degrees; four feet on a circle of 75 mm hold like 53.03 mm,
  // three like 37.5: geometry, computed.
  it('has the tilt of its closed form', () => {
    expect(tipsAt({ toEdge: 35.27, height: 200 })).toBeCloseTo(10, 2);
    expect(tipsAt({ toEdge: 53.59, height: 200 })).toBeCloseTo(15, 2);
  });

  it.each([
    [3, 37.5],
    [4, 53.033],
  ])('of %i feet on 75 mm the middle lies %f mm inside the nearest side', (count, inside) => {
    const corners = Array.from({ length: count }, (_, i) => {
      const angle = (2 * Math.PI * i) / count;
      return [75 * Math.cos(angle), 75 * Math.sin(angle)] as const;
    });
    expect(distanceToEdge([0, 0], corners)).toBeCloseTo(inside, 3);
    expect(distanceToEdge([80, 0], corners)).toBeLessThan(0);
  });

  // F = W r / h: 5 kg, 75 mm, 300 mm: 12.26 N. Statics, computed.
  it('has the push of its closed form', () => {
    expect(pushThatTips({ mass: 5, height: 0, toEdge: 75 }, 300)).toBeCloseTo(12.26, 2);
  });
});

describe('masses', () => {
  it('a terminal weighs what its sheet weighs: a ball less its opening', () => {
    const { diameter, shell, openingDiameter } = A.terminal;
    const radius = diameter.mean / 2 - shell / 2;
    const ball = 4 * Math.PI * radius ** 2 * shell * 2.7e-6;
    const { mass } = terminalMass(A);
    // The cap that is missing, 2 pi R h, is about as large as the bead that stands around it.
    expect(openingDiameter.mean).toBeLessThan(diameter.mean);
    expect(Math.abs(mass / ball - 1)).toBeLessThan(0.06);
    const steel = terminalMass(variant('travelling-demonstrator', { terminal: { material: 'steel' } }));
    expect(steel.mass / mass).toBeCloseTo(7.85 / 2.7, 9);
  });

  it.each(STARTERS)('%s: every piece has a mass at a place, and they add up', (starter) => {
    const masses = massesOf(starterMachine(starter));
    for (const { mass, at } of masses) {
      expect(mass).toBeGreaterThan(0);
      for (const each of at) expect(Number.isFinite(each)).toBe(true);
    }
    const all = together(masses);
    expect(all.mass).toBeCloseTo(
      masses.reduce((sum, { mass }) => sum + mass, 0),
      9,
    );
    expect(masses.map(({ what }) => what)).toEqual(expect.arrayContaining(['terminal', 'foot', 'motor']));
  });
});

describe('findings', () => {
  it.each(STARTERS)('%s stands at 10 degrees, and a push says how little throws it over', (starter) => {
    const machine = starterMachine(starter);
    expect(tipAngle(machine).severity).toBe('ok');
    const push = tipPush(machine);
    expect(push.severity).toBe('caution');
    expect(push.remedy).toContain('clamped to the bench');
  });

  it('a small plate tips, and its remedy holds', () => {
    const small = variant('travelling-demonstrator', { base: { plate: { diameter: 215 } } });
    const finding = tipAngle(small);
    expect(finding.severity).toBe('danger');
    const diameter = Number(/at least ([\d.]+) mm/.exec(finding.remedy)![1]);
    const wider = variant('travelling-demonstrator', { base: { plate: { diameter } } });
    expect(tipAngle(wider).severity).toBe('ok');
  });

  it('a heavier terminal raises the centre of mass', () => {
    const steel = variant('travelling-demonstrator', { terminal: { material: 'steel' } });
    expect(stance(steel).height).toBeGreaterThan(stance(A).height);
    expect(tipAngle(steel).measured).toBeLessThan(tipAngle(A).measured);
  });
});
