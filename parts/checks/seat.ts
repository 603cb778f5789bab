import type { Machine } from '../machine/machine.js';
import type { Check } from './check.js';
import type { Finding } from './finding.js';
import { judge } from './judge.js';
import { practice } from './practice.js';

export const SEAT_TILT = practice(1, 'mm', 'how far the terminal may tilt on its seat, across its opening');

export const checkSeat: Check = (machine) => [seatTilt(machine)];

/**
 * How much lower (mm) one edge of the opening hangs than the other when the terminal is pushed aside as far as its guides
 * let it: it swings about its pads, high above.
 */
export function tiltOnSeat({ rim, seat, terminal }: Machine): number {
  const pads = seat.head.underZ + seat.head.thickness;
  const aside = Math.max(0, rim.guideFit.clearance.high) / 2;
  return (aside / (pads - terminal.lipZ)) * terminal.openingDiameter.mean;
}

export function seatTilt(machine: Machine): Finding {
  const { rim, terminal } = machine;
  const { clearance } = rim.guideFit;
  return judge({
    id: 'seat/tilt',
    title: 'Tilt of the terminal on its seat, one edge of the opening against the other',
    measured: tiltOnSeat(machine),
    required: SEAT_TILT.value,
    unit: 'mm',
    sense: 'max',
    basis: `hangs on three pads above its middle, its opening guided with ${clearance.likely.toFixed(2)} (${clearance.low.toFixed(2)} to ${clearance.high.toFixed(2)}) mm of play; ${SEAT_TILT.meaning}, ${SEAT_TILT.source}`,
    status: SEAT_TILT.status,
    remedy: () => 'measure the opening in more directions: its guides are drawn for the narrowest reading',
    at: { point: [rim.guides.outerRadius, 0, terminal.lipZ] },
  });
}
