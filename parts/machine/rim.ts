import type { Span } from './fits.js';
import { type Calibration, type Fit, type FitClass, printedShaft, round } from './fits.js';

/** The ring on the tube's upper rim that carries the upper comb (and later the upper carrier). Radii in mm, as drawn. */
export interface RimDesign {
  readonly spigotFit: Fit;
  readonly spigotLength: number;
  readonly spigotInnerRadius: number;
  readonly flangeRadius: number;
  readonly flangeThickness: number;
}

/** mm */
const RIM = { spigotLength: 12, spigotWall: 2.4, flangeThickness: 6.5, beyondTube: 2, beyondInsert: 5.2 };

/**
 * @param tube inside span and largest outside diameter, mm
 * @param screwReach x of the comb bracket's locking screw, mm, which must stand on the flange
 */
export function designRim(
  tube: { inner: Span; outerHigh: number },
  screwReach: number,
  fitClass: FitClass,
  calibration: Calibration,
): RimDesign {
  const spigotFit = printedShaft(
    { id: 'fit/rim-ring-in-tube', title: 'Rim ring in the tube', class: fitClass },
    tube.inner,
    calibration,
  );
  return {
    spigotFit,
    spigotLength: RIM.spigotLength,
    spigotInnerRadius: round(spigotFit.drawn / 2 - RIM.spigotWall),
    flangeRadius: round(Math.max(tube.outerHigh / 2 + RIM.beyondTube, screwReach + RIM.beyondInsert)),
    flangeThickness: RIM.flangeThickness,
  };
}
