import {
  type Bounds,
  type Mesh,
  type Move,
  type Placement,
  placementMatrix,
  placeOnWay,
  type Stage,
  stagesOf,
} from '../../parts/index.js';
import type { PieceView } from '../worker/messages.js';

/** mm of air between pieces that lie one behind the other when all is apart. */
const AIR = 12;
/** Degrees of turning that take as long as a millimetre of sliding. */
const DEGREES_PER_MM = 10;

/** What one place of the slider shows. */
export interface Moment {
  readonly placements: ReadonlyMap<string, Placement>;
  /** The step that is under way, told as it is put together; undefined at either end. */
  readonly step:
    | { readonly number: number; readonly of: number; readonly titles: string; readonly why: string }
    | undefined;
}

/**
 * How a machine comes apart: step by step in the reverse of its assembly, each piece back along its moves; and on from
 * there as far as what follows in the same direction needs room.
 */
export class TakeApart {
  /** Last of the assembly first. */
  private readonly stages: readonly Stage<PieceView>[];
  /** For each piece the numbers of its stages, in the order in which it comes apart. */
  private readonly stagesOfPiece = new Map<string, number[]>();
  /** For each piece and number of stages done: how far on it has gone, mm. */
  private readonly further = new Map<string, number[]>();

  constructor(
    private readonly pieces: readonly PieceView[],
    boundsOf: (piece: PieceView) => Bounds,
  ) {
    this.stages = stagesOf(pieces).reverse();
    for (const [number, { legs }] of this.stages.entries()) {
      for (const { piece } of legs) {
        const numbers = this.stagesOfPiece.get(piece.id) ?? [];
        this.stagesOfPiece.set(piece.id, [...numbers, number]);
      }
    }
    this.layOut(boundsOf);
  }

  /** @param share 0 together, 1 apart */
  at(share: number): Moment {
    const place = Math.min(1, Math.max(0, share)) * this.stages.length;
    const placements = new Map(
      this.pieces.map((piece) => [piece.id, this.placementOf(piece, place)] as const),
    );
    const now = Math.min(this.stages.length - 1, Math.floor(place));
    const under = place > 0 && place < this.stages.length ? this.stages[now] : undefined;
    return { placements, step: under && this.told(under, now) };
  }

  get steps(): number {
    return this.stages.length;
  }

  private told({ legs }: Stage<PieceView>, number: number): NonNullable<Moment['step']> {
    const titles = [...new Set(legs.map(({ piece }) => piece.title))].join(' and ');
    const why = [
      ...new Set(legs.flatMap(({ piece, from, to }) => piece.moves.slice(from, to).map((move) => move.why))),
    ].join(', then ');
    // Counted as it is put together: the last step to come off is the first.
    return { number: this.stages.length - number, of: this.stages.length, titles, why };
  }

  /** @param place how many stages are done, as a decimal */
  private placementOf(piece: PieceView, place: number): Placement {
    // The stage that has brought it farthest so far.
    const number = (this.stagesOfPiece.get(piece.id) ?? []).findLast((each) => each < place);
    if (number === undefined) return piece.placement;
    const { from, to } = this.stages[number]!.legs.find((leg) => leg.piece === piece)!;
    const out = Math.min(1, place - number);
    const lengths = piece.moves.slice(from, to).map(lengthOf);
    let left = (1 - out) * lengths.reduce((sum, length) => sum + length, 0);
    let move = 0;
    while (move < lengths.length - 1 && left > lengths[move]!) left -= lengths[move++]!;
    const length = lengths[move]!;
    const onWay = placeOnWay(piece, from + move, length > 0 ? Math.min(1, left / length) : 1);
    const away = this.furtherAt(piece.id, place);
    const direction = wayOut(piece);
    return {
      turn: onWay.turn,
      move: onWay.move.map((value, axis) => value + away * direction[axis]!) as unknown as Placement['move'],
    };
  }

  private furtherAt(id: string, place: number): number {
    const table = this.further.get(id);
    if (!table) return 0;
    const done = Math.min(table.length - 1, Math.floor(place));
    const next = Math.min(table.length - 1, done + 1);
    return table[done]! + (place - Math.floor(place)) * (table[next]! - table[done]!);
  }

  /** The stage after which a piece is off: what comes with a group goes on only when all of that group is off too. */
  private readonly offAfter = (piece: PieceView): number => {
    const group = piece.moves[0]?.with;
    const company = this.pieces.filter(
      (other) => group !== undefined && other.moves.some((move) => move.with === group),
    );
    return Math.max(...[piece, ...company].map(({ id }) => this.stagesOfPiece.get(id)?.at(-1) ?? -1));
  };

  /** Pieces that are on their way out when a number of stages is done, not off yet: where they stand then. */
  private onTheirWay(done: number, off: ReadonlyMap<PieceView, number>, rests: ReadonlyMap<string, Bounds>) {
    return [...off].flatMap(([piece, last]): Settled[] => {
      const number = this.stagesOfPiece.get(piece.id)!.findLast((each) => each < done);
      if (number === undefined || last < done) return [];
      const { from } = this.stages[number]!.legs.find((leg) => leg.piece === piece)!;
      const rest = rests.get(piece.id)!;
      const out = moved(rest, backAlong(piece.moves.slice(from)));
      return [{ direction: against(piece.moves[from]!), out, swept: around(rest, out) }];
    });
  }

