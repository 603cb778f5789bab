import { describe, expect, it } from 'vitest';
import { withValues } from '../../parts/checks/change.js';
import { crownFor, SMALL_CROWN } from '../../parts/checks/crown.js';
import { checkMachine } from '../../parts/checks/index.js';
import { printability } from '../../parts/checks/printability.js';
import type { Machine } from '../../parts/machine/machine.js';
import { crownArc } from '../../parts/machine/sleeve.js';
import { dimensionsOf, ordersFor } from '../../parts/printed/catalog.js';
import { upperSleeve } from '../../parts/printed/roller-sleeve.js';
import { complaintsOf } from '../../parts/sheets/proof.js';
import { meshFacts, soupOf } from '../../parts/solid/facts.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { STARTERS, type Starter, starterMachine } from '../helpers/machines.js';
import { overlaps, wrongOverlaps } from '../helpers/mating.js';

const kernel = await loadKernel();
const [WALL, CROWN] = [2, 0.6];

const sleeved = (machine: Machine, end: 'lower' | 'upper', more: Record<string, number | string> = {}) =>
  withValues(machine, { [`rollers.${end}.sleeve`]: WALL, [`rollers.${end}.crown`]: CROWN, ...more });

/** With its rollers as bought. */
const bare = (starter: Starter) => starterMachine(starter, (text) => text.replace(/^ +sleeve: .*\n/m, ''));
const orderOf = (machine: Machine, id: string) => ordersFor(machine).find(({ part }) => part.id === id);

it('is no part of a machine whose rollers are bought as they run', () => {
  const machine = starterMachine('travelling-demonstrator');
  expect(orderOf(machine, 'roller-sleeve-upper')).toBeUndefined();
  expect(() => upperSleeve.dimensions(machine)).toThrow('the upper roller has no sleeve');
});

describe.each(STARTERS)('%s', (starter) => {
  describe.each(['lower', 'upper'] as const)('a sleeve on the %s roller', (end) => {
    const machine = sleeved(starterMachine(starter), end);
    const roller = machine.rollers[end];
    const order = orderOf(machine, `roller-sleeve-${end}`)!;

    it('is what it states, prints without support, and stands', () => {
      kernel.scope(() => {
        const mesh = kernel.mesh(order.part.build(order.dimensions, kernel));
        expect(complaintsOf(meshFacts(soupOf(mesh.positions, mesh.triangles)), order.stated)).toEqual([]);
        for (const { id, severity } of printability(machine, order, mesh).findings)
          expect(`${id} ${severity}`).toBe(`${id} ok`);
      });
    });

    it('goes together with its shell and the hubs, whose dogs go through both', () => {
      expect(wrongOverlaps(kernel.scope(() => overlaps(machine, kernel)))).toEqual([]);
      const pressed = sleeved(starterMachine(starter), end, {
        'fits.sleeve': 'press',
        'print.calibration.hole': 0.15,
      });
      const pair = [`roller-sleeve-${end}`, `roller-shell-${end}`];
      const found = kernel.scope(() => overlaps(pressed, kernel, pair));
      expect(found[0]!.declared).toBeGreaterThan(1);
      expect(wrongOverlaps(found)).toEqual([]);
      const narrow: Machine = {
        ...machine,
        hubs: { ...machine.hubs, [end]: { ...machine.hubs[end], notch: { width: 2, depth: 3.4 } } },
      };
      const dogs = kernel.scope(() =>
        overlaps(narrow, kernel, [`roller-hub-${end}`, `roller-sleeve-${end}`]),
      );
      expect(wrongOverlaps(dogs)).toHaveLength(1);
    });

    it('carries the belt on its crown, and is what everything else reckons with', () => {
      expect(roller.shell).toEqual(bare(starter).rollers[end].outer);
      expect(roller.outer.mean).toBeCloseTo(roller.shell.mean + 2 * WALL, 9);
      expect(roller.surface).toBe(machine.print.material);
      expect(machine.belt.loopLength).toBeGreaterThan(bare(starter).belt.loopLength + Math.PI * WALL);
      expect(machine.hubs[end].flangeRadius).toBeGreaterThan(roller.shell.high / 2);
      expect(machine.hubs[end].flangeRadius).toBeLessThan(roller.outer.low / 2);
    });
  });
});

it('comes out at the size that the belt path counts on, whatever the printer does', () => {
  const printer = { 'print.calibration.outside': 0.15, 'print.calibration.hole': -0.2 };
  const machine = sleeved(starterMachine('lecture-hall'), 'upper', printer);
  const d = dimensionsOf(upperSleeve as never, machine) as { endRadius: number; boreRadius: number };
  const { outer, shell } = machine.rollers.upper;
  expect(2 * d.endRadius + 0.15).toBeCloseTo(outer.mean, 2);
  expect(2 * d.boreRadius - 0.2).toBeCloseTo(shell.high + 0.1, 2);
});

describe('crowns', () => {
  // Rc = (b2/4 + h2) / 2h of a circular segment, worked by hand.
  it.each([
    [20, 0.3, 166.82],
    [25, 0.8, 98.06],
    [30, 0.5, 225.25],
  ])('over a face of %d mm a crown of %d mm is an arc of %d mm', (face, height, arc) => {
    expect(crownArc(face, height)).toBeCloseTo(arc, 2);
  });

  it('rises over the middle by the crown, along that arc', () => {
    const machine = sleeved(starterMachine('lecture-hall'), 'upper');
    const order = orderOf(machine, 'roller-sleeve-upper')!;
    const d = order.dimensions as { endRadius: number; crown: number; length: number };
    const arc = crownArc(d.length, d.crown);
    kernel.scope(() => {
      const { positions } = kernel.mesh(order.part.build(order.dimensions, kernel));
      let most = 0;
      for (let v = 0; v < positions.length; v += 3) {
        const [r, z] = [Math.hypot(positions[v]!, positions[v + 1]!), positions[v + 2]!];
        most = Math.max(most, r);
        const off = Math.hypot(r - (d.endRadius + d.crown - arc), z - d.length / 2) - arc;
        // Inside the arc, or on it.
        expect(off).toBeLessThan(1e-3);
      }
      expect(most).toBeCloseTo(d.endRadius + d.crown, 4);
    });
  });

  // ISO 22 and a handbook's table of crowns (0.012 to 0.024 in), both from memory.
  it.each([
    [40, 0.3],
    [112, 0.3],
    [125, 0.4],
    [140, 0.4],
    [160, 0.5],
    [180, 0.5],
    [200, 0.6],
    [224, 0.6],
  ])('of a pulley of %d mm is %d mm', (diameter, height) => {
    expect(crownFor(diameter)).toMatchObject({ height, status: 'from-memory' });
  });

  it('of smaller rollers is common practice, and beyond the table it says so', () => {
    expect(crownFor(39.9)).toMatchObject({ height: SMALL_CROWN.value, status: 'common-practice' });
    expect(crownFor(230).source).toContain('beyond what we have of the table');
  });

  it('a belt on two plain rollers is a caution, which one sleeve mends', () => {
    const found = (machine: Machine) => checkMachine(machine).findings.find(({ id }) => id === 'belt/crown')!;
    const plain = found(starterMachine('travelling-demonstrator'));
    expect(plain).toMatchObject({ severity: 'caution', measured: 0 });
    expect(plain.tries![0]!.values.map(({ key }) => key)).toEqual([
      'rollers.upper.sleeve',
      'rollers.upper.crown',
    ]);
    expect(found(sleeved(starterMachine('travelling-demonstrator'), 'lower'))).toMatchObject({
      severity: 'ok',
      measured: CROWN,
    });
  });
});
