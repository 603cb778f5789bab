import { describe, expect, it } from 'vitest';
import { foilRoom, lowerAxleBond, upperAxleBond } from '../../parts/checks/bond.js';
import { charging } from '../../parts/checks/charging.js';
import { starterMachine } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');

describe('the sign of belt and lower roller', () => {
  it('is told with its basis when it is known', () => {
    const finding = charging(A);
    expect(finding.severity).toBe('ok');
    expect(finding.basis).toContain('terminal positive');
    expect(finding.basis).toContain('no published charge density of neoprene');
    expect(charging(starterMachine('lecture-hall')).basis).toContain('terminal negative');
  });

  it.each([
    ['silicone', 'ptfe'],
    ['neoprene', 'pom'],
    ['neoprene', 'polycarbonate'],
  ] as const)('is a caution and no danger for %s on %s', (belt, roller) => {
    const machine = variant('travelling-demonstrator', {
      belt: { material: belt },
      rollers: { lower: { material: roller } },
    });
    const finding = charging(machine);
    expect(finding.severity).toBe('caution');
    expect(finding.measured).toBeLessThan(finding.required);
    expect(finding.remedy).toContain('PTFE');
  });

  it('quotes the published density where there is one', () => {
    const machine = variant('travelling-demonstrator', { belt: { material: 'silicone' } });
    expect(charging(machine).basis).toMatch(/silicone -?[\d.]+ uC\/m2/);
  });
});

describe('metal that drifts where nothing connects it', () => {
  it('is connected by foil that has room', () => {
    expect(lowerAxleBond(A)).toMatchObject({ severity: 'ok', measured: 3, required: 3 });
    expect(upperAxleBond(A)).toMatchObject({ severity: 'ok', measured: 3, required: 3 });
    const pocket = A.carriers.lower.pocketFit.clearance.low;
    expect(foilRoom(A)).toBeCloseTo(pocket - 2 * 0.06, 9);
  });

  it('is a caution where a printer’s scatter leaves the foil no room', () => {
    const rough = variant('travelling-demonstrator', { print: { calibration: { scatter: 0.25 } } });
    expect(foilRoom(rough)).toBeLessThan(0);
    expect(lowerAxleBond(rough)).toMatchObject({ severity: 'caution', measured: 0 });
    expect(lowerAxleBond(rough).remedy).toContain('less scatter');
    expect(upperAxleBond(rough).severity).toBe('ok');
  });

  it('is connected by prints that conduct', () => {
    const conducting = variant('travelling-demonstrator', {
      print: { conductive: true, calibration: { scatter: 0.25 } },
    });
    expect(lowerAxleBond(conducting).severity).toBe('ok');
  });
});
