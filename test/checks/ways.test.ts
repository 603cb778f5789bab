import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { withTubeLength } from '../../parts/checks/change.js';
import type { Severity } from '../../parts/checks/finding.js';
import { tubeLengthFor } from '../../parts/checks/way-remedy.js';
import { severityOfWay } from '../../parts/checks/way-severity.js';
import { wayFinding } from '../../parts/checks/ways.js';
import { innerColumn, outerColumn } from '../../parts/field/columns.js';
import { coronaWay } from '../../parts/field/corona-ways.js';
import type { LimitWay } from '../../parts/field/way.js';
import { terminalToPlateEdge } from '../../parts/field/ways.js';
import { starterMachine } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';

const C = starterMachine('inch-built');
const way = (
  kind: LimitWay['kind'],
  low: number,
  likely: number,
  status: LimitWay['status'] = 'common-practice',
) => ({
  kind,
  status,
  voltage: { low, likely, high: likely },
});

describe('severity of a way at 100 kV', () => {
  it.each([
    ['spark', 110e3, 140e3, 'ok'],
    ['spark', 100e3, 130e3, 'ok'],
    ['spark', 99e3, 140e3, 'caution'],
    ['spark', 110e3, 129e3, 'caution'],
    ['spark', 90e3, 100e3, 'caution'],
    ['spark', 90e3, 99.9e3, 'danger'],
    ['corona', 50e3, 60e3, 'caution'],
    ['corona', 100e3, 130e3, 'ok'],
    ['puncture', 50e3, 60e3, 'caution'],
  ] as const)('%s, low %d, likely %d: %s', (kind, low, likely, severity) => {
    expect(severityOfWay(way(kind, low, likely), 100e3)).toBe(severity);
  });

  it('is a danger for a wall whose strength is published', () => {
    expect(severityOfWay(way('puncture', 50e3, 60e3, 'verified'), 100e3)).toBe('danger');
  });

  it('never gets better as the discharge voltage rises', () => {
    const order: readonly Severity[] = ['ok', 'caution', 'danger'];
    const kilovolts = fc.integer({ min: 1, max: 900 });
    fc.assert(
      fc.property(
        kilovolts,
        kilovolts,
        kilovolts,
        kilovolts,
        fc.constantFrom('spark', 'corona', 'puncture'),
        (a, b, u, v, kind) => {
          const [low, likely] = [Math.min(a, b), Math.max(a, b)];
          const at = (discharge: number) =>
            order.indexOf(severityOfWay(way(kind as 'spark', low, likely), discharge));
          expect(at(Math.max(u, v))).toBeGreaterThanOrEqual(at(Math.min(u, v)));
        },
      ),
      { seed: 20_261_128, numRuns: 300 },
    );
  });
});

describe('the column of the inch-built machine', () => {
  it('is a danger at its target, a caution with the longer tube', () => {
    expect(wayFinding(C, outerColumn(C), 260e3).severity).toBe('danger');
    const longer = starterMachine('inch-built-longer-tube');
    expect(wayFinding(longer, outerColumn(longer), 260e3).severity).toBe('caution');
    expect(wayFinding(longer, innerColumn(longer), 260e3).severity).toBe('ok');
  });

  it('states gradients metal to metal and down to the plate', () => {
    expect(wayFinding(C, outerColumn(C), 260e3).basis).toContain('4.72 kV/cm counted from lip to plate');
    const longer = starterMachine('inch-built-longer-tube');
    expect(wayFinding(longer, outerColumn(longer), 260e3).basis).toContain(
      '3.04 kV/cm counted from lip to plate',
    );
  });

  it('says that it leaves the standard’s table', () => {
    expect(wayFinding(C, outerColumn(C), 260e3).basis).toContain('ends at 63000 V: no published value');
    expect(wayFinding(C, outerColumn(C), 20e3).basis).toContain('200 mm');
  });

  it.each(['caution', 'ok'] as const)('its remedy is the shortest tube that leaves %s', (worst) => {
    const length = tubeLengthFor(C, 'way/column-outer', 260e3, worst)!;
    const at = (mm: number) => severityOfWay(outerColumn(withTubeLength(C, mm)), 260e3);
    expect(at(length)).toBe(worst);
    expect(at(length - 2)).not.toBe(worst);
    const { remedy } = wayFinding(C, outerColumn(C), 260e3);
    expect(remedy).toContain(`${length} mm (`);
    expect(remedy).toContain(' in)');
  });

  it('a lower target, as the remedy gives it, is well', () => {
    const { remedy } = wayFinding(C, outerColumn(C), 260e3);
    const kilovolts = Number(/at most (\d+) kV/.exec(remedy)![1]);
    expect(severityOfWay(outerColumn(C), kilovolts * 1e3)).toBe('ok');
    expect(severityOfWay(outerColumn(C), (kilovolts + 1) * 1e3)).not.toBe('ok');
  });
});

