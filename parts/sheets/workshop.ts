import type { PartOrder } from '../printed/catalog.js';

/** Builds parts; loading it loads the modelling libraries, which nothing else needs. */
export interface Workshop {
  /** The part as the bytes of a binary STL file, mm. */
  stlOf(order: PartOrder): Uint8Array;
}

export async function openWorkshop(): Promise<Workshop> {
  const [{ loadKernel }, { writeStl }] = await Promise.all([
    import('../solid/manifold-kernel.js'),
    import('./stl.js'),
  ]);
  const kernel = await loadKernel();
  return {
    stlOf: ({ part, dimensions }) =>
      writeStl(kernel.scope(() => kernel.mesh(part.build(dimensions, kernel)))),
  };
}