  /**
   * Decides, for each number of stages done, how far on each piece that is off has to be, so that there is room for the
   * stage that follows.
   */
  private layOut(boundsOf: (piece: PieceView) => Bounds): void {
    const rests = new Map(this.pieces.map((piece) => [piece.id, boundsOf(piece)]));
    const moving = this.pieces.filter(({ moves }) => moves.length > 0);
    const off = new Map(moving.map((piece) => [piece, this.offAfter(piece)]));
    for (const piece of moving) this.further.set(piece.id, []);
    const count = this.stages.length;
    for (let done = 0; done <= count; done++) {
      const settled: Settled[] = this.onTheirWay(done, off, rests);
      // Who came out last lies nearest. Nothing goes on before it has gone all of its own way.
      const outNow = moving
        .filter((piece) => off.get(piece)! <= Math.min(done, count - 1))
        .sort((a, b) => off.get(b)! - off.get(a)!);
      for (const piece of outNow) {
        const direction = wayOut(piece);
        const rest = rests.get(piece.id)!;
        const end = moved(rest, backAlong(piece.moves));
        const table = this.further.get(piece.id)!;
        const pushes = done > off.get(piece)! + 1 ? settled.map((other) => push(end, direction, other)) : [];
        const further = Math.max(table.at(-1) ?? 0, 0, ...pushes);
        table[done] = further;
        const out = moved(
          end,
          direction.map((value) => value * further),
        );
        settled.push({ direction, out, swept: around(rest, out) });
      }
      for (const piece of moving) this.further.get(piece.id)![done] ??= 0;
    }
  }
}

/** A piece that is out: where it is, and all that it passed on its way there. */
interface Settled {
  readonly direction: readonly number[];
  readonly out: Bounds;
  readonly swept: Bounds;
}

/** How far (mm) a piece has to go on so that another is clear of it; nothing when they do not meet. */
function push(end: Bounds, direction: readonly number[], other: Settled): number {
  const along = direction.reduce((sum, value, axis) => sum + value * other.direction[axis]!, 0);
  if (along < -0.5) return 0;
  const inTheWay = along > 0.5 ? other.out : other.swept;
  if (!inLine(end, inTheWay, direction)) return 0;
  const back = direction.map((value) => -value);
  return reach(inTheWay, direction) + AIR + reach(end, back);
}

const backAlong = (moves: readonly Move[]): readonly number[] =>
  moves.reduce<readonly number[]>(
    (sum, { slide }) => sum.map((value, axis) => value - slide[axis]!),
    [0, 0, 0],
  );

const moved = ({ min, max }: Bounds, by: readonly number[]): Bounds => ({
  min: plus(min, by),
  max: plus(max, by),
});

const around = (a: Bounds, b: Bounds): Bounds => ({
  min: a.min.map((value, axis) => Math.min(value, b.min[axis]!)) as unknown as Bounds['min'],
  max: a.max.map((value, axis) => Math.max(value, b.max[axis]!)) as unknown as Bounds['max'],
});

/** Bounds of a mesh where it stands in the machine, mm. */
export function boundsAt({ positions }: Mesh, placement: Placement): Bounds {
  const m = placementMatrix(placement);
  const min: [number, number, number] = [Infinity, Infinity, Infinity];
  const max: [number, number, number] = [-Infinity, -Infinity, -Infinity];
  for (let v = 0; v < positions.length; v += 3) {
    for (let axis = 0; axis < 3; axis++) {
      const row = 4 * axis;
      const value =
        m[row]! * positions[v]! +
        m[row + 1]! * positions[v + 1]! +
        m[row + 2]! * positions[v + 2]! +
        m[row + 3]!;
      if (value < min[axis]!) min[axis] = value;
      if (value > max[axis]!) max[axis] = value;
    }
  }
  return { min, max };
}

const lengthOf = ({ slide, turn }: Move) => Math.hypot(...slide) + Math.abs(turn) / DEGREES_PER_MM;

/** The direction in which a piece leaves: against its first slide. */
function wayOut({ moves }: PieceView): readonly number[] {
  return moves[0] ? against(moves[0]) : [0, 0, 1];
}

function against({ slide }: Move): readonly number[] {
  const length = Math.hypot(...slide);
  return length > 0 ? slide.map((value) => -value / length + 0) : [0, 0, 1];
}

const plus = (point: readonly number[], by: readonly number[]): Bounds['min'] =>
  point.map((value, axis) => value + by[axis]!) as unknown as Bounds['min'];

/** How far bounds reach in a direction along an axis. */
const reach = ({ min, max }: Bounds, direction: readonly number[]) =>
  direction.reduce((sum, value, axis) => sum + (value > 0 ? value * max[axis]! : value * min[axis]!), 0);

/** Whether one lies in the other's way, seen along a direction. */
function inLine(a: Bounds, b: Bounds, direction: readonly number[]): boolean {
  return direction.every(
    (value, axis) => Math.abs(value) > 0.5 || (a.min[axis]! < b.max[axis]! && b.min[axis]! < a.max[axis]!),
  );
}
