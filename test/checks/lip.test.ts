import { describe, expect, it } from 'vitest';
import {
  heightOverLip,
  heightWanted,
  lipToTube,
  underDome,
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

describe('the dome', () => {
  const at = (insertion: number) =>
    underDome(variant('travelling-demonstrator', { terminal: { insertion } }));

  it('is high enough over the starter’s upper parts', () => {
    expect(at(50).severity).toBe('ok');
  });

  it('is a danger where the tube would have to go through it; the remedy clears it', () => {
    const { severity, measured, tries } = at(220);
    expect(severity).toBe('danger');
    expect(measured).toBeLessThan(0);
    const insertion = tries![0]!.values[0]!.value as number;
    expect(at(insertion).severity).toBe('ok');
    expect(at(insertion + 2).severity).not.toBe('ok');
  });
});
