import { INSERT_TO_EDGE } from './comb.js';
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

/** Thickness of the flange that lies on the rim, mm: an M3 insert goes into it, wherever it comes to stand over tube or spigot. */
export const RIM_FLANGE = 7.5;
/** mm */
const RIM = { spigotLength: 12, spigotWall: 2.4, beyondTube: 2 };

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
    flangeRadius: round(Math.max(tube.outerHigh / 2 + RIM.beyondTube, screwReach + INSERT_TO_EDGE)),
    flangeThickness: RIM_FLANGE,
  };
}
