import { fastener } from '../stock/fasteners.js';
import { openBelt } from './belt-path.js';
import type { MachineValues } from './declarations.js';
import { designPulleys, driveBelt, leastShaft, PILOT_MOST } from './drive.js';
import { floorRadius, leastFloor, nearestTeeth, pitchDiameter, TOOTHED_PITCHES } from './pulley.js';
import { atLeast, atMost, below, mm, type RuleMiss } from './rule-words.js';

// Rules between the values of the drive: belt, pulleys, the motor's face and its shaft.

type On = 'motor' | 'roller';

/** A toothed belt's pitch is one that there are pulleys for. */
export function pitchInStock({ drive }: MachineValues): RuleMiss | undefined {
  const { kind, pitch } = drive;
  if (kind !== 'toothed' || pitch === undefined || isPitch(pitch)) return undefined;
  const pitches = TOOTHED_PITCHES.map((each) => each.pitch);
  return {
    keys: ['drive.pitch'],
    found: `a pitch of ${mm(pitch)}`,
    expected: `one of ${pitches.map(mm).join(', ')}`,
  };
}

const isPitch = (pitch: number) => TOOTHED_PITCHES.some((each) => each.pitch === pitch);

/** How far (mm) a pitch diameter may be from that of a whole number of teeth: what its two decimals lose. */
const TEETH_OFF = 0.05;

/** A toothed pulley has whole teeth. */
function wholeTeeth({ drive }: MachineValues, on: On): RuleMiss | undefined {
  const { kind, pitch, pulleys } = drive;
  if (kind !== 'toothed' || pitch === undefined || !isPitch(pitch)) return undefined;
  const found = pulleys[on];
  const nearest = nearestTeeth(found, pitch);
  if (Math.abs(pitchDiameter(nearest, pitch) - found) <= TEETH_OFF) return undefined;
  const under = Math.floor((Math.PI * found) / pitch);
  const near = [under, under + 1].map((teeth) => `${mm(pitchDiameter(teeth, pitch))} for ${teeth} teeth`);
  return {
    keys: [`drive.pulleys.${on}`, 'drive.pitch'],
    found: `a pitch diameter of ${mm(found)}`,
    expected: `that of whole teeth at ${mm(pitch)} pitch: ${near.join(' or ')}`,
  };
}
export const motorPulleyWholeTeeth = (values: MachineValues) => wholeTeeth(values, 'motor');
export const rollerPulleyWholeTeeth = (values: MachineValues) => wholeTeeth(values, 'roller');

const readable = (values: MachineValues) =>
  values.drive.kind === 'round' ||
  (values.drive.belt_width !== undefined && values.drive.pitch !== undefined && isPitch(values.drive.pitch));

/** Under the belt there is wall around the shaft. */
function takesShaft(values: MachineValues, on: On): RuleMiss | undefined {
  if (!readable(values)) return undefined;
  const { drive, rollers } = values;
  const [shaft, key] =
    on === 'motor'
      ? [drive.motor.face.shaft.diameter, 'drive.motor.face.shaft.diameter']
      : [rollers.lower.axle.diameter, 'rollers.lower.axle.diameter'];
  const diameter = drive.pulleys[on];
  const lost = diameter / 2 - floorRadius(driveBelt(values), diameter);
  const least = 2 * (leastFloor(shaft) + lost);
  const what = `a shaft of ${mm(shaft)}, a wall around it and the belt’s depth,`;
  return atLeast([`drive.pulleys.${on}`, key], 'a pitch diameter of', diameter, what, least);
}
export const motorPulleyTakesShaft = (values: MachineValues) => takesShaft(values, 'motor');
export const rollerPulleyTakesAxle = (values: MachineValues) => takesShaft(values, 'roller');

export function motorFlatShallowerThanRadius({ drive }: MachineValues): RuleMiss | undefined {
  const { flat, diameter } = drive.motor.face.shaft;
  const keys = ['drive.motor.face.shaft.flat', 'drive.motor.face.shaft.diameter'];
  return below(keys, 'a flat of', flat, 'the shaft’s radius', diameter / 2);
}

export function shaftWithinPilot({ drive }: MachineValues): RuleMiss | undefined {
  const { shaft, pilot } = drive.motor.face;
  const keys = ['drive.motor.face.shaft.diameter', 'drive.motor.face.pilot'];
  return below(keys, 'a shaft of', shaft.diameter, 'the pilot’s diameter', pilot);
}

/** The pilot ends in the bracket: beyond it the pulley turns. */
export function pilotWithinBracket({ drive }: MachineValues): RuleMiss | undefined {
  const keys = ['drive.motor.face.pilot_height'];
  return atMost(
    keys,
    'a pilot that stands out by',
    drive.motor.face.pilot_height,
    'the bracket’s face',
    PILOT_MOST,
  );
}

