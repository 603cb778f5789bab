import { type MetalEdge, upperMetal } from '../field/metal.js';
import { roofAt, terminalShape } from '../field/terminal-shape.js';
import type { Machine } from '../machine/machine.js';
import { attempt, lengthText, lengthUp, nearestThatHolds, withValues } from './change.js';
import type { Check } from './check.js';
import type { Finding, Point, Remedy } from './finding.js';
import { judge, meets } from './judge.js';
import { practice } from './practice.js';

export const ABOVE_LIP = practice(
  0.5,
  '',
  'height of upper metal over the lip’s plane, over the opening’s radius',
);
export const LIP_TO_TUBE = practice(6, 'mm', 'air between lip and tube');
export const PASSING_ROOM = practice(3, 'mm', 'room in radius for what passes the opening');

export const checkLip: Check = (machine) => [
  upperMetalAboveLip(machine),
  lipToTube(machine),
  upperPartsPass(machine),
  underDome(machine),
];

const withInsertion = (machine: Machine, insertion: number) =>
  withValues(machine, { 'terminal.insertion': insertion });

function lowest(machine: Machine): MetalEdge {
  return upperMetal(machine).reduce((low, edge) => (edge.z < low.z ? edge : low));
}

/** Height (mm) of the lowest upper metal over the lip's plane. */
export function heightOverLip(machine: Machine): number {
  return lowest(machine).z - machine.terminal.lipZ;
}

/** Half the opening's radius, mm. */
export function heightWanted({ terminal }: Machine): number {
  return (ABOVE_LIP.value * terminal.openingDiameter.mean) / 2;
}

/** Metal at or below the lip's plane hangs out of the terminal's shelter: a danger. */
export function upperMetalAboveLip(machine: Machine): Finding {
  const edge = lowest(machine);
  const { terminal } = machine;
  const measured = heightOverLip(machine);
  return judge({
    id: 'lip/upper-metal',
    title: `Lowest metal above, the ${edge.what}, over the lip’s plane`,
    measured,
    required: heightWanted(machine),
    unit: 'mm',
    sense: 'min',
    basis: 'half the opening’s radius above the lip’s plane, of every metal edge; common practice, no source',
    status: ABOVE_LIP.status,
    grave: measured <= 0,
    remedy: () => {
      const most = terminal.topZ - terminal.lipZ;
      const holds = (tried: Machine) => heightOverLip(tried) >= heightWanted(tried);
      const deeper = nearestThatHolds(terminal.insertion, most, 1, (insertion) =>
        holds(withInsertion(machine, insertion)),
      );
      if (deeper === undefined) return 'a terminal with a smaller opening';
      const shown = lengthText(machine, deeper);
      return {
        text: `lower the terminal: an insertion of ${shown} instead of ${lengthText(machine, terminal.insertion)}`,
        tries: attempt(machine, `an insertion of ${shown}`, { 'terminal.insertion': deeper }, holds),
      };
    },
    at: { point: [edge.radius, 0, edge.z] },
  });
}

/** mm of air between lip and tube, at their worst readings. */
function lipAir({ terminal, tube }: Machine): number {
  return (terminal.openingDiameter.low - tube.outer.high) / 2;
}

export function lipToTube(machine: Machine): Finding {
  const { terminal, tube } = machine;
  const measured = lipAir(machine);
  return judge({
    id: 'lip/tube-clearance',
    title: 'Air between lip and tube, at their worst readings',
    measured,
    required: LIP_TO_TUBE.value,
    unit: 'mm',
    sense: 'min',
    basis: `${LIP_TO_TUBE.meaning}, ${LIP_TO_TUBE.source}`,
    status: LIP_TO_TUBE.status,
    grave: measured <= 0,
    remedy: () => {
      const opening = tube.outer.high + 2 * LIP_TO_TUBE.value;
      const { text, tries } = openingRemedy(machine, opening, (tried) =>
        meets(lipAir(tried), LIP_TO_TUBE.value, 'min'),
      );
      return { text: `${text}, or a thinner tube`, tries };
    },
    at: { point: [(terminal.openingDiameter.low + tube.outer.high) / 4, 0, terminal.lipZ] },
  });
}

/**
 * An opening of at least this size (mm), with the caliper's error on top: what is read on it may be too much by that. What
 * stands on the rim may widen with the opening, so that the next sizes are tried too.
 */
export function openingRemedy(machine: Machine, least: number, holds: (tried: Machine) => boolean): Remedy {
  const sizes = Array.from({ length: SIZES_TRIED }, (_, at) =>
    lengthUp(least + machine.caliperError + at * OPENING_STEP),
  );
  const size = sizes.find((each) => holds(withOpening(machine, each))) ?? sizes[0]!;
  const shown = lengthText(machine, size);
  return {
    text: `an opening of at least ${shown}`,
    tries: attempt(machine, `an opening of ${shown}`, { 'terminal.opening.diameter': size }, holds),
  };
}

/** mm between the openings that are tried, up to twice the step in which the upper axle is cut. */
const OPENING_STEP = 0.2;
const SIZES_TRIED = 21;

const withOpening = (machine: Machine, size: number) =>
  withValues(machine, { 'terminal.opening.diameter': size });

