import type { Machine } from '../machine/machine.js';
import { plastic } from '../stock/plastics.js';
import type { Constant } from '../stock/row.js';
import { arc, closestT, line, type Place, placeOn, type Segment } from './boundary/curve.js';
import { isWithin } from './boundary/lines.js';
import type { Body, Problem } from './boundary/problem.js';
import { type MetalEdge, upperMetal } from './metal.js';
import { roofAt, shellProfile, terminalShape } from './terminal-shape.js';

/**
 * The two ends between which a column's charge lies: polarised by the field and free of surface charge, or charged (or
 * leaking) until the potential along it is even.
 */
export type Bound = 'polarised' | 'graded';
export const BOUNDS = ['polarised', 'graded'] as const satisfies readonly Bound[];

/** What counts as the endless grounded plane: the bench under the feet, or, as if there were no bench, the floor. */
export type Ground = 'bench' | 'floor';

/** Names of the bodies that are asked for later. */
export const BODY = {
  terminal: 'terminal',
  plate: 'base plate',
  tube: 'tube',
  foot: 'printed foot',
  upperComb: 'upper comb',
  upperMetal: 'lowest metal above',
  lowerComb: 'lower comb',
  belt: 'belt',
} as const;

const shape = (value: number, unit: string, meaning: string): Constant => ({
  value,
  unit,
  meaning,
  source: 'common practice, no source',
  status: 'common-practice',
});
/** Where the stock has none of a print's plastic. */
const PRINTED_PERMITTIVITY: Constant = {
  value: 3,
  unit: '1',
  meaning: 'relative permittivity of printed plastics: 2.6 to 3.6',
  source: 'common practice, no source',
  status: 'common-practice',
};

/** Metal that is no body of revolution counts as a ring at its lowest (or highest) edge. */
export const RING_RADIUS = shape(2, 'mm', 'thickness radius of the ring that stands for metalwork');
const RING_AIR = shape(0.5, 'mm', 'air that is left between such a ring and what it would touch');
const PLYWOOD = shape(2.5, '1', 'relative permittivity of dry plywood, 2 to 3');
const ELECTRODE = shape(2, 'mm', 'thickness of the ground electrode under an insulating plate');

/** What was idealised on the way from the machine to bodies of revolution, in words. */
export const IDEALISED: readonly string[] = [
  'screws, stud, axles, bearings and wires are no bodies of revolution: the upper comb, the lowest other metal above and the lower comb are rings of 2 mm radius at their edges, other metal is left out',
  'base plate round, its edges half round; bench (or floor) an endless grounded plane; walls and people far away',
  'printed collar, mount and lock ring one solid ring around the tube’s foot; printed parts within the terminal left out',
  'a spun shell is the ellipsoid of its diameter that ends at its lip; the charge of the belt is spread around a cylinder',
];

const m = (mm: number) => mm / 1000;

/**
 * The machine as bodies of revolution: terminal at 1 V, ground at 0, the belt with 1 C per metre of column (both to be
 * scaled by drives). Lengths in m.
 */
export function machineProblem(machine: Machine, bound: Bound, ground: Ground): Problem {
  const { plate } = machine;
  const floor = -m(plate.thickness + plate.feet + (ground === 'floor' ? plate.bench : 0));
  return {
    floor,
    bodies: [
      { kind: 'conductor', name: BODY.terminal, potential: 1, profile: shellProfile(terminalShape(machine)) },
      ...base(machine),
      ...(bound === 'polarised' ? [tube(machine), ...foot(machine)] : [gradedColumn(machine)]),
      ...rings(machine, floor),
      belt(machine, floor),
    ],
  };
}

/** Counter-clockwise polygon. */
function polygon(corners: readonly Place[]): Segment[] {
  const apart = corners.filter((corner, i) => {
    const [r, z] = corners[(i + 1) % corners.length]!;
    return Math.hypot(corner[0] - r, corner[1] - z) > 1e-7;
  });
  return apart.map((corner, i) => line(corner, apart[(i + 1) % apart.length]!));
}

