import { withValues } from '../../parts/checks/change.js';
import { checkMachine, findingsOf } from '../../parts/checks/index.js';
import { coronaWay } from '../../parts/field/corona-ways.js';
import { boundField } from '../../parts/field/machine-field.js';
import type { Machine } from '../../parts/machine/machine.js';
import type { Report } from './field.js';

// What the solved field costs a builder: a remedy solved again, the findings, and everything that `check` predicts, each over
// one solution of the same machine. Every round has a machine of its own, since solutions are kept.

const ROUNDS = 7;

function medianOf(work: (round: number) => void): number {
  const times = Array.from({ length: ROUNDS }, (_, round) => {
    const start = performance.now();
    work(round);
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[Math.floor(ROUNDS / 2)]!;
}

export function benchMachine(machine: Machine, report: Report): void {
  const longer = (series: number, round: number) =>
    withValues(machine, { 'column.tube.length': machine.tube.length + 10 * series + 0.5 * (round + 1) });
  // The first of all warms up.
  checkMachine(longer(0, 0));
  const solution = medianOf((round) => boundField(longer(1, round), 'polarised'));
  const remedy = medianOf((round) => {
    const bead = machine.terminal.lipRadius + 0.1 * (round + 1);
    coronaWay(withValues(machine, { 'terminal.opening.lip': bead }), 'lip');
  });
  const findings = medianOf((round) => findingsOf(longer(2, round)));
  const all = medianOf((round) => checkMachine(longer(3, round)));
  const over = (time: number) => `${time.toFixed(0)} ms over ${solution.toFixed(0)} ms`;
  report('field: a remedy solved again, over one solution', remedy / solution, '<= 3', over(remedy));
  report('field: findings of a new shape, over one solution', findings / solution, 'none', over(findings));
  report('field: all of a check, over one solution', all / solution, 'none', over(all));
}
