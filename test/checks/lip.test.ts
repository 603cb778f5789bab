import { expect, it } from 'vitest';
import {
  heightOverLip,
  heightWanted,
  lipToTube,
  upperMetalAboveLip,
  upperPartsPass,
  upperReach,
} from '../../parts/checks/lip.js';
import { starterMachine } from '../helpers/machines.js';
import { readings, variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');
const inserted = (insertion: number) => variant('travelling-demonstrator', { terminal: { insertion } });

it('wants every upper metal edge half the opening’s radius above the lip', () => {
  expect(heightWanted(A)).toBe(24);
  expect(upperMetalAboveLip(A).severity).toBe('ok');
  expect(upperMetalAboveLip(inserted(10)).severity).toBe('caution');
});

it('takes metal at the lip’s plane for a danger', () => {
  const level = variant('travelling-demonstrator', { terminal: { insertion: 0 } });
  const sunk = { ...level, terminal: { ...level.terminal, lipZ: level.terminal.lipZ + 20 } };
  expect(heightOverLip(sunk)).toBeLessThan(0);
  expect(upperMetalAboveLip(sunk).severity).toBe('danger');
});

it('its remedy is the least insertion that does', () => {
  const insertion = Number(/insertion of ([\d.]+) mm/.exec(upperMetalAboveLip(inserted(10)).remedy)![1]);
  expect(upperMetalAboveLip(inserted(insertion)).severity).toBe('ok');
  expect(upperMetalAboveLip(inserted(insertion - 1)).severity).toBe('caution');
});

it.each([
  [96, 'ok'],
  [90, 'caution'],
  [80.2, 'danger'],
] as const)('an opening of %f mm around an 80 mm tube: %s', (opening, severity) => {
  expect(
    lipToTube(variant('travelling-demonstrator', { terminal: { opening: { diameter: readings(opening) } } }))
      .severity,
  ).toBe(severity);
});

it.each([
  [96, 'ok'],
  [93, 'caution'],
  [86, 'danger'],
] as const)('what stands on the rim, through an opening of %f mm: %s', (opening, severity) => {
  expect(
    upperPartsPass(
      variant('travelling-demonstrator', { terminal: { opening: { diameter: readings(opening) } } }),
    ).severity,
  ).toBe(severity);
});

it('names the part that reaches farthest', () => {
  const widest = Math.max(...upperReach(A).map(({ radius }) => radius));
  const finding = upperPartsPass(A);
  expect(finding.measured).toBe(widest);
  expect(finding.title).toContain(upperReach(A).find(({ radius }) => radius === widest)!.what);
});