/** How far from the axis upper parts reach, mm; all of them pass the opening when the terminal is lifted off. */
export function upperReach({
  rim,
  combs: { upper: comb },
  rollers: { upper: roller },
  hubs,
  carriers: {
    upper: { cheek, outerFace },
  },
  seat,
}: Machine): { what: string; radius: number; at: Point }[] {
  const { bracket } = comb;
  const corner = (what: string, x: number, y: number, z: number) => ({
    what,
    radius: Math.hypot(x, y),
    at: [x, y, z] as const,
  });
  const back = comb.tip + bracket.protrusion + bracket.headDepth;
  return [
    { what: 'rim ring', radius: rim.flangeRadius, at: [rim.flangeRadius, 0, comb.seat] },
    corner('foot of the upper comb’s bracket', comb.tip + bracket.footEnd, bracket.footWidth / 2, comb.seat),
    corner('upper comb’s bar and bracket', back, bracket.barLength / 2, comb.plane),
    corner(
      'upper roller',
      roller.outer.high / 2,
      roller.length / 2 + hubs.upper.flangeThickness,
      roller.axisZ,
    ),
    corner('upper axle', roller.axle.diameter / 2, roller.axle.to, roller.axisZ),
    ...[cheek.left, cheek.right].flatMap((x) =>
      [
        [x + Math.sign(-x) * cheek.chamfer, outerFace],
        [x, outerFace - cheek.chamfer],
      ].map(([cornerX, y]) => corner('upper bearing carrier', cornerX!, y!, comb.seat + cheek.height)),
    ),
    {
      what: 'terminal seat’s head',
      radius: seat.head.outerRadius,
      at: [seat.head.outerRadius, 0, seat.head.underZ],
    },
  ];
}

const widestUp = (machine: Machine) =>
  upperReach(machine).reduce((most, part) => (part.radius > most.radius ? part : most));
/** mm, at its narrowest reading, and less what the clips of a ring take of it. */
const openingRadius = ({ terminal, lipClip }: Machine) =>
  terminal.openingDiameter.low / 2 - (lipClip?.inside ?? 0);

export function upperPartsPass(machine: Machine): Finding {
  const widest = widestUp(machine);
  const opening = openingRadius(machine);
  const clips = machine.lipClip ? ' between the clips of its ring' : '';
  return judge({
    id: 'lip/parts-pass',
    title: `Widest part above the rim, the ${widest.what}, through the terminal’s opening`,
    measured: widest.radius,
    required: opening - PASSING_ROOM.value,
    unit: 'mm',
    sense: 'max',
    basis: `${PASSING_ROOM.value} mm less than the opening’s radius of ${opening.toFixed(1)} mm${clips}; ${PASSING_ROOM.source}`,
    status: PASSING_ROOM.status,
    grave: widest.radius > opening,
    remedy: () =>
      openingRemedy(
        machine,
        2 * (widest.radius + PASSING_ROOM.value + (machine.lipClip?.inside ?? 0)),
        (tried) => meets(widestUp(tried).radius, openingRadius(tried) - PASSING_ROOM.value, 'max'),
      ),
    at: { point: widest.at },
  });
}

/** mm of air from upper parts to the inside of the dome over them, least of all of them. */
function roomUnderDome(machine: Machine): { what: string; room: number; at: Point } {
  const shape = terminalShape(machine);
  const { tube, rollers, belt } = machine;
  const { upper } = rollers;
  const beltRadius = upper.outer.high / 2 + upper.crown + belt.thickness;
  const parts = [
    { what: 'tube’s rim', radius: tube.outer.high / 2, z: tube.rimZ },
    { what: 'belt on the upper roller', radius: upper.length / 2, z: upper.axisZ + beltRadius },
    ...upperReach(machine).map(({ what, radius, at }) => ({ what, radius, z: at[2] })),
  ];
  const rooms = parts.map(({ what, radius, z }) => ({
    what,
    room: roofAt(shape, radius / 1000) * 1000 - z,
    at: [radius, 0, z] as const,
  }));
  return rooms.reduce((least, part) => (part.room < least.room ? part : least));
}

export function underDome(machine: Machine): Finding {
  const { what, room, at } = roomUnderDome(machine);
  const { terminal } = machine;
  return judge({
    id: 'lip/under-dome',
    title: `Room under the terminal’s dome, over the ${what}`,
    measured: room,
    required: PASSING_ROOM.value,
    unit: 'mm',
    sense: 'min',
    basis: `inside of the dome, sheet of ${lengthText(machine, terminal.shell)} taken off; ${PASSING_ROOM.meaning}, ${PASSING_ROOM.source}`,
    status: PASSING_ROOM.status,
    grave: room <= 0,
    remedy: () => {
      const holds = (tried: Machine) => roomUnderDome(tried).room >= PASSING_ROOM.value;
      const less = nearestThatHolds(terminal.insertion, 0, 1, (insertion) =>
        holds(withInsertion(machine, insertion)),
      );
      if (less === undefined) return 'a larger terminal, or a smaller upper roller';
      const shown = lengthText(machine, less);
      return {
        text: `an insertion of ${shown} instead of ${lengthText(machine, terminal.insertion)}`,
        tries: attempt(machine, `an insertion of ${shown}`, { 'terminal.insertion': less }, holds),
      };
    },
    at: { point: at },
  });
}
