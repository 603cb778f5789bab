import { describe, expect, it } from 'vitest';
import { fingerStrain } from '../../parts/checks/grip.js';
import { LEAST_BRACKET } from '../../parts/machine/comb.js';
import { holeOffset, outsideOffset } from '../../parts/machine/fits.js';
import type { Machine } from '../../parts/machine/machine.js';
import { assembly } from '../../parts/printed/assembly.js';
import { dimensionsOf } from '../../parts/printed/catalog.js';
import { upperBracket } from '../../parts/printed/comb-bracket.js';
import type { PrintedPart } from '../../parts/printed/part.js';
import { complaintsOf } from '../../parts/sheets/proof.js';
import { meshFacts, soupOf } from '../../parts/solid/facts.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { fastener } from '../../parts/stock/fasteners.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { readings, variant } from '../helpers/variants.js';

const kernel = await loadKernel();

/** What mount and collar have in common when the collar is moved by so much from its place, mm3. */
function sharedAt(machine: Machine, lift: number): number {
  return kernel.scope(() => {
    const [mount, collar] = ['tube-mount', 'base-collar'].map((id) => {
      const piece = assembly(machine).find(({ of }) => of === id)!;
      const [x, y, z] = piece.placement.move;
      const move = [x, y, id === 'base-collar' ? z + lift : z] as const;
      return kernel.place(piece.build(kernel), { ...piece.placement, move });
    });
    return kernel.volume(kernel.intersect(mount!, collar!));
  });
}

describe.each(STARTERS)('the collar of %s', (starter) => {
  const machine = starterMachine(starter);
  const { collar } = machine.base;

  it('meets the foot’s cone before it meets the plate', () => {
    expect(collar.restsAt).toBeGreaterThan(0);
    expect(sharedAt(machine, 0)).toBeLessThan(0.1);
    expect(sharedAt(machine, 0.3)).toBe(0);
    // The facets of both cones stand off the circle by no more than 0.02 mm each.
    expect(sharedAt(machine, -0.1)).toBeGreaterThan(20);
  });

  it('as printed keeps its gap to the plate over the scatter of two diameters', () => {
    const { calibration } = machine.print;
    const foot =
      machine.grip.mount.footRadius + outsideOffset(calibration, 2 * machine.grip.mount.footRadius) / 2;
    const seat = collar.seatRadius + holeOffset(calibration, 2 * collar.seatRadius) / 2;
    // At 45 degrees a step in radius is one in height.
    const gap = foot + machine.grip.mount.footLand - seat - collar.seatLand;
    expect(gap).toBeCloseTo(collar.clampGap, 2);
    expect(gap).toBeGreaterThan(machine.print.calibration.scatter);
  });

  it('has a ground stud of metal only, long enough for its washers, lugs and nuts', () => {
    const { stud, skirt } = machine.base;
    const { washer, thinNutHeight, nutHeight, headHeight, headDiameter } = fastener(stud.size);
    const lug = 1;
    expect(stud.top).toBeGreaterThanOrEqual(2 * washer.thickness + thinNutHeight + lug + nutHeight);
    expect(stud.length - stud.top).toBeCloseTo(washer.thickness + lug + machine.plate.thickness, 9);
    // Head, washer and lug lie inside the skirt's well, with room for the key.
    expect(headHeight + washer.thickness + lug).toBeLessThanOrEqual(skirt.thickness);
    expect(stud.wellRadius).toBeGreaterThan(Math.max(headDiameter, washer.outer) / 2 + 1);
  });
});

it.each([45, 50, 60, 75, 90, 120, 150, 180])(
  'fingers around a tube of %i mm bend within their strain',
  (outer) => {
    const machine = variant('travelling-demonstrator', {
      column: { tube: { outer: readings(outer, outer + 0.7) } },
    });
    expect(fingerStrain(machine).severity).toBe('ok');
    const { pilotBottom, pilotTop, headBottom, headTop } = machine.grip.mount;
    const apart = (headBottom + headTop) / 2 - (pilotBottom + pilotTop) / 2;
    expect(apart).toBeGreaterThanOrEqual(0.6 * machine.grip.series - 1e-6);
  },
);

it.each([8, 10, 14, 20, 80])(
  'the upper comb’s bracket beside a roller of %i mm has its least height',
  (outer) => {
    const machine = variant('travelling-demonstrator', { rollers: { upper: { outer: readings(outer) } } });
    expect(machine.combs.upper.bracket.height).toBeGreaterThanOrEqual(LEAST_BRACKET);
    const part = upperBracket as unknown as PrintedPart;
    const dimensions = dimensionsOf(part, machine);
    const { positions, triangles } = kernel.scope(() => kernel.mesh(part.build(dimensions, kernel)));
    expect(complaintsOf(meshFacts(soupOf(positions, triangles)), part.stated(dimensions))).toEqual([]);
  },
);
