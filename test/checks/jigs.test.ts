import { describe, expect, it } from 'vitest';
import { withValues } from '../../parts/checks/change.js';
import { openingCut, SQUARE_END, tubeEndSquare } from '../../parts/checks/jigs.js';
import { LEAST_CUT } from '../../parts/machine/terminal-cut.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

describe.each(STARTERS)('%s', (starter) => {
  const machine = starterMachine(starter);

  it('its tools show what they are to show', () => {
    expect(tubeEndSquare(machine).severity).toBe('ok');
    expect(openingCut(machine).severity).toBe('ok');
  });

  it('a guide half as long as the tube is wide, out of square by scatter over length', () => {
    const { length } = machine.jigs.tubeEnd;
    expect(length).toBeGreaterThanOrEqual(machine.tube.outer.high / 2);
    expect(tubeEndSquare(machine).measured).toBeCloseTo((0.1 / length) * machine.tube.outer.high, 9);
  });
});

describe('what is wrong is found', () => {
  const machine = starterMachine('travelling-demonstrator');

  it('a printer that varies too much, and how much it may', () => {
    const coarse = withValues(machine, { 'print.calibration.scatter': 0.4 });
    const finding = tubeEndSquare(coarse);
    // 0.4 mm over 45 mm, across 80.33 mm.
    expect(finding.measured).toBeCloseTo(0.714, 3);
    expect(finding).toMatchObject({ severity: 'caution', required: SQUARE_END.value });
    const { key, value } = finding.tries![0]!.values[0] as { key: string; value: number };
    expect(key).toBe('print.calibration.scatter');
    expect(tubeEndSquare(withValues(coarse, { [key]: value })).severity).toBe('ok');
    expect(tubeEndSquare(withValues(coarse, { [key]: value + 0.011 })).severity).toBe('caution');
  });

  it('a bead that takes more sheet than there is, and the largest that does not', () => {
    const thick = withValues(machine, { 'terminal.opening.lip': 14 });
    const finding = openingCut(thick);
    expect(finding).toMatchObject({ severity: 'caution', required: LEAST_CUT });
    expect(finding.measured).toBeLessThan(LEAST_CUT);
    expect(finding.basis).toContain('there is not as much');
    const { key, value } = finding.tries![0]!.values[0] as { key: string; value: number };
    expect(openingCut(withValues(thick, { [key]: value })).severity).toBe('ok');
    expect(openingCut(withValues(thick, { [key]: value + 0.2 })).severity).toBe('caution');
  });

  it('a raw edge is cut at the free opening', () => {
    const raw = openingCut(withValues(machine, { 'terminal.opening.lip': 0.5 }));
    expect(raw).toMatchObject({ severity: 'ok', measured: 48 });
    expect(raw.basis).toContain('raw edge');
  });
});
