import type { Constant, Sourced } from './row.js';

/** PVC pipe by nominal pipe size, ASTM D1785. Lengths in mm as printed beside the inches. */
export interface PvcPipeRow extends Sourced {
  /** Nominal pipe size in inches: a name, not a diameter. */
  readonly size: string;
  readonly outerInches: number;
  readonly outer: number;
  /** The average outside diameter lies within plus or minus this. */
  readonly outerTolerance: number;
  /** Largest minus smallest diameter at most, by schedule. */
  readonly outOfRound: { readonly schedule40: number; readonly schedule80: number };
  /** Least and largest wall; the tolerance goes up only. Undefined where stock has no row. */
  readonly schedule40: { readonly wallMin: number; readonly wallMax: number } | undefined;
  readonly schedule80: { readonly wallMin: number } | undefined;
  /** Status of the out-of-roundness where it differs from that of the row. */
  readonly outOfRoundStatus: Sourced['status'];
}

const D1785: Sourced = {
  source: 'ASTM D1785, Table 1; walls from a maker’s sheet citing it',
  status: 'verified',
};

type Walls = readonly [min40: number, max40: number, min80: number];

function pipe(
  size: string,
  [outerInches, outer, outerTolerance]: readonly [number, number, number],
  outOfRound: number | readonly [number, number],
  walls?: Walls,
  outOfRoundStatus: Sourced['status'] = 'verified',
): PvcPipeRow {
  const [schedule40, schedule80] = typeof outOfRound === 'number' ? [outOfRound, outOfRound] : outOfRound;
  return {
    size,
    outerInches,
    outer,
    outerTolerance,
    outOfRound: { schedule40, schedule80 },
    schedule40: walls && { wallMin: walls[0], wallMax: walls[1] },
    schedule80: walls && { wallMin: walls[2] },
    outOfRoundStatus,
    ...D1785,
  };
}

/** Size, [outside in, outside mm, tolerance], out-of-round (Sch 40, Sch 80), [Sch 40 min, max, Sch 80 min]. */
export const PVC_PIPES: readonly PvcPipeRow[] = [
  pipe('1/8', [0.405, 10.29, 0.1], 0.41),
  pipe('1/4', [0.54, 13.72, 0.1], 0.41),
  pipe('3/8', [0.675, 17.14, 0.1], 0.41),
  pipe('1/2', [0.84, 21.34, 0.1], 0.41, [2.77, 3.28, 3.73]),
  pipe('3/4', [1.05, 26.67, 0.1], 0.51, [2.87, 3.38, 3.91]),
  pipe('1', [1.315, 33.4, 0.13], 0.51, [3.38, 3.89, 4.55]),
  pipe('1-1/4', [1.66, 42.16, 0.13], 0.61, [3.56, 4.07, 4.85]),
  pipe('1-1/2', [1.9, 48.26, 0.15], 0.61, [3.68, 4.19, 5.08]),
  pipe('2', [2.375, 60.32, 0.15], 0.61, [3.91, 4.42, 5.54]),
  pipe('2-1/2', [2.875, 73.02, 0.18], 0.76, [5.16, 5.77, 7.01], 'from-memory'),
  pipe('3', [3.5, 88.9, 0.2], 0.76, [5.49, 6.15, 7.62], 'from-memory'),
  pipe('4', [4.5, 114.3, 0.23], [2.54, 0.76], [6.02, 6.73, 8.56], 'from-memory'),
  pipe('6', [6.625, 168.28, 0.28], [2.54, 1.78], [7.11, 7.97, 10.97], 'from-memory'),
];

/** Nominal outside diameters of metric thermoplastic pipe, mm. */
export const METRIC_PIPES: Sourced & { readonly diameters: readonly number[] } = {
  diameters: [10, 12, 16, 20, 25, 32, 40, 50, 63, 75, 90, 110, 125, 140, 160, 180, 200, 225, 250],
  source: 'ISO 161-1, ISO 11922-1',
  status: 'verified',
};

export type PipeGrade = 'A' | 'B' | 'C';

/** Share of the nominal diameter and the largest tolerance (mm), ISO 11922-1. */
const PIPE_GRADES: Readonly<Record<PipeGrade, Sourced & { readonly share: number; readonly most: number }>> =
  {
    A: { share: 0.009, most: 10, source: 'ISO 11922-1', status: 'verified' },
    B: { share: 0.006, most: 4, source: 'ISO 11922-1', status: 'verified' },
    C: {
      share: 0.003,
      most: 2,
      source: 'ISO 11922-1; the page read prints 20, a misprint',
      status: 'from-memory',
    },
  };
