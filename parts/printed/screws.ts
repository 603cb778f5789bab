import type { Machine } from '../machine/machine.js';
import { plateHoles } from '../machine/plate-holes.js';
import { setScrewAt } from '../machine/pulley.js';
import { radians, type Vec3 } from '../solid/vector.js';
import { COUNTERSUNK, type FastenerSize, fastener } from '../stock/fasteners.js';
import { CARRIER_STEPS, GROUPS } from './carrier-places.js';
import { STRIP_THICKNESS } from './comb-bar.js';
import { DRIVE_STEPS } from './drive-pulley.js';
import { setScrewLength } from './set-screw.js';
import { contactScrew } from './terminal-seat-head.js';
import { SEAT_STEPS } from './terminal-seat-leg.js';
import type { Drive } from './tools.js';

/** Where a tool takes hold: the middle of the head's outer face, and the direction away from it along the screw. */
export interface Head {
  /** mm, in the machine's frame */
  readonly at: Vec3;
  readonly away: Vec3;
}

/** A screw or nut that a tool turns in the machine. */
export interface Screw {
  readonly what: string;
  /** Id of the printed part that it holds. */
  readonly part: string;
  readonly drive: Drive;
  /** When it is turned, on the scale of all steps: what has come by then is there. The last time, where it is set again. */
  readonly step: number;
  /** Group of pieces that lie together on the bench then; without it all that has come is there. */
  readonly bench?: string;
  /** One of these: a shaft can be turned until its screw lies well. */
  readonly heads: readonly Head[];
}

const UP: Vec3 = [0, 0, 1];
const DOWN: Vec3 = [0, 0, -1];

/** After the seat, before the terminal: when combs and drive belt are set. */
const SETTING = 69;
/** Key of a set screw M3, mm. ISO 4026, from memory. */
const SET_SCREW_KEY = 1.5;
/** Of a cable, under the upper nut of the ground stud. mm */
const LUG = 1;
/** Degrees between the positions in which a shaft is looked at. */
const SHAFT_STEP = 15;

const socket = (size: FastenerSize): Drive => ({ kind: 'socket', key: fastener(size).key });
const around = (radius: number, angle: number, z: number): Vec3 => [
  radius * Math.cos(radians(angle)),
  radius * Math.sin(radians(angle)),
  z,
];
const bothSides = <T>(of: (side: -1 | 1) => T): T[] => ([-1, 1] as const).map(of);

/** Every screw and nut of a machine that is turned by a tool in its place. */
export function screwsOf(machine: Machine): Screw[] {
  return [
    ...baseScrews(machine),
    ...combScrews(machine),
    ...carrierScrews(machine),
    ...driveScrews(machine),
    ...setScrews(machine),
    {
      what: 'screw of the contact spring',
      part: 'terminal-seat-head',
      drive: socket('M3'),
      step: SEAT_STEPS.head,
      heads: [{ at: contactScrew(machine), away: UP }],
    },
  ];
}

function baseScrews({ base, feet }: Machine): Screw[] {
  const m4 = fastener(base.screw);
  const stud = fastener(base.stud.size);
  const collarHead = base.collar.restsAt + base.collar.height - base.collar.headDepth + m4.headHeight;
  // On the plate: washer, thin nut, lug, washer, nut.
  const studNut = 2 * stud.washer.thickness + stud.thinNutHeight + LUG + stud.nutHeight;
  return [
    ...base.boltAngles.map(
      (angle): Screw => ({
        what: `collar's screw at ${angle} degrees`,
        part: 'base-collar',
        drive: socket(base.screw),
        step: 30,
        heads: [{ at: around(base.boltRadius, angle, collarHead), away: UP }],
      }),
    ),
    ...base.skirtBoltAngles.map(
      (angle): Screw => ({
        what: `skirt's screw at ${angle} degrees`,
        part: 'base-skirt',
        drive: socket(base.screw),
        step: 10,
        heads: [{ at: around(base.boltRadius, angle, m4.washer.thickness + m4.headHeight), away: UP }],
      }),
    ),
    {
      what: 'nut of the ground stud',
      part: 'base-collar',
      drive: { kind: 'nut', flats: stud.nutFlats, height: stud.nutHeight, stem: base.stud.top - studNut },
      step: 35,
      heads: [{ at: around(base.boltRadius, base.stud.angle, studNut), away: UP }],
    },
    ...feet.angles.map((angle): Screw => {
      const m5 = fastener(feet.screw);
      return {
        what: `foot's screw at ${angle} degrees`,
        part: 'foot',
        drive: socket(feet.screw),
        step: DRIVE_STEPS.feet,
        heads: [{ at: around(feet.radius, angle, m5.washer.thickness + m5.headHeight), away: UP }],
      };
    }),
  ];
}

