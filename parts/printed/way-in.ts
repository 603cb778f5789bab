import type { Placement } from '../solid/vector.js';
import type { Placed } from './part.js';

/**
 * Where a piece is on the way to its place: `share` of the move with number `move` is done, and none of those after it.
 * A turn is about z through the piece's own origin.
 * @param move from 0, in the order of the moves
 * @param share 0 at the move's start, 1 at its end
 * @throws RangeError when there is no such move
 */
export function placeOnWay({ placement, moves }: Placed, move: number, share: number): Placement {
  const current = moves[move];
  if (!current) throw new RangeError(`no move ${move}: there are ${moves.length}`);
  const left = [
    { ...current, share: 1 - share },
    ...moves.slice(move + 1).map((next) => ({ ...next, share: 1 })),
  ];
  return left.reduce<Placement>(
    (at, { slide, turn, share: part }) => ({
      turn: [at.turn[0], at.turn[1], at.turn[2] - turn * part],
      move: [at.move[0] - slide[0] * part, at.move[1] - slide[1] * part, at.move[2] - slide[2] * part],
    }),
    placement,
  );
}
