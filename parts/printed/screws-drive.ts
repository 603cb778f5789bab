import type { Machine } from '../machine/machine.js';
import { plateHoles } from '../machine/plate-holes.js';
import { setScrewAt } from '../machine/pulley.js';
import { radians } from '../solid/vector.js';
import { COUNTERSUNK, fastener } from '../stock/fasteners.js';
import { CARRIER_STEPS, GROUPS } from './carrier-places.js';
import { DRIVE_STEPS, pulleySetScrewLength } from './drive-pulley.js';
import { hubSetScrewLength } from './roller-hub-lower.js';
import { bothSides, type Head, type Screw, SETTING, socket, UP } from './screw.js';
import type { Drive } from './tools.js';

/** Key of a set screw M3, mm. ISO 4026, from memory. */
const SET_SCREW_KEY = 1.5;
/** Degrees between the positions in which a shaft is looked at. */
const SHAFT_STEP = 15;

/** Screws through the plate into the motor's bracket. */
export function bracketScrews(machine: Machine): Screw[] {
  const { bracket } = machine.drive;
  const m4 = fastener(bracket.screw);
  return plateHoles(machine).bracketHoles.map(([x, y]) => ({
    what: `motor bracket's screw at ${x.toFixed(0)}, ${y.toFixed(0)}`,
    part: 'motor-bracket',
    drive: socket(bracket.screw),
    step: SETTING,
    heads: [{ at: [x, y, m4.washer.thickness + m4.headHeight], away: UP }],
  }));
}

/** Countersunk screws through the bracket's face into the motor. */
export function motorScrews({ drive: { bracket, motor }, rollers }: Machine): Screw[] {
  const { circle, count, thread } = motor.face.bolts;
  const sunk = COUNTERSUNK.find(({ size }) => size === thread);
  if (!sunk) throw new RangeError(`no countersunk screw ${thread}`);
  return Array.from({ length: count }, (_, i): Screw => {
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
  });
}

/** A screw across a shaft along y, in every direction that the shaft is turned to; first +x, where hubs and flats are placed. */
function onShaft(x: number, y: number, z: number, radius: number): Head[] {
  return Array.from({ length: 360 / SHAFT_STEP }, (_, i) => {
    const [cos, sin] = [Math.cos(radians(i * SHAFT_STEP)), Math.sin(radians(i * SHAFT_STEP))];
    return { at: [x + radius * cos, y, z + radius * sin], away: [cos, 0, sin] };
  });
}

const SET_SCREW: Drive = { kind: 'socket', key: SET_SCREW_KEY };

/** From an axis to its flat, on which a set screw stands. mm */
const toFlat = ({ diameter, flat }: { readonly diameter: number; readonly flat: number }) =>
  diameter / 2 - flat;

/** Set screws of the lower roller's hubs. */
export function hubSetScrews({ hubs, rollers }: Machine): Screw[] {
  const { axle, axisZ, length } = rollers.lower;
  const end = toFlat(axle) + hubSetScrewLength(hubs.lower);
  return bothSides((side) => ({
    what: `set screw of the lower hub at y ${side < 0 ? '-' : '+'}`,
    part: 'roller-hub-lower',
    drive: SET_SCREW,
    step: CARRIER_STEPS.spacer - 0.5,
    bench: GROUPS.lowerRoller,
    heads: onShaft(0, side * (length / 2 + hubs.lower.flangeThickness / 2), axisZ, end),
  }));
}

/** The set screw of a drive pulley. */
export function pulleySetScrew({ rollers, drive }: Machine, on: 'motor' | 'roller'): Screw {
  const pulley = drive.pulley[on];
  const at = setScrewAt(pulley);
  const motor = on === 'motor';
  const end = toFlat(motor ? drive.motor.face.shaft : rollers.lower.axle) + pulleySetScrewLength(pulley);
  return {
    what: `set screw of the ${motor ? 'motor’s' : 'lower axle’s'} pulley`,
    part: `drive-pulley-${on}`,
    drive: SET_SCREW,
    step: DRIVE_STEPS.pulley,
    heads: onShaft(
      motor ? drive.motor.at[0] : 0,
      drive.place[on] + (motor ? -at : at),
      rollers.lower.axisZ,
      end,
    ),
  };
}
