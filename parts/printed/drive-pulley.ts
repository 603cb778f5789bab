import type { Machine } from '../machine/machine.js';
import { type PulleyDesign, setScrewAt } from '../machine/pulley.js';
import { circumscribed, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { engravedVolume } from '../solid/marks.js';
import { teardrop } from '../solid/outline.js';
import { prismAlongX } from '../solid/prisms.js';
import { integrate, loopArea, revolvedVolume, segmentArea } from '../solid/sections.js';
import type { Loop, Vec2 } from '../solid/vector.js';
import { hubEngraving } from './hub-body.js';
import {
  CLEAR_AIR,
  codeFor,
  engraver,
  type Placed,
  type PrintedPart,
  roundBounds,
  type Stated,
} from './part.js';
import { flatFill, nutSlot, setScrewLength } from './set-screw.js';

type PulleyDimensions = {
  readonly teeth: number;
  readonly boreRadius: number;
  readonly flatDistance: number;
  readonly rimRadius: number;
  readonly tipRadius: number;
  readonly floorRadius: number;
  readonly land: number;
  readonly toothWidth: number;
  readonly gapWidth: number;
  readonly faceWidth: number;
  readonly hubRadius: number;
  readonly cone: number;
  readonly hubLength: number;
  readonly screwHole: number;
  readonly nutFlats: number;
  readonly nutThickness: number;
  readonly nutAt: number;
};

/** Pulleys come in after the belt, which is stretched over their rims. */
export const DRIVE_STEPS = { bracket: 15, motor: 15.5, belt: 64, pulley: 64.5, feet: 66 } as const;

const BED_CHAMFER = 0.5;
const ARC_STEPS = 8;

const total = (d: PulleyDimensions) => d.faceWidth + d.cone + d.hubLength;
const sides = (d: PulleyDimensions) => sidesFor(Math.max(d.rimRadius, d.hubRadius));
/** The height at which the cone under the upper flange begins. */
const coneFrom = (d: PulleyDimensions) => d.land + d.toothWidth;

/** Belt's part on the bed, hub above; groove and flange lean out by 45 degrees at most. */
function profile(d: PulleyDimensions): Loop {
  const bore = circumscribed(d.boreRadius, sides(d));
  const depth = d.rimRadius - d.floorRadius;
  const belt: Vec2[] =
    d.teeth === 0
      ? [
          [d.rimRadius, d.land],
          [d.floorRadius, d.land + depth],
          [d.floorRadius, d.faceWidth - d.land - depth],
          [d.rimRadius, d.faceWidth - d.land],
        ]
      : [
          [d.rimRadius, d.land],
          [d.floorRadius, d.land],
          [d.floorRadius, coneFrom(d)],
          [d.rimRadius, coneFrom(d) + depth],
        ];
  const under: Vec2[] =
    d.hubRadius > d.rimRadius
      ? [
          [d.rimRadius, d.faceWidth],
          [d.hubRadius, d.faceWidth + d.cone],
        ]
      : [
          [d.rimRadius, d.faceWidth],
          [d.hubRadius, d.faceWidth],
        ];
  return [
    [bore, 0],
    [d.rimRadius - BED_CHAMFER, 0],
    [d.rimRadius, BED_CHAMFER],
    ...belt,
    ...under,
    [d.hubRadius, total(d)],
    [bore, total(d)],
  ];
}

/** Outline of the teeth: gaps with a half-round bottom and straight flanks. */
function teethOutline(d: PulleyDimensions): Loop {
  const r = d.gapWidth / 2;
  const middle = d.floorRadius + r;
  const mouth = Math.sqrt(d.tipRadius ** 2 - r ** 2);
  const gap: Vec2[] = [
    [mouth, -r],
    ...Array.from({ length: ARC_STEPS + 1 }, (_, i): Vec2 => {
      const angle = -Math.PI / 2 + (Math.PI * i) / ARC_STEPS;
      return [middle - r * Math.cos(angle), r * Math.sin(angle)];
    }),
    [mouth, r],
  ];
  return Array.from({ length: d.teeth }, (_, i) => {
    const turn = (2 * Math.PI * i) / d.teeth;
    const [cos, sin] = [Math.cos(turn), Math.sin(turn)];
    const next = turn + Math.PI / d.teeth;
    return [
      ...gap.map(([u, v]): Vec2 => [u * cos - v * sin, u * sin + v * cos]),
      [d.tipRadius * Math.cos(next), d.tipRadius * Math.sin(next)] as Vec2,
    ];
  }).flat();
}

/** Plastic (mm2) of the teeth beyond a radius: between the gaps, which are straight there. */
function teethBeyond(d: PulleyDimensions, radius: number): number {
  return Math.max(
    0,
    Math.PI * (d.tipRadius ** 2 - radius ** 2) - d.teeth * d.gapWidth * (d.tipRadius - radius),
  );
}

/** A ring of teeth between the flanges, rooted in the bore's wall and in the upper flange's cone. */
function teeth(d: PulleyDimensions, k: Kernel): Solid[] {
  if (d.teeth === 0) return [];
  const bore = (d.boreRadius + d.floorRadius) / 2;
  const inside = Array.from({ length: sides(d) }, (_, i): Vec2 => {
    const angle = (-2 * Math.PI * i) / sides(d);
    return [bore * Math.cos(angle), bore * Math.sin(angle)];
  });
  return [k.extrude([teethOutline(d), inside], d.land - 0.2, coneFrom(d) + d.tipRadius - d.floorRadius)];
}

function teethVolume(d: PulleyDimensions): number {
  if (d.teeth === 0) return 0;
  const core = Math.PI * d.floorRadius ** 2;
  const ring = (loopArea(teethOutline(d)) - core) * d.toothWidth;
  const into = (z: number) => teethBeyond(d, d.floorRadius + z);
  return ring + integrate(into, 0, d.tipRadius - d.floorRadius);
}

const screwAt = (d: PulleyDimensions) => setScrewAt(d);
const slotOf = (d: PulleyDimensions, open: number) => nutSlot(d.nutFlats, screwAt(d), open);

/** Length of a pulley's set screw, mm. */
export const pulleySetScrewLength = ({ hubRadius, flatDistance }: PulleyDesign): number =>
  setScrewLength(hubRadius - flatDistance);

function pulleyPart(on: 'motor' | 'roller'): PrintedPart<PulleyDimensions> {
  const mark = (d: PulleyDimensions) =>
    hubEngraving(codeFor(part, d), d.boreRadius + 1, d.rimRadius - BED_CHAMFER);
  const part: PrintedPart<PulleyDimensions> = {
    id: `drive-pulley-${on}`,
    revision: 1,
    purpose:
      on === 'motor'
        ? 'drives the belt from the motor’s shaft, held by a set screw on its flat'
        : 'turns the lower roller’s axle, held by a set screw on its flat',
    copies: 1,
    step: DRIVE_STEPS.pulley,
    print: { walls: 5, infill: 60, orientation: 'belt’s part on the bed, hub up' },
    assembly: `Push the nut into its slot, lay the drive belt into the pulley and slide both onto the ${
      on === 'motor' ? 'motor’s shaft, hub first' : 'lower axle, hub outward'
    }; line the belt up with its other pulley and draw the set screw down on the flat.`,
    fields: {
      teeth: { unit: 'count', meaning: 'teeth, 0 for a groove' },
      boreRadius: { unit: 'mm', meaning: 'bore, radius' },
      flatDistance: { unit: 'mm', meaning: 'flat of the bore, from the axis' },
      rimRadius: { unit: 'mm', meaning: 'edge of groove or flanges, radius' },
      tipRadius: { unit: 'mm', meaning: 'tips of the teeth, radius' },
      floorRadius: { unit: 'mm', meaning: 'floor under the belt, radius' },
      land: { unit: 'mm', meaning: 'edge of the groove, or flange on the bed, thickness' },
      toothWidth: { unit: 'mm', meaning: 'teeth between the flanges, length' },
      gapWidth: { unit: 'mm', meaning: 'gap between teeth, width' },
      faceWidth: { unit: 'mm', meaning: 'belt’s part, height' },
      hubRadius: { unit: 'mm', meaning: 'hub, radius' },
      cone: { unit: 'mm', meaning: 'cone under a wider hub, height' },
      hubLength: { unit: 'mm', meaning: 'hub, height' },
      screwHole: { unit: 'mm', meaning: 'hole of the set screw, diameter' },
      nutFlats: { unit: 'mm', meaning: 'nut slot, width' },
      nutThickness: { unit: 'mm', meaning: 'nut slot, thickness' },
      nutAt: { unit: 'mm', meaning: 'nut slot, from the axis' },
    },
    dimensions: ({ drive }: Machine): PulleyDimensions => {
      const pulley: PulleyDesign = drive.pulley[on];
      return {
        teeth: pulley.teeth,
        boreRadius: pulley.boreFit.drawn / 2,
        flatDistance: pulley.flatDistance,
        rimRadius: pulley.rimRadius,
        tipRadius: pulley.tipRadius,
        floorRadius: pulley.floorRadius,
        land: pulley.land,
        toothWidth: pulley.toothWidth,
        gapWidth: pulley.gapWidth,
        faceWidth: pulley.faceWidth,
        hubRadius: pulley.hubRadius,
        cone: pulley.cone,
        hubLength: pulley.hubLength,
        screwHole: pulley.screwHole,
        nutFlats: pulley.nutFlats,
        nutThickness: pulley.nutThickness,
        nutAt: pulley.nutAt,
      };
    },
    bare: (d, k) => k.revolve(profile(d), sides(d)),
    build: (d, k) =>
      k.subtract(k.union([part.bare(d, k), ...teeth(d, k), flatFill(d, total(d), k)]), [
        prismAlongX(teardrop(d.screwHole / 2, [0, screwAt(d)]), 0, d.hubRadius + 1, k),
        prismAlongX(slotOf(d, total(d) + 1), d.nutAt, d.nutAt + d.nutThickness, k),
        engraver(k, mark(d)),
      ]),
    stated(d): Stated {
      const bareVolume = revolvedVolume(profile(d), sides(d));
      const fill = segmentArea(d.boreRadius, d.flatDistance) * total(d);
      const tear = (d.screwHole / 2) ** 2 * (0.75 * Math.PI + 1);
      const screw = tear * (d.hubRadius - d.flatDistance - d.nutThickness);
      const slot = loopArea(slotOf(d, total(d))) * d.nutThickness;
      return {
        // Bore, the set screw’s hole into it, and the nut’s slot into that.
        genus: 3,
        pieces: 1,
        bounds: roundBounds(Math.max(d.rimRadius, d.hubRadius), total(d)),
        bareVolume,
        volume: bareVolume + teethVolume(d) + fill - screw - slot - engravedVolume(mark(d)),
      };
    },
    place: ({ drive, rollers }: Machine): readonly Placed[] => {
      const motor = on === 'motor';
      const { width } = drive.pulley[on];
      // The motor's hub is turned to its bracket; the roller's belt part lies beside the bearing.
      const y = drive.place[on];
      const reach =
        Math.max(drive.pulley.motor.width, drive.pulley.roller.width, width) + drive.motor.face.shaft.length;
      return [
        {
          placement: {
            turn: [motor ? 90 : -90, 0, 0],
            move: [motor ? drive.motor.at[0] : 0, y, rollers.lower.axisZ],
          },
          moves: [
            {
              slide: [0, -(reach + CLEAR_AIR), 0],
              turn: 0,
              why: motor ? 'onto the motor’s shaft, into the belt' : 'onto the lower axle, into the belt',
              stretches: 'drive-belt',
            },
          ],
        },
      ];
    },
    fasteners: ({ drive }: Machine) => [
      {
        what: 'set screw ISO 4026',
        size: 'M3',
        length: pulleySetScrewLength(drive.pulley[on]),
        count: 1,
        use: `drive pulley on the ${on === 'motor' ? 'motor’s shaft' : 'lower axle'}`,
      },
      {
        what: 'hexagon nut ISO 4032',
        size: 'M3',
        length: undefined,
        count: 1,
        use: `in the ${on === 'motor' ? 'motor’s' : 'lower axle’s'} drive pulley`,
      },
    ],
  };
  return part;
}

export const motorPulley = pulleyPart('motor');
export const rollerPulley = pulleyPart('roller');
