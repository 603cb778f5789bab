import { describe, expect, it } from 'vitest';
import { floatingMetal } from '../../parts/checks/bond.js';
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

describe('metal that no part connects', () => {
  it.each(['lower', 'upper'] as const)('is a caution with a wire as remedy (%s)', (end) => {
    expect(floatingMetal(A, end)).toMatchObject({ severity: 'caution', measured: 0, required: 3 });
    expect(floatingMetal(A, end).remedy).toContain(`bond wire from the ${end} axle`);
  });

  it('is connected by prints that conduct', () => {
    const conducting = variant('travelling-demonstrator', { print: { conductive: true } });
    expect(floatingMetal(conducting, 'upper').severity).toBe('ok');
  });
});
