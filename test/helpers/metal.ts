import type { Machine } from '../../parts/machine/machine.js';
import { assembly, type Piece } from '../../parts/printed/assembly.js';
import { type MetalPiece, metalware } from '../../parts/printed/metalware.js';
import type { Kernel, Solid } from '../../parts/solid/kernel.js';
import type { Bounds } from '../../parts/solid/vector.js';

/** What two solids may share by the rounding of float32 vertices where their faces lie on one another, mm3. */
export const TOUCH = 1e-3;

export interface Standing<T> {
  readonly piece: T;
  readonly solid: Solid;
  readonly bounds: Bounds;
}

/** Pieces in their places; what has the same key is built once. */
export function stand<T extends Piece | MetalPiece>(pieces: readonly T[], kernel: Kernel): Standing<T>[] {
  const built = new Map<string, Solid>();
  return pieces.map((piece) => {
    const own = built.get(piece.key) ?? piece.build(kernel);
    built.set(piece.key, own);
    const solid = kernel.place(own, piece.placement);
    return { piece, solid, bounds: kernel.bounds(solid) };
  });
}

const apart = (a: Bounds, b: Bounds) => a.min.some((min, i) => min >= b.max[i]! || b.min[i]! >= a.max[i]!);

/** What two placed solids share, mm3. */
export const shared = (a: Standing<unknown>, b: Standing<unknown>, kernel: Kernel): number =>
  apart(a.bounds, b.bounds) ? 0 : kernel.volume(kernel.intersect(a.solid, b.solid));

/** In words: where metal runs into a piece of the assembly by more than it says it does, or into other metal. */
export function collisions(machine: Machine, kernel: Kernel): string[] {
  const metals = stand(metalware(machine), kernel);
  const pieces = stand(assembly(machine), kernel);
  const into = metals.flatMap((metal) =>
    pieces.flatMap((other) => {
      const most = metal.piece.bites.find(({ of }) => of === other.piece.of)?.volume ?? 0;
      const found = shared(metal, other, kernel);
      return found > most * 1.001 + TOUCH
        ? [`${metal.piece.id} in ${other.piece.id}: ${found.toFixed(3)} mm3, of ${most.toFixed(3)}`]
        : [];
    }),
  );
  const among = metals.flatMap((a, i) =>
    metals.slice(i + 1).flatMap((b) => {
      const one = a.piece.bonded === b.piece.bonded && a.piece.bonded !== 'floating';
      const found = one ? 0 : shared(a, b, kernel);
      return found > TOUCH ? [`${a.piece.id} in ${b.piece.id}: ${found.toFixed(3)} mm3`] : [];
    }),
  );
  return [...into, ...among];
}
