import { describe, expect, it } from 'vitest';
import { withValues } from '../../parts/checks/change.js';
import { ordersFor } from '../../parts/printed/catalog.js';
import { shaftLoop } from '../../parts/solid/facets.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

const kernel = await loadKernel();
const orderOf = (machine: ReturnType<typeof starterMachine>, id: string) =>
  ordersFor(machine).find(({ part }) => part.id === id)!;

describe.each(STARTERS)('tube-end-guide of %s', (starter) => {
  const machine = starterMachine(starter);
  const { tubeEnd } = machine.jigs;
  const { part, dimensions } = orderOf(machine, 'tube-end-guide');
  /** What tube and guide have in common, mm3. */
  const common = (tubeRadius: number) =>
    kernel.scope(() =>
      kernel.volume(
        kernel.intersect(
          part.build(dimensions, kernel),
          kernel.extrude([shaftLoop(tubeRadius)], -10, tubeEnd.length + 10),
        ),
      ),
    );

  it('passes the tube at its largest reading, and not one that is larger than its bore', () => {
    const { calibration } = machine.print;
    const printedSmaller = (-calibration.hole - (calibration.holeScale / 100) * tubeEnd.fit.drawn) / 2;
    expect(common(machine.tube.outer.high / 2 + printedSmaller)).toBeLessThan(0.01);
    expect(common(tubeEnd.fit.drawn / 2 + 0.1)).toBeGreaterThan(10);
  });

  it('closes on the smallest tube before its slit is shut', () => {
    const { low } = machine.tube.outer;
    expect(tubeEnd.slit).toBeGreaterThan(Math.PI * (tubeEnd.fit.asPrinted.high - low));
  });

  it('follows the tube, not what is drilled elsewhere', () => {
    const fatter = withValues(machine, { 'column.tube.outer': machine.tube.outer.mean + 5 });
    expect(orderOf(fatter, 'tube-end-guide').code).not.toBe(orderOf(machine, 'tube-end-guide').code);
    const higher = withValues(machine, { 'base.feet': machine.plate.feet + 5 });
    expect(orderOf(higher, 'tube-end-guide').code).toBe(orderOf(machine, 'tube-end-guide').code);
  });
});
