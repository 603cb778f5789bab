import { describe, expect, it } from 'vitest';
import { withValues } from '../../parts/checks/change.js';
import type { Machine } from '../../parts/machine/machine.js';
import { ordersFor } from '../../parts/printed/catalog.js';
import { shaftLoop, sidesFor } from '../../parts/solid/facets.js';
import type { Solid } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { degrees, type Vec2 } from '../../parts/solid/vector.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

const kernel = await loadKernel();

function jigOf(machine: Machine, clearance?: number): Solid {
  const { part, dimensions } = ordersFor(machine).find((order) => order.part.id === 'opening-jig')!;
  return part.build(clearance === undefined ? dimensions : { ...dimensions, clearance }, kernel);
}

/** Half axes of the terminal around the pole, and its closed outside with the pole where the beam's pin stands on it. */
function shellOn({ jigs }: Machine) {
  const { cap, height } = jigs.opening;
  const { equatorial: a, polar: b } = cap;
  const sides = sidesFor(a);
  const outline = Array.from({ length: 401 }, (_, i): Vec2 => {
    const u = (Math.PI * i) / 400;
    return [i % 400 === 0 ? 0 : a * Math.sin(u), height + b - b * Math.cos(u)];
  });
  return { a, b, pole: height, solid: () => kernel.revolve(outline, sides) };
}

/** What a rod along a line has in common with a solid, mm3. Through `at` in the x-z plane, leaning towards +x downwards. */
function rodIn(solid: Solid, radius: number, at: Vec2, lean: number): number {
  const rod = kernel.place(kernel.extrude([shaftLoop(radius)], -200, 0), {
    turn: [0, -lean, 0],
    move: [at[0], 0, at[1]],
  });
  return kernel.volume(kernel.intersect(solid, rod));
}

const changes: [string, Record<string, number>][] = [
  ['its own bead', {}],
  ['a raw edge', { 'terminal.opening.lip': 0.5 }],
  ['a small bead', { 'terminal.opening.lip': 2 }],
  ['a bead that is put in', { 'terminal.opening.lip': 16 }],
];

describe.each(STARTERS)('opening jig of %s', (starter) => {
  describe.each(changes)('with %s', (_what, change) => {
    const machine = withValues(starterMachine(starter), change);
    const { radius, lean, height } = machine.jigs.opening;

    it('lies on the outside of the shell, and would stand in it with less room', () => {
      kernel.scope(() => {
        const shell = shellOn(machine).solid();
        expect(kernel.volume(kernel.intersect(jigOf(machine), shell))).toBeLessThan(1e-3);
        expect(kernel.volume(kernel.intersect(jigOf(machine, -0.2), shell))).toBeGreaterThan(10);
      });
    });

    it('takes a pin along the axis, and a scriber along the normal where the circle is', () => {
      const { a, b, pole } = shellOn(machine);
      const guide = machine.jigs.pilot.drawn / 2;
      const meets: Vec2 = [radius, pole + b * (1 - Math.sqrt(1 - (radius / a) ** 2))];
      const step = 1e-4;
      const heightAt = (r: number) => b * (1 - Math.sqrt(1 - (r / a) ** 2));
      const normal = degrees(Math.atan((heightAt(radius + step) - heightAt(radius - step)) / (2 * step)));
      expect(lean).toBeCloseTo(Math.min(normal, 40), 2);
      kernel.scope(() => {
        const jig = jigOf(machine);
        expect(rodIn(jig, guide - 0.02, [0, height], 0)).toBeLessThan(1e-3);
        expect(rodIn(jig, guide + 0.05, [0, height], 0)).toBeGreaterThan(1);
        expect(rodIn(jig, guide - 0.02, meets, lean)).toBeLessThan(1e-3);
        for (const off of [-0.2, 0.2])
          expect(rodIn(jig, guide - 0.02, [meets[0] + off, meets[1]], lean)).toBeGreaterThan(0.1);
      });
    });

    it('is what it states', () => {
      const { part, dimensions, stated } = ordersFor(machine).find(
        (order) => order.part.id === 'opening-jig',
      )!;
      kernel.scope(() => {
        expect(kernel.volume(jigOf(machine)) / stated.volume).toBeCloseTo(1, 3);
        expect(kernel.volume(part.bare(dimensions, kernel)) / stated.bareVolume).toBeCloseTo(1, 3);
      });
    });
  });
});
