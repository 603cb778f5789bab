import { describe, expect, it } from 'vitest';
import { lengthText, nearestThatHolds } from '../../parts/checks/change.js';
import { judge, severityOf } from '../../parts/checks/judge.js';
import { starterMachine } from '../helpers/machines.js';

describe('severity', () => {
  it.each([
    [{ met: true, status: 'verified' }, 'ok'],
    [{ met: true, metAtWorst: false, status: 'verified' }, 'caution'],
    [{ met: false, status: 'verified' }, 'danger'],
    [{ met: false, status: 'computed' }, 'danger'],
    [{ met: false, status: 'common-practice' }, 'caution'],
    [{ met: false, status: 'from-memory' }, 'caution'],
    [{ met: false, status: 'common-practice', grave: true }, 'danger'],
    [{ met: true, metAtWorst: false, status: 'common-practice', grave: true }, 'caution'],
  ] as const)('%o: %s', (judged, severity) => expect(severityOf(judged)).toBe(severity));
});

describe('a finding from its numbers', () => {
  const draft = {
    id: 'a/b',
    title: 'A',
    unit: 'mm',
    basis: 'B',
    status: 'verified',
    remedy: () => 'do',
  } as const;
  it('asks for a remedy only when something is wrong', () => {
    expect(judge({ ...draft, measured: 3, required: 2, sense: 'min' })).toMatchObject({
      severity: 'ok',
      remedy: '',
      margin: 0.5,
    });
    expect(judge({ ...draft, measured: 3, required: 2, sense: 'max' })).toMatchObject({
      severity: 'danger',
      remedy: 'do',
      margin: -0.5,
    });
    expect(judge({ ...draft, measured: 3, worst: 1, required: 2, sense: 'min' })).toMatchObject({
      severity: 'caution',
      remedy: 'do',
    });
  });
  it('does not stumble over rounding', () => {
    expect(judge({ ...draft, measured: 0.1 + 0.2, required: 0.3, sense: 'max' }).severity).toBe('ok');
  });
});

describe('the nearest value that holds', () => {
  it('is found upwards and downwards, rounded away from the start', () => {
    expect(nearestThatHolds(0, 100, 1, (x) => x >= 36.4)).toBe(37);
    expect(nearestThatHolds(100, 0, 0.5, (x) => x <= 36.4)).toBe(36);
  });
  it('is undefined when nothing does', () => {
    expect(nearestThatHolds(0, 100, 1, () => false)).toBeUndefined();
  });
  it('does not run past the end', () => {
    expect(nearestThatHolds(0, 99.5, 1, (x) => x > 99.2)).toBe(99.5);
  });
});

it('gives inches beside mm where the file is in inches', () => {
  expect(lengthText(starterMachine('inch-built'), 914.4)).toBe('914.4 mm (36 in)');
  expect(lengthText(starterMachine('lecture-hall'), 914.4)).toBe('914.4 mm');
});
