import { LUG_THICKNESS } from '../machine/base.js';
import { NUT_CHANNEL, threadDiameter } from '../machine/drive.js';
import type { HubDesign } from '../machine/hub.js';
import type { Machine } from '../machine/machine.js';
import { shaftLoop } from '../solid/facets.js';
import { loopArea } from '../solid/sections.js';
import { fastener } from '../stock/fasteners.js';
import { pulleySetScrewLength } from './drive-pulley.js';
import { along, turnedPiece, type Unnumbered } from './metalware-piece.js';
import { capScrew, disc, headOf, nut, type Step, shank, sunkScrew, washer } from './metalware-solids.js';
import { GROUND_SCREW, groundScrewAt } from './motor-bracket.js';
import { hubSetScrewLength, liveOf } from './roller-hub-lower.js';
import type { Screw } from './screw.js';
import { bracketScrews, hubSetScrews, motorScrews, pulleySetScrew } from './screws-drive.js';

/** Screws of motor and bracket, and the set screws on both shafts. */
export function driveMetalware(machine: Machine): Unnumbered[] {
  return [
    ...bracket(machine),
    ...motor(machine),
    groundOfFrame(machine),
    ...hubs(machine),
    pulley(machine, 'motor'),
    pulley(machine, 'roller'),
  ];
}

function bracket(machine: Machine): Unnumbered[] {
  const { plate, drive } = machine;
  const { screw: size, screwLength, flangeThickness } = drive.bracket;
  const channel = -(plate.thickness + flangeThickness - NUT_CHANNEL);
  return bracketScrews(machine).map((screw) =>
    turnedPiece(
      {
        of: 'bracket-screw',
        title: 'motor bracket’s screw with washer and nut',
        // Its washer lies on the plate.
        bonded: 'plate',
        meets: ['plate', 'motor-bracket'],
      },
      screw,
      [
        ...capScrew(size, screwLength),
        washer(size, -fastener(size).headHeight),
        // The channel runs along x: flats to its walls.
        nut(size, along(screw, channel)),
      ],
    ),
  );
}

function motor(machine: Machine): Unnumbered[] {
  const { motorScrewLength: length, faceThickness } = machine.drive.bracket;
  const { thread } = machine.drive.motor.face.bolts;
  return motorScrews(machine).map((screw) =>
    turnedPiece(
      {
        of: 'motor-screw',
        title: 'motor’s screw',
        // In the motor's frame, which is wired to the ground stud.
        bonded: 'ground',
        meets: ['motor-bracket', 'motor'],
        bites: [
          {
            of: 'motor',
            volume: loopArea(shaftLoop(threadDiameter(thread) / 2)) * (length - faceThickness),
            why: 'in the motor’s thread, which is drawn solid',
          },
        ],
      },
      screw,
      sunkScrew(thread, length),
    ),
  );
}

/** The screw at which the wires of the motor's frame and of the stud meet: its head outside, lug and nut behind the face. */
function groundOfFrame(machine: Machine): Unnumbered {
  const { size, length, headRadius, headHeight } = GROUND_SCREW;
  const behind = -headHeight - machine.drive.bracket.faceThickness;
  const [x, y, z] = groundScrewAt(machine);
  return turnedPiece(
    {
      of: 'frame-ground-screw',
      title: 'ground screw of the motor’s frame with lug and nut',
      // Wired to the motor's frame and to the ground stud.
      bonded: 'ground',
      meets: ['motor-bracket'],
    },
    { heads: [{ at: [x, y + headHeight, z], away: [0, 1, 0] }] },
    [
      headOf(headRadius, headHeight),
      shank(size, -headHeight - length, -headHeight / 2),
      disc(size, LUG_THICKNESS, behind),
      nut(size, behind - LUG_THICKNESS),
    ],
  );
}

/** A set screw on a shaft's flat, its nut drawn against the outer wall of its slot, corners along the shaft. */
function setScrew(
  screw: Screw,
  shaftX: number,
  length: number,
  slot: Pick<NonNullable<HubDesign['live']>, 'nutAt' | 'nutThickness'>,
): Step[] {
  const end = screw.heads[0]!.at[0] - shaftX;
  return [shank('M3', -length, 0), nut('M3', slot.nutAt + slot.nutThickness - end, 30)];
}

function hubs(machine: Machine): Unnumbered[] {
  const { lower } = machine.hubs;
  return hubSetScrews(machine).map((screw) =>
    turnedPiece(
      {
        of: 'hub-set-screw',
        title: 'lower hub’s set screw with nut',
        // Stands on the lower axle's flat, which its foils bond to ground.
        bonded: 'ground',
        meets: ['roller-hub-lower', 'axle-lower'],
      },
      screw,
      setScrew(screw, 0, hubSetScrewLength(lower), liveOf(lower)),
    ),
  );
}

function pulley(machine: Machine, on: 'motor' | 'roller'): Unnumbered {
  const { motor, pulley } = machine.drive;
  const screw = pulleySetScrew(machine, on);
  return turnedPiece(
    {
      of: `pulley-set-screw-${on}`,
      title: `set screw of the ${on === 'motor' ? 'motor’s' : 'lower axle’s'} pulley with nut`,
      // Stands on a grounded shaft.
      bonded: 'ground',
      meets: [`drive-pulley-${on}`, on === 'motor' ? 'motor' : 'axle-lower'],
    },
    screw,
    setScrew(screw, on === 'motor' ? motor.at[0] : 0, pulleySetScrewLength(pulley[on]), pulley[on]),
  );
}
