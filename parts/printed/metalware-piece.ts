import { holeLoop, shaftLoop } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import type { Placement } from '../solid/vector.js';
import { type InsertSize, insert } from '../stock/inserts.js';
import { canonical, type Dimensions } from './identity.js';
import { standOut } from './mates.js';
import { type Step, stepDimensions, stepped } from './metalware-solids.js';
import { type Screw, standing } from './screw.js';

/** What a piece of metal is joined to by metal. */
export type Bond =
  /** Motor's frame and shaft, lower axle by its foil, ground stud. */
  | 'ground'
  /** Terminal, upper axle by its foil, contact spring. */
  | 'terminal'
  /** The base plate: metal is ground, any other leaves it floating. */
  | 'plate'
  /** Nothing: what is around it is plastic or air. */
  | 'floating';

/** What a piece shares with another on purpose: plastic that an insert is melted into, a tapped hole that is drawn solid. */
export interface Bite {
  /** `of` of the assembly's piece. */
  readonly of: string;
  /** mm3 at most */
  readonly volume: number;
  readonly why: string;
}

/** One conductor that holds the machine together: a screw with its washer and nut or insert, a spring, a foil. */
export interface MetalPiece {
  /** Unique among the metalware of a machine; copies are numbered. */
  readonly id: string;
  readonly of: string;
  readonly title: string;
  readonly bonded: Bond;
  /** `of` of the assembly's pieces that it goes through, sits in or touches. */
  readonly meets: readonly string[];
  /** Where it overlaps one of them as drawn; all others it may only touch. */
  readonly bites: readonly Bite[];
  /** The same key, the same solid. */
  readonly key: string;
  readonly placement: Placement;
  /** Closed, of one piece, in its own frame. mm */
  build(kernel: Kernel): Solid;
}

type About = Pick<MetalPiece, 'of' | 'title' | 'bonded' | 'meets'> & { readonly bites?: readonly Bite[] };
/** A piece before its copies are numbered. */
export type Unnumbered = Omit<MetalPiece, 'id'>;

/** A piece from its dimensions. */
export function metal<const D extends Dimensions>(
  about: About,
  placement: Placement,
  dimensions: D,
  build: (kernel: Kernel, dimensions: D) => Solid,
): Unnumbered {
  return {
    ...about,
    bites: about.bites ?? [],
    key: canonical(about.of, 0, dimensions),
    placement,
    build: (kernel) => build(kernel, dimensions),
  };
}

/** What is turned about one axis, drawn from its head's outer face, at the head that the pieces are placed for. */
export function turnedPiece(about: About, screw: Pick<Screw, 'heads'>, steps: readonly Step[]): Unnumbered {
  return metal(about, standing(screw.heads[0]!), stepDimensions(steps), (k) => stepped(steps, k));
}

/** Gives the copies of each kind their numbers. */
export function numbered(pieces: readonly Unnumbered[]): MetalPiece[] {
  const count = new Map<string, number>();
  return pieces.map((piece) => {
    const number = (count.get(piece.of) ?? 0) + 1;
    count.set(piece.of, number);
    const single = pieces.filter(({ of }) => of === piece.of).length === 1;
    return { ...piece, id: single ? piece.of : `${piece.of}#${number}` };
  });
}

/** What an insert melts into around its hole (radius as drawn, mm). */
export const pressedInto = (of: string, size: InsertSize, holeRadius: number): Bite => ({
  of,
  volume:
    standOut(shaftLoop(insert(size).outerDiameter / 2), holeLoop(holeRadius)) * insert(size).length.value,
  why: 'insert melted into its hole',
});

/** Where a height of the machine lies along a screw that stands upright, from its head's outer face. mm */
export function along({ heads }: Pick<Screw, 'heads'>, z: number): number {
  const { at, away } = heads[0]!;
  return (z - at[2]) * away[2];
}
