import type { Machine } from '../machine/machine.js';
import { domeAt } from '../machine/seat.js';
import type { Vec2 } from '../solid/vector.js';
import { fastener } from '../stock/fasteners.js';
import { metal, pressedInto, type Unnumbered } from './metalware-piece.js';
import { brass, capScrew, ribbon, stepDimensions, stepped } from './metalware-solids.js';
import { standing } from './screw.js';
import { springScrew } from './screws.js';
import { CONTACT_ANGLE, CONTACT_SCREW_LENGTH, CONTACT_STRIP } from './terminal-seat-head.js';

/** mm; the spring ends before the pad opposite. */
const OFF_PAD = 2;
/** Halvings by which the spring's slope is found. */
const HALVINGS = 50;

/**
 * The spring's middle line in its plane through the column's axis, [radius, height over the ring's top face]: under its screw
 * flat on the ring, then straight in over the ring's bore and up to the dome, as it stands pressed by it.
 */
function springPath({ seat: { head } }: Machine): Vec2[] {
  const { length, width, thickness } = CONTACT_STRIP;
  const bent = head.insertAt - width / 2;
  const long = Math.min(length - width, bent + head.padFrom - OFF_PAD);
  const dome = { radius: head.domeRadius, height: head.domeHeight, middle: head.domeMiddle };
  const end = (slope: number): Vec2 => [
    bent - long * Math.cos(slope),
    thickness / 2 + long * Math.sin(slope),
  ];
  let [low, high] = [0, Math.PI / 2];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    const [radius, height] = end(middle);
    if (height + head.thickness + thickness / 2 < domeAt(dome, Math.abs(radius))) low = middle;
    else high = middle;
  }
  return [[head.insertAt + width / 2, thickness / 2], [bent, thickness / 2], end(low)];
}

/** The contact spring with its screw and insert. */
export function terminalMetalware(machine: Machine): Unnumbered[] {
  const { width, thickness } = CONTACT_STRIP;
  const { headHeight } = fastener('M3');
  const onRing = -headHeight - thickness;
  const steps = [...capScrew('M3', CONTACT_SCREW_LENGTH), brass('M3', onRing)];
  const path = springPath(machine);
  return [
    metal(
      {
        of: 'contact-spring',
        title: 'contact spring with its screw and insert',
        // Presses against the terminal's dome.
        bonded: 'terminal',
        meets: ['terminal-seat-head', 'terminal'],
        bites: [
          pressedInto('terminal-seat-head', 'M3', machine.combs.upper.bracket.insertRadius),
          {
            of: 'terminal',
            // Its end's edges, straight where the dome is round, and the dome's own facets.
            volume: width * thickness * 2,
            why: 'end of the spring pressed against the dome',
          },
        ],
      },
      standing(springScrew(machine).heads[0]!),
      {
        ...stepDimensions(steps),
        ...CONTACT_STRIP,
        angle: CONTACT_ANGLE,
        pathX: path.map(([radius]) => radius - machine.seat.head.insertAt),
        pathZ: path.map(([, height]) => onRing + height),
      },
      (k, d) => {
        const strip = ribbon(
          d.pathX.map((x, i): Vec2 => [x, d.pathZ[i]!]),
          d.thickness,
          d.width,
          k,
        );
        return k.union([stepped(steps, k), k.place(strip, { turn: [0, 0, d.angle], move: [0, 0, 0] })]);
      },
    ),
  ];
}
