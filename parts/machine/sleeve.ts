import type { MachineValues } from './declarations.js';
import { type Calibration, drawnOutside, type Fit, type FitClass, printedHole, round } from './fits.js';
import { type Reading, readingOf } from './reading.js';

/** A printed sleeve that gives a bought roller its crown. mm, as drawn. */
export interface SleeveDesign {
  readonly fit: Fit;
  /** At its ends, where the crown begins. */
  readonly endRadius: number;
  readonly crown: number;
  readonly length: number;
}

type RollerValues = MachineValues['rollers']['lower'];

/**
 * What the belt runs on, off the crown: the shell as measured, or a printed sleeve on it, which varies as the printer does.
 * @param scatter mm to either side
 */
export function runningSurface(
  { outer, sleeve }: Pick<RollerValues, 'outer' | 'sleeve'>,
  scatter: number,
): Reading {
  if (sleeve === undefined) return outer;
  return readingOf([outer.mean + 2 * sleeve], scatter);
}

/** Undefined for a roller that the belt runs on as bought. */
export function designSleeve(
  end: 'lower' | 'upper',
  { outer, sleeve, crown, length }: Pick<RollerValues, 'outer' | 'sleeve' | 'crown' | 'length'>,
  fitClass: FitClass,
  calibration: Calibration,
): SleeveDesign | undefined {
  if (sleeve === undefined) return undefined;
  const fit = printedHole(
    { id: `fit/sleeve-on-${end}-roller`, title: `Sleeve on the ${end} roller’s shell`, class: fitClass },
    { low: outer.low, likely: outer.mean, high: outer.high },
    calibration,
  );
  const surface = runningSurface({ outer, sleeve }, calibration.scatter);
  return {
    fit,
    endRadius: round(drawnOutside(calibration, surface.mean) / 2),
    crown,
    length,
  };
}

/** Radius (mm) of the arc that rises by `height` over the middle of a face: (b2/4 + h2) / 2h. */
export function crownArc(face: number, height: number): number {
  return (face ** 2 / 4 + height ** 2) / (2 * height);
}
