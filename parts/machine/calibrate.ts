import type { Constant } from '../stock/row.js';
import type { CouponFeature, CouponKind } from './coupon.js';
import { type Calibration, holeOffset, outsideOffset } from './fits.js';
import { fitLine, student95 } from './least-squares.js';

/** One feature of the coupon with what the caliper said, mm. */
export interface Measured extends CouponFeature {
  readonly readings: readonly number[];
}

/** What one side of the printer does: the fitted line. Printed minus drawn = constant + scale % of the drawn size. */
export interface SideFit {
  /** mm, rounded as it is written */
  readonly constant: number;
  /** %, 0 where the growth is not significant */
  readonly scale: number;
  /** mm, half the 95 % interval of the constant; % of the scale, also where it was found to be nothing */
  readonly constantError: number;
  readonly scaleError: number;
  /** Degrees of freedom of what remains, and its standard deviation, mm. */
  readonly freedom: number;
  readonly residual: number;
}

export interface Calibrated {
  readonly calibration: Calibration;
  readonly hole: SideFit;
  readonly outside: SideFit;
  /** Slot and wall, which did not enter: measured against what the calibration foretells, mm. */
  readonly controls: readonly { readonly label: string; readonly kind: CouponKind; readonly off: number }[];
  readonly notes: readonly string[];
}

/** Why measurements are not taken for a calibration. */
export interface Refused {
  readonly label: string;
  readonly kind: CouponKind | '';
  /** Number of the reading that does not fit, from 0; undefined where the feature or the whole is meant. */
  readonly reading?: number;
  readonly found: string;
  readonly expected: string;
}

const practice = (value: number, unit: string, meaning: string): Constant => ({
  value,
  unit,
  meaning,
  source: 'common practice, no source',
  status: 'common-practice',
});

export const CALIBRATING = {
  features: practice(4, '', 'least number of holes and of outsides that are measured'),
  off: practice(1, 'mm', 'greatest error of a printer that needs calibration and not repair'),
  apart: practice(0.5, 'mm', 'most that readings of one feature differ by'),
  scatter: practice(0.5, 'mm', 'most scatter with which a fit can be promised'),
  outlier: practice(0.25, 'mm', 'a feature this far off what the others say may be misread'),
  outlierDeviations: practice(6, '', 'and is, when this many standard deviations of the others away'),
  alike: practice(0.1, 'mm', 'offsets this large, or this much alike, are worth a note'),
};
/** Scatter is this many standard deviations to either side: about 95 of 100 prints. */
const SCATTER_DEVIATIONS = 2;
/** Calibration is written in steps of this, mm and %. */
const STEP = 0.01;
const SCALE_LIMIT = 3;

const stepped = (value: number) => Math.round(value / STEP) / Math.round(1 / STEP) + 0;
const mean = (values: readonly number[]) => values.reduce((sum, value) => sum + value, 0) / values.length;
const mm = (value: number) => `${value >= 0 ? '+' : ''}${value.toFixed(2)} mm`;

/**
 * The printer's calibration from a measured coupon.
 *
 * Each feature counts once, with the mean of its readings minus its drawn size. Holes and outsides each get a line by ordinary
 * least squares. The slope is used where it differs from nothing by Student's t at 5 % (both sides); else the mean alone. A
 * caliper's permissible error e counts as a standard deviation of e/sqrt(3) (even distribution over +-e), below which nothing is
 * said to be known. Scatter is 2 s, s^2 = variance around the lines + variance of the readings within a feature, and no less
 * than the caliper's error.
 *
 * @param features with at least one reading each; those without are left out by the reader
 * @param caliperError mm
 */
export function calibrate(features: readonly Measured[], caliperError: number): Calibrated | Refused {
  const bad = misread(features) ?? tooFew(features);
  if (bad) return bad;
  const known = caliperError / Math.sqrt(3);
  const of = (kind: CouponKind) => features.filter((each) => each.kind === kind);
  const out = outlier([of('holes'), of('outsides')], known);
  if (out) return out;
  const [hole, outside] = [fitSide(of('holes'), known), fitSide(of('outsides'), known)];

  const freedom = hole.freedom + outside.freedom;
  const around = (hole.residual ** 2 * hole.freedom + outside.residual ** 2 * outside.freedom) / freedom;
  const deviation = Math.sqrt(around + within(features));
  const calibration: Calibration = {
    hole: hole.constant,
    outside: outside.constant,
    holeScale: hole.scale,
    outsideScale: outside.scale,
    scatter: Math.ceil(Math.max(SCATTER_DEVIATIONS * deviation, caliperError) / STEP - 1e-9) * STEP,
  };
  const rounded = { ...calibration, scatter: stepped(calibration.scatter) };
  const beyond = outOfRange(rounded);
  if (beyond) return beyond;
  const controls = [...of('slot'), ...of('wall')].map((each) => ({
    label: each.label,
    kind: each.kind,
    off: mean(each.readings) - foretold(each, rounded),
  }));
  return { calibration: rounded, hole, outside, controls, notes: notes(rounded, controls, caliperError) };
}

