import type { Placement } from '../solid/vector.js';
import type { Move, Placed } from './part.js';

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

/** What a stage needs to know of a piece. */
interface Coming {
  readonly id: string;
  readonly step: number;
  readonly moves: readonly Move[];
}

/** Some of a piece's moves: from one number up to another, that one not among them. */
export interface Leg<P extends Coming> {
  readonly piece: P;
  readonly from: number;
  readonly to: number;
}

/** What is done at one time: pieces that come, or a group of them that moves as one. */
export interface Stage<P extends Coming> {
  readonly legs: readonly Leg<P>[];
  /** The group that moves as one; undefined where pieces come each by itself. */
  readonly group: string | undefined;
}

/**
 * The stages of an assembly in order. Pieces of one step come together, each by its own moves up to the first that it
 * shares with a group; a group moves when all its pieces have come so far.
 * @throws RangeError when a group never comes together
 */
export function stagesOf<P extends Coming>(pieces: readonly P[]): Stage<P>[] {
  const stages: Stage<P>[] = [];
  const done = new Map<P, number>();
  const waitsFor = (piece: P): string | undefined =>
    done.has(piece) ? piece.moves[done.get(piece)!]?.with : undefined;
  const ownMoves = (coming: readonly P[]): void => {
    const legs = coming.map((piece): Leg<P> => {
      const from = done.get(piece) ?? 0;
      const shared = piece.moves.findIndex((move, i) => i >= from && move.with !== undefined);
      return { piece, from, to: shared < 0 ? piece.moves.length : shared };
    });
    for (const { piece, to } of legs) done.set(piece, to);
    const moving = legs.filter(({ from, to }) => to > from);
    if (moving.length > 0) stages.push({ legs: moving, group: undefined });
  };
  const together = (): boolean => {
    for (const name of new Set([...done.keys()].map(waitsFor))) {
      if (name === undefined) continue;
      const members = pieces.filter((piece) => piece.moves.some((move) => move.with === name));
      if (!members.every((piece) => waitsFor(piece) === name)) continue;
      const legs = members.map((piece): Leg<P> => {
        const from = done.get(piece)!;
        return { piece, from, to: from + 1 };
      });
      for (const { piece, to } of legs) done.set(piece, to);
      stages.push({ legs, group: name });
      ownMoves(members);
      return true;
    }
    return false;
  };
  for (const step of [...new Set(pieces.map((piece) => piece.step))].sort((a, b) => a - b)) {
    ownMoves(pieces.filter((piece) => piece.step === step));
    while (together());
  }
  const left = [...done.keys()].map(waitsFor).find((name) => name !== undefined);
  if (left !== undefined) throw new RangeError(`the group "${left}" never comes together`);
  return stages;
}
