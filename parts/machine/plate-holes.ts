import type { DriveDesign } from './drive.js';
import type { FeetDesign } from './feet.js';

type Place = readonly [number, number];

/** A place on a circle (mm) about the column's axis, in a direction in degrees from +x. */
export function onCircle(radius: number, angle: number): Place {
  const at = (angle * Math.PI) / 180;
  return [radius * Math.cos(at), radius * Math.sin(at)];
}

/** Where the plate is drilled for motor bracket and feet, [x, y] from the column's axis. mm */
export function plateHoles({
  drive: { bracket, motor },
  feet,
}: {
  readonly drive: Pick<DriveDesign, 'bracket' | 'motor'>;
  readonly feet: Pick<FeetDesign, 'angles' | 'radius'>;
}): {
  readonly bracketHoles: readonly Place[];
  readonly feetHoles: readonly Place[];
} {
  return {
    bracketHoles: bracket.screwsAt.flatMap((at) =>
      [-1, 1].map((side): Place => [motor.at[0] + side * bracket.screwX, bracket.face - at]),
    ),
    feetHoles: feet.angles.map((angle) => onCircle(feet.radius, angle)),
  };
}
