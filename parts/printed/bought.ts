import type { Machine, Terminal } from '../machine/machine.js';
import { holeLoop, rectangle, reversed, shaftLoop, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { AT_ORIGIN, type Loop, type Placement, radians, type Vec2 } from '../solid/vector.js';
import { fastener } from '../stock/fasteners.js';
import { driveBeltPiece, motorPiece } from './bought-drive.js';
import { besideCarrier, intoPockets, intoRim, ontoRing } from './carrier-places.js';
import { combGrooves, STRIP_THICKNESS } from './comb-bar.js';
import type { Dimensions } from './identity.js';
import { CLEAR_AIR, type Move } from './part.js';

/** What a bought piece is, without its shape. */
interface About {
  readonly id: string;
  readonly title: string;
  readonly material: string;
  readonly placement: Placement;
  /** When it comes into the machine, between the steps of the printed parts: see `BOUGHT_STEPS`. */
  readonly step: number;
  /** How it gets to its place; empty for what is there first. */
  readonly moves: readonly Move[];
}

/** A piece that is bought, at its likely size, where it belongs in the machine. */
export interface BoughtPiece extends About {
  /** Everything its shape depends on, mm: the same dimensions give the same solid. */
  readonly dimensions: Dimensions;
  build(kernel: Kernel): Solid;
}

function bought<const D extends Dimensions>(
  about: About,
  dimensions: D,
  build: (kernel: Kernel, dimensions: D) => Solid,
): BoughtPiece {
  return { ...about, dimensions, build: (kernel) => build(kernel, dimensions) };
}

/**
 * When bought pieces come in, on the scale of the printed parts' own steps. The plate is there first. The belt, a closed
 * loop, comes through the rim ring before the upper roller goes into it from the side; ring, roller and carrier are put
 * together on the bench and go onto the tube as one, the belt hanging through it; the lower roller is put together in the
 * loop and goes up into its carrier as one. A shell lies in the loop before its hubs are pushed in; upper bearings come
 * with their hub, so that they count as there after it; an axle goes through last.
 * A comb is laid on its bracket before the bar is screwed over it.
 */
export const BOUGHT_STEPS = {
  plate: 0,
  lowerComb: 14.5,
  groundStud: 35,
  tube: 45,
  belt: 50,
  upperShell: 51,
  upperBearings: 53,
  upperAxle: 54,
  jackScrews: 55.6,
  lowerShell: 57,
  lowerAxle: 59,
  lowerBearings: 60.5,
  upperComb: 62.5,
  terminal: 70,
} as const;

/** mm; a spun shell is no truer than this, and nothing printed touches it. */
const SHELL_TOLERANCE = 0.2;

/** Turns a solid that stands along z so that it lies along y, its foot at -y. */
const alongY = (y: number, z: number): Placement => ({ turn: [-90, 0, 0], move: [0, y, z] });

/** Every bought piece of the machine. */
export function boughtPieces(machine: Machine): BoughtPiece[] {
  return [
    tube(machine),
    plate(machine),
    terminal(machine),
    belt(machine),
    ...rollerPieces(machine, 'lower'),
    ...rollerPieces(machine, 'upper'),
    ...jackScrews(machine),
    comb(machine, 'lower'),
    comb(machine, 'upper'),
    motorPiece(machine),
    driveBeltPiece(machine),
  ];
}

function tube({ tube, grip }: Machine): BoughtPiece {
  const up = grip.mount.headTop + CLEAR_AIR - tube.footZ;
  return bought(
    {
      id: 'tube',
      title: 'tube',
      material: tube.material,
      step: BOUGHT_STEPS.tube,
      placement: { turn: [0, 0, 0], move: [0, 0, tube.footZ] },
      moves: [{ slide: [0, 0, -up], turn: 0, why: 'down into the open mount' }],
    },
    { outerRadius: tube.outer.mean / 2, innerRadius: tube.inner.likely / 2, length: tube.length },
    (k, d) => k.extrude([shaftLoop(d.outerRadius), reversed(holeLoop(d.innerRadius))], 0, d.length),
  );
}

/** The plate with its belt opening and the holes that collar, skirt, ground stud, motor bracket and feet need. */
function plate({ plate, base, drive, feet }: Machine): BoughtPiece {
  const { bracket, motor } = drive;
  const bracketHoles = bracket.screwsAt.flatMap((at) =>
    [-1, 1].map((side): Vec2 => [motor.at[0] + side * bracket.screwX, bracket.face - at]),
  );
  const feetHoles = feet.angles.map(
    (angle): Vec2 => [feet.radius * Math.cos(radians(angle)), feet.radius * Math.sin(radians(angle))],
  );
  return bought(
    {
      id: 'plate',
      title: 'base plate',
      material: plate.material,
      step: BOUGHT_STEPS.plate,
      placement: { turn: [0, 0, 0], move: [0, 0, -plate.thickness] },
      moves: [],
    },
    {
      radius: plate.diameter / 2,
      thickness: plate.thickness,
      openingRadius: base.plate.openingRadius,
      boltRadius: base.boltRadius,
      boltAngles: [...base.boltAngles, ...base.skirtBoltAngles],
      boltHole: base.plate.boltHole / 2,
      studAngle: base.stud.angle,
      studHole: base.plate.studHole / 2,
      bracketX: bracketHoles.map(([x]) => x),
      bracketY: bracketHoles.map(([, y]) => y),
      feetX: feetHoles.map(([x]) => x),
      feetY: feetHoles.map(([, y]) => y),
      feetHole: feet.plateHole / 2,
    },
    (k, d) => {
      const at = (angle: number): Vec2 => [
        d.boltRadius * Math.cos(radians(angle)),
        d.boltRadius * Math.sin(radians(angle)),
      ];
      const holes = [
        holeLoop(d.openingRadius),
        ...d.boltAngles.map((angle) => holeLoop(d.boltHole, at(angle))),
        holeLoop(d.studHole, at(d.studAngle)),
      ];
      const disc = k.extrude([shaftLoop(d.radius), ...holes.map(reversed)], 0, d.thickness);
      const through = (radius: number, at: Vec2) => k.extrude([holeLoop(radius, at)], -1, d.thickness + 1);
      // Cut afterwards: on a plate that is too small these lie in its edge.
      return k.subtract(disc, [
        ...d.bracketX.map((x, i) => through(d.boltHole, [x, d.bracketY[i]!])),
        ...d.feetX.map((x, i) => through(d.feetHole, [x, d.feetY[i]!])),
      ]);
    },
  );
}

/** The terminal as a shell of revolution with its lip's bead; bulged below and above its widest section. */
function terminal({ terminal }: Machine): BoughtPiece {
  // The lip passes everything that stands on the rim; the seat's pads are the tallest.
  const tallest = terminal.topZ;
  const up = tallest + CLEAR_AIR - terminal.lipZ;
  return bought(
    {
      id: 'terminal',
      title: 'terminal',
      material: 'metal',
      step: BOUGHT_STEPS.terminal,
      placement: { ...AT_ORIGIN, move: [0, 0, terminal.lipZ] },
      moves: [
        { slide: [0, 0, -up], turn: 0, why: 'over its seat from above, until the dome rests on the pads' },
      ],
    },
    shellOf(terminal),
    (k, d) => {
      const { outline, bead } = shellProfile(d);
      const sides = sidesFor(d.radius, SHELL_TOLERANCE);
      return k.union([k.revolve(outline, sides), k.revolve(bead, sides)]);
    },
  );
}

/** What the terminal's section depends on, mm over the lip's plane. */
function shellOf(terminal: Terminal) {
  return {
    shape: terminal.shape,
    radius: terminal.diameter.mean / 2,
    above: terminal.topZ - terminal.centreZ,
    below: terminal.centreZ - terminal.lipZ,
    shell: terminal.shell,
    bead: terminal.lipRadius,
    beadRadius: terminal.openingDiameter.mean / 2 + terminal.lipRadius,
  };
}

/** Half sections of the terminal: its shell, and the bead that its lip is rolled to. [radius, z], mm. */
export function terminalProfile({ terminal }: Pick<Machine, 'terminal'>): { outline: Loop; bead: Loop } {
  const { outline, bead } = shellProfile(shellOf(terminal));
  const raised = (loop: Loop): Loop => loop.map(([r, z]) => [r, z + terminal.lipZ]);
  return { outline: raised(outline), bead: raised(bead) };
}

function shellProfile(d: ReturnType<typeof shellOf>): { outline: Loop; bead: Loop } {
  // Where the shell meets the bead: the angle at which its lower half reaches the bead's circle.
  const lowest = Math.asin(Math.min(1, d.beadRadius / d.radius));
  const depth = d.shape === 'sphere' ? d.radius : d.below / Math.cos(lowest);
  const steps = 48;
  const arc = (inset: number): Vec2[] =>
    Array.from({ length: steps + 1 }, (_, i): Vec2 => {
      const angle = lowest + ((Math.PI - lowest) * i) / steps;
      const height = angle < Math.PI / 2 ? depth : d.above;
      return [
        Math.max(0, (d.radius - inset) * Math.sin(angle)),
        d.below - (height - inset) * Math.cos(angle),
      ];
    });
  const outer = arc(0);
  const inner = arc(d.shell).reverse();
  const ring = Array.from({ length: 24 }, (_, i): Vec2 => {
    const angle = (2 * Math.PI * i) / 24;
    return [d.beadRadius + d.bead * Math.cos(angle), d.bead + d.bead * Math.sin(angle)];
  });
  return { outline: [...outer, ...inner], bead: ring };
}

/** The belt around both rollers, as a band of its thickness; its own frame has its origin on the lower axis. */
function belt(machine: Machine): BoughtPiece {
  const { belt, rollers, tube, rim } = machine;
  const lowest = rollers.lower.axisZ - rollers.lower.outer.mean / 2 - belt.thickness;
  const up = tube.rimZ + rim.flangeThickness + CLEAR_AIR - lowest;
  return bought(
    {
      id: 'belt',
      title: 'belt',
      material: belt.material,
      step: BOUGHT_STEPS.belt,
      placement: { turn: [90, 0, 0], move: [0, belt.width / 2, rollers.lower.axisZ] },
      moves: [{ slide: [0, 0, -up], turn: 0, why: 'down through the rim ring' }, intoRim(machine)],
    },
    {
      lowerRadius: rollers.lower.outer.mean / 2,
      upperRadius: rollers.upper.outer.mean / 2,
      between: rollers.upper.axisZ - rollers.lower.axisZ,
      thickness: belt.thickness,
      width: belt.width,
    },
    (k, d) => {
      const around = (inset: number): Loop => {
        const at = (radius: number, z: number, from: number): Vec2[] => {
          const sides = sidesFor(radius + 20);
          return Array.from({ length: sides + 1 }, (_, i): Vec2 => {
            const angle = from + (Math.PI * i) / sides;
            return [radius * Math.cos(angle), z + radius * Math.sin(angle)];
          });
        };
        return [...at(d.upperRadius + inset, d.between, 0), ...at(d.lowerRadius + inset, 0, Math.PI)];
      };
      return k.extrude([around(d.thickness), reversed(around(0))], 0, d.width);
    },
  );
}

function rollerPieces(machine: Machine, end: 'lower' | 'upper'): BoughtPiece[] {
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
      outerRadius: roller.outer.mean / 2,
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
function jackScrews(machine: Machine): BoughtPiece[] {
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

/** mm; how broad a needle is drawn. */
const NEEDLE_WIDTH = 0.8;

/** The comb as it lies between bracket and bar, its edge or points at the gap from the belt: a strip of mesh, or needles. */
function comb(machine: Machine, end: 'lower' | 'upper'): BoughtPiece {
  const { style, width, tip, plane, bracket } = machine.combs[end];
  const up = end === 'upper' ? 1 : -1;
  return bought(
    {
      id: `comb-${end}`,
      title: `${end} comb`,
      material: 'metal',
      step: end === 'lower' ? BOUGHT_STEPS.lowerComb : BOUGHT_STEPS.upperComb,
      placement: { turn: [end === 'upper' ? 0 : 180, 0, 0], move: [tip, 0, plane] },
      moves: [{ slide: [0, 0, -up * 40], turn: 0, why: 'laid on its bracket' }],
    },
    {
      depth: bracket.protrusion + bracket.headDepth,
      thickness: STRIP_THICKNESS,
      at: style === 'mesh' ? [0] : [...combGrooves.places(width)],
      width: style === 'mesh' ? width : NEEDLE_WIDTH,
    },
    (k, d) =>
      k.union(
        d.at.map((y) => k.extrude([rectangle(0, y - d.width / 2, d.depth, y + d.width / 2)], 0, d.thickness)),
      ),
  );
}
