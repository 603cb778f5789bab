import type { LimitWay } from '../field/way.js';
import type { Severity } from './finding.js';
import { SOFT } from './judge.js';

/** A way's limit over the voltage of the intended discharge: enough, and barely. Common practice, no source. */
export const RATIO = { ok: 1.3, least: 1 } as const;
/**
 * A way is `ok` when its likely limit is 1.3 times the discharge voltage and its low limit reaches it, `danger` when its
 * likely limit does not reach it. Corona takes current but breaks nothing down, so that it is a `caution` at most; so is a
 * wall of which nothing published tells the strength.
 */
export function severityOfWay(
  way: Pick<LimitWay, 'kind' | 'voltage' | 'status'>,
  discharge: number,
): Severity {
  const { low, likely } = way.voltage;
  if (likely < RATIO.least * discharge) return isGrave(way) ? 'danger' : 'caution';
  return likely < RATIO.ok * discharge || low < RATIO.least * discharge ? 'caution' : 'ok';
}

/** Whether a way breaks down for good where its likely limit falls short. */
export const isGrave = ({ kind, status }: Pick<LimitWay, 'kind' | 'status'>) =>
  kind === 'spark' || (kind === 'puncture' && !SOFT.includes(status));
