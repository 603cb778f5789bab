import type { Machine, Roller } from '../machine/machine.js';
import { holeLoop, rectangle, reversed, shaftLoop, sidesFor } from '../solid/facets.js';
import type { Kernel, Solid } from '../solid/kernel.js';
import { AT_ORIGIN, type Loop, type Placement, radians, type Vec2 } from '../solid/vector.js';

/** A piece that is bought, at its likely size, where it belongs in the machine. */
export interface BoughtPiece {
  readonly id: string;
  readonly title: string;
  readonly material: string;
  readonly placement: Placement;
  /** When it comes into the machine, between the steps of the printed parts: see `BOUGHT_STEPS`. */
  readonly step: number;
  build(kernel: Kernel): Solid;
}

/**
 * When bought pieces come in, on the scale of the printed parts' own steps. The plate is there first. A shell lies ready
 * before its hubs are pushed in; bearings come with their hub, so that they count as there after it; an axle goes through
 * last. The belt comes through rim ring and tube before the upper roller goes into its loop.
 */
export const BOUGHT_STEPS = {
  plate: 0,
  lowerShell: 11,
  lowerAxle: 13,
  groundStud: 35,
  tube: 45,
  belt: 50,
  upperShell: 51,
  upperBearings: 53,
  upperAxle: 54,
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
  ];
}

function tube({ tube }: Machine): BoughtPiece {
  const outside = shaftLoop(tube.outer.mean / 2);
  const inside = reversed(holeLoop(tube.inner.likely / 2));
  return {
    id: 'tube',
    title: 'tube',
    material: tube.material,
    step: BOUGHT_STEPS.tube,
    placement: { turn: [0, 0, 0], move: [0, 0, tube.footZ] },
    build: (k) => k.extrude([outside, inside], 0, tube.length),
  };
}

/** The plate with its belt opening and the holes that collar, skirt and ground stud need. */
function plate({ plate, base }: Machine): BoughtPiece {
  const at = (angle: number): Vec2 => [
    base.boltRadius * Math.cos(radians(angle)),
    base.boltRadius * Math.sin(radians(angle)),
  ];
  const holes = [
    holeLoop(base.plate.openingRadius),
    ...[...base.boltAngles, ...base.skirtBoltAngles].map((angle) =>
      holeLoop(base.plate.boltHole / 2, at(angle)),
    ),
    holeLoop(base.plate.studHole / 2, at(base.stud.angle)),
  ];
  return {
    id: 'plate',
    title: 'base plate',
    material: plate.material,
    step: BOUGHT_STEPS.plate,
    placement: { turn: [0, 0, 0], move: [0, 0, -plate.thickness] },
    build: (k) => k.extrude([shaftLoop(plate.diameter / 2), ...holes.map(reversed)], 0, plate.thickness),
  };
}

/** The terminal as a shell of revolution with its lip's bead; bulged below and above its widest section. */
function terminal({ terminal }: Machine): BoughtPiece {
  return {
    id: 'terminal',
    title: 'terminal',
    material: 'metal',
    step: BOUGHT_STEPS.terminal,
    placement: AT_ORIGIN,
    build: (k) => {
      const { outline, bead } = terminalProfile({ terminal } as Machine);
      const sides = sidesFor(terminal.diameter.mean / 2, SHELL_TOLERANCE);
      return k.union([k.revolve(outline, sides), k.revolve(bead, sides)]);
    },
  };
}

/** Half sections of the terminal: its shell, and the bead that its lip is rolled to. [radius, z], mm. */
export function terminalProfile({ terminal }: Pick<Machine, 'terminal'>): { outline: Loop; bead: Loop } {
  const radius = terminal.diameter.mean / 2;
  const above = terminal.topZ - terminal.centreZ;
  const bead = terminal.lipRadius;
  const beadRadius = terminal.openingDiameter.mean / 2 + bead;
  const below = terminal.centreZ - terminal.lipZ;
  // Where the shell meets the bead: the angle at which its lower half reaches the bead's circle.
  const lowest = Math.asin(Math.min(1, beadRadius / radius));
  const depth = terminal.shape === 'sphere' ? radius : below / Math.cos(lowest);
  const steps = 48;
  const arc = (inset: number): Vec2[] =>
    Array.from({ length: steps + 1 }, (_, i): Vec2 => {
      const angle = lowest + ((Math.PI - lowest) * i) / steps;
      const height = angle < Math.PI / 2 ? depth : above;
      return [
        Math.max(0, (radius - inset) * Math.sin(angle)),
        terminal.centreZ - (height - inset) * Math.cos(angle),
      ];
    });
  const outer = arc(0);
  const inner = arc(terminal.shell).reverse();
  const ring = Array.from({ length: 24 }, (_, i): Vec2 => {
    const angle = (2 * Math.PI * i) / 24;
    return [beadRadius + bead * Math.cos(angle), terminal.lipZ + bead + bead * Math.sin(angle)];
  });
  return { outline: [...outer, ...inner], bead: ring };
}

