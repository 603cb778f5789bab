import { FOIL_THICKNESS } from '../machine/bond-foil.js';
import { threadDiameter } from '../machine/drive.js';
import type { Machine } from '../machine/machine.js';
import { rectangle } from '../solid/facets.js';
import type { Vec2 } from '../solid/vector.js';
import { fastener } from '../stock/fasteners.js';
import { insert } from '../stock/inserts.js';
import { besideCarrier } from './carrier-places.js';
import { along, metal, pressedInto, turnedPiece, type Unnumbered } from './metalware-piece.js';
import { brass, capScrew, overHalf, ribbon, ring, washer } from './metalware-solids.js';
import { bothSides } from './screw.js';
import { cheekScrews, lowerCarrierScrews } from './screws-carriers.js';

/** Screws, inserts and foils of both carriers; the jack screws themselves are pieces of the assembly. */
export function carrierMetalware(machine: Machine): Unnumbered[] {
  return [
    ...lowerScrews(machine),
    ...cheeks(machine),
    ...jackInserts(machine),
    ...jackWashers(machine),
    upperFoil(machine),
    ...lowerFoils(machine),
  ];
}

function lowerScrews(machine: Machine): Unnumbered[] {
  const { plate, base, combs } = machine;
  const { lower } = machine.carriers;
  const underSkirt = -(plate.thickness + base.skirt.thickness);
  return lowerCarrierScrews(machine).map((screw) =>
    turnedPiece(
      {
        of: 'lower-carrier-screw',
        title: 'lower carrier’s screw with washer and insert',
        // Ends in the skirt, under the plate.
        bonded: 'floating',
        meets: ['bearing-carrier-lower', 'base-skirt'],
        bites: [pressedInto('base-skirt', lower.screw, combs.lower.bracket.insertRadius)],
      },
      screw,
      [
        ...capScrew(lower.screw, lower.screwLength),
        washer(lower.screw, -fastener(lower.screw).headHeight),
        brass(lower.screw, along(screw, underSkirt)),
      ],
    ),
  );
}

const ringTop = ({ tube, rim }: Machine) => tube.rimZ + rim.flangeThickness;

function cheeks(machine: Machine): Unnumbered[] {
  const { upper } = machine.carriers;
  return cheekScrews(machine).map((screw) =>
    turnedPiece(
      {
        of: 'cheek-screw',
        title: 'cheek’s screw with insert',
        // From the rim ring into the cheek: plastic all along.
        bonded: 'floating',
        meets: ['rim-ring', 'bearing-carrier-upper'],
        bites: [pressedInto('bearing-carrier-upper', upper.screw, machine.combs.upper.bracket.insertRadius)],
      },
      screw,
      [...capScrew(upper.screw, upper.screwLength), brass(upper.screw, along(screw, ringTop(machine)))],
    ),
  );
}

const sideName = (side: -1 | 1) => (side < 0 ? 'left' : 'right');

/** Where a jack screw stands, at a height. */
function atJack(machine: Machine, side: -1 | 1, z: number) {
  const { turn, move } = besideCarrier(machine, side, z);
  return { turn, move: [machine.carriers.upper.block.jackAt, move[1], move[2]] as const };
}

/** In which the jack screws turn, flush with the tops of their blocks. */
function jackInserts(machine: Machine): Unnumbered[] {
  const { carriers, rollers, combs } = machine;
  const { screw, block } = carriers.upper;
  const { outerDiameter, length } = insert(screw);
  return bothSides((side) =>
    metal(
      {
        of: 'jack-insert',
        title: 'insert of a jack screw',
        // Joined to its jack screw, which touches plastic only: the axle lies in the next slot.
        bonded: 'floating',
        meets: ['axle-block', `jack-screw-${sideName(side)}`],
        bites: [pressedInto('axle-block', screw, combs.upper.bracket.insertRadius)],
      },
      atJack(machine, side, rollers.upper.axisZ + block.above - length.value),
      { bore: threadDiameter(screw) / 2, radius: outerDiameter / 2, length: length.value },
      (k, d) => ring(d.bore, d.radius, d.length, k),
    ),
  );
}

