import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Finding, marginOf, SEVERITIES } from '../../parts/checks/finding.js';
import { checkMachine, findingsOf } from '../../parts/checks/index.js';
import type { Machine } from '../../parts/machine/machine.js';
import { PARTS } from '../../parts/printed/catalog.js';
import { STATUSES } from '../../parts/stock/row.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { randomMachine } from '../helpers/random-machine.js';

const SEED = 20_261_127;
const TOOLS = new Set(PARTS.filter(({ role }) => role === 'tool').map(({ id }) => `print/bed-${id}`));
const of = (machine: Machine, severity: Finding['severity']) =>
  checkMachine(machine)
    .findings.filter((finding) => finding.severity === severity)
    .map(({ id }) => id);

function expectWellFormed(finding: Finding) {
  const { id, severity, measured, required, sense, margin, remedy, at, status } = finding;
  for (const value of [measured, required, margin]) expect(Number.isFinite(value), id).toBe(true);
  expect(margin, id).toBe(marginOf(measured, required, sense));
  expect(SEVERITIES, id).toContain(severity);
  expect(STATUSES, id).toContain(status);
  expect(remedy === '', `${id}: ${severity}, ${remedy}`).toBe(severity === 'ok');
  expect(id).toMatch(/^[a-z]+\/[a-z0-9-]+$/);
  expect(finding.basis, id).not.toBe('');
  const places = at === undefined ? [] : 'point' in at ? [at.point] : at.path;
  // A tool's own size has no place in the machine.
  if (!TOOLS.has(id)) expect(places.length, id).toBeGreaterThan(0);
  for (const place of places)
    for (const coordinate of place) expect(Number.isFinite(coordinate), id).toBe(true);
  const words = [finding.title, finding.basis, remedy].join(' ');
  expect(words, id).not.toMatch(/\bsafe(ly)?\b|NaN|undefined|Infinity|\[object/i);
}

it(`states every finding in full, for random machines, seed ${SEED}`, () => {
  fc.assert(
    fc.property(randomMachine, ({ machine }) => {
      const findings = findingsOf(machine);
      findings.forEach(expectWellFormed);
      const ids = findings.map(({ id }) => id);
      expect(new Set(ids).size).toBe(ids.length);
    }),
    { seed: SEED, numRuns: 10 },
  );
});

describe('the starters', () => {
  it.each(STARTERS)('%s: every finding in full, gravest first', (name) => {
    const { findings } = checkMachine(starterMachine(name));
    findings.forEach(expectWellFormed);
    const order = findings.map(({ severity }) => SEVERITIES.indexOf(severity));
    expect([...order].sort((a, b) => a - b)).toEqual(order);
  });

  it('have the same findings, whatever they come to, but for those of parts that not every machine has', () => {
    const OPTIONAL = /roller-sleeve|sleeve-on|ring-clip/;
    const ids = STARTERS.map((name) =>
      checkMachine(starterMachine(name))
        .findings.map(({ id }) => id)
        .filter((id) => !OPTIONAL.test(id))
        .sort(),
    );
    for (const each of ids) expect(each).toEqual(ids[0]);
    const optional = checkMachine(starterMachine('school-workshop')).findings.filter(({ id }) =>
      OPTIONAL.test(id),
    );
    expect(optional.map(({ id }) => id).sort()).toEqual([
      'fit/sleeve-on-upper-roller',
      'print/bed-lip-ring-clip',
      'print/bed-roller-sleeve-upper',
      'strength/ring-clip',
    ]);
  });

  it.each(['travelling-demonstrator', 'lecture-hall', 'school-workshop', 'inch-built-longer-tube'] as const)(
    '%s: no danger',
    (name) => {
      expect(of(starterMachine(name), 'danger')).toEqual([]);
    },
  );

  it('inch-built: its column is a danger, and nothing else is', () => {
    expect(of(starterMachine('inch-built'), 'danger')).toEqual(['way/column-outer']);
  });

  it('inch-built: the remedy leaves the column a caution', () => {
    expect(of(starterMachine('inch-built-longer-tube'), 'caution')).toContain('way/column-outer');
  });

  it('state stored energy as worked out for them', () => {
    const alone = (name: (typeof STARTERS)[number]) =>
      checkMachine(starterMachine(name)).findings.find(({ id }) => id === 'energy/alone')!;
    expect(alone('travelling-demonstrator')).toMatchObject({ severity: 'ok' });
    expect(alone('travelling-demonstrator').measured).toBeCloseTo(0.22, 1);
    expect(alone('lecture-hall')).toMatchObject({ severity: 'caution' });
    expect(alone('lecture-hall').measured).toBeCloseTo(0.88, 1);
    expect(alone('inch-built-longer-tube').measured).toBeCloseTo(0.66, 1);
  });
});

it('is a pure function of the machine', () => {
  const machine = starterMachine('inch-built');
  const before = JSON.stringify(machine);
  expect(checkMachine(machine)).toEqual(checkMachine(machine));
  expect(JSON.stringify(machine)).toBe(before);
});
