import { describe, expect, it } from 'vitest';
import { asSet, gapContributions, gapRange, least, widest } from '../../parts/checks/comb-gap.js';
import { starterMachine } from '../helpers/machines.js';
import { readings, variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');
const gapped = (gap: number) => variant('travelling-demonstrator', { combs: { lower: { gap } } });

describe('the stack of a comb’s gap', () => {
  it('spans the set gap', () => {
    const range = gapRange(A, 'lower');
    expect(range.least).toBeLessThan(3);
    expect(range.most).toBeGreaterThan(3);
  });

  it('is the sum of its contributions, nearly: the bracket slides straight, the belt is round', () => {
    const total = gapContributions(A, 'lower').reduce((sum, { closer, wider }) => sum + closer + wider, 0);
    const { least: low, most: high } = gapRange(A, 'lower');
    expect(Math.abs((high - low) / total - 1)).toBeLessThan(0.04);
  });

  it('grows with every contribution', () => {
    const width = (machine: typeof A) => gapRange(machine, 'lower').most - gapRange(machine, 'lower').least;
    const more = [
      variant('travelling-demonstrator', { rollers: { lower: { outer: readings(27.6, 28.5) } } }),
      variant('travelling-demonstrator', { print: { calibration: { scatter: 0.3 } } }),
      variant('travelling-demonstrator', { assume: { belt_crown: 1.6 } }),
    ];
    for (const machine of more) expect(width(machine)).toBeGreaterThan(width(A));
  });

  it('counts the play of the ring that carries the upper comb, half to either side', () => {
    const play = (end: 'lower' | 'upper') =>
      gapContributions(A, end).find(({ what }) => what.startsWith('play of the rim ring'));
    expect(play('lower')).toBeUndefined();
    expect(play('upper')!.closer).toBeCloseTo(A.rim.spigotFit.clearance.likely / 2, 9);
    expect(gapRange(A, 'upper').least).toBeLessThan(gapRange(A, 'lower').least);
  });

  it('lists contributions largest first', () => {
    const sizes = gapContributions(A, 'upper').map(({ closer, wider }) => closer + wider);
    expect([...sizes].sort((a, b) => b - a)).toEqual(sizes);
  });
});

it.each([
  [3, 'ok'],
  [1.8, 'danger'],
] as const)('least gap, set to %f mm: %s', (gap, severity) =>
  expect(least(gapped(gap), 'lower').severity).toBe(severity),
);

it.each([
  [3, 'ok'],
  [7.9, 'caution'],
] as const)('widest gap, set to %f mm: %s', (gap, severity) =>
  expect(widest(gapped(gap), 'lower').severity).toBe(severity),
);

it.each([
  ['mesh', 3, 'ok'],
  ['mesh', 1.9, 'caution'],
  ['mesh', 5.5, 'caution'],
  ['needles', 5.5, 'ok'],
  ['needles', 2.5, 'caution'],
] as const)('%s set to %f mm: %s', (style, gap, severity) => {
  expect(
    asSet(variant('travelling-demonstrator', { combs: { upper: { style, gap } } }), 'upper').severity,
  ).toBe(severity);
});

it('the remedy’s gap clears it, and a tenth less does not', () => {
  const gap = Number(/gap to ([\d.]+) mm/.exec(least(gapped(1.6), 'lower').remedy)![1]);
  expect(least(gapped(gap), 'lower').severity).toBe('ok');
  expect(least(gapped(gap - 0.1), 'lower').severity).toBe('danger');
});
