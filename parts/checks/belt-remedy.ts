import { BELT } from '../machine/declarations-pieces.js';
import type { Machine } from '../machine/machine.js';
import { attempt, type Changes, lengthDown, lengthText } from './change.js';
import type { Remedy } from './finding.js';
import { practice } from './practice.js';

export const BELT_BEYOND_COMB = practice(6, 'mm', 'belt’s width beyond the comb, both sides together');
/** mm of comb that a belt of this width takes. */
export const combWidthFor = (width: number) => width - BELT_BEYOND_COMB.value;

/** mm, the narrowest belt that a remedy asks for. */
export const NARROWEST = BELT.keys.width.range.min;

/** A narrower belt, and combs that fit it; without a width there is none. */
export function narrowerBelt(
  machine: Machine,
  width: number | undefined,
  holds: (tried: Machine) => boolean,
): Remedy {
  if (width === undefined) return { text: 'smaller rollers, or a wider tube', tries: [] };
  const changes = { 'belt.width': width, ...combsWithin(machine, width) };
  const combs = Object.keys(changes).length > 1 ? ', with combs that fit it' : '';
  return {
    text: `a belt of at most ${lengthText(machine, width)} width`,
    tries: attempt(machine, `a belt ${lengthText(machine, width)} wide${combs}`, changes, holds),
  };
}

/** Combs that would be wider than a belt of this width, brought to the width that it asks for. */
function combsWithin({ combs }: Machine, width: number): Changes {
  const wide = (['lower', 'upper'] as const).filter((end) => combs[end].width > width);
  return Object.fromEntries(wide.map((end) => [`combs.${end}.width`, lengthDown(combWidthFor(width))]));
}