/** mm of plastic between pilot and screws, our choice. */
const BETWEEN = 1;

/** The motor's screws stand outside its pilot, heads and all. */
export function boltsOutsidePilot({ drive }: MachineValues): RuleMiss | undefined {
  const { bolts, pilot } = drive.motor.face;
  const head = fastener(bolts.thread).countersink.diameter;
  const keys = ['drive.motor.face.bolts.circle', 'drive.motor.face.pilot'];
  const what = `the pilot and a head of ${mm(head)} beside it,`;
  return atLeast(keys, 'a circle of', bolts.circle, what, pilot + head + 2 * BETWEEN);
}

/** They stand within the body, heads and all, and beside one another. */
export function boltsWithinBody({ drive }: MachineValues): RuleMiss | undefined {
  const { face, body } = drive.motor;
  const head = fastener(face.bolts.thread).countersink.diameter;
  const keys = ['drive.motor.face.bolts.circle', 'drive.motor.body.diameter'];
  return atMost(
    keys,
    `screws with heads of ${mm(head)} that reach across`,
    face.bolts.circle + head,
    'the body’s diameter',
    body.diameter,
  );
}

export function boltsBesideOneAnother({ drive }: MachineValues): RuleMiss | undefined {
  const { bolts } = drive.motor.face;
  const head = fastener(bolts.thread).countersink.diameter;
  const keys = ['drive.motor.face.bolts.count', 'drive.motor.face.bolts.circle'];
  if (!Number.isInteger(bolts.count))
    return { keys, found: `${bolts.count} screws`, expected: 'a whole number of them' };
  const apart = bolts.circle * Math.sin(Math.PI / bolts.count);
  return atLeast(
    keys,
    `${bolts.count} screws, from one to the next`,
    apart,
    'a head and plastic beside it,',
    head + BETWEEN,
  );
}

/** The motor's shaft goes through the bracket as far as the pulley's set screw. */
export function shaftReachesSetScrew(values: MachineValues): RuleMiss | undefined {
  if (!readable(values)) return undefined;
  // No calibration enters: the hub's length is the same for every printer.
  const even = { hole: 0, outside: 0, holeScale: 0, outsideScale: 0, scatter: 0 };
  const least = leastShaft(designPulleys(values, even).motor);
  const keys = ['drive.motor.face.shaft.length'];
  const what = 'the bracket, and the pulley’s hub up to its set screw,';
  return atLeast(keys, 'a shaft of', values.drive.motor.face.shaft.length, what, least);
}

/** A drive belt that was bought goes around both pulleys. */
export function driveBeltGoesAround({ drive }: MachineValues): RuleMiss | undefined {
  const { belt_length: length, pulleys } = drive;
  if (length === undefined) return undefined;
  const { motor, roller } = pulleys;
  // Rims that touch: the belt that is any shorter does not go on.
  const least = openBelt(motor, roller, (motor + roller) / 2 + RIMS).loopLength;
  const keys = ['drive.belt_length', 'drive.pulleys.motor', 'drive.pulleys.roller'];
  return atLeast(keys, 'a drive belt of', length, 'around both pulleys side by side,', least);
}
/** mm, both rims beyond the pitch circles, and air between them. */
const RIMS = 8;

/** A toothed belt has whole teeth. */
export function driveBeltWholeTeeth({ drive }: MachineValues): RuleMiss | undefined {
  const { kind, pitch, belt_length: length } = drive;
  if (kind !== 'toothed' || pitch === undefined || length === undefined || !isPitch(pitch)) return undefined;
  const teeth = Math.round(length / pitch);
  if (Math.abs(teeth * pitch - length) <= TEETH_OFF) return undefined;
  return {
    keys: ['drive.belt_length', 'drive.pitch'],
    found: `a drive belt of ${mm(length)}`,
    expected: `a whole number of teeth of ${mm(pitch)}: ${mm(teeth * pitch)} has ${teeth}`,
  };
}

export const DRIVE_RULES = [
  pitchInStock,
  motorPulleyWholeTeeth,
  rollerPulleyWholeTeeth,
  motorPulleyTakesShaft,
  rollerPulleyTakesAxle,
  motorFlatShallowerThanRadius,
  shaftWithinPilot,
  pilotWithinBracket,
  boltsOutsidePilot,
  boltsWithinBody,
  boltsBesideOneAnother,
  shaftReachesSetScrew,
  driveBeltGoesAround,
  driveBeltWholeTeeth,
] as const;
