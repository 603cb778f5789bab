import type { Solution } from '../../parts/field/boundary/solution.js';
import type { CaseInput } from './case.js';
import { placesOf } from './geometry.js';

/** What a case's result may hold, how it is found in a solution, and how far it may be off. */
export interface Quantity {
  readonly key: string;
  readonly unit: string;
  /** Share that a value may be off; `judged` tells whether being farther off counts. */
  readonly bar: number;
  readonly judged: boolean;
  readonly of: (solution: Solution) => number;
}

const C_BAR = 0.001;
const FIELD_BAR = 0.005;
/** Maxima at the edge of an arbitrary zone, or at a corner. */
const SAMPLING_BAR = 0.02;
/** Distance (m) from a collar's corner, where the field has no bound, within which a profile is not compared. */
const CORNER = 0.001;
/** Share of the column's length by which a profile keeps off the plate: on it the mean of both sides would be told. */
const OFF_PLATE = 1e-6;
/** Places along a line between which a greatest value is looked for. */
const SAMPLES = 400;

const m = (mm: number) => mm / 1000;

/** All quantities of a case that are one number. */
export function quantitiesOf(input: CaseInput): Quantity[] {
  const { centre, radius, bead, beadR, beadZ, lipZ, floorZ } = placesOf(input);
  const { column, base, combRing } = input;
  const plate = m(base.plateRadius);
  const outer = m(column.outerRadius);
  const toBead = (r: number, z: number) => Math.hypot(r - beadR, z - beadZ);
  const isOutside = (r: number, z: number) => Math.hypot(r, z - centre) > radius * (1 - 1e-9);
  const peak =
    (name: string, where?: (r: number, z: number) => boolean) =>
    (solution: Solution): number =>
      solution.peakOn(name, where)?.field ?? 0;
  const comb = combRing ? peak('comb') : () => 0;
  const onTop = (_: number, z: number) => z > -1e-9;
  const disc = base.floor ? base.groundPlaneRadius : undefined;
  const hasFloor = base.floor && (disc === undefined || m(disc) > plate);
  const field = (key: string, of: (solution: Solution) => number, judged = true): Quantity => ({
    key,
    unit: 'V/m per V',
    bar: judged ? FIELD_BAR : SAMPLING_BAR,
    judged,
    of,
  });
  const charged = (solution: Solution) =>
    solution.chargeOf('terminal') + (combRing ? solution.chargeOf('comb') : 0);
  return [
    { key: 'C_pF', unit: 'pF', bar: C_BAR, judged: true, of: (solution) => charged(solution) * 1e12 },
    field('Emax_terminal', (solution) => Math.max(peak('terminal')(solution), comb(solution))),
    field(
      'Emax_lip',
      peak('terminal', (r, z) => toBead(r, z) < bead * (1 + 1e-6)),
    ),
    ...(combRing ? [field('Emax_comb', comb)] : []),
    field(
      'E_sphere_top',
      peak('terminal', (r, z) => z > centre && r < 0.15 * radius && isOutside(r, z)),
    ),
    field('Emax_base', peak('plate')),
    field(
      'Emax_sphere_body',
      peak('terminal', (r, z) => isOutside(r, z) && toBead(r, z) >= 3 * bead + 0.01),
      false,
    ),
    field(
      'Emax_plateTop',
      peak('plate', (r, z) => onTop(r, z) && r < plate - 0.006),
      false,
    ),
    field(
      'Emax_plate_under_column',
      peak('plate', (r, z) => onTop(r, z) && r < outer + 0.005),
      false,
    ),
    ...(hasFloor
      ? [
          field(
            'Emax_floor',
            (solution) => floorPeak(solution, floorZ, base, disc === undefined ? undefined : m(disc)),
            false,
          ),
        ]
      : []),
    field('EtMax_column', (solution) => columnPeak(solution, outer, lipZ, input), false),
  ];
}

function floorPeak(
  solution: Solution,
  floorZ: number,
  { plateRadius, floorGap }: CaseInput['base'],
  disc: number | undefined,
): number {
  const plate = m(plateRadius);
  const from = floorGap === 0 ? plate : 0;
  const to = disc === undefined ? 3 * plate : 0.9 * disc;
  return most(from, to, (r) => Math.abs(solution.fieldAt(r, floorZ + 1e-7 * plate)[1]));
}

function columnPeak(solution: Solution, outer: number, lipZ: number, { collars }: CaseInput): number {
  return most(0, lipZ, (z) =>
    isAtCollarCorner(z, collars) ? 0 : Math.abs(axialField(solution, outer, z, lipZ)),
  );
}

function most(from: number, to: number, of: (x: number) => number): number {
  return Array.from({ length: SAMPLES + 1 }, (_, i) => of(from + ((to - from) * i) / SAMPLES)).reduce(
    (best, each) => Math.max(best, each),
    0,
  );
}

const isAtCollarCorner = (z: number, collars: CaseInput['collars']) =>
  collars.some(({ z0, z1 }) => Math.abs(z - m(z0)) < CORNER || Math.abs(z - m(z1)) < CORNER);

const axialField = (solution: Solution, outer: number, z: number, length: number) =>
  solution.fieldAt(outer, Math.max(z, OFF_PLATE * length))[1];

/** Axial field along the tube's outside, V/m per V; what is off as a share of the reference's greatest value. */
export const PROFILE = { key: 'columnProfile', unit: 'V/m per V', bar: FIELD_BAR, judged: true } as const;

export interface Profile {
  readonly z: readonly number[];
  readonly field: readonly number[];
}

/** The place of a profile where a solution is farthest off, and by how much of the profile's greatest value. */
export function worstOfProfile(
  solution: Solution,
  input: CaseInput,
  { z, field }: Profile,
): { readonly z: number; readonly value: number; readonly reference: number; readonly error: number } {
  const greatest = field.reduce((so, each) => Math.max(so, Math.abs(each)), 0);
  let worst = { z: Number.NaN, value: Number.NaN, reference: Number.NaN, error: -1 };
  for (const [i, mm] of z.entries()) {
    if (isAtCollarCorner(m(mm), input.collars)) continue;
    const value = axialField(solution, m(input.column.outerRadius), m(mm), m(input.column.length));
    const error = Math.abs(value - field[i]!) / greatest;
    if (error > worst.error) worst = { z: mm, value, reference: field[i]!, error };
  }
  return worst;
}
