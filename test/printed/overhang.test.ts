import { describe, expect, it } from 'vitest';
import { measurePrint, printability } from '../../parts/checks/printability.js';
import { couponOrder, ordersFor, type PartOrder } from '../../parts/printed/catalog.js';
import { PRINT_LIMITS } from '../../parts/printed/print-limits.js';
import { sidesFor } from '../../parts/solid/facets.js';
import type { Kernel, Mesh, Solid } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { SLIVERS } from '../../parts/solid/overhang.js';
import type { Loop } from '../../parts/solid/vector.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

// Every part prints without support, with walls and gaps that a nozzle lays and standing broadly enough: measured on its mesh.

const kernel = await loadKernel();
const meshOf = (build: (k: Kernel) => Solid): Mesh => kernel.scope(() => kernel.mesh(build(kernel)));
const built = ({ part, dimensions }: PartOrder) => meshOf((k) => part.build(dimensions, k));

describe.each(STARTERS)('%s', (starter) => {
  const machine = starterMachine(starter);
  const orders = [...ordersFor(machine), couponOrder(machine)];

  it.each(orders.map((order) => [order.part.id, order] as const))('%s prints as it lies', (_id, order) => {
    const { findings, measures } = printability(machine, order, built(order));
    expect(findings.filter(({ severity }) => severity !== 'ok')).toEqual([]);
    expect(findings.map(({ id }) => id)).toEqual(
      expect.arrayContaining(
        ['overhang', 'wall', 'stability'].map((what) => `print/${what}-${order.part.id}`),
      ),
    );
    // What is engraved in the bed face is bridged too.
    const { widest } = measures.overhang;
    if (widest) expect(widest.span).toBeLessThanOrEqual(PRINT_LIMITS.bridge.value);
    const { min, max } = order.stated.bounds;
    expect(measures.stance.height).toBeCloseTo(max[2] - min[2], 1);
    expect(measures.stance.volume / order.stated.volume).toBeCloseTo(1, 2);
  });
});

describe('what does not print is found', () => {
  const machine = starterMachine('lecture-hall');
  const orderOf = (id: string) => ordersFor(machine).find((order) => order.part.id === id)!;

  it('a mount stood on its fingers', () => {
    const { part, dimensions } = orderOf('tube-mount');
    const height = orderOf('tube-mount').stated.bounds.max[2];
    const mesh = meshOf((k) =>
      k.place(part.build(dimensions, k), { turn: [180, 0, 0], move: [0, 0, height] }),
    );
    const { findings, measures } = printability(machine, orderOf('tube-mount'), mesh);
    const overhang = findings.find(({ id }) => id === 'print/overhang-tube-mount')!;
    expect(overhang.severity).toBe('caution');
    expect(measures.overhang.unsupported).toBeGreaterThan(500);
    expect(overhang.remedy).toContain('support');
  });

  it('the shoulder of a bearing’s seat that is closed in one layer', () => {
    const order = orderOf('roller-hub-upper');
    const stepped = order.dimensions as { seatRadius: number; seatDepth: number; boreRadius: number };
    const { boreRadius, seatRadius, seatDepth } = stepped;
    const shoulder: Loop = [
      [boreRadius, seatDepth],
      [seatRadius + 1, seatDepth],
      [seatRadius + 1, seatDepth + 1],
      [boreRadius, seatDepth + 1],
    ];
    const flat = meshOf((k) =>
      k.union([order.part.build(order.dimensions, k), k.revolve(shoulder, sidesFor(seatRadius))]),
    );
    const { overhang } = measurePrint(flat, machine.print.layer);
    expect(overhang.unsupported).toBeGreaterThan(20);
    expect(overhang.at![2]).toBeCloseTo(seatDepth, 1);
  });

  it('a slot of the motor’s bracket that reaches twice as far', () => {
    const order = orderOf('motor-bracket');
    const { stance } = measurePrint(built(order), machine.print.layer);
    const tunnel = (span: number) =>
      meshOf((k) =>
        k.subtract(order.part.build(order.dimensions, k), [
          k.extrude(
            [
              [
                [-span / 2, -1e3],
                [span / 2, -1e3],
                [span / 2, 1e3],
                [-span / 2, 1e3],
              ],
            ],
            stance.height / 2,
            stance.height / 2 + 5,
          ),
        ]),
      );
    const short = measurePrint(tunnel(PRINT_LIMITS.bridge.value - 1), machine.print.layer).overhang;
    const long = measurePrint(tunnel(PRINT_LIMITS.bridge.value + 1), machine.print.layer).overhang;
    expect(short.unsupported).toBeLessThan(SLIVERS);
    expect(long.unsupported).toBeGreaterThan(20);
  });
});
