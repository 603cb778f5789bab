import { fastener } from '../stock/fasteners.js';
import { UNDER_CHEEK_SCREW, type UpperCarrier } from './carrier.js';
import { INSERT_TO_EDGE } from './comb.js';
import type { Span } from './fits.js';
import { type Calibration, drawnHole, type Fit, type FitClass, printedShaft, round } from './fits.js';

/** The ring on the tube's upper rim that carries comb, upper carrier and, by its guides, the terminal's opening. Radii in mm, as drawn. */
export interface RimDesign {
  readonly spigotFit: Fit;
  readonly spigotLength: number;
  readonly spigotInnerRadius: number;
  readonly flangeRadius: number;
  readonly flangeThickness: number;
  /** |y| beyond which the flange is closed, so that the cheeks have something to stand on. */
  readonly shelfFrom: number;
  /** Screws of the cheeks, from below: [x, |y|]. */
  readonly screws: readonly (readonly [number, number])[];
  readonly screwHole: number;
  readonly headRadius: number;
  readonly headDepth: number;
  /** Fingers that hang beside the tube and centre the terminal's opening. */
  readonly guideFit: Fit;
  readonly guides: {
    readonly angles: readonly number[];
    readonly innerRadius: number;
    readonly outerRadius: number;
    readonly width: number;
    /** From the flange's underside to the narrowest place of the opening. */
    readonly length: number;
  };
}

/** Thickness of the flange that lies on the rim, mm: an M3 insert goes into it, wherever it comes to stand over tube or spigot. */
export const RIM_FLANGE = 7.5;
/** mm */
const RIM = {
  spigotLength: 12,
  spigotWall: 2.4,
  beyondTube: 2,
  besideRoller: 0.5,
  headPlay: 0.5,
  besideHead: 1.2,
  guideWidth: 10,
  guideOffTube: 0.6,
  guideLeast: 3,
  guideMost: 8,
};
/** Between the cheeks' screws, whatever their places. */
const GUIDE_ANGLES = [0, 90, 180, 270];

/**
 * @param tube inside span and largest outside diameter, mm
 * @param screwReach x of the comb bracket's locking screw, mm, which must stand on the flange
 * @param opening of the terminal: free diameter, and how far its narrowest place lies below the rim
 */
export function designRim(
  tube: { inner: Span; outerHigh: number },
  screwReach: number,
  carrier: UpperCarrier,
  opening: { readonly diameter: Span; readonly below: number },
  fitClass: FitClass,
  calibration: Calibration,
): RimDesign {
  const spigotFit = printedShaft(
    { id: 'fit/rim-ring-in-tube', title: 'Rim ring in the tube', class: fitClass },
    tube.inner,
    calibration,
  );
  const guideFit = printedShaft(
    { id: 'fit/guides-in-opening', title: 'Guides in the terminal’s opening', class: 'free' },
    opening.diameter,
    calibration,
  );
  const m3 = fastener('M3');
  const stand = (carrier.innerFace + carrier.outerFace) / 2;
  const cheekReach = Math.hypot(
    Math.max(-carrier.cheek.left, carrier.cheek.right) - carrier.cheek.chamfer,
    carrier.outerFace,
  );
  const headRadius = round(drawnHole(calibration, m3.headDiameter + 2 * RIM.headPlay) / 2);
  const screwsReach = Math.max(...carrier.cheek.screwsAt.map((x) => Math.hypot(x, stand))) + headRadius;
  const offTube = tube.outerHigh / 2 + RIM.guideOffTube;
  const outerRadius = Math.max(guideFit.drawn / 2, offTube + RIM.guideLeast);
  return {
    spigotFit,
    spigotLength: RIM.spigotLength,
    spigotInnerRadius: round(spigotFit.drawn / 2 - RIM.spigotWall),
    flangeRadius: round(
      Math.max(
        tube.outerHigh / 2 + RIM.beyondTube,
        screwReach + INSERT_TO_EDGE,
        cheekReach,
        screwsReach + RIM.besideHead,
      ),
    ),
    flangeThickness: RIM_FLANGE,
    shelfFrom: round(carrier.innerFace - RIM.besideRoller),
    screws: carrier.cheek.screwsAt.map((x) => [x, round(stand)] as const),
    screwHole: m3.clearance.medium,
    headRadius,
    headDepth: round(RIM_FLANGE - UNDER_CHEEK_SCREW),
    guideFit,
    guides: {
      angles: GUIDE_ANGLES,
      innerRadius: round(Math.max(offTube, outerRadius - RIM.guideMost)),
      outerRadius: round(outerRadius),
      width: RIM.guideWidth,
      length: round(Math.max(RIM.spigotLength, opening.below)),
    },
  };
}
