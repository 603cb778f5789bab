import type { Fit } from '../machine/fits.js';
import type { Machine } from '../machine/machine.js';
import { radians, type Vec2 } from '../solid/vector.js';

/** Where a printed and a bought piece meet: part of a cylinder, mm in the machine’s frame. */
export interface FitPlace {
  readonly fit: Fit;
  /** The printed part, and the bought piece it fits. */
  readonly part: string;
  readonly piece: string;
  readonly axis: 'y' | 'z';
  /** Height of the cylinder's axis where it lies along y; 0 for one along z. */
  readonly centreZ: number;
  readonly radius: number;
  /** Along the axis. One along y has its mirror image at the other end of the roller. */
  readonly from: number;
  readonly to: number;
}

/** mm over the narrowest place of the terminal’s opening in which a guide is beside it. */
const GUIDE_CONTACT = 2;

/** Every fit of the machine with the cylinder at which it is. */
export function fitPlaces(machine: Machine): FitPlace[] {
  const { grip, tube, rim, rollers, hubs, terminal, carriers } = machine;
  const column: FitPlace[] = [
    {
      fit: grip.pilotFit,
      part: 'tube-mount',
      piece: 'tube',
      axis: 'z',
      centreZ: 0,
      radius: grip.mount.pilotRadius,
      from: grip.mount.pilotBottom,
      to: grip.mount.pilotTop,
    },
    {
      fit: rim.spigotFit,
      part: 'rim-ring',
      piece: 'tube',
      axis: 'z',
      centreZ: 0,
      radius: tube.inner.likely / 2,
      from: tube.rimZ - rim.spigotLength,
      to: tube.rimZ,
    },
    {
      fit: rim.guideFit,
      part: 'rim-ring',
      piece: 'terminal',
      axis: 'z',
      centreZ: 0,
      radius: terminal.openingDiameter.mean / 2,
      from: tube.rimZ - rim.guides.length,
      to: tube.rimZ - rim.guides.length + GUIDE_CONTACT,
    },
  ];
  const ends = (['lower', 'upper'] as const).flatMap((end): FitPlace[] => {
    const { inner, shell, sleeve, length, axisZ, axle } = rollers[end];
    const { spigotFit, spigotLength, flangeThickness, live, dead } = hubs[end];
    const half = length / 2;
    const outerFace = half + flangeThickness;
    const along = { part: `roller-hub-${end}`, axis: 'y', centreZ: axisZ } as const;
    return [
      {
        ...along,
        fit: spigotFit,
        piece: `roller-shell-${end}`,
        radius: inner.mean / 2,
        from: half - spigotLength,
        to: half,
      },
      ...(sleeve
        ? [
            {
              ...along,
              part: `roller-sleeve-${end}`,
              fit: sleeve.fit,
              piece: `roller-shell-${end}`,
              radius: shell.mean / 2,
              from: 0,
              to: half,
            },
          ]
        : []),
      ...(live
        ? [
            {
              ...along,
              fit: live.boreFit,
              piece: `axle-${end}`,
              radius: axle.diameter / 2,
              from: half - spigotLength,
              to: outerFace,
            },
          ]
        : []),
      ...(dead
        ? [
            {
              ...along,
              fit: dead.seatFit,
              piece: `bearing-${end}`,
              radius: dead.seatFit.bought.likely / 2,
              from: outerFace - dead.seatDepth,
              to: outerFace,
            },
          ]
        : []),
    ];
  });
  const { lower, upper } = carriers;
  const pocketFrom = lower.innerFace + lower.lip;
  return [
    ...column,
    ...ends,
    {
      fit: lower.pocketFit,
      part: 'bearing-carrier-lower',
      piece: 'bearing-lower',
      axis: 'y',
      centreZ: rollers.lower.axisZ,
      radius: lower.pocketFit.bought.likely / 2,
      from: pocketFrom,
      to: pocketFrom + lower.pocketWidth,
    },
    {
      fit: upper.axleFit,
      part: 'axle-block',
      piece: 'axle-upper',
      axis: 'y',
      centreZ: rollers.upper.axisZ,
      radius: rollers.upper.axle.diameter / 2,
      from: upper.innerFace,
      to: upper.outerFace,
    },
  ];
}

/**
 * Points of a fit that lie in the plane through the machine's axis at an angle (degrees from +x): where a section shows
 * it, as [distance along the plane, height] in mm. None where the plane passes it by.
 */
export function fitPointsInCut({ axis, centreZ, radius, from, to }: FitPlace, angle: number): Vec2[] {
  const middle = (from + to) / 2;
  if (axis === 'z') return [-1, 1].map((side): Vec2 => [side * radius, middle]);
  // The plane meets the middle of the fit where y is right, as long as that is not beyond the cylinder's side.
  const along = middle / Math.sin(radians(angle));
  const aside = Math.abs(along * Math.cos(radians(angle)));
  if (!Number.isFinite(along) || aside >= radius) return [];
  const up = Math.sqrt(radius ** 2 - aside ** 2);
  return [-1, 1].flatMap((side) => [-1, 1].map((above): Vec2 => [side * along, centreZ + above * up]));
}
