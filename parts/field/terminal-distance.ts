import type { Machine } from '../machine/machine.js';

/** Radius from the axis and height, mm. */
export type RZ = readonly [radius: number, z: number];

/** Even, so that the bead’s lowest point is one of them. */
const BEAD_STEPS = 90;
const STEPS = 180;

/**
 * Outline of the terminal's outside from its lip to its top, mm: the bead, and the sphere, or for a shell the spheroid
 * of its diameter and height.
 */
export function terminalOutline({ terminal }: Machine): RZ[] {
  const equatorial = terminal.diameter.mean / 2;
  const polar = terminal.topZ - terminal.centreZ;
  const bead = terminal.lipRadius;
  const rim = terminal.openingDiameter.mean / 2 + bead;
  const sheetFrom = terminal.ring?.holeRadius ?? rim;
  const around = (count: number, at: (angle: number) => RZ): RZ[] =>
    Array.from({ length: count + 1 }, (_, i) => at((Math.PI * i) / count));
  const ring = around(
    BEAD_STEPS,
    (angle): RZ => [rim - bead * Math.cos(angle), terminal.lipZ + bead - bead * Math.sin(angle)],
  );
  const body = around(
    STEPS,
    (angle): RZ => [equatorial * Math.sin(angle), terminal.centreZ - polar * Math.cos(angle)],
  );
  return [
    ...ring,
    ...body.filter(([radius, z]) => z >= terminal.centreZ || (radius >= sheetFrom && z >= terminal.lipZ)),
  ];
}

/** The place on the terminal closest to a place, and how far it is, mm. Found on the outline, to about 0.1 %. */
export function nearestOnTerminal(
  machine: Machine,
  [radius, z]: RZ,
): { readonly at: RZ; readonly distance: number } {
  let best: { at: RZ; distance: number } = { at: [0, 0], distance: Number.POSITIVE_INFINITY };
  for (const at of terminalOutline(machine)) {
    const distance = Math.hypot(at[0] - radius, at[1] - z);
    if (distance < best.distance) best = { at, distance };
  }
  return best;
}