/** What the caliper should read on a feature of this coupon, mm: a slot comes out like a hole, a wall like an outside. */
function foretold({ kind, drawn }: CouponFeature, calibration: Calibration): number {
  const inner = kind === 'holes' || kind === 'slot';
  return drawn + (inner ? holeOffset(calibration, drawn) : outsideOffset(calibration, drawn));
}

function fitSide(features: readonly Measured[], known: number): SideFit {
  const points = features.map(({ drawn, readings }) => [drawn, mean(readings) - drawn] as const);
  const n = points.length;
  const line = fitLine(points, known);
  const t = student95(n - 2);
  const grows = Math.abs(line.slope) > t * line.slopeError;
  const scaleError = 100 * t * line.slopeError;
  if (grows) {
    return {
      constant: stepped(line.intercept),
      scale: stepped(100 * line.slope),
      constantError: t * line.interceptError,
      scaleError,
      freedom: n - 2,
      residual: line.residualDeviation,
    };
  }
  const constant = mean(points.map(([, y]) => y));
  const residual = Math.sqrt(points.reduce((sum, [, y]) => sum + (y - constant) ** 2, 0) / (n - 1));
  return {
    constant: stepped(constant),
    scale: 0,
    constantError: (student95(n - 1) * Math.max(residual, known)) / Math.sqrt(n),
    scaleError,
    freedom: n - 1,
    residual,
  };
}

/** Variance (mm2) of the readings within a feature, of all that have several. */
function within(features: readonly Measured[]): number {
  let [squares, freedom] = [0, 0];
  for (const { readings } of features) {
    const middle = mean(readings);
    squares += readings.reduce((sum, value) => sum + (value - middle) ** 2, 0);
    freedom += readings.length - 1;
  }
  return freedom > 0 ? squares / freedom : 0;
}

/** A single reading that cannot be of its feature. */
function misread(features: readonly Measured[]): Refused | undefined {
  for (const { label, kind, drawn, readings } of features) {
    for (const [reading, value] of readings.entries()) {
      if (Math.abs(value - drawn) <= CALIBRATING.off.value) continue;
      const slip = [10, 0.1].find((factor) => Math.abs(value * factor - drawn) <= CALIBRATING.off.value);
      const other = features.find(
        (each) => each.drawn !== drawn && Math.abs(value - each.drawn) <= CALIBRATING.off.value / 2,
      );
      const hint = slip
        ? '; the decimal point seems to have slipped'
        : other
          ? `; it would fit ${other.label} of ${other.kind}`
          : '';
      return {
        label,
        kind,
        reading,
        found: `${value} mm, ${mm(value - drawn)} off${hint}`,
        expected: `within ${CALIBRATING.off.value} mm of the ${drawn} mm it is drawn with`,
      };
    }
    const sorted = [...readings].sort((a, b) => a - b);
    const middle = sorted[Math.floor(sorted.length / 2)]!;
    if (sorted.at(-1)! - sorted[0]! <= CALIBRATING.apart.value) continue;
    const farthest = readings.reduce((a, b) => (Math.abs(b - middle) > Math.abs(a - middle) ? b : a));
    return {
      label,
      kind,
      reading: readings.indexOf(farthest),
      found: `${farthest} mm among readings from ${sorted[0]} to ${sorted.at(-1)} mm`,
      expected: `readings of one feature at most ${CALIBRATING.apart.value} mm apart`,
    };
  }
  return undefined;
}

function tooFew(features: readonly Measured[]): Refused | undefined {
  for (const kind of ['holes', 'outsides'] as const) {
    const count = features.filter((each) => each.kind === kind).length;
    if (count < CALIBRATING.features.value) {
      return {
        label: '',
        kind,
        found: count === 0 ? 'no readings' : `readings of ${count} only`,
        expected: `readings of at least ${CALIBRATING.features.value} ${kind}, small ones and large ones`,
      };
    }
  }
  return undefined;
}

/**
 * The one feature without which the rest lies best, where it is farther off than the rest's own deviation explains. Both sides'
 * residuals are pooled, since one side alone is too few to tell.
 */
