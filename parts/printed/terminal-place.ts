import type { Machine } from '../machine/machine.js';
import { CLEAR_AIR, type Move } from './part.js';

/** Group of terminal, ring and clips, which are put together on the bench and go onto the seat as one. */
const ON_SEAT = 'terminal';

/** The terminal comes down over all that stands on the rim; the seat's pads are the tallest. */
export function ontoSeat({ terminal, lipClip }: Machine): Move {
  return {
    slide: [0, 0, -(terminal.topZ + CLEAR_AIR - terminal.lipZ)],
    turn: 0,
    why: 'over its seat from above, until the dome rests on the pads',
    ...(lipClip && { with: ON_SEAT }),
  };
}
