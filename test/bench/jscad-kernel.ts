import jscad from '@jscad/modeling';
import type { Kernel, Solid } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { extruded, lofted, revolved, trianglesOf } from '../../parts/solid/primitives.js';
import { radians } from '../../parts/solid/vector.js';

type Geom3 = ReturnType<typeof extruded>;
interface Held extends Solid {
  readonly shape: Geom3;
}

/** The same operations through JSCAD's own 3D booleans. Flat booleans for the characters stay the house's. */
export async function jscadKernel(): Promise<Kernel> {
  const house = await loadKernel();
  const { booleans, hulls, measurements, transforms } = jscad;
  const hold = (shape: unknown): Held => ({ kernel: 'jscad', shape: shape as Geom3 });
  const of = (solid: Solid): Geom3 => (solid as Held).shape;
  return {
    name: 'jscad',
    scope: (work) => work(),
    join: house.join,
    characters: house.characters,
    extrude: (region, bottom, top) => hold(extruded(region, bottom, top)),
    loft: (sections) => hold(lofted(sections)),
    revolve: (profile, sides) => hold(revolved(profile, sides)),
    hull: (solids) => hold(hulls.hull(solids.map(of))),
    union: (solids) => hold(booleans.union(solids.map(of))),
    subtract: (base, cutters) => hold(booleans.subtract(of(base), ...cutters.map(of))),
    intersect: (a, b) => hold(booleans.intersect(of(a), of(b))),
    place: (solid, { turn, move }) =>
      hold(
        transforms.translate(
          [...move],
          transforms.rotate([radians(turn[0]), radians(turn[1]), radians(turn[2])], of(solid)),
        ),
      ),
    simplify: (solid) => solid,
    mesh: (solid) => trianglesOf(of(solid)),
    volume: (solid) => measurements.measureVolume(of(solid)),
    bounds: (solid) => {
      const [min, max] = measurements.measureBoundingBox(of(solid));
      return { min, max };
    },
  };
}