const LEAST_PIPE_TOLERANCE = 0.3;

/**
 * How far (mm, plus side only) the mean outside diameter of a metric pipe may exceed its nominal one, ISO 11922-1: a
 * share of the diameter, rounded up to 0.1 mm, at least 0.3 mm, at most the grade's limit.
 *
 * @param nominal mm, one of `METRIC_PIPES`
 * @throws RangeError for a diameter that is not in the series
 */
export function pipeOutsideTolerance(nominal: number, grade: PipeGrade): Constant {
  if (!METRIC_PIPES.diameters.includes(nominal)) {
    const series = METRIC_PIPES.diameters.join(', ');
    throw new RangeError(`no metric pipe of ${nominal} mm: the series is ${series} mm`);
  }
  const { share, most, source, status } = PIPE_GRADES[grade];
  // Rounded up in whole tenths of a micrometre, so that 0.3 stays 0.3.
  const tenths = Math.ceil(Math.round(share * nominal * 1e4) / 1e3);
  const value = Math.min(most, Math.max(LEAST_PIPE_TOLERANCE, tenths / 10));
  return { value, unit: 'mm', meaning: `outside tolerance, grade ${grade}, plus side only`, source, status };
}

/** Plastic tube as sold: outside and inside, mm. */
export const ACRYLIC_TUBES: Sourced & {
  readonly sizes: readonly (readonly [outer: number, inner: number])[];
} = {
  sizes: [
    [20, 14],
    [20, 16],
    [30, 24],
    [30, 26],
    [40, 34],
    [50, 44],
    [60, 54],
    [70, 64],
    [80, 74],
    [90, 84],
    [100, 94],
    [120, 114],
    [150, 144],
    [200, 192],
  ],
  source: 'common practice, no source; dealers’ lists',
  status: 'common-practice',
};

/** Tolerance of tube as extruded or cast: plus or minus so many percent of outside diameter and of wall. */
export interface ExtrusionTolerance extends Sourced {
  readonly material: 'acrylic-extruded' | 'acrylic-cast' | 'polycarbonate' | 'pvc';
  readonly wallPercent: number;
  /** Where the tolerance is a share of the diameter. */
  readonly outerPercent?: number;
  /** Where it is a chart: up to so many mm of outside diameter, plus or minus so many mm. */
  readonly outerSteps?: readonly { readonly upTo: number; readonly tolerance: number }[];
}

const INCH = 25.4;
const steps = (...rows: readonly (readonly [inches: number, tolerance: number])[]) =>
  rows.map(([inches, tolerance]) => ({ upTo: inches * INCH, tolerance: tolerance * INCH }));
const CHART: Sourced = { source: 'extruder’s tolerance chart for profiles', status: 'verified' };
const DEALERS: Sourced = {
  source: 'common practice, no source; makers’ sheets vary',
  status: 'common-practice',
};

export const EXTRUSION_TOLERANCES: readonly ExtrusionTolerance[] = [
  { material: 'acrylic-extruded', outerPercent: 1, wallPercent: 10, ...DEALERS },
  { material: 'acrylic-cast', outerPercent: 1, wallPercent: 10, ...DEALERS },
  {
    material: 'polycarbonate',
    outerSteps: steps([1.5, 0.027], [2, 0.035], [3, 0.037], [4, 0.05], [5, 0.065]),
    wallPercent: 8,
    ...CHART,
  },
  {
    material: 'pvc',
    outerSteps: steps([1.5, 0.02], [2, 0.025], [3, 0.03], [4, 0.045]),
    wallPercent: 8,
    ...CHART,
  },
];

/** Outside diameter at which the extruder's chart starts, mm. */
const CHART_START = INCH;

/**
 * What the outside diameter (mm, plus or minus) of a tube of that material may miss its label by.
 *
 * @param outer mm
 * @returns undefined where the chart has no row for the diameter, or the material has none
 */
export function tubeOutsideTolerance(material: string, outer: number): Constant | undefined {
  const row = EXTRUSION_TOLERANCES.find((each) => each.material === material);
  if (!row) return undefined;
  const charted =
    outer >= CHART_START ? row.outerSteps?.find((step) => outer <= step.upTo)?.tolerance : undefined;
  const value = row.outerPercent === undefined ? charted : (row.outerPercent / 100) * outer;
  if (value === undefined) return undefined;
  const meaning = `outside tolerance of ${material} tube, plus or minus`;
  return { value, unit: 'mm', meaning, source: row.source, status: row.status };
}
