/** A straight line through points, y = intercept + slope x, with the standard errors of both. */
export interface Line {
  readonly intercept: number;
  readonly slope: number;
  readonly interceptError: number;
  readonly slopeError: number;
  /** Standard deviation of the points around the line; n - 2 degrees of freedom. */
  readonly residualDeviation: number;
  readonly meanX: number;
  /** Sum of squares of x around its mean. */
  readonly spreadX: number;
}

/**
 * Ordinary least squares, textbook formulas around the mean.
 * @param knownDeviation what is known of the points' standard deviation: the errors are never stated smaller than it allows
 * @throws RangeError for fewer than three points, or all at one x
 */
export function fitLine(points: readonly (readonly [x: number, y: number])[], knownDeviation = 0): Line {
  const n = points.length;
  if (n < 3) throw new RangeError(`a line with errors takes three points, got ${n}`);
  const meanX = points.reduce((sum, [x]) => sum + x, 0) / n;
  const meanY = points.reduce((sum, [, y]) => sum + y, 0) / n;
  const spreadX = points.reduce((sum, [x]) => sum + (x - meanX) ** 2, 0);
  if (!(spreadX > 0)) throw new RangeError('all points stand at one x');
  const slope = points.reduce((sum, [x, y]) => sum + (x - meanX) * (y - meanY), 0) / spreadX;
  const intercept = meanY - slope * meanX;
  const squares = points.reduce((sum, [x, y]) => sum + (y - intercept - slope * x) ** 2, 0);
  const residualDeviation = Math.sqrt(squares / (n - 2));
  const deviation = Math.max(residualDeviation, knownDeviation);
  return {
    intercept,
    slope,
    interceptError: deviation * Math.sqrt(1 / n + meanX ** 2 / spreadX),
    slopeError: deviation / Math.sqrt(spreadX),
    residualDeviation,
    meanX,
    spreadX,
  };
}

/**
 * Student's t that is exceeded to either side in 5 % of cases, by degrees of freedom from 1. Textbook table; recomputed from the
 * distribution in the tests.
 */
const STUDENT_95 = [12.706, 4.303, 3.182, 2.776, 2.571, 2.447, 2.365, 2.306, 2.262, 2.228];

/** @throws RangeError for degrees of freedom that are not 1 to 10 */
export function student95(degreesOfFreedom: number): number {
  const t = STUDENT_95[degreesOfFreedom - 1];
  if (t === undefined) throw new RangeError(`no t for ${degreesOfFreedom} degrees of freedom`);
  return t;
}
