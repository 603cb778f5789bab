import type { Machine } from '../machine/machine.js';
import { rectangle } from '../solid/facets.js';
import { engravedVolume } from '../solid/marks.js';
import { teardrop } from '../solid/outline.js';
import { prismAlongX } from '../solid/prisms.js';
import { loopArea } from '../solid/sections.js';
import type { Loop } from '../solid/vector.js';
import { codeFor, engraver, type Fastener, type PrintedPart, type Stated } from './part.js';
import {
  BAR_CODE,
  BAR_FIELDS,
  type BarDimensions,
  bar,
  barBounds,
  barVolume,
  JOINT_TUNNELS,
  jointCutters,
  jointVolume,
  lineOnBed,
  WAND_STEPS,
} from './wand-bar.js';

type HeadDimensions = BarDimensions & { readonly screwRadius: number };

/** mm; groove for the lead along one side, and holes for the two cable ties that hold it there. */
const GROOVE = { depth: 2.5, from: 2 };
const TIE = { length: 5, width: 2.5, wall: 2.5, at: [5, 16] };

const engraving = (d: HeadDimensions) => lineOnBed(codeFor(wandHead, d), [d.length / 2, 0], BAR_CODE);

/** Along the axis, with a roof that prints. [y, z] */
const screwHole = (d: HeadDimensions): Loop => teardrop(d.screwRadius, [0, d.width / 2]);

/** A ridge's reverse, flanks at 45 degrees; open to the side. [y, z] */
function groove({ width }: HeadDimensions, beyond: number): Loop {
  const [side, middle] = [width / 2, width / 2];
  const reach = GROOVE.depth + beyond;
  return [
    [side - GROOVE.depth, middle],
    [side + beyond, middle - reach],
    [side + beyond, middle + reach],
  ];
}

/** y of a tie's hole: inside of the groove by a wall. */
const tieFrom = ({ width }: HeadDimensions) => width / 2 - GROOVE.depth - TIE.wall - TIE.width;

const tieHoles = (d: HeadDimensions): Loop[] =>
  TIE.at.map((at) => rectangle(d.depth + at, tieFrom(d), d.depth + at + TIE.length, tieFrom(d) + TIE.width));

/** mm3 of one: beyond the flats above and below the bar loses both slopes. */
function tieVolume(d: HeadDimensions): number {
  const flat = (d.width / 2) * Math.tan(Math.PI / 8);
  const [from, to] = [tieFrom(d) - flat, tieFrom(d) + TIE.width - flat];
  return TIE.length * (d.width * TIE.width - (to ** 2 - from ** 2));
}

/** Printed head of the wand: carries ball and lead on one screw, beyond the insulating handle. */
export const wandHead: PrintedPart<HeadDimensions> = {
  id: 'wand-head',
  revision: 1,
  role: 'tool',
  purpose:
    'carries the discharge wand’s ball and the end of its ground lead, so that the lead never runs along the handle',
  copies: 1,
  step: WAND_STEPS.head,
  print: { walls: 5, infill: 40, orientation: 'lying on a flat, so that its layers run along the handle' },
  assembly:
    'Before its plug, push the M5 screw with a washer through the mortise and out of the front. On it come the lead’s ring lug, a washer and the nut: tighten it against a key through the mortise, so that the lug is clamped bare on metal; then turn the ball on against the nut. Lay the lead back in the groove in a loose loop and tie it there with both cable ties: behind them it may bend and hangs down to the ground stud, away from the handle. Then plug and pin. It is used as the list on discharging says, and in no other way.',
  fields: { ...BAR_FIELDS, screwRadius: { unit: 'mm', meaning: 'hole of the ball’s screw, radius' } },
  dimensions: ({ wand }: Machine): HeadDimensions => ({
    width: wand.width,
    length: wand.head.length,
    mortise: wand.mortise,
    depth: wand.head.depth,
    pinAt: wand.pinAt,
    pinBreadth: wand.pin.holeBreadth,
    pinThickness: wand.pin.holeThickness,
    screwRadius: wand.head.screwHole / 2,
  }),
  bare: bar,
  build: (d, k) =>
    k.subtract(bar(d, k), [
      ...jointCutters(d, 'near', k),
      prismAlongX(screwHole(d), d.depth - 1, d.length + 1, k),
      prismAlongX(groove(d, 1), d.depth + GROOVE.from, d.length + 1, k),
      ...tieHoles(d).map((hole) => k.extrude([hole], -1, d.width + 1)),
      engraver(k, engraving(d)),
    ]),
  stated(d): Stated {
    const bareVolume = barVolume(d);
    const block = d.length - d.depth;
    return {
      genus: JOINT_TUNNELS + 1 + TIE.at.length,
      pieces: 1,
      bounds: barBounds(d),
      bareVolume,
      volume:
        bareVolume -
        jointVolume(d) -
        loopArea(screwHole(d)) * block -
        loopArea(groove(d, 0)) * (block - GROOVE.from) -
        TIE.at.length * tieVolume(d) -
        engravedVolume(engraving(d)),
    };
  },
  place: () => [],
  fasteners: ({ wand: { head, ball } }: Machine): readonly Fastener[] => [
    {
      what: 'socket head cap screw ISO 4762',
      size: head.screw,
      length: head.screwLength,
      count: 1,
      use: 'wand’s ball',
    },
    { what: 'washer ISO 7089', size: head.screw, length: undefined, count: 2, use: 'wand’s ball' },
    { what: 'nut ISO 4032', size: head.screw, length: undefined, count: 1, use: 'wand’s lead and ball' },
    {
      what: `metal ball, smooth, with a thread ${head.screw} at least ${Math.ceil(head.engaged)} deep`,
      size: `${ball} across`,
      length: undefined,
      count: 1,
      use: 'wand',
    },
    {
      what: 'flexible ground lead with a ring lug and a clip',
      size: head.screw,
      length: undefined,
      count: 1,
      use: 'wand to ground stud',
    },
    { what: 'cable tie', size: '2.5 wide', length: undefined, count: 2, use: 'wand’s lead' },
  ],
};
