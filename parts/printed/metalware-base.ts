import { LUG_THICKNESS } from '../machine/base.js';
import type { Machine } from '../machine/machine.js';
import { fastener } from '../stock/fasteners.js';
import { along, pressedInto, turnedPiece, type Unnumbered } from './metalware-piece.js';
import { brass, capScrew, disc, headOf, nut, type Step, shank, washer } from './metalware-solids.js';
import { collarScrews, footScrews, skirtScrews, studNut } from './screws-base.js';

/** Screws through the plate, the ground stud and the feet's screws. */
export function baseMetalware(machine: Machine): Unnumbered[] {
  return [...throughSkirt(machine), groundStud(machine), ...feet(machine)];
}

/** The screws of collar and skirt, each with its nut drawn up into its pocket. */
function throughSkirt(machine: Machine): Unnumbered[] {
  const { base, plate } = machine;
  const pocketFloor = base.skirt.nutDepth - base.skirt.thickness - plate.thickness;
  const { headHeight } = fastener(base.screw);
  // A pocket has a flat towards the axis: the corners lie to either side of its direction.
  const nutUnder = (screw: ReturnType<typeof collarScrews>[number], angle: number) =>
    nut(base.screw, along(screw, pocketFloor), angle + 30);
  return [
    ...collarScrews(machine).map((screw, i) =>
      turnedPiece(
        {
          of: 'collar-screw',
          title: 'collar’s screw with its nut',
          // Leans against the plate's hole, which nothing keeps it from.
          bonded: 'plate',
          meets: ['base-collar', 'plate', 'base-skirt'],
        },
        screw,
        [...capScrew(base.screw, base.screwLength), nutUnder(screw, base.boltAngles[i]!)],
      ),
    ),
    ...skirtScrews(machine).map((screw, i) =>
      turnedPiece(
        {
          of: 'skirt-screw',
          title: 'skirt’s screw with washer and nut',
          // Its washer lies on the plate.
          bonded: 'plate',
          meets: ['base-collar', 'plate', 'base-skirt'],
        },
        screw,
        [
          ...capScrew(base.screw, base.skirtScrewLength),
          washer(base.screw, -headHeight),
          nutUnder(screw, base.skirtBoltAngles[i]!),
        ],
      ),
    ),
  ];
}

/** The ground stud with all that is on it; of a lug its ring, which is as wide as a washer (common practice, no source). */
function groundStud(machine: Machine): Unnumbered {
  const { plate, base } = machine;
  const { size, top, length } = base.stud;
  const screw = studNut(machine);
  const { headDiameter, headHeight, thinNutHeight, nutHeight, washer: ring } = fastener(size);
  const up = along(screw, top);
  const underHead = up - length;
  const head = headOf(headDiameter / 2, headHeight);
  const lug = (at: number) => disc(size, LUG_THICKNESS, at);
  const steps: Step[] = [
    shank(size, underHead - headHeight / 2, up),
    { ...head, from: underHead - headHeight, to: underHead },
    washer(size, underHead + ring.thickness),
    lug(along(screw, -plate.thickness)),
    washer(size, along(screw, ring.thickness)),
    nut(size, along(screw, ring.thickness + thinNutHeight), 0, thinNutHeight),
    lug(-nutHeight - ring.thickness),
    washer(size, -nutHeight),
    nut(size, 0),
  ];
  return turnedPiece(
    {
      of: 'ground-stud',
      title: 'ground stud with nuts, washers and lugs',
      // What all wires to ground come together at.
      bonded: 'ground',
      // In the skirt's well and the collar's notch it stands clear.
      meets: ['plate'],
    },
    screw,
    steps,
  );
}

function feet(machine: Machine): Unnumbered[] {
  const { feet, plate } = machine;
  return footScrews(machine).map((screw) =>
    turnedPiece(
      {
        of: 'foot-screw',
        title: 'foot’s screw with washer and insert',
        // Its washer lies on the plate.
        bonded: 'plate',
        meets: ['plate', 'foot'],
        bites: [pressedInto('foot', feet.screw, feet.insertRadius)],
      },
      screw,
      [
        ...capScrew(feet.screw, feet.screwLength),
        washer(feet.screw, -fastener(feet.screw).headHeight),
        brass(feet.screw, along(screw, -plate.thickness)),
      ],
    ),
  );
}
