import { describe, expect, it } from 'vitest';
import { withValues } from '../../parts/checks/change.js';
import { measurePrint, type PrintMeasures, printability } from '../../parts/checks/printability.js';
import {
  overhangFinding,
  standFinding,
  wallAndGapFindings,
} from '../../parts/checks/printability-findings.js';
import { ordersFor } from '../../parts/printed/catalog.js';
import { PRINT_LIMITS } from '../../parts/printed/print-limits.js';
import { EXTRUSION, FILAMENT_AREA } from '../../parts/printed/print-time.js';
import { printTable, printTotal } from '../../parts/sheets/print-table.js';
import { printabilityOfStl } from '../../parts/sheets/printed-file.js';
import { openWorkshop } from '../../parts/sheets/workshop.js';
import type { Mesh } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import type { Loop } from '../../parts/solid/vector.js';
import { plastic } from '../../parts/stock/plastics.js';
import { starterMachine } from '../helpers/machines.js';

const kernel = await loadKernel();
const machine = starterMachine('travelling-demonstrator');
const orders = ordersFor(machine);
const orderOf = (id: string) => orders.find(({ part }) => part.id === id)!;

const block = (x0: number, y0: number, x1: number, y1: number): Loop => [
  [x0, y0],
  [x1, y0],
  [x1, y1],
  [x0, y1],
];
const bar = (width: number, depth: number, height: number): Mesh =>
  kernel.scope(() => kernel.mesh(kernel.extrude([block(0, 0, width, depth)], 0, height)));

const measures = (changed: Partial<PrintMeasures>): PrintMeasures => ({
  overhang: { unsupported: 0, at: undefined, widest: undefined },
  thickness: { wall: { width: 2, at: [0, 0, 1] }, gap: { width: 1, at: [0, 0, 1] } },
  stance: { contact: 100, volume: 1000, centre: [0, 0, 5], height: 10, margin: 5 },
  area: 600,
  ...changed,
});

describe('findings from what was measured', () => {
  const order = orderOf('rim-ring');
  const thin = (wall: number, gap: number) =>
    wallAndGapFindings(
      machine,
      order,
      measures({ thickness: { wall: { width: wall, at: [1, 2, 3] }, gap: { width: gap, at: [1, 2, 3] } } }),
    );

  it('walls take two lines of the nozzle, gaps 0.3 mm', () => {
    const [wall, gap] = thin(2 * machine.print.nozzle, PRINT_LIMITS.gap.value);
    expect([wall!.severity, gap!.severity]).toEqual(['ok', 'ok']);
    const [thinWall, thinGap] = thin(2 * machine.print.nozzle - 0.01, PRINT_LIMITS.gap.value - 0.01);
    expect([thinWall!.severity, thinGap!.severity]).toEqual(['caution', 'caution']);
    expect(thinWall).toMatchObject({ id: 'print/wall-rim-ring', required: 0.8, status: 'common-practice' });
    expect(thinGap).toMatchObject({ id: 'print/gap-rim-ring', required: 0.3 });
  });

  it('a finer nozzle is offered, and with it the same wall is enough', () => {
    const [wall] = thin(0.7, 1);
    const values = wall!.tries![0]!.values;
    expect(values).toEqual([{ key: 'print.nozzle', value: 0.35, unit: 'mm' }]);
    const tried = withValues(machine, { 'print.nozzle': 0.35 });
    const again = wallAndGapFindings(
      tried,
      order,
      measures({ thickness: { wall: { width: 0.7, at: [1, 2, 3] }, gap: undefined } }),
    );
    expect(again.map(({ severity }) => severity)).toEqual(['ok']);
  });

  it('a place on the part is told where it comes to be in the machine', () => {
    const [wall] = thin(0.5, 1);
    const z = machine.tube.rimZ + machine.rim.flangeThickness - 3;
    // The ring is printed upside down: turned about x.
    expect(wall!.at).toEqual({ point: [1, expect.closeTo(-2, 9), expect.closeTo(z, 9)] });
  });

  it('what hangs over by more than slivers is a caution, with its height in the remedy', () => {
    const hanging = (unsupported: number) =>
      overhangFinding(
        machine,
        order,
        measures({ overhang: { unsupported, at: [0, 0, 7.5], widest: { span: 14, at: [0, 0, 7.5] } } }),
      );
    expect(hanging(0.9)).toMatchObject({ severity: 'ok', remedy: '' });
    expect(hanging(1.1)).toMatchObject({
      severity: 'caution',
      id: 'print/overhang-rim-ring',
      remedy: expect.stringContaining('from 7.5 mm over the bed up'),
      basis: expect.stringContaining('widest bridge 14.0 mm at 7.5 mm'),
    });
  });

  it('what stands narrow is offered the brim with which it stands broadly enough; what falls over is a danger', () => {
    const stands = (margin: number, brim?: number) => {
      const part = { ...order.part, print: { ...order.part.print, ...(brim !== undefined && { brim }) } };
      const stance = { contact: 100, volume: 1000, centre: [0, 0, 50], height: 100, margin } as const;
      return standFinding(machine, { part, dimensions: order.dimensions }, measures({ stance }));
    };
    expect(stands(6.25).severity).toBe('ok');
    const narrow = stands(4);
    expect(narrow).toMatchObject({ severity: 'caution', measured: 0.08, required: 0.125 });
    const brim = Number(/brim of at least ([\d.]+) mm/.exec(narrow.remedy)![1]);
    expect(brim).toBeCloseTo(2.25, 9);
    expect(stands(4, brim).severity).toBe('ok');
    expect(stands(4, brim - 0.05).severity).toBe('caution');
    expect(stands(-1).severity).toBe('danger');
  });
});

