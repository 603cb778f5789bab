import type { Machine } from '../machine/machine.js';
import type { Check } from './check.js';
import type { Finding } from './finding.js';
import { judge } from './judge.js';

/** An axle and the bearings at its ends. */
const PIECES = 3;

export const checkBonds: Check = (machine) =>
  (['lower', 'upper'] as const).map((end) => floatingMetal(machine, end));

/**
 * Metal that nothing in the design connects drifts to a potential of its own and sparks to its neighbours. Axle and
 * bearings sit in plastic; prints that conduct connect them.
 */
export function floatingMetal(machine: Machine, end: 'lower' | 'upper'): Finding {
  const { print, rollers } = machine;
  const side = end === 'upper' ? 'the wire of the upper comb' : 'the ground stud';
  return judge({
    id: `bond/${end}-axle`,
    title: `Metal at the ${end} roller, axle and two bearings, that a part connects`,
    measured: print.conductive ? PIECES : 0,
    required: PIECES,
    unit: 'pieces',
    sense: 'min',
    basis: `${print.conductive ? 'the filament conducts' : 'axle and bearings sit in plastic'}; floating metal drifts to a potential of its own, common practice, no source`,
    status: 'common-practice',
    remedy: () => `a bond wire from the ${end} axle to ${side}, on a spring or brush where it turns`,
    at: { point: [0, rollers[end].axle.to, rollers[end].axisZ] },
  });
}