/** A disc with a hole, both edges half round. @param split radius at which its top has a corner point */
function washer(inner: number, outer: number, bottom: number, top: number, split: number): Segment[] {
  const edge = (top - bottom) / 2;
  const middle = (top + bottom) / 2;
  const [from, to] = [inner + edge, outer - edge];
  const tops = split > from && split < to ? [to, split, from] : [to, from];
  return [
    line([from, bottom], [to, bottom]),
    arc([to, middle], edge, -Math.PI / 2, Math.PI / 2),
    ...tops.slice(1).map((r, i) => line([tops[i]!, top], [r, top])),
    arc([from, middle], edge, Math.PI / 2, (3 * Math.PI) / 2),
  ];
}

function base({ plate, base: layout, tube: { outer } }: Machine): Body[] {
  const [inner, radius, thickness] = [
    m(layout.plate.openingRadius),
    m(plate.diameter) / 2,
    m(plate.thickness),
  ];
  const split = m(outer.mean) / 2;
  const conductor = (bottom: number, top: number): Body => ({
    kind: 'conductor',
    name: BODY.plate,
    potential: 0,
    profile: washer(inner, radius, bottom, top, split),
  });
  if (plate.conductive) return [conductor(-thickness, 0)];
  const under = m(ELECTRODE.value);
  const board: Place[] = [
    [inner + under / 2, -thickness],
    [radius - under / 2, -thickness],
    [radius - under / 2, 0],
    ...(split > inner + under / 2 ? [[split, 0] as const] : []),
    [inner + under / 2, 0],
  ];
  return [
    conductor(-thickness - under, -thickness),
    {
      kind: 'dielectric',
      name: 'board',
      permittivity: permittivityOf(plate.material),
      profile: polygon(board),
    },
  ];
}

function permittivityOf(material: Machine['plate']['material']): number {
  return material === 'acrylic-cast' ? plastic(material).permittivity!.value : PLYWOOD.value;
}

/** Air (m) under the dome: what would not fit into the terminal ends that far below it in the field; a finding tells of it. */
const UNDER_DOME = 0.002;

/** Height (m) of the tube’s rim. */
function rimIn(machine: Machine): number {
  const { outer, rimZ } = machine.tube;
  return Math.min(m(rimZ), roofAt(terminalShape(machine), m(outer.mean) / 2) - UNDER_DOME);
}

function tube(machine: Machine): Body {
  const { inner, outer, footZ, material } = machine.tube;
  const [ri, ro, low] = [m(inner.likely) / 2, m(outer.mean) / 2, m(footZ)];
  const high = rimIn(machine);
  return {
    kind: 'dielectric',
    name: BODY.tube,
    permittivity: plastic(material).permittivity!.value,
    profile: polygon([
      [ri, low],
      [ro, low],
      [ro, high],
      [ri, high],
    ]),
  };
}

/** m between the foot as it is modelled and the terminal: on a machine so short that they meet, the foot ends below. */
const UNDER_LIP = 0.004;

/**
 * Mount, lock ring and collar as one ring; none where they conduct, since then they belong to the plate, and none where
 * the terminal leaves no room for it.
 */
function foot({ grip, base: layout, plate, tube: { outer, footZ }, terminal, print }: Machine): Body[] {
  const room = m(terminal.lipZ) - UNDER_LIP;
  if (print.conductive || room <= m(layout.collar.clampGap + layout.collar.height) + UNDER_LIP) return [];
  const edge = m(plate.conductive ? plate.thickness : ELECTRODE.value) / 2;
  const [ro, low] = [m(outer.mean) / 2, m(footZ)];
  const inner = Math.min(ro, Math.max(m(grip.mount.stopRadius), m(layout.plate.openingRadius) + edge));
  const [flange, height] = [m(layout.collar.flangeRadius), m(layout.collar.clampGap + layout.collar.height)];
  const [ring, top] = [m(grip.ring.outerRadius), Math.min(m(grip.mount.headTop), room)];
  return [
    {
      kind: 'dielectric',
      name: BODY.foot,
      permittivity: (plastic(print.material).permittivity ?? PRINTED_PERMITTIVITY).value,
      profile: polygon([
        [inner, 0],
        [flange, 0],
        [flange, height],
        [ring, height],
        [ring, top],
        [ro, top],
        [ro, low],
        [inner, low],
      ]),
    },
  ];
}

