import type { Manifold } from 'manifold-3d';
import type { Kernel } from '../../parts/solid/kernel.js';
import { manifoldKernel, manifoldModule } from '../../parts/solid/manifold-kernel.js';
import type { Loop, Region } from '../../parts/solid/vector.js';

/** The same operations through Manifold's own primitives: what the detour through the modelling language costs. */
export async function bareKernel(): Promise<Kernel> {
  const module = await manifoldModule();
  const section = (loops: Region) =>
    new module.CrossSection(
      loops.map((loop) => loop.map(([x, y]): [number, number] => [x, y])),
      'Positive',
    );
  const from = (loops: Region, make: (flat: ReturnType<typeof section>) => Manifold): Manifold => {
    const flat = section(loops);
    const solid = make(flat);
    flat.delete();
    return solid;
  };
  return manifoldKernel(module, 'bare', {
    extrude: (region, bottom, top) =>
      from(region, (flat) => {
        const solid = flat.extrude(top - bottom);
        const placed = solid.translate([0, 0, bottom]);
        solid.delete();
        return placed;
      }),
    revolve: (profile: Loop, sides) => from([profile], (flat) => flat.revolve(sides)),
    loft: (sections) => {
      const count = sections[0]!.loop.length;
      const positions = sections.flatMap(({ z, loop }) => loop.flatMap(([x, y]) => [x, y, z]));
      const triangles: number[] = [];
      for (let s = 0; s + 1 < sections.length; s++) {
        for (let i = 0; i < count; i++) {
          const [a, b] = [s * count + i, s * count + ((i + 1) % count)];
          triangles.push(a, b, b + count, a, b + count, a + count);
        }
      }
      const cap = (from: number, up: boolean): void => {
        for (const [a, b, c] of module.triangulate([
          [...sections[from]!.loop].map(([x, y]): [number, number] => [x, y]),
        ])) {
          const base = from * count;
          triangles.push(base + a!, base + (up ? b! : c!), base + (up ? c! : b!));
        }
      };
      cap(0, false);
      cap(sections.length - 1, true);
      return new module.Manifold(
        new module.Mesh({
          numProp: 3,
          vertProperties: Float32Array.from(positions),
          triVerts: Uint32Array.from(triangles),
        }),
      );
    },
  });
}
