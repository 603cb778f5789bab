import type { Status } from '../stock/row.js';
import { type Finding, marginOf, type Remedy, type Severity, told } from './finding.js';

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

type Draft = Omit<Finding, 'severity' | 'margin' | 'remedy' | 'tries'> & {
  /** Value in the worst case, where it differs from `measured`. */
  readonly worst?: number;
  readonly grave?: boolean;
  /** Called only when something is wrong. */
  readonly remedy: () => string | Remedy;
};

/** Rounding of decimals must not make a finding, nor the six digits that a converted value is written with. */
const ROUNDING = 1e-6;
const ROUNDING_SHARE = 1e-5;

/** Whether a number is as it should be. */
export function meets(value: number, required: number, sense: 'min' | 'max'): boolean {
  const near = Math.max(ROUNDING, ROUNDING_SHARE * Math.abs(required));
  return sense === 'min' ? value >= required - near : value <= required + near;
}

/** A finding from its numbers: severity and margin follow from them. */
export function judge({ worst, grave, remedy, ...draft }: Draft): Finding {
  const { measured, required, sense, status } = draft;
  const severity = severityOf({
    met: meets(measured, required, sense),
    ...(worst !== undefined && { metAtWorst: meets(worst, required, sense) }),
    status,
    ...(grave !== undefined && { grave }),
  });
  return {
    ...draft,
    severity,
    margin: marginOf(measured, required, sense),
    ...told(severity, remedy),
  };
}
