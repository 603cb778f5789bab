import type { Machine } from '../machine/machine.js';
import { toothedPitch } from '../machine/pulley.js';
import { circumscribed, rectangle, reversed, shaftLoop, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { degrees, type Loop, type Vec2 } from '../solid/vector.js';
import type { BoughtPiece } from './bought-piece.js';
import { DRIVE_STEPS } from './drive-pulley.js';
import { CLEAR_AIR } from './part.js';

/** The motor: body, pilot and shaft with its flat, standing on the end of its body. */
export function motorPiece({ drive: { motor, bracket }, rollers }: Machine): BoughtPiece {
  const { face, at, bodyLength, bodyDiameter } = motor;
  const dimensions = {
    radius: bodyDiameter / 2,
    length: bodyLength,
    pilotRadius: bracket.pilotFit.bought.likely / 2,
    pilotHeight: face.pilot_height,
    shaftRadius: face.shaft.diameter / 2,
    shaftLength: face.shaft.length,
    flat: face.shaft.flat,
  };
  const back = face.shaft.length + CLEAR_AIR;
  return {
    id: 'motor',
    title: 'motor',
    material: 'steel',
    step: DRIVE_STEPS.motor,
    placement: { turn: [-90, 0, 0], move: [at[0], at[1] - bodyLength / 2, rollers.lower.axisZ] },
    moves: [
      {
        slide: [0, 0, bracket.up + bodyDiameter / 2 + CLEAR_AIR],
        turn: 0,
        why: 'from below between the bracket’s side walls',
      },
      { slide: [0, back, 0], turn: 0, why: 'its shaft through the bracket, pilot into its hole' },
    ],
    dimensions,
    build: (k) => {
      const d = dimensions;
      const shaft = k.extrude([shaftLoop(d.shaftRadius)], d.length - 1, d.length + d.shaftLength);
      const far = d.shaftRadius + 1;
      const flat = k.extrude(
        [rectangle(d.shaftRadius - d.flat, -far, far, far)],
        d.length,
        d.length + d.shaftLength + 1,
      );
      const body = k.extrude([shaftLoop(d.radius)], 0, d.length);
      const pilot =
        d.pilotHeight > 0
          ? [k.extrude([shaftLoop(d.pilotRadius)], d.length - 1, d.length + d.pilotHeight)]
          : [];
      return k.union([body, ...pilot, d.flat > 0 ? k.subtract(shaft, [flat]) : shaft]);
    },
  };
}

type BeltDimensions = {
  readonly section: number;
  readonly between: number;
  readonly motorRadius: number;
  readonly rollerRadius: number;
  /** Between the belt's inner and its outer face; 0 for a round belt. */
  readonly back: number;
};

/** Direction, from the motor towards the roller, of the normal at which the upper run leaves both pulleys. */
const leaves = (d: BeltDimensions) => Math.acos((d.motorRadius - d.rollerRadius) / d.between);

function loopAround(d: BeltDimensions, motorRadius: number, rollerRadius: number): Loop {
  const angle = leaves(d);
  const arc = (x: number, radius: number, from: number, to: number): Vec2[] => {
    const sides = sidesFor(radius + 20);
    const vertex = circumscribed(radius, 2 * sides);
    return Array.from({ length: sides + 1 }, (_, i): Vec2 => {
      const at = from + ((to - from) * i) / sides;
      return [x + vertex * Math.cos(at), vertex * Math.sin(at)];
    });
  };
  return [
    ...arc(0, rollerRadius, -angle, angle),
    ...arc(-d.between, motorRadius, angle, 2 * Math.PI - angle),
  ];
}

/** A toothed belt as the band behind its teeth, which lie in the pulleys’ gaps. */
function band(d: BeltDimensions, k: Kernel): Solid {
  const outer = loopAround(d, d.motorRadius + d.back, d.rollerRadius + d.back);
  const inner = loopAround(d, d.motorRadius, d.rollerRadius);
  return k.extrude([outer, reversed(inner)], -d.section / 2, d.section / 2);
}

/** A round belt: part of a torus on each pulley, and a rod along each run. */
function cord(d: BeltDimensions, k: Kernel): Solid {
  const angle = leaves(d);
  const circle = shaftLoop(d.section / 2);
  const wide = 2 * d.between + d.motorRadius + d.rollerRadius + 2 * d.section;
  const around = (x: number, radius: number, from: number, to: number): Solid => {
    const sides = sidesFor(radius);
    const centre = circumscribed(radius, sides);
    const torus = k.revolve(
      circle.map(([r, z]): Vec2 => [centre + r, z]),
      sides,
    );
    const steps = 6;
    const sector: Vec2[] = [
      [0, 0],
      ...Array.from({ length: steps + 1 }, (_, i): Vec2 => {
        const at = from + ((to - from) * i) / steps;
        return [wide * Math.cos(at), wide * Math.sin(at)];
      }),
    ];
    const part = k.intersect(torus, k.extrude([sector], -d.section, d.section));
    return k.place(part, { turn: [0, 0, 0], move: [x, 0, 0] });
  };
  const run = Math.sqrt(d.between ** 2 - (d.motorRadius - d.rollerRadius) ** 2);
  const rod = k.extrude([circle], -0.05, run + 0.05);
  const runs = [1, -1].map((side) => {
    const [nx, ny] = [Math.cos(angle), side * Math.sin(angle)];
    return k.place(rod, {
      turn: [0, 90, degrees(side * (angle - Math.PI / 2))],
      move: [-d.between + d.motorRadius * nx, d.motorRadius * ny, 0],
    });
  });
  return k.union([
    around(0, d.rollerRadius, -angle, angle),
    around(-d.between, d.motorRadius, angle, 2 * Math.PI - angle),
    ...runs,
  ]);
}

/** The drive belt as it lies on both pulleys, in a frame with its origin on the roller's axis. */
export function driveBeltPiece({ drive, rollers }: Machine): BoughtPiece {
  const { belt, pulley, kind, motor, place } = drive;
  const toothed = kind === 'toothed';
  const dimensions: BeltDimensions = {
    section: belt.section,
    between: belt.centreDistance,
    motorRadius: toothed ? pulley.motor.tipRadius : pulley.motor.pitchRadius,
    rollerRadius: toothed ? pulley.roller.tipRadius : pulley.roller.pitchRadius,
    back: toothed ? toothedPitch(belt.pitch).back.value : 0,
  };
  const past = rollers.lower.axle.to - place.belt + motor.face.shaft.length + belt.section + CLEAR_AIR;
  return {
    id: 'drive-belt',
    title: 'drive belt',
    material: 'rubber',
    step: DRIVE_STEPS.belt,
    placement: { turn: [90, 0, 0], move: [0, place.belt, rollers.lower.axisZ] },
    moves: [
      { slide: [0, -past, 0], turn: 0, why: 'around the lower axle and the motor’s shaft, from the side' },
    ],
    dimensions,
    build: (k) => (toothed ? band(dimensions, k) : cord(dimensions, k)),
  };
}
