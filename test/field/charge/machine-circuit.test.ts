import { expect, it } from 'vitest';
import { workingBalance } from '../../../parts/field/charge/balance.js';
import { circuitOf } from '../../../parts/field/charge/machine-circuit.js';
import { likelyUnknowns } from '../../../parts/field/unknowns.js';
import { variant } from '../../helpers/variants.js';

const limitedBy = (
  over: Parameters<typeof variant>[1],
  coronas: { onset: number; distance: number }[] = [],
) => {
  const machine = variant('travelling-demonstrator', over);
  return workingBalance(circuitOf(machine, likelyUnknowns(machine), coronas), 170e3);
};

it('is the weakest spark’s voltage where nothing else limits', () => {
  expect(limitedBy({})).toMatchObject({ voltage: 170e3, limitedBy: { kind: 'spark' } });
});

it('is a corona’s a little above its onset', () => {
  const { voltage, limitedBy: by } = limitedBy({}, [{ onset: 120e3, distance: 0.3 }]);
  expect(voltage).toBeGreaterThan(120e3);
  expect(voltage).toBeLessThan(125e3);
  expect(by).toEqual({ kind: 'corona', index: 0 });
});

it('is the column’s when it is wet, and the belt’s when it conducts', () => {
  const wet = limitedBy({ site: { humidity: 95, cleanliness: 'damp' } });
  expect(wet.voltage).toBeLessThan(50e3);
  expect(wet.limitedBy).toEqual({ kind: 'leakage' });
  expect(limitedBy({ belt: { resistance: 1e9 } }).limitedBy).toEqual({ kind: 'belt' });
});
