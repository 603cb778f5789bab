import { expect } from 'vitest';
import { arc, type Place, type Segment } from '../../../parts/field/boundary/curve.js';
import type { Conductor, Floating } from '../../../parts/field/boundary/problem.js';
import { VACUUM_PERMITTIVITY } from '../../../parts/stock/air.js';

/** 4 pi eps0, F/m: the capacitance of a sphere over its radius. */
export const FOUR_PI_EPSILON = 4 * Math.PI * VACUUM_PERMITTIVITY.value;

/** From the lower pole to the upper one. @param height of its centre, m */
export const ball = (radius: number | Place, height = 0): Segment[] => [
  arc([0, height], radius, -Math.PI / 2, Math.PI / 2),
];

/** The inside of a ball's surface, from the upper pole to the lower one. */
export const hollow = (radius: number | Place, height = 0): Segment[] => [
  arc([0, height], radius, Math.PI / 2, -Math.PI / 2),
];

export const ring = (radius: number, thickness: number, height = 0): Segment[] => [
  arc([radius, height], thickness, 0, 2 * Math.PI),
];

export const conductor = (
  name: string,
  profile: readonly Segment[],
  potential: number | Floating = 1,
): Conductor => ({ kind: 'conductor', name, profile, potential });

/** Fails where a value is farther from what is expected than this share of it. */
export function within(measured: number, expected: number, share: number, what = ''): void {
  expect(Math.abs(measured / expected - 1), `${what} ${measured} instead of ${expected}`).toBeLessThanOrEqual(
    share,
  );
}
