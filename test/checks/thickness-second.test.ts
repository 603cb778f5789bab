import type { CrossSection } from 'manifold-3d';
import { describe, expect, it } from 'vitest';
import { ordersFor } from '../../parts/printed/catalog.js';
import type { Mesh } from '../../parts/solid/kernel.js';
import { loadKernel, manifoldModule } from '../../parts/solid/manifold-kernel.js';
import { RayIndex } from '../../parts/solid/rays.js';
import { thicknessOf } from '../../parts/solid/thickness.js';
import { STARTERS, type Starter, starterMachine } from '../helpers/machines.js';

// The thinnest wall a second time: a slice is taken in and let out again by half a width. Where it is narrower than that, it is gone.

const kernel = await loadKernel();
const module = await manifoldModule();

/** Slice of a mesh at a height. */
function slice({ positions, triangles }: Mesh, z: number): CrossSection {
  const solid = new module.Manifold(
    new module.Mesh({ numProp: 3, vertProperties: positions, triVerts: triangles }),
  );
  const cut = solid.slice(z);
  solid.delete();
  return cut;
}

/** Area of what a slice loses around a place (mm2, within 1 mm) when all that is narrower than `width` is taken away. */
function lostAround(section: CrossSection, [x, y]: readonly number[], width: number): number {
  const opened = section.offset(-width / 2, 'Round', 2, 64).offset(width / 2, 'Round', 2, 64);
  const lost = section.subtract(opened);
  const near = lost.intersect(module.CrossSection.circle(1, 32).translate([x!, y!]));
  const area = near.area();
  for (const each of [opened, lost, near]) each.delete();
  return area;
}

/** Parts whose thinnest wall stands upright, so that a level slice shows its width. */
const UPRIGHT = [
  'axle-spacer',
  'axle-block',
  'bearing-carrier-lower',
  'bearing-carrier-upper',
  'roller-hub-upper',
  'drive-pulley-motor',
];

/** Where the thinnest wall lies level, or beside a corner that a slice let in loses as well. */
const OTHERWISE: Partial<Record<Starter, readonly string[]>> = {
  'school-workshop': ['roller-hub-upper', 'drive-pulley-motor', 'bearing-carrier-lower'],
};

describe.each(STARTERS)('%s', (starter) => {
  const orders = ordersFor(starterMachine(starter));
  const upright = UPRIGHT.filter((id) => !OTHERWISE[starter]?.includes(id));

  it.each(upright)('%s: its thinnest wall stays at a little less and goes at a little more', (id) => {
    const { part, dimensions } = orders.find((order) => order.part.id === id)!;
    const mesh = kernel.scope(() => kernel.mesh(part.build(dimensions, kernel)));
    const { wall } = thicknessOf(new RayIndex(mesh));
    const section = slice(mesh, wall!.at[2]);
    const before = lostAround(section, wall!.at, 0.93 * wall!.width);
    const after = lostAround(section, wall!.at, 1.15 * wall!.width);
    section.delete();
    expect(before).toBeLessThan(0.05);
    expect(after).toBeGreaterThan(0.15);
  });
});
