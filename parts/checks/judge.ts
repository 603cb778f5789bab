import type { Status } from '../stock/row.js';
import { type Finding, marginOf, type Severity } from './finding.js';

/** How a requirement was met: in the worst case, at likely values only, or not even there. */
export interface Judged {
  readonly met: boolean;
  /** Whether it is met in the worst case too; `met` where there is only one value. */
  readonly metAtWorst?: boolean;
  readonly status: Status;
  /** The pieces cannot go together, or break: a danger whatever the requirement rests on. */
  readonly grave?: boolean;
}

/** Requirements that rest on nothing published do not make a danger by themselves. */
export const SOFT: readonly Status[] = ['common-practice', 'from-memory'];

/** `danger` when missed at likely values, `caution` when missed in the worst case or when the requirement is soft. */
export function severityOf({ met, metAtWorst = met, status, grave = false }: Judged): Severity {
  if (!met) return SOFT.includes(status) && !grave ? 'caution' : 'danger';
  return metAtWorst ? 'ok' : 'caution';
}

type Draft = Omit<Finding, 'severity' | 'margin' | 'remedy'> & {
  /** Value in the worst case, where it differs from `measured`. */
  readonly worst?: number;
  readonly grave?: boolean;
  /** Called only when something is wrong. */
  readonly remedy: () => string;
};

/** Rounding of decimals must not make a finding. */
const ROUNDING = 1e-6;

/** A finding from its numbers: severity and margin follow from them. */
export function judge({ worst, grave, remedy, ...draft }: Draft): Finding {
  const { measured, required, sense, status } = draft;
  const meets = (value: number) =>
    sense === 'min' ? value >= required - ROUNDING : value <= required + ROUNDING;
  const severity = severityOf({
    met: meets(measured),
    ...(worst !== undefined && { metAtWorst: meets(worst) }),
    status,
    ...(grave !== undefined && { grave }),
  });
  return {
    ...draft,
    severity,
    margin: marginOf(measured, required, sense),
    remedy: severity === 'ok' ? '' : remedy(),
  };
}
