import { fastener, nextScrewLength } from '../stock/fasteners.js';
import { insert } from '../stock/inserts.js';
import type { DriveDesign } from './drive.js';
import { type Calibration, drawnHole, round } from './fits.js';

/** Feet under the plate's edge, each held by a screw through the plate. Lengths in mm. */
export interface FeetDesign {
  readonly height: number;
  /** Distance of their middles from the column's axis, and directions from +x in degrees. */
  readonly radius: number;
  readonly angles: readonly number[];
  readonly topRadius: number;
  readonly padRadius: number;
  readonly insertRadius: number;
  readonly insertDepth: number;
  readonly screw: 'M5';
  readonly screwLength: number;
  readonly plateHole: number;
}

/** mm, our choice. */
const FEET = { topRadius: 10, pad: 12, padPerHeight: 1 / 30, toEdge: 3, engaged: 5, room: 0.5, apart: 4 };
/** Directions of the front feet, and those tried for the rear ones, nearest to a square first. */
const FRONT = 45;
const REAR = [135, 130, 140, 125, 145, 120, 150, 115, 110, 105, 100];

/** A foot, where it stands (mm from the axis) and how wide it is. */
const placed = (radius: number, angle: number) => {
  const at = (angle * Math.PI) / 180;
  return [radius * Math.cos(at), radius * Math.sin(at)] as const;
};

/** Least distance (mm) of a foot's middle from what hangs on the drive's side: bracket with motor, and pulleys with belt. */
export function footToDrive(drive: DriveDesign, [x, y]: readonly [number, number]): number {
  const { bracket, motor, belt, pulley, place } = drive;
  const out = -belt.centreDistance;
  const boxes = [
    {
      x: [out - bracket.half - bracket.travel, out + bracket.half + bracket.travel],
      y: [motor.at[1] - motor.bodyLength / 2, bracket.face],
    },
    {
      x: [out - pulley.motor.rimRadius - bracket.travel, pulley.roller.rimRadius],
      y: [bracket.face, place.roller + pulley.roller.width + 2],
    },
  ] as const;
  const beyond = (value: number, [from, to]: readonly [number, number]) =>
    Math.max(from - value, 0, value - to);
  return Math.min(...boxes.map((box) => Math.hypot(beyond(x, box.x), beyond(y, box.y))));
}

export function designFeet(input: {
  readonly plate: { readonly diameter: number; readonly thickness: number };
  readonly height: number;
  readonly drive: DriveDesign;
  readonly calibration: Calibration;
}): FeetDesign {
  const { plate, height, drive, calibration } = input;
  const m5 = fastener('M5');
  const padRadius = round(FEET.pad + height * FEET.padPerHeight);
  const radius = round(plate.diameter / 2 - padRadius - FEET.toEdge);
  const room = (angle: number) =>
    Math.min(...[angle, -angle].map((each) => footToDrive(drive, placed(radius, each)))) - padRadius;
  const rear = REAR.find((angle) => room(angle) >= FEET.apart) ?? REAR[0]!;
  const screwLength = nextScrewLength(m5.washer.thickness + plate.thickness + FEET.engaged);
  const inside = screwLength - m5.washer.thickness - plate.thickness;
  return {
    height,
    radius,
    angles: [FRONT, rear, 360 - rear, 360 - FRONT],
    topRadius: FEET.topRadius,
    padRadius,
    insertRadius: round(drawnHole(calibration, insert('M5').hole) / 2),
    insertDepth: round(Math.max(insert('M5').length.value, inside) + FEET.room),
    screw: 'M5',
    screwLength,
    plateHole: m5.clearance.medium,
  };
}
