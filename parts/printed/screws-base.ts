import { LUG_THICKNESS } from '../machine/base.js';
import type { Machine } from '../machine/machine.js';
import { fastener } from '../stock/fasteners.js';
import { DRIVE_STEPS } from './drive-pulley.js';
import { around, type Screw, socket, UP } from './screw.js';

/** Screws through collar, plate and skirt. */
export function collarScrews({ base }: Machine): Screw[] {
  const head =
    base.collar.restsAt + base.collar.height - base.collar.headDepth + fastener(base.screw).headHeight;
  return base.boltAngles.map((angle) => ({
    what: `collar's screw at ${angle} degrees`,
    part: 'base-collar',
    drive: socket(base.screw),
    step: 30,
    heads: [{ at: around(base.boltRadius, angle, head), away: UP }],
  }));
}

/** Screws that keep the skirt up while the collar is off. */
export function skirtScrews({ base }: Machine): Screw[] {
  const m4 = fastener(base.screw);
  return base.skirtBoltAngles.map((angle) => ({
    what: `skirt's screw at ${angle} degrees`,
    part: 'base-skirt',
    drive: socket(base.screw),
    step: 10,
    heads: [{ at: around(base.boltRadius, angle, m4.washer.thickness + m4.headHeight), away: UP }],
  }));
}

/** The upper nut of the ground stud. */
export function studNut({ base }: Machine): Screw {
  const stud = fastener(base.stud.size);
  // On the plate: washer, thin nut, lug, washer, nut.
  const top = 2 * stud.washer.thickness + stud.thinNutHeight + LUG_THICKNESS + stud.nutHeight;
  return {
    what: 'nut of the ground stud',
    part: 'base-collar',
    drive: { kind: 'nut', flats: stud.nutFlats, height: stud.nutHeight, stem: base.stud.top - top },
    step: 35,
    heads: [{ at: around(base.boltRadius, base.stud.angle, top), away: UP }],
  };
}

export function footScrews({ feet }: Machine): Screw[] {
  const m5 = fastener(feet.screw);
  return feet.angles.map((angle) => ({
    what: `foot's screw at ${angle} degrees`,
    part: 'foot',
    drive: socket(feet.screw),
    step: DRIVE_STEPS.feet,
    heads: [{ at: around(feet.radius, angle, m5.washer.thickness + m5.headHeight), away: UP }],
  }));
}