describe('the remedy and the rule in words', () => {
  const GRAVE = 'danger below 1.0 times the discharge voltage, caution below 1.3, or low limit below 1.0';
  const MILD = 'caution at most: below 1.3, or low limit below 1.0 times the discharge voltage';

  const lasting = (kind: LimitWay['kind'], status: LimitWay['status'] = 'common-practice'): LimitWay => ({
    ...outerColumn(C),
    id: 'way/none-a-tube-mends',
    ...way(kind, 150e3, 200e3, status),
  });

  it('begins with the target where no tube helps', () => {
    const { remedy } = wayFinding(C, lasting('spark'), 260e3);
    expect(remedy).toBe('take at most 150 kV as target');
  });

  it('joins the target with "or" where a tube helps', () => {
    const { remedy } = wayFinding(C, outerColumn(C), 260e3);
    expect(remedy).toMatch(/^a tube of at least .*; a tube of .*; or take at most \d+ kV as target$/);
  });

  it.each([
    ['spark', 'common-practice', GRAVE],
    ['puncture', 'verified', GRAVE],
    ['puncture', 'common-practice', MILD],
    ['corona', 'verified', MILD],
  ] as const)('%s, %s: %s', (kind, status, rule) => {
    const finding = wayFinding(C, lasting(kind, status), 260e3);
    expect(finding.basis).toContain(`(low, likely, high); ${rule}`);
    expect(finding.severity).toBe(rule === MILD ? 'caution' : 'danger');
  });
});

it('says where a way runs', () => {
  const { at } = wayFinding(C, terminalToPlateEdge(C), 260e3);
  expect(at).toMatchObject({ surfaces: ['terminal', 'base plate'] });
});

describe('the lip', () => {
  const lipOf = (lip: number) => variant('travelling-demonstrator', { terminal: { opening: { lip } } });
  const finding = (lip: number, volts: number) =>
    wayFinding(lipOf(lip), coronaWay(lipOf(lip), 'lip')!, volts);

  it('is well with a large bead and a low target, a caution with a raw edge', () => {
    expect(finding(8, 100e3).severity).toBe('ok');
    expect(finding(0.5, 170e3).severity).toBe('caution');
  });

  it('its remedy is a bead that was solved again, with what it gains', () => {
    const { remedy, tries } = finding(2, 170e3);
    const told =
      /a bead of ([\d.]+) mm radius instead of 2 mm, around the opening raises the limit \(low, likely\) from (\d+), (\d+) to (\d+), (\d+) kV/;
    const [, bead, low, likely, lowThen, likelyThen] = told.exec(remedy)!.map(Number);
    const limit = (lip: number) => coronaWay(lipOf(lip), 'lip')!.voltage;
    expect([limit(2).low, limit(2).likely].map((volts) => Math.round(volts / 1000))).toEqual([low, likely]);
    expect([limit(bead!).low, limit(bead!).likely].map((volts) => Math.round(volts / 1000))).toEqual([
      lowThen,
      likelyThen,
    ]);
    expect(finding(bead!, 170e3).severity).toBe('ok');
    expect(tries?.[0]?.values).toEqual([{ key: 'terminal.opening.lip', value: bead, unit: 'mm' }]);
  });
});
