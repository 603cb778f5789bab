import type { Machine } from '../machine/machine.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import type { Bounds } from '../solid/vector.js';
import { assembly, type Piece } from './assembly.js';
import { type Head, type Screw, standing } from './screw.js';
import { screwsOf } from './screws.js';
import { type Tool, toolsFor } from './tools.js';

/** Whether a screw is reached, and with what. */
export interface Reach {
  readonly screw: Screw;
  /** Name of the tool; undefined where none gets there. */
  readonly tool: string | undefined;
  /** What is in the way of the tool that gets furthest, where none gets there. */
  readonly blockedBy: readonly string[];
}

/** What a tool and a piece may share by rounding, mm3. */
const TOUCH = 0.1;
/** Directions in which a key's arm or a spanner is tried, over a whole turn. */
const TURNS = 24;

interface There {
  readonly piece: Piece;
  readonly solid: Solid;
  readonly bounds: Bounds;
}

/** Every screw of a machine with the tool that reaches it past all that is there when it is turned. */
export function reachOf(
  machine: Machine,
  kernel: Kernel,
  screws: readonly Screw[] = screwsOf(machine),
): Reach[] {
  const built = new Map<string, Solid>();
  const all = assembly(machine).map((piece): There => {
    const own = built.get(piece.key) ?? piece.build(kernel);
    built.set(piece.key, own);
    const solid = kernel.place(own, piece.placement);
    return { piece, solid, bounds: kernel.bounds(solid) };
  });
  return screws.map((screw) => reachTo(screw, presentAt(all, screw), kernel));
}

/** What has come by the time a screw is turned: all of it, or of a group that lies on the bench the belt and its pieces. */
function presentAt(all: readonly There[], { step, bench }: Screw): There[] {
  return all.filter(({ piece }) => {
    if (piece.step > step) return false;
    if (bench === undefined) return true;
    return piece.id === 'belt' || piece.moves.some((move) => move.with === bench);
  });
}

/** @param there pieces in their places */
function reachTo(screw: Screw, there: readonly There[], kernel: Kernel): Reach {
  let fewest: string[] | undefined;
  for (const head of screw.heads) {
    for (const tool of toolsFor(screw.drive)) {
      const blockedBy = kernel.scope(() => inTheWay(tool, head, there, kernel));
      if (blockedBy.length === 0) return { screw, tool: tool.name, blockedBy };
      if (fewest === undefined || blockedBy.length < fewest.length) fewest = blockedBy;
    }
  }
  return { screw, tool: undefined, blockedBy: fewest ?? [] };
}

/** Pieces that a tool runs into, at the turn where it runs into the fewest. */
function inTheWay(tool: Tool, head: Head, there: readonly There[], kernel: Kernel): string[] {
  const at = standing(head);
  const stem = met(kernel.place(tool.stem(kernel), at), there, kernel);
  if (stem.length > 0 || !tool.sweep) return stem;
  const sweep = tool.sweep(kernel);
  let fewest: string[] | undefined;
  for (let i = 0; i < TURNS; i++) {
    const turned = kernel.place(sweep, { turn: [0, 0, (360 / TURNS) * i], move: [0, 0, 0] });
    const found = met(kernel.place(turned, at), there, kernel);
    if (found.length === 0) return [];
    if (fewest === undefined || found.length < fewest.length) fewest = found;
  }
  return fewest!;
}

function met(tool: Solid, there: readonly There[], kernel: Kernel): string[] {
  const bounds = kernel.bounds(tool);
  return there
    .filter((other) => !apart(bounds, other.bounds))
    .filter((other) => kernel.volume(kernel.intersect(tool, other.solid)) > TOUCH)
    .map(({ piece }) => piece.id);
}

const apart = (a: Bounds, b: Bounds) => a.min.some((min, i) => min >= b.max[i]! || b.min[i]! >= a.max[i]!);
