import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ACRYLIC_TUBES, METRIC_PIPES, PVC_PIPES, pipeOutsideTolerance } from '../../parts/stock/tubes.js';

const SEED = 161_001;

describe(`metric pipe (seed ${SEED})`, () => {
  const diameter = fc.constantFrom(...METRIC_PIPES.diameters);
  const grade = fc.constantFrom('A', 'B', 'C');
  it('has tolerances that grow with the diameter and from grade C to A', () => {
    fc.assert(
      fc.property(diameter, diameter, grade, (a, b, of) => {
        const [small, large] = [Math.min(a, b), Math.max(a, b)];
        const at = (nominal: number, letter: 'A' | 'B' | 'C') => pipeOutsideTolerance(nominal, letter).value;
        expect(at(large, of)).toBeGreaterThanOrEqual(at(small, of));
        expect(at(small, 'A')).toBeGreaterThanOrEqual(at(small, 'B'));
        expect(at(small, 'B')).toBeGreaterThanOrEqual(at(small, 'C'));
      }),
      { seed: SEED, numRuns: 200 },
    );
  });
});

describe('tables of tubes', () => {
  it('has pipes of growing diameter, with walls that leave a bore', () => {
    for (const [i, row] of PVC_PIPES.entries()) {
      if (i > 0) expect(row.outer).toBeGreaterThan(PVC_PIPES[i - 1]!.outer);
      if (!row.schedule40 || !row.schedule80) continue;
      expect(row.schedule40.wallMax).toBeGreaterThan(row.schedule40.wallMin);
      expect(row.schedule80.wallMin).toBeGreaterThan(row.schedule40.wallMax);
      expect(row.outer).toBeGreaterThan(2 * row.schedule80.wallMin);
    }
  });

  it('has acrylic tubes with a wall', () => {
    for (const [outer, inner] of ACRYLIC_TUBES.sizes) expect(outer - inner).toBeGreaterThanOrEqual(4);
  });
});
