import { combOnset, ONSET_LEFT_OUT } from '../field/charge/comb-onset.js';
import type { Machine } from '../machine/machine.js';
import { attempt, lengthText, lengthUp, nearestThatHolds, withValues } from './change.js';
import type { Check } from './check.js';
import type { Finding } from './finding.js';
import { judge } from './judge.js';

/** mm, the widest gap that a remedy may ask for: beyond it the comb’s own checks speak. */
const WIDEST_GAP = 5;

export const checkCombOnset: Check = (machine) => {
  const finding = combStarts(machine);
  return finding ? [finding] : [];
};

const likelyRatio = (machine: Machine) => combOnset(machine)?.ratio?.likely ?? 0;

/**
 * Whether friction charges the lower roller enough for its comb to start spraying. Both rest on common practice and on
 * densities of materials that nobody cut from this stock: a caution at most. No finding for a belt that a supply charges,
 * nor where the roller’s density is not known: `belt/charging` says that.
 */
export function combStarts(machine: Machine): Finding | undefined {
  const onset = combOnset(machine);
  if (!onset?.ratio || !onset.reached) return undefined;
  const { ratio, needed, reached, known } = onset;
  const { rollers, combs, belt } = machine;
  const micro = (density: number) => (density * 1e6).toFixed(1);
  return judge({
    id: 'comb/onset-lower',
    title: 'Charge that friction puts on the lower roller over what the comb before it needs to start',
    measured: ratio.likely,
    worst: ratio.low,
    required: 1,
    unit: '',
    sense: 'min',
    basis: `${micro(needed.likely)} uC/m2 needed (voltage of onset over gap and belt), ${micro(reached.low)}, ${micro(reached.likely)}, ${micro(reached.high)} uC/m2 reached (low, likely, high${known ? '' : `; no published density of ${belt.material}, taken between other rubbers`}); depends most on ${ratio.dominatedBy}; ${ONSET_LEFT_OUT}`,
    status: 'common-practice',
    remedy: () => {
      const gap = nearestThatHolds(combs.lower.gap, WIDEST_GAP, 0.1, (wider) => {
        return likelyRatio(withValues(machine, { 'combs.lower.gap': wider })) >= 1;
      });
      const other = `a lower roller that lies farther from ${belt.material} in the triboelectric order, a dry and clean one, or a belt charged from a supply`;
      if (gap === undefined || ratio.likely >= 1) return other;
      const wider = lengthUp(gap);
      return {
        text: `a gap of ${lengthText(machine, wider)} at the lower comb, ${other}`,
        tries: attempt(
          machine,
          `a gap of ${lengthText(machine, wider)} at the lower comb`,
          { 'combs.lower.gap': wider },
          (tried) => likelyRatio(tried) >= 1 && (combOnset(tried)?.ratio?.low ?? 0) >= 1,
        ),
      };
    },
    at: { point: [combs.lower.tip, 0, rollers.lower.axisZ] },
  });
}
