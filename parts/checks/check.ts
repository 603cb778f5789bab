import type { Outlook } from '../field/predict.js';
import type { LimitWay } from '../field/way.js';
import type { Machine } from '../machine/machine.js';
import type { Finding } from './finding.js';

/** What every check may use besides the machine. */
export interface Context {
  readonly prediction: Outlook;
  readonly ways: readonly LimitWay[];
  /** V, what ways and energy are judged at. */
  readonly discharge: number;
}

/** One check: findings for a machine, those that are well among them. Pure. */
export type Check = (machine: Machine, context: Context) => Finding[];
