import type { Machine } from '../machine/machine.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import type { Placement } from '../solid/vector.js';
import { boughtPieces } from './bought.js';
import { ordersFor } from './catalog.js';
import { canonical } from './identity.js';
import type { Move } from './part.js';

/** One piece of the assembled machine, printed or bought. */
export interface Piece {
  /** Unique in the machine; copies of a part are numbered. */
  readonly id: string;
  /** The part or bought piece it is a copy of. */
  readonly of: string;
  readonly title: string;
  readonly material: string;
  readonly printed: boolean;
  /** The same key, the same solid: a part's id and code, a bought piece's dimensions. */
  readonly key: string;
  /** Lower first: what is there already when this piece comes. */
  readonly step: number;
  readonly placement: Placement;
  readonly moves: readonly Move[];
  /** In its own frame. */
  build(kernel: Kernel): Solid;
}

/** Everything the machine consists of, each piece knowing where it belongs. */
export function assembly(machine: Machine): Piece[] {
  const printed = ordersFor(machine).flatMap(({ part, dimensions, code }) => {
    const places = part.place(machine);
    return places.map(
      ({ placement, moves }, i): Piece => ({
        id: places.length > 1 ? `${part.id}#${i + 1}` : part.id,
        of: part.id,
        title: part.id,
        material: machine.print.material,
        printed: true,
        key: `${part.id} ${code}`,
        step: part.step,
        placement,
        moves,
        build: (kernel) => part.build(dimensions, kernel),
      }),
    );
  });
  const bought = boughtPieces(machine).map(
    (piece): Piece => ({
      ...piece,
      of: piece.id,
      printed: false,
      key: canonical(piece.id, 0, piece.dimensions),
      build: (kernel) => piece.build(kernel),
    }),
  );
  return [...printed, ...bought];
}
