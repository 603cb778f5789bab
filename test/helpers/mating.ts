import type { Machine } from '../../parts/machine/machine.js';
import { assembly, type Piece } from '../../parts/printed/assembly.js';
import { declaredOverlaps } from '../../parts/printed/mates.js';
import type { Kernel, Solid } from '../../parts/solid/kernel.js';
import type { Bounds } from '../../parts/solid/vector.js';

/** What all copies of two pieces have in common, and what their fit declares. mm3 */
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

/** A piece without the number or side of its copy. */
const kindOf = (piece: Piece) => piece.of.replace(/-(left|right)$/, '');

const pairKey = (a: string, b: string) => [a, b].sort().join(' + ');

/** The machine's pieces in their places; only the named kinds when given. Each part is built once. */
function placeAll(
  machine: Machine,
  kernel: Kernel,
  kinds: readonly string[] | undefined,
  built: Map<string, Solid>,
): PlacedSolid[] {
  return assembly(machine)
    .filter((piece) => kinds === undefined || kinds.includes(kindOf(piece)))
    .map((piece) => {
      const key = piece.printed ? piece.of : piece.id;
      const own = built.get(key) ?? piece.build(kernel);
      built.set(key, own);
      const solid = kernel.place(own, piece.placement);
      return { piece, solid, bounds: kernel.bounds(solid) };
    });
}

const apart = (a: Bounds, b: Bounds) => a.min.some((min, i) => min >= b.max[i]! || b.min[i]! >= a.max[i]!);

/**
 * Every pair of pieces with at least one printed that have something in common or should have.
 * @param built parts that are built already, by id
 */
export function overlaps(
  machine: Machine,
  kernel: Kernel,
  kinds?: readonly string[],
  built = new Map<string, Solid>(),
): Overlapping[] {
  const placed = placeAll(machine, kernel, kinds, built);
  const found = new Map<string, number>();
  for (const [i, a] of placed.entries()) {
    for (const b of placed.slice(i + 1)) {
      if (!a.piece.printed && !b.piece.printed) continue;
      if (apart(a.bounds, b.bounds)) continue;
      const volume = kernel.volume(kernel.intersect(a.solid, b.solid));
      const key = pairKey(kindOf(a.piece), kindOf(b.piece));
      found.set(key, (found.get(key) ?? 0) + volume);
    }
  }
  const declared = new Map(
    declaredOverlaps(machine).map((each) => [pairKey(each.a, each.b), each.volume * each.pairs]),
  );
  const keys = new Set([...found.keys(), ...(kinds === undefined ? declared.keys() : [])]);
  return [...keys]
    .map((key) => {
      const [a, b] = key.split(' + ') as [string, string];
      return { a, b, found: found.get(key) ?? 0, declared: declared.get(key) ?? 0 };
    })
    .filter((pair) => pair.found > 0 || pair.declared > 0);
}

/** What two solids may share by the rounding of float32 vertices where they touch, mm3. */
const TOUCH = 0.1;

/** Pairs that overlap by something else than they declare (within 2 %), in words. */
export function wrongOverlaps(pairs: readonly Overlapping[]): string[] {
  return pairs
    .filter(({ found, declared }) => Math.abs(found - declared) > Math.max(TOUCH, 0.02 * declared))
    .map(
      ({ a, b, found, declared }) =>
        `${a} and ${b}: ${found.toFixed(3)} mm3, declared ${declared.toFixed(3)}`,
    );
}
