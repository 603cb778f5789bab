import type { Machine } from '../../parts/machine/machine.js';
import { wandJoints } from '../../parts/machine/wand.js';
import { ordersFor } from '../../parts/printed/catalog.js';
import { holeLoop, polygon, shaftLoop, sidesFor } from '../../parts/solid/facets.js';
import type { Kernel, Solid } from '../../parts/solid/kernel.js';
import type { Placement, Vec3 } from '../../parts/solid/vector.js';
import { fastener } from '../../parts/stock/fasteners.js';

export interface WandPiece {
  readonly id: string;
  readonly solid: Solid;
}

/** The whole wand put together: along x from the guard's front face, axis on z = 0, pins from above. */
export function wandTogether(machine: Machine, k: Kernel): WandPiece[] {
  const { wand } = machine;
  const { count, length } = wand.segment;
  const orders = ordersFor(machine);
  const put = (id: string, placement: Placement): WandPiece => {
    const { part, dimensions } = orders.find((order) => order.part.id === id)!;
    return { id, solid: k.place(part.build(dimensions, k), placement) };
  };
  const flat = (x: number, width: number, turned = 0): Placement => ({
    turn: [0, 0, turned],
    move: [x, 0, -width / 2],
  });
  const joints = Array.from({ length: wandJoints(wand) }, (_, i) => i);
  return [
    put('wand-grip', flat(-wand.guard.thickness, wand.width, 180)),
    put('wand-guard', { turn: [0, 90, 0], move: [-wand.guard.thickness, 0, 0] }),
    ...joints.slice(1).map((i) => put('wand-segment', flat((i - 1) * length, wand.width))),
    put('wand-head', flat(count * length, wand.width)),
    ...joints.map((i) => put('wand-plug', flat(i * length, wand.plug))),
    ...joints.flatMap((i) =>
      [-1, 1].map((side) =>
        put('wand-pin', {
          turn: [90, 90, 0],
          move: [i * length + side * wand.pinAt, wand.pin.thickness / 2, wand.width / 2],
        }),
      ),
    ),
    { id: 'screw', solid: screw(machine, k) },
  ];
}

/** The ball's screw with its washers, the lug and the nut, in its place. */
function screw({ wand }: Machine, k: Kernel): Solid {
  const { screw: size, depth, length, screwLength } = wand.head;
  const m5 = fastener(size);
  const inside = wand.segment.count * wand.segment.length + depth;
  const front = wand.segment.count * wand.segment.length + length;
  const seat = inside - m5.washer.thickness;
  const washer = [shaftLoop(m5.washer.outer / 2), [...holeLoop(m5.washer.inner / 2)].reverse()];
  const upright = k.union([
    k.extrude([polygon(m5.headDiameter / 2, sidesFor(m5.headDiameter / 2))], seat - m5.headHeight, seat),
    k.extrude([shaftLoop(2.5)], seat - 1, seat + screwLength),
    k.extrude(washer, seat, inside),
    k.extrude(washer, front + 1, front + 1 + m5.washer.thickness),
  ]);
  return k.place(upright, { turn: [0, 90, 0], move: [0, 0, 0] });
}

/** mm3 that two solids share. */
export const shared = (a: Solid, b: Solid, k: Kernel): number => k.volume(k.intersect(a, b));

export const moved = (solid: Solid, move: Vec3, k: Kernel): Solid =>
  k.place(solid, { turn: [0, 0, 0], move });
