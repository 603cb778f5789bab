import { describe, expect, it } from 'vitest';
import { baseCollar } from '../../parts/printed/base-collar.js';
import { upperCarrier } from '../../parts/printed/bearing-carrier-upper.js';
import { ordersFor, type PartOrder } from '../../parts/printed/catalog.js';
import { motorBracket, SLOT_BRIDGE } from '../../parts/printed/motor-bracket.js';
import { rimRing } from '../../parts/printed/rim-ring.js';
import { lowerHub } from '../../parts/printed/roller-hub-lower.js';
import { upperHub } from '../../parts/printed/roller-hub-upper.js';
import { tubeMount } from '../../parts/printed/tube-mount.js';
import type { Kernel, Mesh, Solid } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { MARK_DEPTH } from '../../parts/solid/marks.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

// Every face that hangs over by more than 45 degrees is one that a printer bridges: known, and short enough.

const kernel = await loadKernel();

/** mm, what PETG and PLA bridge without sagging into the next part. Common practice. */
const BRIDGE = 12;
/** Steeper than this hangs over: 45 degrees, and a little for facets. */
const OVERHANG = -Math.sin((46 * Math.PI) / 180);
/** mm2 of slivers at facets that nobody sees. */
const SLIVERS = 1;
const NEAR = 0.05;

interface Bridge {
  readonly from: number;
  readonly to: number;
  /** mm between what it rests on. */
  readonly span: number;
}

/** Bridges that a part is known to have; engraved marks, two layers deep in the bed face, are bridged in every part. */
function bridges({ part, dimensions }: Pick<PartOrder, 'part' | 'dimensions'>): Bridge[] {
  const of = <D>(_part: { dimensions(machine: never): D }) => dimensions as unknown as D;
  switch (part.id) {
    case 'base-collar': {
      const d = of(baseCollar);
      return [{ from: d.pocketDepth, to: d.pocketDepth, span: 2 * d.pocketRadius }];
    }
    case 'roller-hub-lower': {
      // The nut's slot ends in its corner, and is bridged across its thickness.
      const d = of(lowerHub);
      const middle = d.flangeThickness / 2;
      const corner = d.nutFlats / Math.sqrt(3);
      return [{ from: middle + corner / 2, to: middle + corner, span: d.nutThickness }];
    }
    case 'roller-hub-upper': {
      // Two sides, then the other two, then the corners that are left of the square.
      const d = of(upperHub);
      const side = 2 * Math.sqrt(d.seatRadius ** 2 - d.boreRadius ** 2);
      return [
        { from: d.seatDepth, to: d.seatDepth + d.layer, span: side },
        { from: d.seatDepth + 2 * d.layer, to: d.seatDepth + 2 * d.layer, span: side },
      ];
    }
    case 'motor-bracket': {
      // The slots' roofs, between their leaning sides.
      const d = of(motorBracket);
      return d.slotsAt.map((at) => {
        const flat = Math.min(d.travel, SLOT_BRIDGE);
        const roof = at + d.travel + d.slotRadius - flat;
        return { from: roof, to: roof, span: 2 * flat };
      });
    }
    case 'rim-ring': {
      const d = of(rimRing);
      return [{ from: d.insertDepth, to: d.insertDepth, span: 2 * d.insertRadius }];
    }
    case 'bearing-carrier-upper': {
      const d = of(upperCarrier);
      return [{ from: d.insertDepth, to: d.insertDepth, span: 2 * d.insertRadius }];
    }
    case 'tube-mount': {
      // Facets of the thread's root stand back from the shaft above it.
      const d = of(tubeMount);
      return [{ from: d.threadTop, to: d.threadTop, span: d.threadRoot * (1 - Math.cos(Math.PI / 60)) }];
    }
    default:
      return [];
  }
}

/** Area (mm2) of faces above the bed that hang over and are no known bridge, by the height they start at. */
function hanging({ positions, triangles }: Mesh, known: readonly Bridge[]): Map<string, number> {
  const corner = (i: number) => [0, 1, 2].map((axis) => positions[3 * triangles[i]! + axis]!);
  const found = new Map<string, number>();
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [corner(t), corner(t + 1), corner(t + 2)] as [number[], number[], number[]];
    const [u, v] = [b.map((x, i) => x - a[i]!), c.map((x, i) => x - a[i]!)];
    const normal = [
      u[1]! * v[2]! - u[2]! * v[1]!,
      u[2]! * v[0]! - u[0]! * v[2]!,
      u[0]! * v[1]! - u[1]! * v[0]!,
    ];
    const double = Math.hypot(...normal);
    const heights = [a[2]!, b[2]!, c[2]!];
    const [low, high] = [Math.min(...heights), Math.max(...heights)];
    if (double < 1e-9 || high < 0.01 || normal[2]! / double > OVERHANG) continue;
    if (known.some(({ from, to }) => low > from - NEAR && high < to + NEAR)) continue;
    const key = low.toFixed(1);
    found.set(key, (found.get(key) ?? 0) + double / 2);
  }
  return new Map([...found].filter(([, area]) => area > SLIVERS));
}

const marks: Bridge = { from: MARK_DEPTH, to: MARK_DEPTH, span: 0.7 };
const meshOf = (build: (k: Kernel) => Solid) => kernel.scope(() => kernel.mesh(build(kernel)));

describe.each(STARTERS)('%s', (starter) => {
  const orders = ordersFor(starterMachine(starter));

  it.each(orders.map((order) => [order.part.id, order] as const))(
    '%s prints without support',
    (_id, order) => {
      const known = [marks, ...bridges(order)];
      for (const { span } of known) expect(span).toBeLessThan(BRIDGE);
      const mesh = meshOf((k) => order.part.build(order.dimensions, k));
      expect([...hanging(mesh, known)]).toEqual([]);
    },
  );
});

it('finds what hangs over: a mount stood on its fingers', () => {
  const { part, dimensions } = ordersFor(starterMachine('lecture-hall')).find(
    (order) => order.part.id === 'tube-mount',
  )!;
  const mesh = meshOf((k) => k.place(part.build(dimensions, k), { turn: [180, 0, 0], move: [0, 0, 100] }));
  expect(hanging(mesh, [marks]).size).toBeGreaterThan(0);
});
