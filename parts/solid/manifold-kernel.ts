import type { CrossSection, Manifold, ManifoldToplevel } from 'manifold-3d';
import loadManifold from 'manifold-3d';
import { characterStrokes } from './characters.js';
import type { Kernel, Mesh, Section, Solid } from './kernel.js';
import { extruded, lofted, revolved, trianglesOf } from './primitives.js';
import type { Loop, Placement, Region, Vec2 } from './vector.js';

/** The WASM file itself, where it can't be found beside the code: only a bundle for the browser needs to say. */
export interface KernelOptions {
  readonly wasmBinary?: Uint8Array;
}

interface Held extends Solid {
  readonly body: Manifold;
}

/** The primitives a kernel starts from, as Manifold bodies. */
export interface Primitives {
  extrude(region: Region, bottom: number, top: number): Manifold;
  loft(sections: readonly Section[]): Manifold;
  revolve(profile: Loop, sides: number): Manifold;
}

let toplevel: Promise<ManifoldToplevel> | undefined;

/** Loads Manifold once for the whole process. */
export function manifoldModule(options: KernelOptions = {}): Promise<ManifoldToplevel> {
  // With the file at hand its name is asked for all the same, and never used.
  const given = options.wasmBinary && { ...options, locateFile: () => 'manifold.wasm' };
  toplevel ??= loadManifold(given as Parameters<typeof loadManifold>[0]).then((module) => {
    module.setup();
    return module;
  });
  return toplevel;
}

/** The kernel of the house: JSCAD primitives, extrusions and revolutions, Manifold's booleans. */
export async function loadKernel(options: KernelOptions = {}): Promise<Kernel> {
  const module = await manifoldModule(options);
  const enter = (shape: Parameters<typeof trianglesOf>[0]): Manifold => {
    const { positions, triangles } = trianglesOf(shape);
    return new module.Manifold(
      new module.Mesh({ numProp: 3, vertProperties: positions, triVerts: triangles }),
    );
  };
  return manifoldKernel(module, 'tubewright', {
    extrude: (region, bottom, top) => enter(extruded(region, bottom, top)),
    loft: (sections) => enter(lofted(sections)),
    revolve: (profile, sides) => enter(revolved(profile, sides)),
  });
}

/** A kernel over Manifold's booleans with primitives of the caller's choice. */
export function manifoldKernel(module: ManifoldToplevel, name: string, primitives: Primitives): Kernel {
  const scopes: Set<Manifold>[] = [];

  const hold = (body: Manifold): Held => {
    const status = body.status();
    if (status !== 'NoError') throw new Error(`a solid could not be made: ${status}`);
    scopes.at(-1)?.add(body);
    return { kernel: name, body };
  };
  const bodyOf = (solid: Solid): Manifold => {
    if (solid.kernel !== name) throw new TypeError(`this solid was made by the ${solid.kernel} kernel`);
    return (solid as Held).body;
  };
  const scope = <T>(work: () => T, keep: (result: T) => readonly Solid[] = () => []): T => {
    const mine = new Set<Manifold>();
    scopes.push(mine);
    try {
      const result = work();
      for (const kept of keep(result)) {
        mine.delete(bodyOf(kept));
        scopes.at(-2)?.add(bodyOf(kept));
      }
      return result;
    } finally {
      scopes.pop();
      for (const body of mine) body.delete();
    }
  };
  const join = (loops: readonly Loop[]): Region => {
    const sections: CrossSection[] = loops.map(
      (loop) => new module.CrossSection([loop.map(([x, y]): [number, number] => [x, y])], 'Positive'),
    );
    const joined = module.CrossSection.union(sections);
    const region = joined.toPolygons().map((loop) => loop.map(([x, y]): Vec2 => [x, y]));
    for (const section of [...sections, joined]) section.delete();
    return region;
  };

  return {
    name,
    scope,
    join,
    characters: (engraving) => join(characterStrokes(engraving)),
    extrude: (region, bottom, top) => hold(primitives.extrude(region, bottom, top)),
    loft: (sections) => hold(primitives.loft(sections)),
    revolve: (profile, sides) => hold(primitives.revolve(profile, sides)),
    hull: (solids) => hold(module.Manifold.hull(solids.map(bodyOf))),
    union: (solids) => hold(module.Manifold.union(solids.map(bodyOf))),
    subtract: (base, cutters) => hold(module.Manifold.difference([bodyOf(base), ...cutters.map(bodyOf)])),
    intersect: (a, b) => hold(module.Manifold.intersection([bodyOf(a), bodyOf(b)])),
    place: (solid: Solid, { turn, move }: Placement) => {
      const turned = bodyOf(solid).rotate([...turn]);
      scopes.at(-1)?.add(turned);
      return hold(turned.translate([...move]));
    },
    mesh: (solid): Mesh => {
      const mesh = bodyOf(solid).getMesh();
      return { positions: mesh.vertProperties, triangles: mesh.triVerts };
    },
    simplify: (solid, tolerance) => hold(bodyOf(solid).simplify(tolerance)),
    volume: (solid) => bodyOf(solid).volume(),
    bounds: (solid) => {
      const { min, max } = bodyOf(solid).boundingBox();
      return { min: [...min] as [number, number, number], max: [...max] as [number, number, number] };
    },
  };
}
