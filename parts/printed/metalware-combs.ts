import type { Machine } from '../machine/machine.js';
import { fastener } from '../stock/fasteners.js';
import { clampScrewLength } from './comb-bar.js';
import { LOCK_SCREW_LENGTH } from './comb-bracket.js';
import { along, pressedInto, turnedPiece, type Unnumbered } from './metalware-piece.js';
import { brass, capScrew, washer } from './metalware-solids.js';
import { clampScrews, type End, lockScrew } from './screws-combs.js';

/** Screws of both combs with their inserts. */
export function combMetalware(machine: Machine): Unnumbered[] {
  return (['lower', 'upper'] as const).flatMap((end) => [lock(machine, end), ...clamps(machine, end)]);
}

function lock(machine: Machine, end: End): Unnumbered {
  const { seat, bracket } = machine.combs[end];
  const screw = lockScrew(machine, end);
  const carrier = end === 'lower' ? 'base-skirt' : 'rim-ring';
  return turnedPiece(
    {
      of: `comb-lock-${end}`,
      title: `${end} comb’s locking screw with washer and insert`,
      // Ends in the plastic of its seat.
      bonded: 'floating',
      meets: [`comb-bracket-${end}`, carrier],
      bites: [pressedInto(carrier, 'M3', bracket.insertRadius)],
    },
    screw,
    [
      ...capScrew('M3', LOCK_SCREW_LENGTH),
      washer('M3', -fastener('M3').headHeight),
      brass('M3', along(screw, seat)),
    ],
  );
}

function clamps(machine: Machine, end: End): Unnumbered[] {
  const { plane, bracket } = machine.combs[end];
  return clampScrews(machine, end).map((screw) =>
    turnedPiece(
      {
        of: `comb-clamp-${end}`,
        title: `${end} comb’s clamping screw with insert`,
        // Stands beside the strip and the wire, plastic between them: nothing joins it to the comb.
        bonded: 'floating',
        meets: [`comb-bar-${end}`, `comb-bracket-${end}`],
        bites: [pressedInto(`comb-bracket-${end}`, 'M3', bracket.insertRadius)],
      },
      screw,
      [...capScrew('M3', clampScrewLength(bracket)), brass('M3', along(screw, plane))],
    ),
  );
}
