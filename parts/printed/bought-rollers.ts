import type { Machine } from '../machine/machine.js';
import { holeLoop, rectangle, reversed, shaftLoop } from '../solid/facets.js';
import { fastener } from '../stock/fasteners.js';
import { alongY, BOUGHT_STEPS, type BoughtPiece, bought } from './bought-piece.js';
import { besideCarrier, intoPockets, intoRim, ontoRing } from './carrier-places.js';
import { CLEAR_AIR, type Move } from './part.js';

/** Shell, axle and bearings of one roller. */
export function rollerPieces(machine: Machine, end: 'lower' | 'upper'): BoughtPiece[] {
  const roller = machine.rollers[end];
  const hub = machine.hubs[end];
  const half = roller.length / 2;
  const together = end === 'upper' ? intoRim(machine) : intoPockets(machine);
  const fromTheSide = (far: number, why: string): Move[] => [
    { slide: [0, -far, 0], turn: 0, why, ...(end === 'lower' && { stretches: 'belt' }) },
    together,
  ];
  const shell = bought(
    {
      id: `roller-shell-${end}`,
      title: `${end} roller shell`,
      material: roller.material,
      step: end === 'lower' ? BOUGHT_STEPS.lowerShell : BOUGHT_STEPS.upperShell,
      placement: alongY(-half, roller.axisZ),
      moves: fromTheSide(half + machine.belt.width / 2 + CLEAR_AIR, 'from the side into the belt'),
    },
    {
      outerRadius: roller.shell.mean / 2,
      innerRadius: roller.inner.mean / 2,
      length: roller.length,
      notchWidth: hub.notch.width,
      notchDepth: hub.notch.depth,
    },
    (k, d) => {
      const tube = k.extrude([shaftLoop(d.outerRadius), reversed(holeLoop(d.innerRadius))], 0, d.length);
      const [far, wide] = [d.outerRadius + 1, d.notchWidth / 2];
      const across = rectangle(-far, -wide, far, wide);
      return k.subtract(tube, [
        k.extrude([across], -1, d.notchDepth),
        k.extrude([across], d.length - d.notchDepth, d.length + 1),
      ]);
    },
  );
  const outerFace = half + hub.flangeThickness;
  const { diameter, flat, from, to, kind } = roller.axle;
  // A dead axle lies on flats at its ends that face down; a live one has one flat all along.
  const seatedFrom = machine.carriers.upper.innerFace;
  const axle = bought(
    {
      id: `axle-${end}`,
      title: `${end} axle`,
      material: 'steel',
      step: end === 'lower' ? BOUGHT_STEPS.lowerAxle : BOUGHT_STEPS.upperAxle,
      placement: alongY(from, roller.axisZ),
      moves: fromTheSide(to - from + outerFace + CLEAR_AIR, 'through both hubs'),
    },
    {
      radius: diameter / 2,
      length: to - from,
      flat,
      roundFrom: kind === 'dead' ? -seatedFrom - from : 0,
      roundTo: kind === 'dead' ? seatedFrom - from : 0,
    },
    (k, d) => {
      const rod = k.extrude([shaftLoop(d.radius)], 0, d.length);
      if (d.flat === 0) return rod;
      const beyond = d.radius + 1;
      if (d.roundTo === 0)
        return k.subtract(rod, [
          k.extrude([rectangle(d.radius - d.flat, -beyond, beyond, beyond)], -1, d.length + 1),
        ]);
      const below = rectangle(-beyond, d.radius - d.flat, beyond, beyond);
      return k.subtract(rod, [
        k.extrude([below], -1, d.roundFrom),
        k.extrude([below], d.roundTo, d.length + 1),
      ]);
    },
  );
  const { dead } = hub;
  const bearings = dead
    ? ([-1, 1] as const).map((side): BoughtPiece => {
        const { row, width } = roller.bearing;
        const foot = dead.seatDepth - width;
        return bought(
          {
            id: `bearing-${end}-${side < 0 ? 'left' : 'right'}`,
            title: `bearing ${row.designation}`,
            material: 'steel',
            step: BOUGHT_STEPS.upperBearings,
            placement: { turn: [side * 90, 0, 0], move: [0, side * outerFace, roller.axisZ] },
            moves: [
              {
                slide: [0, -side * (dead.seatDepth + CLEAR_AIR), 0],
                turn: 0,
                why: 'pressed into the hub, down to the shoulder',
              },
              together,
            ],
          },
          { radius: dead.seatFit.bought.likely / 2, bore: row.bore / 2, foot, width },
          (k, d) => k.extrude([shaftLoop(d.radius), reversed(holeLoop(d.bore))], d.foot, d.foot + d.width),
        );
      })
    : lowerBearings(machine, together);
  return [shell, axle, ...bearings];
}

/** The lower axle's bearings, slid onto it from its ends before all of it goes up into the carrier. */
function lowerBearings({ rollers, carriers }: Machine, together: Move): BoughtPiece[] {
  const { axisZ, axle, bearing } = rollers.lower;
  const { innerFace, lip, pocketWidth, pocketFit } = carriers.lower;
  const foot = innerFace + lip + (pocketWidth - bearing.width) / 2;
  return ([-1, 1] as const).map((side): BoughtPiece => {
    const beyond = (side < 0 ? -axle.from : axle.to) - foot;
    return bought(
      {
        id: `bearing-lower-${side < 0 ? 'left' : 'right'}`,
        title: `bearing ${bearing.row.designation}`,
        material: 'steel',
        step: BOUGHT_STEPS.lowerBearings,
        placement: { turn: [-side * 90, 0, 0], move: [0, side * foot, axisZ] },
        moves: [
          {
            slide: [0, -side * (beyond + CLEAR_AIR), 0],
            turn: 0,
            why: 'onto the end of the axle, up to its spacer',
          },
          together,
        ],
      },
      { radius: pocketFit.bought.likely / 2, bore: bearing.row.bore / 2, width: bearing.width },
      (k, d) => k.extrude([shaftLoop(d.radius), reversed(holeLoop(d.bore))], 0, d.width),
    );
  });
}

/** The screws that the upper axle's blocks stand on, as they stand at the axle's middle height. */
export function jackScrews(machine: Machine): BoughtPiece[] {
  const { carriers, tube, rim } = machine;
  const { upper } = carriers;
  const m3 = fastener(upper.screw);
  const foot = tube.rimZ + rim.flangeThickness + upper.jackTop - m3.headHeight - upper.jackLength;
  return ([-1, 1] as const).map((side) => {
    const { turn, move } = besideCarrier(machine, side, foot);
    return bought(
      {
        id: `jack-screw-${side < 0 ? 'left' : 'right'}`,
        title: 'jack screw',
        material: 'steel',
        step: BOUGHT_STEPS.jackScrews,
        placement: { turn, move: [upper.block.jackAt, move[1], move[2]] },
        moves: [{ slide: [0, 0, -60], turn: 0, why: 'turned into its block' }, ...ontoRing(machine, side)],
      },
      {
        radius: Number(upper.screw.slice(1)) / 2,
        length: upper.jackLength,
        headRadius: m3.headDiameter / 2,
        headHeight: m3.headHeight,
      },
      (k, d) =>
        k.union([
          k.extrude([shaftLoop(d.radius)], 0, d.length + 0.5),
          k.extrude([shaftLoop(d.headRadius)], d.length, d.length + d.headHeight),
        ]),
    );
  });
}
