import type { Machine } from '../machine/machine.js';
import { fastener } from '../stock/fasteners.js';
import { changed, lengthText } from './change.js';
import type { Check } from './check.js';
import type { Finding } from './finding.js';
import { judge } from './judge.js';
import { practice } from './practice.js';

export const BENCH_ROOM = practice(
  10,
  'mm',
  'room between what hangs under the plate and the bench, for a cable and a hand',
);
export const MOTOR_ROOM = practice(
  2,
  'mm',
  'room between the motor’s body and what is screwed under the plate',
);

/** What stands on the plate and hangs under it: mechanical room, before any voltage. */
export const checkStand: Check = (machine) => [
  underPlateToBench(machine),
  collarOnPlate(machine),
  motorToSkirt(machine),
];

/** What hangs lowest under the plate, and how low, mm. */
export function lowestUnderPlate({ rollers: { lower }, belt, drive, combs }: Machine): {
  readonly what: string;
  readonly z: number;
} {
  const { at, bodyDiameter } = drive.motor;
  const comb = combs.lower;
  const hanging = [
    {
      what: 'belt on the lower roller',
      z: lower.axisZ - lower.outer.high / 2 - lower.crown - belt.thickness,
    },
    { what: 'motor', z: at[2] - bodyDiameter / 2 },
    {
      what: 'screws of the lower comb’s bar',
      z: comb.plane - comb.bracket.barHeight - fastener('M3').headHeight,
    },
  ];
  return hanging.reduce((low, each) => (each.z < low.z ? each : low));
}

/** The belt runs above the bench, and nothing stands on it but the feet. */
export function underPlateToBench(machine: Machine): Finding {
  const { plate } = machine;
  const { what, z } = lowestUnderPlate(machine);
  const bench = -(plate.thickness + plate.feet);
  const measured = z - bench;
  const feet = plate.feet + BENCH_ROOM.value - measured;
  return judge({
    id: 'clearance/roller-to-bench',
    title: `Room under the plate, ${what} to the bench`,
    measured,
    required: BENCH_ROOM.value,
    unit: 'mm',
    sense: 'min',
    basis: `feet of ${plate.feet} mm from the plate’s underside; ${BENCH_ROOM.meaning}, ${BENCH_ROOM.source}`,
    status: BENCH_ROOM.status,
    grave: measured <= 0,
    remedy: () => {
      const tried = changed(machine, (values) => ({ ...values, base: { ...values.base, feet } }));
      const left = lowestUnderPlate(tried).z + tried.plate.thickness + tried.plate.feet;
      return `feet of at least ${lengthText(machine, feet)} instead of ${lengthText(machine, plate.feet)}, which leave ${lengthText(machine, left)}`;
    },
    at: {
      path: [
        [0, 0, z],
        [0, 0, bench],
      ],
      surfaces: [what, 'bench'],
    },
  });
}

/** Collar and skirt lie on the plate with their whole width. */
export function collarOnPlate(machine: Machine): Finding {
  const { base, plate } = machine;
  const { flangeRadius, height } = base.collar;
  return judge({
    id: 'clearance/collar-to-plate-edge',
    title: 'Collar on the base plate, radius against the plate’s',
    measured: flangeRadius,
    required: plate.diameter / 2,
    unit: 'mm',
    sense: 'max',
    basis: 'geometry: what stands over the edge is not clamped',
    status: 'computed',
    remedy: () => `a plate of at least ${lengthText(machine, 2 * flangeRadius)} diameter`,
    at: { point: [flangeRadius, 0, height] },
  });
}

/** The motor clears the skirt; the ground stud’s head lies inside it. */
export function motorToSkirt(machine: Machine): Finding {
  const { base, plate, drive } = machine;
  const [x, , z] = drive.motor.at;
  const radius = drive.motor.bodyDiameter / 2;
  const measured = -(plate.thickness + base.skirt.thickness) - (z + radius);
  return judge({
    id: 'clearance/motor-to-skirt',
    title: 'Motor’s body under the skirt',
    measured,
    required: MOTOR_ROOM.value,
    unit: 'mm',
    sense: 'min',
    basis: `axis of the motor at the lower roller’s height; ${MOTOR_ROOM.meaning}, ${MOTOR_ROOM.source}`,
    status: MOTOR_ROOM.status,
    grave: measured <= 0,
    remedy: () => `a motor hung ${lengthText(machine, MOTOR_ROOM.value - measured)} lower, or a thinner one`,
    at: { point: [x, 0, z + radius] },
  });
}
