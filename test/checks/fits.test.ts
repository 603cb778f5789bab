import { describe, expect, it } from 'vitest';
import {
  axleFinding,
  collarClamp,
  fingerTravel,
  fitFinding,
  ringStroke,
  tiltAtTerminal,
  tubeTilt,
} from '../../parts/checks/fits.js';
import { FIT_CLASSES, round } from '../../parts/machine/fits.js';
import type { Machine } from '../../parts/machine/machine.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { readings, variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');
const fitOf = (machine: Machine, id: string) =>
  fitFinding(machine, machine.fits.find((each) => each.id === id)!);
const scattered = (scatter: number) =>
  variant('travelling-demonstrator', { print: { calibration: { scatter } } });

describe('fits at the extremes', () => {
  it('clearance fits go together while the print scatters no more than their allowance', () => {
    expect(fitOf(A, 'fit/pilot-on-tube').severity).toBe('ok');
    const wild = fitOf(scattered(0.2), 'fit/pilot-on-tube');
    expect(wild.severity).toBe('caution');
    expect(wild.measured).toBeLessThan(wild.required);
    expect(wild.remedy).toContain('slide');
  });

  it('the looser class of the remedy clears it', () => {
    const slide = variant('travelling-demonstrator', {
      print: { calibration: { scatter: 0.2 } },
      fits: { pilot: 'slide' },
    });
    expect(fitOf(slide, 'fit/pilot-on-tube').severity).toBe('ok');
  });

  it('a clearance fit that overlaps at likely sizes does not go together', () => {
    const pilot = A.fits.find(({ id }) => id === 'fit/pilot-on-tube')!;
    const tight = { ...pilot, clearance: { low: -0.3, likely: -0.1, high: 0.1 } };
    expect(fitFinding(A, tight).severity).toBe('danger');
  });

  it('a press fit keeps its squeeze only where the print scatters less', () => {
    expect(fitOf(A, 'fit/bearing-upper-in-hub').severity).toBe('caution');
    expect(fitOf(scattered(0.05), 'fit/bearing-upper-in-hub').severity).toBe('ok');
  });

  it('the scatter of the press fit’s remedy clears it', () => {
    const needed = Number(
      /scatter of at most ([\d.]+) mm/.exec(fitOf(A, 'fit/bearing-upper-in-hub').remedy)![1],
    );
    expect(fitOf(scattered(needed), 'fit/bearing-upper-in-hub').severity).toBe('ok');
  });

  it('the press fit’s remedy is something to do', () => {
    const { remedy } = fitOf(A, 'fit/bearing-upper-in-hub');
    expect(remedy).toMatch(
      /^print one seat and try the bearing in it; put .* print\.calibration \(hole, scatter\)/,
    );
    expect(remedy).toContain('where it is loose, one turn of thin tape');
  });

  it.each([
    ['snug', 'low'],
    ['press', 'high'],
  ] as const)('a %s fit’s numbers forgive what its verdict forgives', (name, end) => {
    const pilot = A.fits.find(({ id }) => id === 'fit/pilot-on-tube')!;
    const missedBy = (mm: number) => {
      const amount = end === 'low' ? -mm : mm;
      const size = { low: 62.9532, likely: 62.9532, high: 62.9532 };
      const asPrinted = { low: size.low + amount, likely: size.low, high: size.high + amount };
      const clearance = { low: amount, likely: 0, high: amount };
      return fitFinding(A, { ...pilot, class: name, bought: size, asPrinted, clearance });
    };
    for (const mm of [0, 0.0002, 0.0004, 0.0008, 0.00099]) {
      expect(missedBy(mm)).toMatchObject({
        severity: 'ok',
        measured: 62.953,
        required: 62.953,
        margin: 0,
      });
    }
    expect(missedBy(0.0012).severity).toBe('caution');
    expect(missedBy(0.0012).margin).toBeLessThan(0);
  });

  it.each(STARTERS)('no fit of %s that is ok has a negative margin', (name) => {
    const machine = starterMachine(name);
    for (const fit of machine.fits) {
      const { severity, margin, measured, required } = fitFinding(machine, fit);
      if (severity === 'ok') expect(margin).toBeGreaterThanOrEqual(0);
      else expect(margin).toBeLessThan(0);
      for (const size of [measured, required]) expect(size).toBe(round(size));
    }
  });

  it.each(FIT_CLASSES)('class %s is well with a printer that does not scatter', (name) => {
    const exact = variant('travelling-demonstrator', {
      print: { calibration: { scatter: 0 } },
      fits: { pilot: name },
    });
    // A press fit around a tube that is out of round squeezes only where the tube is wide.
    if (name !== 'press') expect(fitOf(exact, 'fit/pilot-on-tube').severity).toBe('ok');
    expect(fitOf(exact, 'fit/hub-upper-in-shell').severity).toBe('ok');
  });
});

describe('the grip', () => {
  it('reaches the tube over its whole range, and not a tube far out of round', () => {
    expect(fingerTravel(A).severity).toBe('ok');
    const oval = variant('travelling-demonstrator', { column: { tube: { outer: readings(78, 80.3) } } });
    expect(fingerTravel(oval).severity).toBe('danger');
    expect(ringStroke(oval).severity).not.toBe('ok');
  });

  it('says how round a tube must be, and that clears it', () => {
    const oval = variant('travelling-demonstrator', { column: { tube: { outer: readings(78, 80.3) } } });
    const spread = Number(/by at most ([\d.]+) mm/.exec(fingerTravel(oval).remedy)![1]);
    const rounder = variant('travelling-demonstrator', {
      column: { tube: { outer: readings(80.3 - spread + 0.01, 80.3) } },
    });
    expect(fingerTravel(rounder).severity).toBe('ok');
  });

  it('closes within 270 degrees', () => {
    expect(ringStroke(A)).toMatchObject({ severity: 'ok', required: 270 });
    expect(ringStroke(A).measured).toBeGreaterThan(90);
  });

  it('lets the tube lean in proportion to the pilot’s play', () => {
    expect(tiltAtTerminal(A, 0)).toBe(0);
    expect(tiltAtTerminal(A, 0.4)).toBeCloseTo(2 * tiltAtTerminal(A, 0.2), 12);
    expect(tubeTilt(A).severity).toBe('ok');
    expect(tubeTilt(starterMachine('lecture-hall')).severity).toBe('caution');
  });
});

describe('axle and bearing', () => {
  it.each([
    [6, 'ok'],
    [6.05, 'caution'],
    [5.96, 'ok'],
    [5.9, 'caution'],
  ] as const)('an axle of %f mm in a 6 mm bore: %s', (diameter, severity) => {
    const machine = variant('travelling-demonstrator', { rollers: { upper: { axle: { diameter } } } });
    expect(axleFinding(machine, 'upper').severity).toBe(severity);
  });
});

it.each([
  [0.1, 'ok'],
  [0.2, 'ok'],
  [0.25, 'caution'],
] as const)('the collar holds the foot with a print scatter of %f mm: %s', (scatter, severity) => {
  expect(collarClamp(scattered(scatter)).severity).toBe(severity);
});
