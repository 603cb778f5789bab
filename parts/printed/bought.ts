import type { Machine, Roller, Terminal } from '../machine/machine.js';
import { plateHoles } from '../machine/plate-holes.js';
import { holeLoop, rectangle, reversed, shaftLoop, sidesFor } from '../solid/facets.js';
import { AT_ORIGIN, type Loop, radians, type Vec2 } from '../solid/vector.js';
import { driveBeltPiece, motorPiece } from './bought-drive.js';
import { BOUGHT_STEPS, type BoughtPiece, bought } from './bought-piece.js';
import { jackScrews, rollerPieces } from './bought-rollers.js';
import { intoRim } from './carrier-places.js';
import { combGrooves, STRIP_THICKNESS } from './comb-bar.js';
import { CLEAR_AIR } from './part.js';
import { ontoSeat } from './terminal-place.js';

/** mm; a spun shell is no truer than this, and nothing printed touches it. */
const SHELL_TOLERANCE = 0.2;
/** The same where clips lie along it. */
const CLIPPED_TOLERANCE = 0.03;

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
function plate(machine: Machine): BoughtPiece {
  const { plate, base, feet } = machine;
  const { bracketHoles, feetHoles } = plateHoles(machine);
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
function terminal(machine: Machine): BoughtPiece {
  const { terminal } = machine;
  return bought(
    {
      id: 'terminal',
      title: 'terminal',
      material: 'metal',
      step: BOUGHT_STEPS.terminal,
      placement: { ...AT_ORIGIN, move: [0, 0, terminal.lipZ] },
      moves: [ontoSeat(machine)],
    },
    shellOf(terminal),
    (k, d) => {
      const { outline, bead } = shellProfile(d);
      const sides = sidesFor(d.radius, d.cutRadius > 0 ? CLIPPED_TOLERANCE : SHELL_TOLERANCE);
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
    /** Where the sheet ends on a ring; 0 where it makes its own bead. */
    cutRadius: terminal.ring?.holeRadius ?? 0,
    cutZ: terminal.ring?.edgeZ ?? 0,
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
  const ringed = d.cutRadius > 0;
  const lowest = Math.asin(Math.min(1, (ringed ? d.cutRadius : d.beadRadius) / d.radius));
  const depth = d.shape === 'sphere' ? d.radius : (d.below - d.cutZ) / Math.cos(lowest);
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

/** Radius (mm) of a roller’s middle, which the belt lies on; of a printed sleeve as it is drawn. */
const crest = ({ outer, crown, sleeve }: Roller) => (sleeve?.endRadius ?? outer.mean / 2) + crown;

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
      lowerRadius: crest(rollers.lower),
      upperRadius: crest(rollers.upper),
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
