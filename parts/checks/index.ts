import { type Prediction, predict } from '../field/predict.js';
import { limitWays } from '../field/ways.js';
import type { Machine } from '../machine/machine.js';
import { checkBelt } from './belt.js';
import { checkBonds } from './bond.js';
import { checkCharging } from './charging.js';
import type { Check } from './check.js';
import { checkCombGap } from './comb-gap.js';
import { checkDrive } from './drive.js';
import { checkEnergy } from './energy.js';
import { type Finding, SEVERITIES } from './finding.js';
import { checkFits } from './fits.js';
import { checkGrip } from './grip.js';
import { checkLip } from './lip.js';
import { checkPrint } from './print-fit.js';
import { checkStand } from './stand.js';
import { checkSupply } from './supply.js';
import { checkTarget } from './target.js';
import { checkWays } from './ways.js';

/** Every check. Adding one means adding it here. */
export const CHECKS: readonly Check[] = [
  checkTarget,
  checkWays,
  checkEnergy,
  checkSupply,
  checkLip,
  checkCombGap,
  checkBelt,
  checkCharging,
  checkDrive,
  checkStand,
  checkBonds,
  checkFits,
  checkGrip,
  checkPrint,
];

export interface Checked {
  /** Gravest first, then by id. */
  readonly findings: readonly Finding[];
  readonly prediction: Prediction;
}

/** Predicts and checks a machine. Builds no solid. */
export function checkMachine(machine: Machine): Checked {
  const ways = limitWays(machine);
  const prediction = predict(machine, ways);
  const context = { prediction, ways, discharge: prediction.discharge * 1000 };
  const findings = CHECKS.flatMap((check) => check(machine, context));
  return { findings: [...findings].sort(byGravity), prediction };
}

function byGravity(a: Finding, b: Finding): number {
  const grave = SEVERITIES.indexOf(a.severity) - SEVERITIES.indexOf(b.severity);
  return grave || (a.id < b.id ? -1 : a.id > b.id ? 1 : 0);
}
