import type { PartOrder } from '../printed/catalog.js';
import type { Kernel } from '../solid/kernel.js';
import { proveStl } from './proof.js';

/** Builds parts; loading it loads the modelling libraries, which nothing else needs. */
export interface Workshop {
  readonly kernel: Kernel;
  /** The part as the bytes of a binary STL file, mm. */
  stlOf(order: PartOrder): Uint8Array;
}

/**
 * mm. The serializer snaps vertices to about 1e-5 of a part's size, and a sliver that a boolean left can fall shut in that. A
 * mesh whose file does not read back closed is smoothed by these steps, each far below what a printer shows, until it does.
 */
const SMOOTHING = [0, 0.002, 0.005, 0.01];

/** @param wasm the kernel's WASM file, where it cannot be found beside the code: in a bundle */
export async function openWorkshop(wasm?: Uint8Array): Promise<Workshop> {
  const [{ loadKernel }, { writeStl }] = await Promise.all([
    import('../solid/manifold-kernel.js'),
    import('./stl.js'),
  ]);
  const kernel = await loadKernel(wasm ? { wasmBinary: wasm } : {});
  return {
    kernel,
    stlOf: ({ part, dimensions, stated }) =>
      kernel.scope(() => {
        const solid = part.build(dimensions, kernel);
        let bytes: Uint8Array = new Uint8Array();
        for (const tolerance of SMOOTHING) {
          bytes = writeStl(kernel.mesh(tolerance > 0 ? kernel.simplify(solid, tolerance) : solid));
          if (proveStl(bytes, stated).complaints.length === 0) break;
        }
        return bytes;
      }),
  };
}