function combScrews({ combs }: Machine): Screw[] {
  const m3 = fastener('M3');
  return (['lower', 'upper'] as const).flatMap((end): Screw[] => {
    const { seat, screwAt, plane, tip, bracket } = combs[end];
    const up = end === 'upper' ? 1 : -1;
    const away = end === 'upper' ? UP : DOWN;
    const foot = seat + up * (bracket.footThickness + m3.washer.thickness + m3.headHeight);
    const bar = plane + up * (STRIP_THICKNESS + bracket.barHeight + m3.headHeight);
    return [
      {
        what: `${end} comb's locking screw`,
        part: `comb-bracket-${end}`,
        drive: socket('M3'),
        step: SETTING,
        heads: [{ at: [screwAt, 0, foot], away }],
      },
      ...bothSides(
        (side): Screw => ({
          what: `${end} comb's clamp at y ${side < 0 ? '-' : '+'}`,
          part: `comb-bar-${end}`,
          drive: socket('M3'),
          step: SETTING,
          heads: [{ at: [tip + bracket.barScrewAt, (side * bracket.barScrewSpacing) / 2, bar], away }],
        }),
      ),
    ];
  });
}

function carrierScrews(machine: Machine): Screw[] {
  const { rim, tube, plate, base } = machine;
  const { lower, upper } = machine.carriers;
  const m3 = fastener('M3');
  const underSkirt = -(plate.thickness + base.skirt.thickness + lower.footThickness);
  const ringTop = tube.rimZ + rim.flangeThickness;
  const recess = ringTop - (rim.flangeThickness - rim.headDepth) - m3.headHeight;
  return [
    ...bothSides((side) =>
      bothSides(
        (end): Screw => ({
          what: `lower carrier's screw at x ${side < 0 ? '-' : '+'}, y ${end < 0 ? '-' : '+'}`,
          part: 'bearing-carrier-lower',
          drive: socket(lower.screw),
          step: CARRIER_STEPS.lower,
          heads: [
            {
              at: [
                side * lower.screwAt,
                (end * (lower.innerFace + lower.outerFace)) / 2,
                underSkirt - m3.washer.thickness - m3.headHeight,
              ],
              away: DOWN,
            },
          ],
        }),
      ),
    ).flat(),
    ...rim.screws.flatMap(([x, y]) =>
      bothSides(
        (side): Screw => ({
          what: `cheek's screw from below at x ${x.toFixed(0)}, y ${side < 0 ? '-' : '+'}`,
          part: 'bearing-carrier-upper',
          drive: socket(upper.screw),
          step: CARRIER_STEPS.spacer - 0.1,
          bench: GROUPS.rim,
          heads: [{ at: [x, side * y, recess], away: DOWN }],
        }),
      ),
    ),
    ...bothSides(
      (side): Screw => ({
        what: `jack screw at y ${side < 0 ? '-' : '+'}`,
        part: 'axle-block',
        drive: socket(upper.screw),
        // The seat's legs stand over them: it is taken out first.
        step: SEAT_STEPS.leg - 0.1,
        heads: [
          {
            at: [
              upper.block.jackAt,
              (side * (upper.innerFace + upper.outerFace)) / 2,
              ringTop + upper.jackTop,
            ],
            away: UP,
          },
        ],
      }),
    ),
  ];
}

