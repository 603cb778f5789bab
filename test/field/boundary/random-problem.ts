import { arc, line, type Segment } from '../../../parts/field/boundary/curve.js';
import type { Body, Problem } from '../../../parts/field/boundary/problem.js';
import type { CaseInput } from '../../field-cases/case.js';
import { problemOf } from '../../field-cases/geometry.js';
import { ball, conductor, ring } from './bodies.js';

/** Numbers from 0 to 1 that follow from a seed (mulberry32, from memory). */
function dice(seed: number): () => number {
  let state = seed | 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

class Throws {
  private readonly next: () => number;
  constructor(seed: number) {
    this.next = dice(seed);
  }
  between(low: number, high: number): number {
    return low + (high - low) * this.next();
  }
  /** As likely between 1 and 2 as between 2 and 4. */
  scale(low: number, high: number): number {
    return low * (high / low) ** this.next();
  }
  chance(share: number): boolean {
    return this.next() < share;
  }
  pick<T>(of: readonly T[]): T {
    return of[Math.floor(this.next() * of.length)]!;
  }
}

/** A body of about 0.1 m around the origin, with its lower and upper end. */
interface Shape {
  readonly kind: string;
  readonly profile: readonly Segment[];
  readonly low: number;
  readonly high: number;
}

function roundedCylinder(radius: number, half: number, edge: number): Segment[] {
  return [
    line([0, -half], [radius - edge, -half]),
    arc([radius - edge, edge - half], edge, -Math.PI / 2, 0),
    line([radius, edge - half], [radius, half - edge]),
    arc([radius - edge, half - edge], edge, 0, Math.PI / 2),
    line([radius - edge, half], [0, half]),
  ];
}

const moved = (profile: readonly Segment[], by: number): Segment[] =>
  profile.map((segment) =>
    segment.kind === 'line'
      ? line([segment.from[0], segment.from[1] + by], [segment.to[0], segment.to[1] + by])
      : arc([segment.centre[0], segment.centre[1] + by], segment.radii, segment.start, segment.end),
  );

function shapeOf(throws: Throws): Shape {
  const size = throws.scale(0.03, 0.15);
  switch (throws.pick(['spheroid', 'torus', 'cylinder'] as const)) {
    case 'spheroid': {
      const half = size * throws.scale(0.2, 5);
      return { kind: 'spheroid', profile: ball([size, half]), low: -half, high: half };
    }
    case 'torus': {
      const thick = size * throws.between(0.05, 0.6);
      return { kind: 'torus', profile: ring(size, thick), low: -thick, high: thick };
    }
    case 'cylinder': {
      const half = size * throws.scale(0.15, 4);
      const edge = Math.min(size, half) * throws.between(0.05, 0.8);
      return { kind: 'cylinder', profile: roundedCylinder(size, half, edge), low: -half, high: half };
    }
  }
}

const box = (r0: number, r1: number, z0: number, z1: number): Segment[] => [
  line([r0, z0], [r1, z0]),
  line([r1, z0], [r1, z1]),
  line([r1, z1], [r0, z1]),
  line([r0, z1], [r0, z0]),
];

/** Something in the field of a live body; it does not touch it. */
function withCompany(throws: Throws): { kind: string; problem: Problem } {
  const live = shapeOf(throws);
  const bodies: Body[] = [conductor('live', live.profile)];
  let kind = live.kind;
  let low = live.low;
  if (throws.chance(0.4)) {
    const other = shapeOf(throws);
    const at = live.high + throws.scale(0.005, 0.2) - other.low;
    const potential = throws.chance(0.3) ? { net: 'other' } : 0;
    bodies.push(conductor('other', moved(other.profile, at), potential));
    kind += `+${other.kind}`;
  }
  if (throws.chance(0.4)) {
    const inner = throws.scale(0.02, 0.1);
    const height = throws.scale(0.02, 0.2);
    const top = live.low - throws.scale(0.003, 0.05);
    const profile = box(inner, inner + throws.scale(0.002, 0.02), top - height, top);
    bodies.push({ kind: 'dielectric', name: 'tube', profile, permittivity: throws.between(1.5, 7) });
    low = top - height;
    kind += '+tube';
  }
  if (!throws.chance(0.5)) return { kind, problem: { bodies } };
  return { kind: `${kind}+floor`, problem: { bodies, floor: low - throws.scale(0.003, 0.3) } };
}

/** A small machine: hollow sphere with a lip on a tube over a plate. */
function machine(throws: Throws): CaseInput {
  const sphereRadius = throws.between(80, 220);
  const openingRadius = sphereRadius * throws.between(0.2, 0.5);
  const lipRadius = throws.scale(0.5, 10);
  const outerRadius = openingRadius - throws.scale(0.5, 8);
  const length = sphereRadius * throws.between(1.8, 3.5);
  return {
    name: 'machine',
    terminal: { sphereRadius, openingRadius, lipRadius, shell: 1 },
    column: {
      outerRadius,
      wall: throws.between(2, 5),
      length,
      epsr: throws.between(2, 5),
      insertion: sphereRadius * throws.between(0.1, 0.5),
    },
    base: {
      plateRadius: sphereRadius * throws.between(0.7, 1.3),
      plateThickness: 3,
      floorGap: throws.chance(0.5) ? 0 : throws.scale(2, 150),
      groundPlaneRadius: undefined,
      floor: true,
    },
    combRing: undefined,
    collars: [],
  };
}

export interface RandomProblem {
  readonly kind: string;
  readonly problem: Problem;
  /** Name of the body at 1 V. */
  readonly live: string;
}

/** A valid problem that follows from a whole number: a tenth small machines, the rest simple bodies and what is near them. */
export function randomProblem(seed: number): RandomProblem {
  const throws = new Throws(seed);
  if (throws.chance(0.1)) return { kind: 'machine', problem: problemOf(machine(throws)), live: 'terminal' };
  return { ...withCompany(throws), live: 'live' };
}
