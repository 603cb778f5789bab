import { rectangle } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import type { Loop } from '../solid/vector.js';

// What every hub that is screwed to a flat has: the nut's slot, the flat in its bore, and a screw that does not stand out.

/**
 * Slot for the set screw’s nut in the y-z plane, open downwards to `open` or upwards: its far end is the nut’s corner, which
 * prints as a roof where it lies above.
 */
export function nutSlot(nutFlats: number, screwAt: number, open: number): Loop {
  const half = nutFlats / 2;
  const corner = half / Math.cos(Math.PI / 6);
  if (open < screwAt)
    return [
      [-half, open],
      [half, open],
      [half, screwAt + corner / 2],
      [0, screwAt + corner],
      [-half, screwAt + corner / 2],
    ];
  return [
    [-half, open],
    [-half, screwAt - corner / 2],
    [0, screwAt - corner],
    [half, screwAt - corner / 2],
    [half, open],
  ];
}

/** The part of a round bore beyond the flat that is filled again. */
export function flatFill(
  d: { readonly boreRadius: number; readonly flatDistance: number },
  height: number,
  k: Kernel,
): Solid {
  const reach = d.boreRadius + 0.5;
  return k.extrude([rectangle(d.flatDistance, -reach, reach, reach)], 0, height);
}

/** Usual lengths of set screws, mm. Source: ISO 4026, from memory. */
const SET_SCREWS = [4, 5, 6, 8, 10, 12, 16, 20];

/** The longest set screw (mm) that does not stand out of its hub: what would stand out rubs. */
export function setScrewLength(room: number): number {
  return Math.max(SET_SCREWS[0]!, ...SET_SCREWS.filter((length) => length <= room - 0.3));
}