function driveScrews(machine: Machine): Screw[] {
  const { drive, rollers } = machine;
  const { bracket, motor } = drive;
  const m4 = fastener(bracket.screw);
  const { circle, count, thread } = motor.face.bolts;
  const sunk = COUNTERSUNK.find(({ size }) => size === thread);
  if (!sunk) throw new RangeError(`no countersunk screw ${thread}`);
  return [
    ...plateHoles(machine).bracketHoles.map(
      ([x, y]): Screw => ({
        what: `motor bracket's screw at ${x.toFixed(0)}, ${y.toFixed(0)}`,
        part: 'motor-bracket',
        drive: socket(bracket.screw),
        step: SETTING,
        heads: [{ at: [x, y, m4.washer.thickness + m4.headHeight], away: UP }],
      }),
    ),
    ...Array.from({ length: count }, (_, i): Screw => {
      const angle = radians((360 / count) * i);
      return {
        what: `motor's screw ${i + 1}`,
        part: 'motor-bracket',
        drive: { kind: 'socket', key: sunk.key },
        step: DRIVE_STEPS.motor,
        heads: [
          {
            at: [
              motor.at[0] + (circle / 2) * Math.cos(angle),
              bracket.face,
              rollers.lower.axisZ + (circle / 2) * Math.sin(angle),
            ],
            away: [0, 1, 0],
          },
        ],
      };
    }),
  ];
}

/** A screw across a shaft along y, in every direction that the shaft is turned to. */
function onShaft(x: number, y: number, z: number, radius: number): Head[] {
  return Array.from({ length: 360 / SHAFT_STEP }, (_, i) => {
    const [cos, sin] = [Math.cos(radians(i * SHAFT_STEP)), Math.sin(radians(i * SHAFT_STEP))];
    return { at: [x + radius * cos, y, z + radius * sin], away: [cos, 0, sin] };
  });
}

function setScrews({ hubs, rollers, drive }: Machine): Screw[] {
  const driveOf: Drive = { kind: 'socket', key: SET_SCREW_KEY };
  const { live, flangeRadius, flangeThickness } = hubs.lower;
  const { axle, axisZ, length } = rollers.lower;
  if (!live) throw new RangeError('the lower roller’s axle must be live');
  const hubEnd = axle.diameter / 2 - axle.flat + setScrewLength(flangeRadius - live.flatDistance);
  const pulley = (on: 'motor' | 'roller'): Screw => {
    const { hubRadius, flatDistance } = drive.pulley[on];
    const at = setScrewAt(drive.pulley[on]);
    const motor = on === 'motor';
    const shaft = motor ? drive.motor.face.shaft : axle;
    const end = shaft.diameter / 2 - shaft.flat + setScrewLength(hubRadius - flatDistance);
    return {
      what: `set screw of the ${on === 'motor' ? 'motor’s' : 'lower axle’s'} pulley`,
      part: `drive-pulley-${on}`,
      drive: driveOf,
      step: DRIVE_STEPS.pulley,
      heads: onShaft(motor ? drive.motor.at[0] : 0, drive.place[on] + (motor ? -at : at), axisZ, end),
    };
  };
  return [
    ...bothSides(
      (side): Screw => ({
        what: `set screw of the lower hub at y ${side < 0 ? '-' : '+'}`,
        part: 'roller-hub-lower',
        drive: driveOf,
        step: CARRIER_STEPS.spacer - 0.5,
        bench: GROUPS.lowerRoller,
        heads: onShaft(0, side * (length / 2 + flangeThickness / 2), axisZ, hubEnd),
      }),
    ),
    pulley('motor'),
    pulley('roller'),
  ];
}
