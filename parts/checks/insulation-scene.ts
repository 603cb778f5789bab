import { surfacesApart } from '../distances/apart.js';
import { type Item, Scene, type ShapeCache } from '../distances/scene.js';
import type { Machine } from '../machine/machine.js';
import { assembly, type Piece } from '../printed/assembly.js';
import { type MetalPiece, metalware } from '../printed/metalware.js';
import { type Net, netOf, netOfPlate } from '../printed/nets.js';
import type { Kernel, Mesh, Solid } from '../solid/kernel.js';

/** Something that stands in the machine, as insulation sees it. */
export interface Placed extends Omit<Item, 'net'> {
  /** Pieces of one kind are reported once. */
  readonly kind: string;
  readonly title: string;
  /** Undefined for an insulator. */
  readonly net: Net | undefined;
  readonly printed: boolean;
  /** Kinds of pieces that it is screwed into, sits in or touches, where that is known. */
  readonly meets: readonly string[];
}

/** mm between the places that are looked at first, the same everywhere: what is prepared of a solid serves all ways. */
export const SPACING = 8;
/** mm; details below this change no distance that matters. */
const DETAIL = 0.05;
/** mm; a print that conducts touches metal and other such prints across what a fit leaves between them. */
const TOUCHING = 0.5;

/** Everything of a machine that stands in its place. @param kept meshes by key that were made before; those made now are put in */
export function placedPieces(
  machine: Machine,
  kernel: Kernel,
  kept: Map<string, Mesh> = new Map(),
): Placed[] {
  const meshOf = (key: string, build: (kernel: Kernel) => Solid): Mesh => {
    const known = kept.get(key);
    if (known) return known;
    const made = kernel.scope(() => kernel.mesh(kernel.simplify(build(kernel), DETAIL)));
    kept.set(key, made);
    return made;
  };
  const placed = (piece: Piece | MetalPiece, own: Pick<Placed, 'net' | 'printed' | 'meets'>): Placed => ({
    name: piece.id,
    kind: kindOf(piece.of),
    title: piece.title,
    key: piece.key,
    mesh: meshOf(piece.key, (with_) => piece.build(with_)),
    placement: piece.placement,
    ...own,
  });
  return [
    ...assembly(machine).map((piece) =>
      placed(piece, { net: netOf(machine, piece), printed: piece.printed, meets: [] }),
    ),
    ...metalware(machine).map((piece) => {
      const { bonded, meets } = piece;
      const net = bonded === 'plate' ? (netOfPlate(machine) ?? 'floating') : bonded;
      return placed(piece, { net, printed: false, meets });
    }),
  ];
}

/** What is on both sides of the machine is of one kind. */
const kindOf = (of: string) => of.replace(/-(left|right)$/, '');

/** A scene in which all metal belongs to the terminal or to ground. */
export interface Insulation {
  readonly scene: Scene;
  readonly pieces: ReadonlyMap<string, Placed>;
  /** Names of metal that nothing connects: taken as bonded to the side that it is nearer to, the worst of what it may do. */
  readonly floating: ReadonlySet<string>;
}

/**
 * The scene that ways are measured in. Metal that nothing connects takes some potential between both sides; on that of the
 * side it is nearer to it leaves the least between the two.
 */
export function insulation(placed: readonly Placed[], shapes: ShapeCache): Insulation {
  const pieces = new Map(placed.map((piece) => [piece.name, piece]));
  const all = new Scene(
    placed.map(({ net, ...piece }) => ({ ...piece, net: net === 'floating' ? piece.name : net })),
    shapes,
  );
  const { side, floating } = bonded(placed, all);
  const scene = new Scene(
    placed.map(({ net, ...piece }) => ({ ...piece, net: net && side.get(piece.name) })),
    shapes,
  );
  return { scene, pieces, floating };
}

/** Which side each conductor belongs to. Those that nothing connects are taken nearest first: others may be nearest to them. */
function bonded(
  placed: readonly Placed[],
  { bodies }: Scene,
): { readonly side: ReadonlyMap<string, Net>; readonly floating: ReadonlySet<string> } {
  const bodyOf = new Map(bodies.map((body) => [body.name, body]));
  const pieceOf = new Map(placed.map((piece) => [piece.name, piece]));
  const side = new Map<string, Net>();
  for (const { name, net } of placed) if (net === 'terminal' || net === 'ground') side.set(name, net);
  const waiting = new Map<string, { to: string; distance: number }>();
  const floating = new Set<string>();
  const approach = (name: string, to: string): void => {
    const known = waiting.get(name)?.distance ?? Number.POSITIVE_INFINITY;
    const distance = surfacesApart(bodyOf.get(name)!, bodyOf.get(to)!, known);
    if (distance !== undefined) waiting.set(name, { to, distance });
  };
  for (const { name, net } of placed) {
    if (net !== 'floating') continue;
    floating.add(name);
    for (const to of side.keys()) approach(name, to);
  }
  while (waiting.size > 0) {
    const [name, { to, distance }] = [...waiting].reduce((best, each) =>
      each[1].distance < best[1].distance ? each : best,
    );
    waiting.delete(name);
    side.set(name, side.get(to)!);
    const conducts = pieceOf.get(name)!.printed || pieceOf.get(to)!.printed;
    if (conducts && distance <= TOUCHING && !floating.has(to)) floating.delete(name);
    for (const other of waiting.keys()) approach(other, name);
  }
  return { side, floating };
}