/** The belt around both rollers, as a band of its thickness. */
function belt({ belt, rollers }: Machine): BoughtPiece {
  const around = (inset: number): Loop => {
    const at = (roller: Roller, from: number): Vec2[] => {
      const radius = roller.outer.mean / 2 + inset;
      const sides = sidesFor(radius + 20);
      return Array.from({ length: sides + 1 }, (_, i): Vec2 => {
        const angle = from + (Math.PI * i) / sides;
        return [radius * Math.cos(angle), roller.axisZ + radius * Math.sin(angle)];
      });
    };
    return [...at(rollers.upper, 0), ...at(rollers.lower, Math.PI)];
  };
  return {
    id: 'belt',
    title: 'belt',
    material: belt.material,
    step: BOUGHT_STEPS.belt,
    placement: { turn: [90, 0, 0], move: [0, belt.width / 2, 0] },
    build: (k) => k.extrude([around(belt.thickness), reversed(around(0))], 0, belt.width),
  };
}

function rollerPieces(machine: Machine, end: 'lower' | 'upper'): BoughtPiece[] {
  const roller = machine.rollers[end];
  const hub = machine.hubs[end];
  const half = roller.length / 2;
  const reach = roller.axle.length / 2;
  const shell: BoughtPiece = {
    id: `roller-shell-${end}`,
    title: `${end} roller shell`,
    material: roller.material,
    step: end === 'lower' ? BOUGHT_STEPS.lowerShell : BOUGHT_STEPS.upperShell,
    placement: alongY(-half, roller.axisZ),
    build: (k) => {
      const outer = roller.outer.mean / 2;
      const tube = k.extrude([shaftLoop(outer), reversed(holeLoop(roller.inner.mean / 2))], 0, roller.length);
      const { width, depth } = hub.notch;
      const across = rectangle(-outer - 1, -width / 2, outer + 1, width / 2);
      return k.subtract(tube, [
        k.extrude([across], -1, depth),
        k.extrude([across], roller.length - depth, roller.length + 1),
      ]);
    },
  };
  const axle: BoughtPiece = {
    id: `axle-${end}`,
    title: `${end} axle`,
    material: 'steel',
    step: end === 'lower' ? BOUGHT_STEPS.lowerAxle : BOUGHT_STEPS.upperAxle,
    placement: alongY(-reach, roller.axisZ),
    build: (k) => {
      const radius = roller.axle.diameter / 2;
      const rod = k.extrude([shaftLoop(radius)], 0, 2 * reach);
      if (roller.axle.kind === 'dead') return rod;
      const flat = rectangle(radius - roller.axle.flat, -radius - 1, radius + 1, radius + 1);
      return k.subtract(rod, [k.extrude([flat], -1, 2 * reach + 1)]);
    },
  };
  const bearings = hub.dead
    ? ([-1, 1] as const).map((side): BoughtPiece => {
        const { row, width } = roller.bearing;
        const outer = hub.dead!.seatFit.bought.likely;
        const outerFace = half + hub.flangeThickness;
        const foot = hub.dead!.seatDepth - width;
        return {
          id: `bearing-${end}-${side < 0 ? 'left' : 'right'}`,
          title: `bearing ${row.designation}`,
          material: 'steel',
          step: BOUGHT_STEPS.upperBearings,
          placement: { turn: [side * 90, 0, 0], move: [0, side * outerFace, roller.axisZ] },
          // Pushed down to the shoulder.
          build: (k) =>
            k.extrude([shaftLoop(outer / 2), reversed(holeLoop(row.bore / 2))], foot, foot + width),
        };
      })
    : [];
  return [shell, axle, ...bearings];
}
