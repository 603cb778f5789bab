import { arc, line, type Segment } from '../../parts/field/boundary/curve.js';
import type { Body, Problem } from '../../parts/field/boundary/problem.js';
import { type CaseInput, liesOnFloor, rimRadius } from './case.js';

/** Places that several of a case's quantities are told by; m. */
export interface Places {
  /** Of the sphere's middle. */
  readonly centre: number;
  readonly radius: number;
  readonly bead: number;
  readonly beadR: number;
  readonly beadZ: number;
  readonly lipZ: number;
  readonly floorZ: number;
}

const m = (mm: number) => mm / 1000;

export function placesOf({ terminal, column, base }: CaseInput): Places {
  const radius = m(terminal.sphereRadius);
  const bead = m(terminal.lipRadius);
  const beadR = m(terminal.openingRadius) + bead;
  const lipZ = m(column.length - column.insertion);
  const beadZ = lipZ + bead;
  const centre = beadZ + Math.sqrt((radius - bead) ** 2 - beadR ** 2);
  const floorZ = -m(base.plateThickness + base.floorGap);
  return { centre, radius, bead, beadR, beadZ, lipZ, floorZ };
}

/**
 * A hollow sphere whose opening at the bottom has a bead that touches the outside from within. Where the sheet is thicker
 * than the bead, both edges of the opening are rounded with it. Lengths in m; body on the left.
 */
export function sphereWithLip({ centre, radius, bead, beadR, beadZ }: Places, shell: number): Segment[] {
  const inner = radius - shell;
  const touch = Math.atan2(beadZ - centre, beadR);
  const outside = arc([0, centre], radius, touch, Math.PI / 2);
  if (shell > 2 * bead) {
    const upperZ = centre - Math.sqrt((inner + bead) ** 2 - beadR ** 2);
    const upper = Math.atan2(upperZ - centre, beadR);
    return [
      arc([0, centre], inner, Math.PI / 2, upper),
      arc([beadR, upperZ], bead, upper + Math.PI, Math.PI),
      line([beadR - bead, upperZ], [beadR - bead, beadZ]),
      arc([beadR, beadZ], bead, Math.PI, touch + 2 * Math.PI),
      outside,
    ];
  }
  const d = radius - bead;
  const cos = (d * d + inner * inner - bead * bead) / (2 * d * inner);
  // Where bead and inside just touch, rounding may bring the cosine past 1.
  const meet = touch + Math.acos(Math.min(1, cos));
  const from = Math.atan2(centre + inner * Math.sin(meet) - beadZ, inner * Math.cos(meet) - beadR);
  return [
    arc([0, centre], inner, Math.PI / 2, meet),
    arc([beadR, beadZ], bead, from, touch + 2 * Math.PI),
    outside,
  ];
}

const box = (r0: number, r1: number, z0: number, z1: number): Segment[] => [
  line([r0, z0], [r1, z0]),
  line([r1, z0], [r1, z1]),
  line([r1, z1], [r0, z1]),
  line([r0, z1], [r0, z0]),
];

function plateProfile(base: CaseInput['base'], endlessFloor: boolean): Segment[] {
  const [radius, rim, thickness] = [m(base.plateRadius), m(rimRadius(base)), m(base.plateThickness)];
  const flat = radius - rim;
  const top = line([flat, 0], [0, 0]);
  if (!liesOnFloor(base))
    return [
      line([0, -thickness], [flat, -thickness]),
      arc([flat, -rim], rim, -Math.PI / 2, Math.PI / 2),
      top,
    ];
  return [
    ...(endlessFloor ? [] : [line([0, -thickness], [radius, -thickness])]),
    ...(thickness > rim ? [line([radius, -thickness], [radius, -rim])] : []),
    arc([flat, -rim], rim, 0, Math.PI / 2),
    top,
  ];
}

/** A grounded disc at the floor's height: whole, or what of it shows around a plate that lies on it. */
function discOf(base: CaseInput['base'], radius: number, floorZ: number): Body[] {
  const from = liesOnFloor(base) ? m(base.plateRadius) : 0;
  if (radius <= from) return [];
  return [{ kind: 'sheet', name: 'floor', potential: 0, profile: [line([from, floorZ], [radius, floorZ])] }];
}

/** Terminal and comb ring at 1 V; plate, floor and infinity at 0. */
export function problemOf(input: CaseInput): Problem {
  const { terminal, column, base, combRing, collars } = input;
  const places = placesOf(input);
  const disc = base.floor ? base.groundPlaneRadius : undefined;
  const endlessFloor = base.floor && disc === undefined;
  const outer = m(column.outerRadius);
  const bodies: Body[] = [
    {
      kind: 'conductor',
      name: 'terminal',
      potential: 1,
      profile: sphereWithLip(places, m(terminal.shell)),
    },
    { kind: 'conductor', name: 'plate', potential: 0, profile: plateProfile(base, endlessFloor) },
    {
      kind: 'dielectric',
      name: 'tube',
      permittivity: column.epsr,
      profile: box(m(column.outerRadius - column.wall), outer, 0, m(column.length)),
    },
    ...collars.map(
      ({ outerRadius, z0, z1, epsr }, i): Body => ({
        kind: 'dielectric',
        name: `collar ${i + 1}`,
        permittivity: epsr,
        profile: box(outer, m(outerRadius), m(z0), m(z1)),
      }),
    ),
  ];
  if (combRing) {
    const { ringRadius, z, minorRadius } = combRing;
    const profile = [arc([m(ringRadius), m(z)], m(minorRadius), 0, 2 * Math.PI)];
    bodies.push({ kind: 'conductor', name: 'comb', potential: 1, profile });
  }
  if (disc !== undefined) bodies.push(...discOf(base, m(disc), places.floorZ));
  return endlessFloor ? { bodies, floor: places.floorZ } : { bodies };
}
