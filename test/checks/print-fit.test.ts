import { expect, it } from 'vitest';
import { checkMachine } from '../../parts/checks/index.js';
import { fitsBed, thinWalls } from '../../parts/checks/print-fit.js';
import { isTool, ordersFor } from '../../parts/printed/catalog.js';
import { starterMachine } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');

it('checks every part of the catalogue', () => {
  const ids = checkMachine(A).findings.map(({ id }) => id);
  for (const { part } of ordersFor(A)) expect(ids).toContain(`print/bed-${part.id}`);
  // Parts that this machine does not have are no finding of it.
  expect(ids.filter((id) => id.startsWith('print/bed-'))).toHaveLength(ordersFor(A).length);
});

it('passes a usual bed and refuses a small one, naming the size', () => {
  const [order] = ordersFor(A);
  expect(fitsBed(A, order!).severity).toBe('ok');
  const small = variant('travelling-demonstrator', { print: { bed: { x: 100, y: 100, z: 100 } } });
  const finding = fitsBed(small, order!);
  expect(finding.severity).toBe('danger');
  expect(finding.remedy).toContain('a printer that takes');
});

it('a tool that does not fit is a caution: the machine can be built without it', () => {
  const small = variant('travelling-demonstrator', { print: { bed: { x: 90, y: 90, z: 90 } } });
  const tool = ordersFor(small).find(({ part }) => isTool(part))!;
  const finding = fitsBed(small, tool);
  expect(finding).toMatchObject({
    severity: 'caution',
    remedy: expect.stringContaining('a printer that takes'),
  });
  expect(finding).not.toHaveProperty('at');
  expect(finding.tries).toHaveLength(1);
});

it('turns a part round on its bed', () => {
  const [order] = ordersFor(A);
  const long = {
    ...order!,
    stated: { ...order!.stated, bounds: { min: [0, 0, 0], max: [150, 90, 20] } as const },
  };
  const at = (x: number, y: number) =>
    fitsBed(variant('travelling-demonstrator', { print: { bed: { x, y, z: 100 } } }), long).severity;
  expect(at(160, 100)).toBe('ok');
  expect(at(100, 160)).toBe('ok');
  expect(at(120, 120)).toBe('danger');
});

it('asks four lines for a wall', () => {
  expect(thinWalls(A).severity).toBe('ok');
  expect(thinWalls(variant('travelling-demonstrator', { print: { nozzle: 0.8 } })).severity).toBe('caution');
});
