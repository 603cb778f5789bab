import type { Machine } from '../machine/machine.js';
import { type Screw, socket, UP } from './screw.js';
import { collarScrews, footScrews, skirtScrews, studNut } from './screws-base.js';
import { cheekScrews, jackScrewHeads, lowerCarrierScrews } from './screws-carriers.js';
import { clampScrews, lockScrew } from './screws-combs.js';
import { bracketScrews, hubSetScrews, motorScrews, pulleySetScrew } from './screws-drive.js';
import { contactScrew } from './terminal-seat-head.js';
import { SEAT_STEPS } from './terminal-seat-leg.js';

/** Every screw and nut of a machine that is turned by a tool in its place. */
export function screwsOf(machine: Machine): Screw[] {
  return [
    ...collarScrews(machine),
    ...skirtScrews(machine),
    studNut(machine),
    ...footScrews(machine),
    lockScrew(machine, 'lower'),
    ...clampScrews(machine, 'lower'),
    lockScrew(machine, 'upper'),
    ...clampScrews(machine, 'upper'),
    ...lowerCarrierScrews(machine),
    ...cheekScrews(machine),
    ...jackScrewHeads(machine),
    ...bracketScrews(machine),
    ...motorScrews(machine),
    ...hubSetScrews(machine),
    pulleySetScrew(machine, 'motor'),
    pulleySetScrew(machine, 'roller'),
    springScrew(machine),
  ];
}

/** The screw that holds the contact spring on the terminal's seat. */
export function springScrew(machine: Machine): Screw {
  return {
    what: 'screw of the contact spring',
    part: 'terminal-seat-head',
    drive: socket('M3'),
    step: SEAT_STEPS.head,
    heads: [{ at: contactScrew(machine), away: UP }],
  };
}
