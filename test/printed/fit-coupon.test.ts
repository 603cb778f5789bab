import { describe, expect, it } from 'vitest';
import { couponOrder, PARTS } from '../../parts/printed/catalog.js';
import { EXTRUSION, FILAMENT_AREA, PRINT_OVERHEAD, printEstimate } from '../../parts/printed/print-time.js';
import { complaintsOf, proveStl } from '../../parts/sheets/proof.js';
import { openWorkshop } from '../../parts/sheets/workshop.js';
import { rectangle } from '../../parts/solid/facets.js';
import { meshFacts, soupOf } from '../../parts/solid/facts.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

const workshop = await openWorkshop();
const { kernel } = workshop;

describe.each(STARTERS)('the fit coupon of %s', (starter) => {
  const machine = starterMachine(starter);
  const order = couponOrder(machine);
  const { part, dimensions, stated } = order;

  it('is what it states, as written and read back', () => {
    expect(proveStl(workshop.stlOf(order), stated).complaints).toEqual([]);
    const bare = kernel.scope(() => kernel.volume(part.bare(dimensions, kernel)));
    expect(Math.abs(bare / stated.bareVolume - 1)).toBeLessThan(0.001);
    expect(Object.keys(part.fields).sort()).toEqual(Object.keys(dimensions).sort());
  });

  it('is found out when it is a box', () => {
    const { min, max } = stated.bounds;
    const box = kernel.mesh(kernel.extrude([rectangle(min[0], min[1], max[0], max[1])], min[2], max[2]));
    expect(complaintsOf(meshFacts(soupOf(box.positions, box.triangles)), stated)).not.toEqual([]);
  });

  it('has its rings where a caliper reaches them: at 6 mm over the bars nothing stands between them', () => {
    // A slice above the bars is rings and walls alone: as many pieces as there are of them.
    const pieces = kernel.scope(() => {
      const { min, max } = stated.bounds;
      const slab = kernel.extrude([rectangle(min[0], min[1], max[0], max[1])], 2.5, 8.5);
      const { positions, triangles } = kernel.mesh(kernel.intersect(part.build(dimensions, kernel), slab));
      return meshFacts(soupOf(positions, triangles)).pieces;
    });
    expect(pieces).toBe(stated.genus + 2);
  });

  it('prints in under an hour', () => {
    const { print } = machine;
    const { volume } = stated;
    const { seconds } = printEstimate({ ...print, volume, area: 0, walls: 3, infill: 100, density: 1.27 });
    expect(seconds.high).toBeLessThan(3600 * (0.2 / print.layer));
  });

  it('is no piece of the machine, and not made with its parts', () => {
    expect(part.place(machine)).toEqual([]);
    expect(part.role).toBe('tool');
    expect(PARTS.map(({ id }) => id)).not.toContain(part.id);
  });
});

describe('a print estimate', () => {
  const job = { layer: 0.2, nozzle: 0.4, walls: 2, density: 1.24 };

  it('is volume over flow, and its overhead: 16 cm3 at 5.4 mm3/s take 49.4 minutes', () => {
    expect(0.4 * EXTRUSION.lineWidth.value * 0.2 * EXTRUSION.speed.value).toBeCloseTo(5.4, 9);
    const { seconds, filament, mass } = printEstimate({ ...job, volume: 16_000, area: 1e9, infill: 0 });
    expect(seconds.likely / PRINT_OVERHEAD.likely.value / 60).toBeCloseTo(49.38, 2);
    expect(filament).toBeCloseTo(6.65, 2);
    expect(mass).toBeCloseTo(19.84, 2);
  });

  it('counts the shell whole and the inside by its infill, never more than the part', () => {
    const at = (area: number, infill: number) =>
      printEstimate({ ...job, volume: 1000, area, infill }).deposited;
    expect(at(100, 0)).toBeCloseTo(100 * 2 * 0.45, 9);
    expect(at(100, 50)).toBeCloseTo(90 + 0.5 * 910, 9);
    expect(at(100, 100)).toBeCloseTo(1000, 9);
    expect(at(1e6, 20)).toBeCloseTo(1000, 9);
  });

  it('knows filament: 2.4053 mm2, PETG of 1.27 g/cm3 weighs 3.055 g/m', () => {
    expect(FILAMENT_AREA.value).toBeCloseTo(2.40528, 5);
    const { mass, filament } = printEstimate({ ...job, density: 1.27, volume: 1000, area: 1e6, infill: 0 });
    expect(mass! / filament).toBeCloseTo(3.0547, 3);
  });
});
