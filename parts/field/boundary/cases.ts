import { arc, line, type Segment } from './curve.js';
import type { Body, Problem } from './problem.js';

export interface CaseInput {
  terminal: { sphereRadius: number; openingRadius: number; lipRadius: number; shell: number };
  column: { outerRadius: number; wall: number; length: number; epsr: number; insertion: number };
  base: {
    plateRadius: number;
    plateThickness: number;
    floorGap: number;
    groundPlaneRadius: number | null;
    floor: boolean;
  };
  combRing?: { ringRadius: number; z: number; minorRadius: number };
  collars?: { outerRadius: number; z0: number; z1: number; epsr: number }[];
}

export function sphereWithLip(
  centre: number,
  radius: number,
  shell: number,
  beadR: number,
  bead: number,
): Segment[] {
  const beadZ = centre - Math.sqrt((radius - bead) ** 2 - beadR ** 2);
  const towards = Math.atan2(beadZ - centre, beadR);
  const inner = radius - shell;
  const d = radius - bead;
  const off = Math.acos(Math.min(1, (d * d + inner * inner - bead * bead) / (2 * d * inner)));
  const meet = towards + off;
  const from = Math.atan2(centre + inner * Math.sin(meet) - beadZ, inner * Math.cos(meet) - beadR);
  let end = towards;
  while (end <= from) end += 2 * Math.PI;
  return [
    arc([0, centre], inner, Math.PI / 2, meet),
    arc([beadR, beadZ], bead, from, end),
    arc([0, centre], radius, towards, Math.PI / 2),
  ];
}

export function problemOfCase(input: CaseInput): Problem {
  const m = (mm: number) => mm / 1000;
  const { terminal, column, base, combRing, collars = [] } = input;
  const R = m(terminal.sphereRadius);
  const bead = m(terminal.lipRadius);
  const lipZ = m(column.length - column.insertion);
  const beadR = m(terminal.openingRadius) + bead;
  const centre = lipZ + bead + Math.sqrt((R - bead) ** 2 - beadR ** 2);
  const [ro, ri, L] = [m(column.outerRadius), m(column.outerRadius - column.wall), m(column.length)];
  const t = m(base.plateThickness);
  const pr = m(base.plateRadius);
  const floorZ = -t - m(base.floorGap);
  const bodies: Body[] = [
    {
      kind: 'conductor',
      name: 'terminal',
      profile: sphereWithLip(centre, R, m(terminal.shell), beadR, bead),
      potential: 1,
    },
    {
      kind: 'dielectric',
      name: 'tube',
      permittivity: column.epsr,
      profile: [
        line([ri, 0], [ro, 0]),
        line([ro, 0], [ro, L]),
        line([ro, L], [ri, L]),
        line([ri, L], [ri, 0]),
      ],
    },
  ];
  const onFloor = base.floor && base.floorGap === 0;
  const rim = onFloor ? Math.min(0.003, t) : t / 2;
  bodies.push({
    kind: 'conductor',
    name: 'plate',
    potential: 0,
    profile: onFloor
      ? [arc([pr - rim, -rim], rim, 0, Math.PI / 2), line([pr - rim, 0], [0, 0])]
      : [
          line([0, -t], [pr - rim, -t]),
          arc([pr - rim, -rim], rim, -Math.PI / 2, Math.PI / 2),
          line([pr - rim, 0], [0, 0]),
        ],
  });
  if (combRing)
    bodies.push({
      kind: 'conductor',
      name: 'comb',
      potential: 1,
      profile: [arc([m(combRing.ringRadius), m(combRing.z)], m(combRing.minorRadius), 0, 2 * Math.PI)],
    });
  collars.forEach((c, i) => {
    const [r, a, b] = [m(c.outerRadius), m(c.z0), m(c.z1)];
    bodies.push({
      kind: 'dielectric',
      name: `collar ${i}`,
      permittivity: c.epsr,
      profile: [line([ro, a], [r, a]), line([r, a], [r, b]), line([r, b], [ro, b]), line([ro, b], [ro, a])],
    });
  });
  return { bodies, floor: base.floor ? floorZ : undefined };
}
