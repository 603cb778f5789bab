import { expect, it } from 'vitest';
import { assembly } from '../../parts/printed/assembly.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { sliceMesh } from '../../parts/solid/slice.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

const kernel = await loadKernel();

/** mm; belt and roller are polygons. */
const FACETS = 0.05;

it.each(STARTERS.flatMap((starter) => (['lower', 'upper'] as const).map((end) => [starter, end] as const)))(
  '%s: the %s comb stands off the belt by its gap',
  (starter, end) => {
    const machine = starterMachine(starter);
    const loops = (id: string) => {
      const piece = assembly(machine).find((each) => each.id === id)!;
      return kernel.scope(() => sliceMesh(kernel.mesh(piece.build(kernel)), piece.placement, 0));
    };
    const comb = loops(`comb-${end}`).flat();
    const { axisZ, outer, crown } = machine.rollers[end];
    // From the belt where it lies highest.
    const belt = outer.mean / 2 + crown + machine.belt.thickness;
    const nearest = Math.min(...comb.map(([x, z]) => Math.hypot(x, z - axisZ) - belt));
    expect(Math.abs(nearest - machine.combs[end].gap)).toBeLessThan(FACETS);
  },
);
