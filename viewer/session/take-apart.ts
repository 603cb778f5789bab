import {
  type Bounds,
  type Mesh,
  type Move,
  type Placement,
  placementMatrix,
  placeOnWay,
} from '../../parts/index.js';
import type { PieceView } from '../worker/messages.js';

/** mm of air between pieces that lie one behind the other when all is apart. */
const AIR = 12;
/** Degrees of turning that take as long as a millimetre of sliding. */
const DEGREES_PER_MM = 10;

/** Pieces of one step, which go together. */
interface Group {
  readonly pieces: readonly PieceView[];
}

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
  private readonly groups: readonly Group[];
  /** For each piece and number of steps done: how far on it has gone, mm. */
  private readonly further = new Map<string, number[]>();

  constructor(
    private readonly pieces: readonly PieceView[],
    boundsOf: (piece: PieceView) => Bounds,
  ) {
    const steps = [...new Set(pieces.filter(({ moves }) => moves.length > 0).map(({ step }) => step))];
    this.groups = steps
      .sort((a, b) => b - a)
      .map((step) => ({ pieces: pieces.filter((piece) => piece.step === step && piece.moves.length > 0) }));
    this.layOut(boundsOf);
  }

  /** @param share 0 together, 1 apart */
  at(share: number): Moment {
    const place = Math.min(1, Math.max(0, share)) * this.groups.length;
    const placements = new Map(this.pieces.map((piece) => [piece.id, piece.placement]));
    for (const [i, group] of this.groups.entries()) {
      for (const piece of group.pieces) {
        placements.set(piece.id, this.placementOf(piece, Math.min(1, Math.max(0, place - i)), place));
      }
    }
    const now = Math.min(this.groups.length - 1, Math.floor(place));
    const under = place > 0 && place < this.groups.length ? this.groups[now] : undefined;
    return { placements, step: under && this.told(under, now) };
  }

  get steps(): number {
    return this.groups.length;
  }

  private told(group: Group, number: number): NonNullable<Moment['step']> {
    const titles = [...new Set(group.pieces.map(({ title }) => title))].join(' and ');
    const why = [...new Set(group.pieces.flatMap(({ moves }) => moves.map((move) => move.why)))].join(
      ', then ',
    );
    // Counted as it is put together: the last step to come off is the first.
    return { number: this.groups.length - number, of: this.groups.length, titles, why };
  }

  /** @param out how much of its own way a piece is out; @param place how many steps are done, as a decimal */
  private placementOf(piece: PieceView, out: number, place: number): Placement {
    const { moves } = piece;
    const lengths = moves.map(lengthOf);
    let left = (1 - out) * lengths.reduce((sum, length) => sum + length, 0);
    let number = 0;
    while (number < moves.length - 1 && left > lengths[number]!) left -= lengths[number++]!;
    const length = lengths[number]!;
    const onWay = placeOnWay(piece, number, length > 0 ? Math.min(1, left / length) : 1);
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

  /**
   * Decides, for each number of steps done, how far on each piece that is out has to be, so that there is room for the
   * step that follows.
   */
  private layOut(boundsOf: (piece: PieceView) => Bounds): void {
    const rests = new Map(this.pieces.map((piece) => [piece.id, boundsOf(piece)]));
    const groups = this.groups.map(({ pieces }) => pieces);
    for (const piece of groups.flat()) this.further.set(piece.id, []);
    for (let done = 0; done <= groups.length; done++) {
      const settled: Settled[] = [];
      // Who came out last lies nearest. Nothing goes on before it has gone all of its own way.
      for (let number = Math.min(done, groups.length - 1); number >= 0; number--) {
        for (const piece of groups[number]!) {
          const direction = wayOut(piece);
          const rest = rests.get(piece.id)!;
          const end = moved(rest, backAlong(piece.moves));
          const table = this.further.get(piece.id)!;
          const pushes = done > number + 1 ? settled.map((other) => push(end, direction, other)) : [];
          const further = Math.max(table.at(-1) ?? 0, 0, ...pushes);
          table[done] = further;
          const out = moved(
            end,
            direction.map((value) => value * further),
          );
          settled.push({ direction, out, swept: around(rest, out) });
        }
      }
      for (const piece of groups.slice(done + 1).flat()) this.further.get(piece.id)![done] = 0;
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
  const slide = moves[0]?.slide ?? [0, 0, -1];
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
