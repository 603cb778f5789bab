import type { Machine } from '../machine/machine.js';
import { dimensionsOf, type PartOrder } from '../printed/catalog.js';
import { canonical } from '../printed/identity.js';
import { PRINT_LIMITS } from '../printed/print-limits.js';
import { SLIVERS } from '../solid/overhang.js';
import { OPPOSED, RIDGE, type Thin } from '../solid/thickness.js';
import { placementMatrix, type Vec3 } from '../solid/vector.js';
import { attempt, lengthDown, lengthUp } from './change.js';
import type { Finding, Point, Remedy } from './finding.js';
import { judge, meets } from './judge.js';
import type { PrintMeasures } from './printability.js';

type Ordered = Pick<PartOrder, 'part' | 'dimensions'>;

/** Overhanging faces that lie on nothing and are no bridge. */
export function overhangFinding(
  machine: Machine,
  { part }: Ordered,
  { overhang }: Pick<PrintMeasures, 'overhang'>,
): Finding {
  const { overhang: angle, bridge } = PRINT_LIMITS;
  const { unsupported, at, widest } = overhang;
  const spans = widest
    ? `widest bridge ${widest.span.toFixed(1)} mm at ${widest.at[2].toFixed(1)} mm over the bed`
    : 'no bridge';
  const where = at ? ` from ${at[2].toFixed(1)} mm over the bed up` : '';
  return judge({
    id: `print/overhang-${part.id}`,
    title: `Faces of ${part.id} that would need support`,
    measured: unsupported,
    required: SLIVERS,
    unit: 'mm2',
    sense: 'max',
    basis: `faces that lean out by more than ${angle.value} degrees from upright and are no bridge of up to ${bridge.value} mm; ${spans}; ${angle.source}`,
    status: angle.status,
    remedy: () => `print it with support${where}, as it lies (${part.print.orientation})`,
    ...placed(machine, part, at),
  });
}

/** Thinnest wall in lines of the nozzle, and the narrowest gap. */
export function wallAndGapFindings(
  machine: Machine,
  order: Ordered,
  { thickness: { wall, gap } }: Pick<PrintMeasures, 'thickness'>,
): Finding[] {
  const { part } = order;
  const { wall: lines, gap: least } = PRINT_LIMITS;
  const how = `between faces opposed to ${OPPOSED} degrees, over at least ${RIDGE} mm`;
  return [
    ...(wall
      ? [
          judge({
            id: `print/wall-${part.id}`,
            title: `Thinnest wall of ${part.id} as it is printed`,
            measured: wall.width,
            required: lines.value * machine.print.nozzle,
            unit: 'mm',
            sense: 'min',
            basis: `${lines.value} lines of a ${machine.print.nozzle} mm nozzle, measured on the mesh ${how}; ${lines.source}`,
            status: lines.status,
            remedy: () => finerNozzle(machine, order, wall),
            ...placed(machine, part, wall.at),
          }),
        ]
      : []),
    ...(gap
      ? [
          judge({
            id: `print/gap-${part.id}`,
            title: `Narrowest gap in ${part.id} as it is printed`,
            measured: gap.width,
            required: least.value,
            unit: 'mm',
            sense: 'min',
            basis: `measured on the mesh ${how}; ${least.source}`,
            status: least.status,
            remedy: () => 'part its sides with a blade after printing, or print the part slowly with fans on',
            ...placed(machine, part, gap.at),
          }),
        ]
      : []),
  ];
}

/** A nozzle that lays enough lines; tried only where the part stays the same with it. */
function finerNozzle(machine: Machine, { part, dimensions }: Ordered, wall: Thin): Remedy {
  const { value: lines } = PRINT_LIMITS.wall;
  const nozzle = lengthDown(wall.width / lines);
  return {
    text: `a nozzle of at most ${nozzle.toFixed(2)} mm`,
    tries: attempt(
      machine,
      `a nozzle of ${nozzle} mm`,
      { 'print.nozzle': nozzle },
      (tried) =>
        meets(wall.width, lines * tried.print.nozzle, 'min') &&
        canonical(part.id, part.revision, dimensionsOf(part, tried)) ===
          canonical(part.id, part.revision, dimensions),
    ),
  };
}

/**
 * How broad a part stands for its height: twice the distance from below its centre of mass to the nearest edge of what it stands
 * on, with the brim that it is printed with, over its height. For a block that is its breadth over its height. Below 0 it falls over.
 */
export function standFinding(
  machine: Machine,
  { part }: Ordered,
  { stance }: Pick<PrintMeasures, 'stance'>,
): Finding {
  const { stand } = PRINT_LIMITS;
  const brim = part.print.brim ?? 0;
  const measured = (2 * (stance.margin + brim)) / stance.height;
  const asBuilt = brim > 0 ? `, with its brim of ${brim} mm` : '';
  return judge({
    id: `print/stability-${part.id}`,
    title: `Breadth that ${part.id} stands on over its height, on the bed`,
    measured,
    required: stand.value,
    unit: '',
    sense: 'min',
    basis: `centre of mass ${stance.margin.toFixed(1)} mm inside the edge of ${stance.contact.toFixed(0)} mm2 on the bed${asBuilt}, height ${stance.height.toFixed(1)} mm; ${stand.source}`,
    status: stand.status,
    grave: measured <= 0,
    remedy: () =>
      `a brim of at least ${lengthUp((stand.value * stance.height) / 2 - stance.margin)} mm around it`,
    ...placed(machine, part, stance.centre),
  });
}

/** A point of the part as printed where it comes to be in the machine; nothing for a part that has no place in it. */
function placed(machine: Machine, part: Ordered['part'], at: Vec3 | undefined): Pick<Finding, 'at'> {
  const [first] = part.place(machine);
  if (!first || !at) return {};
  const m = placementMatrix(first.placement);
  const point = [0, 4, 8].map(
    (row) => m[row]! * at[0] + m[row + 1]! * at[1] + m[row + 2]! * at[2] + m[row + 3]!,
  );
  return { at: { point: point as unknown as Point } };
}