describe('of a mesh', () => {
  it('a slender tower is found', () => {
    const order = orderOf('foot');
    const severityOf = (height: number) =>
      printability(machine, order, bar(10, 20, height)).findings.find(
        ({ id }) => id === 'print/stability-foot',
      )!.severity;
    expect(severityOf(79)).toBe('ok');
    expect(severityOf(81)).toBe('caution');
  });

  it('a wall that is made thin is found', () => {
    const order = orderOf('axle-spacer');
    const severityOf = (width: number) =>
      printability(machine, order, bar(width, 20, 5)).findings.find(({ id }) => id.startsWith('print/wall'))!
        .severity;
    expect(severityOf(0.81)).toBe('ok');
    expect(severityOf(0.79)).toBe('caution');
  });

  it('volume and surface are those of the block, and the estimate follows from them', () => {
    const order = orderOf('axle-spacer');
    const { stance, area } = measurePrint(bar(10, 20, 30), machine.print.layer);
    expect(stance.volume).toBeCloseTo(6000, 3);
    expect(area).toBeCloseTo(2 * (200 + 300 + 600), 3);
    // Printed full, whatever the shell.
    const { estimate } = printability(machine, order, bar(10, 20, 30));
    expect(estimate.filament).toBeCloseTo(6 / FILAMENT_AREA.value, 6);
    expect(estimate.mass).toBeCloseTo(6 * plastic(machine.print.material).density!.value, 6);
    const rate =
      EXTRUSION.lineWidth.value * machine.print.nozzle * machine.print.layer * EXTRUSION.speed.value;
    expect(estimate.seconds.likely).toBeCloseTo((1.35 * 6000) / rate, 6);
  });
});

describe('of a written file', () => {
  it('is what is measured on the part as built', async () => {
    const workshop = await openWorkshop();
    const order = orderOf('roller-hub-upper');
    const written = printabilityOfStl(machine, order, workshop.stlOf(order));
    const mesh = kernel.scope(() => kernel.mesh(order.part.build(order.dimensions, kernel)));
    const built = printability(machine, order, mesh);
    expect(written.estimate.deposited).toBeCloseTo(built.estimate.deposited, 0);
    expect(written.findings.map(({ id, severity }) => [id, severity])).toEqual(
      built.findings.map(({ id, severity }) => [id, severity]),
    );
    expect(written.measures.thickness.wall!.width).toBeCloseTo(built.measures.thickness.wall!.width, 1);
    expect(written.measures.overhang.widest!.span).toBeCloseTo(built.measures.overhang.widest!.span, 1);
  });
});

describe('the table of what printing takes', () => {
  const prints = ['foot', 'rim-ring'].map((id) => printability(machine, orderOf(id), bar(10, 20, 30)));

  it('counts every copy', () => {
    const [foot, ring] = prints.map(({ estimate }) => estimate) as [
      (typeof prints)[0]['estimate'],
      (typeof prints)[0]['estimate'],
    ];
    const { copies } = orderOf('foot').part;
    expect(copies).toBe(4);
    const total = printTotal(orders, prints);
    expect(total.filament).toBeCloseTo(4 * foot.filament + ring.filament, 9);
    expect(total.mass).toBeCloseTo(4 * foot.mass! + ring.mass!, 9);
    expect(total.seconds.high).toBeCloseTo(4 * foot.seconds.high + ring.seconds.high, 6);
  });

  it('names each part once, and says what it assumes', () => {
    const lines = printTable(orders, prints);
    expect(lines.filter((line) => line.startsWith('foot '))).toHaveLength(1);
    expect(lines.at(-2)).toMatch(/^together +\d+ +[\d.]+ +\d+:\d\d$/);
    expect(lines.at(-1)).toContain('60 mm/s');
    expect(printTable(orders, [])).toEqual([]);
  });
});