/** The column's outside with an even gradient from the plate to the lip's plane, and the terminal's potential above. */
function gradedColumn(machine: Machine): Body {
  const [ro, lip, rim] = [m(machine.tube.outer.mean) / 2, m(machine.terminal.lipZ), rimIn(machine)];
  return {
    kind: 'graded',
    name: BODY.tube,
    profile: [line([ro, 0], [ro, lip]), ...(rim > lip ? [line([ro, lip], [ro, rim])] : [])],
    potential: ([, z]) => Math.min(1, z / lip),
  };
}

const torus = (name: string, centre: Place, potential: number): Body => ({
  kind: 'conductor',
  name,
  potential,
  profile: [arc(centre, m(RING_RADIUS.value), 0, 2 * Math.PI)],
});

/** Middle of the ring that stands for an upper edge of metal, moved out of what it would touch. */
function ring(
  name: string,
  { radius, z }: MetalEdge,
  machine: Machine,
): { readonly name: string; readonly centre: Place } {
  const { tube: pipe } = machine;
  const [thick, air] = [m(RING_RADIUS.value), m(RING_AIR.value)];
  const [ri, rim] = [m(pipe.inner.likely) / 2, m(pipe.rimZ)];
  // In the bore it stays clear of the wall, above the rim of the rim.
  const inBore = m(z) < rim;
  const r = Math.max(thick + air, inBore ? Math.min(m(radius), ri - thick - air) : m(radius));
  return { name, centre: [r, thick + (inBore ? m(z) : Math.max(m(z), rim + air))] };
}

/** m from a ring’s middle to anything else, at least. */
const CLEAR = m(RING_RADIUS.value + RING_AIR.value);

/** Whether a ring lies in the terminal’s hollow, clear of its sheet. */
function standsClear(terminal: readonly Segment[], centre: Place): boolean {
  return (
    !isWithin(terminal, centre) &&
    terminal.every((segment) => {
      const [r, z] = placeOn(segment, closestT(segment, ...centre));
      return Math.hypot(centre[0] - r, centre[1] - z) > CLEAR;
    })
  );
}

/** mm: rings closer to each other than this are one. */
const ONE_RING = 2.5 * RING_RADIUS.value;

/** @param floor m; a lower comb that does not hang clear of it stands in no air that counts */
function rings(machine: Machine, floor: number): Body[] {
  const edges = upperMetal(machine);
  const comb = edges.find(({ what }) => what === BODY.upperComb)!;
  const lowest = edges.reduce((low, edge) => (edge.z < low.z ? edge : low));
  const apart =
    Math.hypot(comb.radius - lowest.radius, comb.z - Math.max(lowest.z, machine.tube.rimZ)) > ONE_RING;
  const { lower } = machine.combs;
  const upper = [
    ring(BODY.upperComb, comb, machine),
    ...(apart ? [ring(BODY.upperMetal, lowest, machine)] : []),
  ];
  const terminal = shellProfile(terminalShape(machine));
  const beltRadius = beltCylinder(machine);
  return [
    // What collides with the terminal has no field of its own; a finding tells of it.
    ...upper
      .filter(({ centre }) => standsClear(terminal, centre) && Math.abs(centre[0] - beltRadius) > CLEAR)
      .map(({ name, centre }) => torus(name, centre, 1)),
    ...(m(lower.plane - 2 * RING_RADIUS.value - RING_AIR.value) > floor
      ? [torus(BODY.lowerComb, [m(lower.tip), m(lower.plane) - m(RING_RADIUS.value)], 0)]
      : []),
  ];
}

/** m: half the width of the belt’s loop. */
function beltCylinder({ belt: { thickness }, rollers: { lower, upper } }: Machine): number {
  return m(Math.min(lower.outer.mean, upper.outer.mean) + thickness) / 2;
}

/** 1 C/m, evenly around a cylinder as wide as the belt’s loop, from roller to roller. */
function belt(machine: Machine, floor: number): Body {
  const { lower, upper } = machine.rollers;
  const radius = beltCylinder(machine);
  const perArea = 1 / (2 * Math.PI * radius);
  const low = Math.max(m(lower.axisZ), floor + m(RING_AIR.value));
  const high = Math.min(m(upper.axisZ), roofAt(terminalShape(machine), radius) - UNDER_DOME);
  return {
    kind: 'surface-charge',
    name: BODY.belt,
    profile: [line([radius, low], [radius, high])],
    density: () => perArea,
  };
}