function outlier(sides: readonly (readonly Measured[])[], known: number): Refused | undefined {
  let worst: { readonly feature: Measured; readonly off: number; readonly deviations: number } | undefined;
  for (const [i, side] of sides.entries()) {
    for (const feature of side) {
      const rest = side.filter((each) => each !== feature);
      const lines = sides.map((other, j) => ({
        line: lineOf(j === i ? rest : other),
        n: j === i ? rest.length : other.length,
      }));
      const freedom = lines.reduce((sum, { n }) => sum + n - 2, 0);
      const squares = lines.reduce((sum, { line, n }) => sum + line.residualDeviation ** 2 * (n - 2), 0);
      const deviation = Math.max(Math.sqrt(squares / freedom), known);
      const { line, n } = lines[i]!;
      const off = mean(feature.readings) - feature.drawn - line.intercept - line.slope * feature.drawn;
      const unsure = Math.sqrt(1 + 1 / n + (feature.drawn - line.meanX) ** 2 / line.spreadX);
      const deviations = Math.abs(off) / (deviation * unsure);
      if (!worst || deviations > worst.deviations) worst = { feature, off, deviations };
    }
  }
  if (!worst || Math.abs(worst.off) <= CALIBRATING.outlier.value) return undefined;
  if (worst.deviations <= CALIBRATING.outlierDeviations.value) return undefined;
  const { label, kind, readings } = worst.feature;
  return {
    label,
    kind,
    ...(readings.length === 1 && { reading: 0 }),
    found: `${mean(readings).toFixed(2)} mm, ${mm(worst.off)} off what the others say`,
    expected: 'readings that agree with the others; measure it again',
  };
}

const lineOf = (features: readonly Measured[]) =>
  fitLine(features.map(({ drawn, readings }) => [drawn, mean(readings) - drawn]));

function outOfRange({ hole, outside, holeScale, outsideScale, scatter }: Calibration): Refused | undefined {
  const sides = [
    ['holes', hole, holeScale],
    ['outsides', outside, outsideScale],
  ] as const;
  for (const [kind, constant, scale] of sides) {
    if (Math.abs(constant) > CALIBRATING.off.value || Math.abs(scale) > SCALE_LIMIT) {
      return {
        label: '',
        kind,
        found: `an error of ${mm(constant)} and ${scale} % of the size`,
        expected: `at most ${CALIBRATING.off.value} mm and ${SCALE_LIMIT} %: beyond it the printer needs repair, not calibration`,
      };
    }
  }
  if (scatter <= CALIBRATING.scatter.value) return undefined;
  return {
    label: '',
    kind: '',
    found: `readings that scatter by ${scatter.toFixed(2)} mm to either side`,
    expected: `at most ${CALIBRATING.scatter.value} mm: no fit can be promised beyond`,
  };
}

function notes(
  calibration: Calibration,
  controls: Calibrated['controls'],
  caliperError: number,
): readonly string[] {
  const { hole, outside, scatter } = calibration;
  const large = CALIBRATING.alike.value;
  const told: string[] = [];
  const same = Math.sign(hole) === Math.sign(outside) && Math.abs(hole - outside) <= large;
  if (same && Math.min(Math.abs(hole), Math.abs(outside)) >= large) {
    told.push(
      `holes and outsides are off by about the same, ${mm(hole)} and ${mm(outside)}: is the caliper at zero when it is closed?`,
    );
  }
  if (hole >= large && outside <= -large) {
    told.push(
      `holes come out large and outsides small: too little plastic is laid, or holes and outsides changed places in the list`,
    );
  }
  for (const { label, kind, off } of controls) {
    if (Math.abs(off) > scatter + caliperError) {
      told.push(
        `the ${kind} ${label} is ${mm(off)} off what the calibration foretells; round holes and outsides count`,
      );
    }
  }
  return told;
}

/** A value of the machine file that a calibration changes. */
export interface CalibrationChange {
  readonly key: string;
  readonly unit: string;
  readonly from: number;
  readonly to: number;
}

/** What has to be written into the machine file, key by key; nothing for what stays as it is. */
export function calibrationValues(before: Calibration, after: Calibration): CalibrationChange[] {
  const keys = [
    ['hole', 'mm', 'hole'],
    ['hole_scale', '%', 'holeScale'],
    ['outside', 'mm', 'outside'],
    ['outside_scale', '%', 'outsideScale'],
    ['scatter', 'mm', 'scatter'],
  ] as const;
  return keys
    .map(([key, unit, name]) => ({
      key: `print.calibration.${key}`,
      unit,
      from: before[name],
      to: after[name],
    }))
    .filter(({ from, to }) => from !== to);
}
