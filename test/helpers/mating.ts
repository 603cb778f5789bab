import type { Machine } from '../../parts/machine/machine.js';
import { assembly, type Piece } from '../../parts/printed/assembly.js';
import { declaredOverlaps } from '../../parts/printed/mates.js';
import type { Kernel, Solid } from '../../parts/solid/kernel.js';
import type { Bounds } from '../../parts/solid/vector.js';

export interface Overlapping {
  readonly a: string;
  readonly b: string;
  readonly found: number;
  readonly declared: number;
}

interface PlacedSolid {
  readonly piece: Piece;
  readonly solid: Solid;
  readonly bounds: Bounds;
}

export function placeAll(machine: Machine, kernel: Kernel): PlacedSolid[] {
  const built = new Map<string, Solid>();
  return assembly(machine).map((piece) => {
    const key = piece.printed ? piece.of : piece.id;
    const own = built.get(key) ?? piece.build(kernel);
    built.set(key, own);
    const solid = kernel.place(own, piece.placement);
    return { piece, solid, bounds: kernel.bounds(solid) };
  });
}

const apart = (a: Bounds, b: Bounds) => a.min.some((min, i) => min >= b.max[i]! || b.min[i]! >= a.max[i]!);

/** Every pair of placed pieces with at least one printed: what is common to both, and what the fits declare. */
export function overlaps(machine: Machine, kernel: Kernel): Overlapping[] {
  const placed = placeAll(machine, kernel);
  const declared = declaredOverlaps(machine);
  const result: Overlapping[] = [];
  for (const [i, a] of placed.entries()) {
    for (const b of placed.slice(i + 1)) {
      if (!a.piece.printed && !b.piece.printed) continue;
      const matches = (one: string, other: string) =>
        declared.find(
          (overlap) => a.piece.of.startsWith(one === 'a' ? overlap.a : overlap.b) && b.piece.of.startsWith(other === 'a' ? overlap.a : overlap.b),
        );
      const expected = (matches('a', 'b') ?? matches('b', 'a'))?.volume ?? 0;
      const found = apart(a.bounds, b.bounds) ? 0 : kernel.volume(kernel.intersect(a.solid, b.solid));
      if (found > 0 || expected > 0) result.push({ a: a.piece.id, b: b.piece.id, found, declared: expected });
    }
  }
  return result;
}
