import { type CombDesign, gapAt, tipFor } from '../machine/comb.js';
import type { Machine } from '../machine/machine.js';
import { attempt, lengthText, nearestThatHolds, withValues } from './change.js';
import type { Check } from './check.js';
import type { Finding, Remedy } from './finding.js';
import { judge } from './judge.js';
import { rootOfSquares } from './mechanics.js';
import { practice } from './practice.js';

type End = 'lower' | 'upper';

export const GAP_LEAST = practice(1, 'mm', 'gap below which a comb touches a belt that flutters');
export const GAP_MOST = practice(8, 'mm', 'gap above which a comb hardly sprays');
export const GAP_USUAL: Readonly<Record<CombDesign['style'], readonly [number, number]>> = {
  mesh: [2, 5],
  needles: [3, 6],
};
export const BELT_THICKNESS_SCATTER = practice(
  0.1,
  'mm',
  'how much a belt’s thickness varies, to either side',
);
export const SCALE_SETTING = practice(
  0.25,
  'mm',
  'how closely a bracket is set by its scale, to either side',
);

/** What moves a gap, and how far towards the belt and away from it, mm. */
export interface Contribution {
  readonly what: string;
  readonly closer: number;
  readonly wider: number;
  /** Whether it moves the belt's surface or the comb. */
  readonly moves: 'belt' | 'comb';
}

export const checkCombGap: Check = (machine) =>
  (['lower', 'upper'] as const).flatMap((end) => [
    least(machine, end),
    widest(machine, end),
    asSet(machine, end),
  ]);

/** Everything that moves a comb's gap, largest first. */
export function gapContributions({ rollers, belt, print, rim }: Machine, end: End): Contribution[] {
  const { outer, crown } = rollers[end];
  const scatter = print.calibration.scatter;
  // Out of round as the tube is, the ring that carries the upper comb can be pushed about in its bore.
  const play = end === 'upper' ? Math.max(0, rim.spigotFit.clearance.likely) / 2 : 0;
  const list: Contribution[] = [
    {
      what: 'roller out of round and caliper',
      closer: (outer.high - outer.mean) / 2,
      wider: (outer.mean - outer.low) / 2,
      moves: 'belt',
    },
    // The gap is counted from the crown that the roller has; one that is only allowed for would lift the belt further.
    { what: 'crown of the roller', closer: Math.max(0, belt.crown - crown), wider: crown, moves: 'belt' },
    {
      what: 'thickness of the belt',
      closer: BELT_THICKNESS_SCATTER.value,
      wider: BELT_THICKNESS_SCATTER.value,
      moves: 'belt',
    },
    { what: 'print of the bracket', closer: scatter, wider: scatter, moves: 'comb' },
    ...(end === 'upper'
      ? [{ what: 'play of the rim ring in the tube', closer: play, wider: play, moves: 'comb' } as const]
      : []),
    { what: 'setting by the scale', closer: SCALE_SETTING.value, wider: SCALE_SETTING.value, moves: 'comb' },
  ];
  return list.sort((a, b) => b.closer + b.wider - (a.closer + a.wider));
}

/** Gap of a comb with everything at its worst both ways, mm; 0 when it touches. */
export function gapRange(machine: Machine, end: End): { readonly least: number; readonly most: number } {
  const comb = machine.combs[end];
  const sum = (moves: Contribution['moves'], way: 'closer' | 'wider') =>
    gapContributions(machine, end)
      .filter((each) => each.moves === moves)
      .reduce((total, each) => total + each[way], 0);
  const tip = tipFor(comb.gap, comb.beltRadius, comb.offset);
  const at = (towards: number, lifted: number) =>
    Math.max(0, gapAt(tip + towards, comb.beltRadius + lifted, comb.offset));
  return {
    least: at(-sum('comb', 'closer'), sum('belt', 'closer')),
    most: at(sum('comb', 'wider'), -sum('belt', 'wider')),
  };
}

/**
 * Gap over all tolerances as they come together by chance, mm: what stands off to either side by the root of the sum of
 * squares (Shigley, Mechanical Engineering Design, tolerance stacks, from memory).
 */
export function gapByChance(machine: Machine, end: End): { readonly least: number; readonly most: number } {
  const { gap } = machine.combs[end];
  const of = (way: 'closer' | 'wider') =>
    rootOfSquares(gapContributions(machine, end).map((each) => each[way]));
  return { least: gap - of('closer'), most: gap + of('wider') };
}

function shared(machine: Machine, end: End) {
  const comb = machine.combs[end];
  const parts = gapContributions(machine, end)
    .map(({ what, closer, wider }) => `${what} -${closer.toFixed(2)}/+${wider.toFixed(2)}`)
    .join(', ');
  const chance = gapByChance(machine, end);
  return {
    unit: 'mm',
    status: 'common-practice',
    basis: `set to ${comb.gap} mm; ${parts} mm; by root of squares ${chance.least.toFixed(2)} to ${chance.most.toFixed(2)} mm; limits common practice, no source`,
    at: { point: [comb.tip, 0, comb.plane] },
  } as const;
}

function gapFor(machine: Machine, end: End, to: number, holds: (tried: Machine) => boolean): Remedy {
  const gap = nearestThatHolds(machine.combs[end].gap, to, 0.1, (value) =>
    holds(withGap(machine, end, value)),
  );
  if (gap === undefined) return { text: 'another way of setting the gap: no set gap does', tries: [] };
  // A multiple of the step is not exact in binary.
  return gapOf(machine, end, Number(gap.toFixed(1)), holds);
}

function gapOf(machine: Machine, end: End, gap: number, holds: (tried: Machine) => boolean): Remedy {
  const shown = lengthText(machine, gap);
  return {
    text: `set the gap to ${shown}`,
    tries: attempt(machine, `a gap of ${shown}`, { [`combs.${end}.gap`]: gap }, holds),
  };
}

function withGap(machine: Machine, end: End, gap: number): Machine {
  return withValues(machine, { [`combs.${end}.gap`]: gap });
}

/** Points that touch a running belt cut it: a danger. */
export function least(machine: Machine, end: End): Finding {
  return judge({
    id: `comb/gap-${end}`,
    title: `Least gap of the ${end} comb over all tolerances`,
    measured: gapRange(machine, end).least,
    required: GAP_LEAST.value,
    sense: 'min',
    grave: true,
    remedy: () =>
      gapFor(machine, end, GAP_MOST.value, (tried) => gapRange(tried, end).least >= GAP_LEAST.value),
    ...shared(machine, end),
  });
}

export function widest(machine: Machine, end: End): Finding {
  return judge({
    id: `comb/gap-${end}-widest`,
    title: `Widest gap of the ${end} comb over all tolerances`,
    measured: gapRange(machine, end).most,
    required: GAP_MOST.value,
    sense: 'max',
    remedy: () =>
      gapFor(machine, end, GAP_LEAST.value, (tried) => gapRange(tried, end).most <= GAP_MOST.value),
    ...shared(machine, end),
  });
}

export function asSet(machine: Machine, end: End): Finding {
  const { gap, style } = machine.combs[end];
  const [low, high] = GAP_USUAL[style];
  const narrow = gap < low;
  const required = narrow ? low : high;
  return judge({
    id: `comb/gap-${end}-set`,
    title: `Set gap of the ${end} comb (${style})`,
    measured: gap,
    required,
    sense: narrow ? 'min' : 'max',
    remedy: () =>
      gapOf(machine, end, required, (tried) => tried.combs[end].gap >= low && tried.combs[end].gap <= high),
    ...shared(machine, end),
  });
}
