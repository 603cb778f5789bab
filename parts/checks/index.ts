import { type Outlook, outlook, type Prediction, predict } from '../field/predict.js';
import type { LimitWay } from '../field/way.js';
import { limitWays } from '../field/ways.js';
import type { Machine } from '../machine/machine.js';
import { checkAxles } from './axles.js';
import { checkBelt } from './belt.js';
import { checkBeltRoom } from './belt-room.js';
import { checkBeltRunning } from './belt-running.js';
import { checkBonds } from './bond.js';
import { checkCharging } from './charging.js';
import type { Check } from './check.js';
import { checkColumn } from './column.js';
import { checkCombGap } from './comb-gap.js';
import { checkCombOnset } from './comb-onset.js';
import { checkCrown } from './crown.js';
import { checkDrive } from './drive.js';
import { checkDriveTrain } from './drive-train.js';
import { checkEnergy } from './energy.js';
import { byGravity, type Finding } from './finding.js';
import { checkFits } from './fits.js';
import { checkGrip } from './grip.js';
import { checkJigs } from './jigs.js';
import { checkJoints } from './joints.js';
import { checkLip } from './lip.js';
import { checkOzone } from './ozone.js';
import { checkPrint } from './print-fit.js';
import { checkSeat } from './seat.js';
import { checkStand } from './stand.js';
import { checkSupply } from './supply.js';
import { checkTarget } from './target.js';
import { checkThermal } from './thermal.js';
import { checkTipping } from './tipping.js';
import { checkWand } from './wand.js';
import { checkWays } from './ways.js';

/** Every check. Adding one means adding it here. */
export const CHECKS: readonly Check[] = [
  checkTarget,
  checkWays,
  checkEnergy,
  checkOzone,
  checkSupply,
  checkLip,
  checkCombGap,
  checkCombOnset,
  checkBelt,
  checkCrown,
  checkBeltRoom,
  checkBeltRunning,
  checkAxles,
  checkCharging,
  checkDrive,
  checkDriveTrain,
  checkStand,
  checkTipping,
  checkColumn,
  checkSeat,
  checkBonds,
  checkFits,
  checkGrip,
  checkJoints,
  checkThermal,
  checkJigs,
  checkPrint,
  checkWand,
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
  return { findings: found(machine, ways, prediction), prediction };
}

/** The findings alone, gravest first, then by id: without the sparks to ball and hand, which no finding goes by. */
export function findingsOf(machine: Machine): readonly Finding[] {
  const ways = limitWays(machine);
  return found(machine, ways, outlook(machine, ways));
}

function found(machine: Machine, ways: readonly LimitWay[], prediction: Outlook): readonly Finding[] {
  const context = { prediction, ways, discharge: prediction.discharge * 1000 };
  return CHECKS.flatMap((check) => check(machine, context)).sort(byGravity);
}