/** Under the jack screws, in pockets of the cheeks' floors. */
function jackWashers(machine: Machine): Unnumbered[] {
  const { screw, cheek } = machine.carriers.upper;
  const { inner, outer, thickness } = fastener(screw).washer;
  return bothSides((side) =>
    metal(
      {
        of: 'jack-washer',
        title: 'washer under a jack screw',
        // Lies on plastic; its hole is wider than the end of the jack screw that stands over it.
        bonded: 'floating',
        meets: ['bearing-carrier-upper'],
      },
      atJack(machine, side, ringTop(machine) + cheek.floor - cheek.washerDepth),
      { bore: inner / 2, radius: outer / 2, thickness },
      (k, d) => ring(d.bore, d.radius, d.thickness, k),
    ),
  );
}

/** The block whose slot takes the foil: either will do; it is drawn on the side of the contact spring. */
const FOIL_SIDE = 1;

/** The strip under the upper axle's flat, its free end straight out over the block's outer face. */
function upperFoil(machine: Machine): Unnumbered {
  const { innerFace, block, foil } = machine.carriers.upper;
  const thickness = FOIL_THICKNESS.value;
  return metal(
    {
      of: 'foil-upper',
      title: 'foil of the upper axle',
      // Touches the axle; its wire goes to the contact spring.
      bonded: 'terminal',
      meets: ['axle-block', 'axle-upper'],
      bites: [
        {
          of: 'axle-upper',
          volume: foil.width * foil.length * thickness,
          why: 'foil pressed between the axle’s flat and its slot, which are drawn touching',
        },
      ],
    },
    {
      turn: [0, 0, 0],
      move: [0, FOIL_SIDE * innerFace, machine.rollers.upper.axisZ - block.flatBelow],
    },
    { width: foil.width, length: foil.length, thickness, side: FOIL_SIDE },
    (k, d) => {
      const ends = [0, d.side * d.length] as const;
      const strip = rectangle(-d.width / 2, Math.min(...ends), d.width / 2, Math.max(...ends));
      return k.extrude([strip], 0, d.thickness);
    },
  );
}

/** Strips over the upper halves of the lower axle's bearings, out of their pockets and up along the legs. */
function lowerFoils(machine: Machine): Unnumbered[] {
  const { carriers, rollers } = machine;
  const { foil, legEnd, axisBelow, legHalf, pocketFit, innerFace, outerFace } = carriers.lower;
  const thickness = FOIL_THICKNESS.value;
  const volume = foil.width * foil.length * thickness;
  return bothSides((side) =>
    metal(
      {
        of: 'foil-lower',
        title: 'foil over a bearing of the lower axle',
        // Touches the bearing; its wire goes to the ground stud.
        bonded: 'ground',
        meets: ['bearing-carrier-lower', `bearing-lower-${sideName(side)}`],
        bites: [
          { of: 'bearing-carrier-lower', volume, why: 'foil pressed between bearing, pocket and bumps' },
        ],
      },
      { turn: [0, 0, 0], move: [0, (side * (innerFace + outerFace)) / 2, rollers.lower.axisZ] },
      {
        radius: pocketFit.bought.likely / 2,
        width: foil.width,
        length: foil.length,
        thickness,
        down: legEnd - axisBelow,
        out: legHalf,
      },
      (k, d) => {
        const middle = overHalf(d.radius + d.thickness / 2);
        const from = middle[0]![0];
        const [under, beside] = [-d.down - d.thickness / 2, d.out + d.thickness / 2];
        const folded = (d.length - Math.PI * from) / 2 + under - (beside - from);
        const end: Vec2[] = [
          [beside, under + Math.max(d.thickness, folded)],
          [beside, under],
          [from, under],
        ];
        const other = end.map(([x, z]): Vec2 => [-x, z]).reverse();
        return ribbon([...end, ...middle, ...other], d.thickness, d.width, k);
      },
    ),
  );
}
