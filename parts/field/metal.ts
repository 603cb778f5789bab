import type { Machine } from '../machine/machine.js';
import { fastener } from '../stock/fasteners.js';

/** A metal edge with its name: distance from the column's axis and height, mm. */
export interface MetalEdge {
  readonly what: string;
  readonly radius: number;
  readonly z: number;
}

/** Every metal edge at terminal potential besides the terminal itself, at its lowest. */
export function upperMetal({
  rollers: { upper },
  combs: { upper: comb },
  hubs,
  rim,
  tube,
  print,
}: Machine): MetalEdge[] {
  const { bracket } = comb;
  // The insert is pressed into the rim ring's flange and cannot reach below the tube's rim.
  const lockingInsert = Math.max(tube.rimZ, comb.seat - Math.min(bracket.insertDepth, rim.flangeThickness));
  const side = upper.length / 2 + hubs.upper.flangeThickness;
  return [
    { what: 'upper comb', radius: comb.tip, z: comb.plane },
    {
      what: 'inserts of the upper comb’s bar',
      radius: comb.tip + bracket.barScrewAt,
      z: comb.plane - bracket.insertDepth,
    },
    { what: 'insert of the upper comb’s bracket', radius: comb.screwAt, z: lockingInsert },
    { what: 'upper axle', radius: upper.axle.to, z: upper.axisZ - upper.axle.diameter / 2 },
    { what: 'upper bearings', radius: side, z: upper.axisZ - upper.bearing.row.outer / 2 },
    ...(print.conductive
      ? [{ what: 'conducting rim ring', radius: rim.spigotFit.drawn / 2, z: tube.rimZ - rim.spigotLength }]
      : []),
  ];
}

const threadDiameter = (size: string) => Number(size.slice(1));

/** Everything metal at ground potential around the column's foot, at its highest. */
export function lowerMetalOutside({ base, grip, print }: Machine): MetalEdge[] {
  const head = fastener(base.screw);
  const { clampGap, height, headDepth } = base.collar;
  return [
    {
      what: 'heads of the collar’s screws',
      radius: base.boltRadius - head.headDiameter / 2,
      z: clampGap + height - headDepth + head.headHeight,
    },
    { what: 'ground stud', radius: base.boltRadius - threadDiameter(base.stud.size) / 2, z: base.stud.top },
    ...(print.conductive
      ? [
          {
            what: 'conducting lock ring',
            radius: grip.ring.outerRadius,
            z: grip.ring.openAt + grip.ring.height,
          },
        ]
      : []),
  ];
}

/** Everything metal at ground potential that the belt's bore leads down to, at its highest. */
export function lowerMetalInside({ base, plate, rollers: { lower }, combs, hubs }: Machine): MetalEdge[] {
  return [
    {
      what: plate.conductive ? 'edge of the plate’s opening' : 'ground electrode under the plate',
      radius: base.plate.openingRadius,
      z: plate.conductive ? 0 : -plate.thickness,
    },
    { what: 'lower comb', radius: combs.lower.tip, z: combs.lower.plane },
    {
      what: 'lower bearings',
      radius: lower.length / 2 + hubs.lower.flangeThickness,
      z: lower.axisZ + lower.bearing.row.outer / 2,
    },
  ];
}

/** The closest pair of two groups of edges, on the same side of the axis, mm. */
export function closestPair(
  above: readonly MetalEdge[],
  below: readonly MetalEdge[],
): { from: MetalEdge; to: MetalEdge; distance: number } {
  const pairs = above.flatMap((from) =>
    below.map((to) => ({ from, to, distance: Math.hypot(from.radius - to.radius, from.z - to.z) })),
  );
  return pairs.reduce((best, pair) => (pair.distance < best.distance ? pair : best));
}
