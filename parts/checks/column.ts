import type { Machine } from '../machine/machine.js';
import { plastic } from '../stock/plastics.js';
import { pipeMoment, pushedAside } from './bending.js';
import type { Check } from './check.js';
import type { Finding } from './finding.js';
import { TERMINAL_TILT } from './fits.js';
import { sustained } from './grip.js';
import { judge } from './judge.js';

export const checkColumn: Check = (machine) => [bending(machine), sway(machine)];

/** Tube between the fingers and its rim, pushed at the terminal's middle: at the thinnest wall that was read. */
function cantilever({ tube, grip, terminal, assume }: Machine) {
  const from = (grip.mount.headBottom + grip.mount.headTop) / 2;
  const outer = tube.outer.mean;
  return {
    force: assume.sidePush,
    length: tube.rimZ - from,
    beyond: terminal.centreZ - tube.rimZ,
    modulus: plastic(tube.material).youngsModulus.value,
    moment: pipeMoment(outer, outer - 2 * tube.wall.low),
    outer,
  };
}

/** MPa in the tube where the fingers hold it. */
export function bendingStress(machine: Machine): number {
  const { force, length, beyond, moment, outer } = cantilever(machine);
  return (force * (length + beyond) * outer) / (2 * moment);
}

export function bending(machine: Machine): Finding {
  const { assume, tube, grip } = machine;
  const limit = sustained(machine);
  return judge({
    id: 'strength/column-bending',
    title: 'Bending stress in the tube at the mount, pushed at the terminal',
    measured: bendingStress(machine),
    required: limit.value,
    unit: 'MPa',
    sense: 'max',
    basis: `cantilever, ${assume.sidePush} N at the terminal’s middle, wall ${tube.wall.low.toFixed(2)} mm; a push is short, the limit is for what stays; ${limit.basis}`,
    status: limit.status,
    remedy: () => 'a tube with a thicker wall or a larger diameter, or stays that take the push',
    at: { point: [tube.outer.mean / 2, 0, grip.mount.headTop] },
  });
}

/** mm that the terminal's middle gives way under the push. */
export const swayOf = (machine: Machine): number => pushedAside(cantilever(machine));

export function sway(machine: Machine): Finding {
  const { assume, terminal } = machine;
  return judge({
    id: 'stand/terminal-sway',
    title: 'Sway of the terminal under a push, the mount held still',
    measured: swayOf(machine),
    required: TERMINAL_TILT.value,
    unit: 'mm',
    sense: 'max',
    basis: `cantilever from the fingers, ${assume.sidePush} N; ${TERMINAL_TILT.meaning}, ${TERMINAL_TILT.source}`,
    status: TERMINAL_TILT.status,
    remedy: () => 'a tube with a thicker wall or a larger diameter, or stays',
    at: { point: [0, 0, terminal.centreZ] },
  });
}
