// Gauss-Legendre rules and Legendre polynomials on [-1, 1].

export interface Rule {
  readonly nodes: Float64Array;
  readonly weights: Float64Array;
}

const RULES = new Map<number, Rule>();

/** Gauss-Legendre rule with `count` nodes, exact to degree 2 count - 1. @param count whole, above 0 */
export function gaussRule(count: number): Rule {
  const known = RULES.get(count);
  if (known) return known;
  const nodes = new Float64Array(count);
  const weights = new Float64Array(count);
  for (let i = 0; i < count; i++) {
    // Tricomi's starting value, then Newton's method.
    let x = -Math.cos((Math.PI * (i + 0.75)) / (count + 0.5));
    let slope = 1;
    for (let step = 0; step < 20; step++) {
      const { value, derivative } = legendreAt(count, x);
      slope = derivative;
      const change = value / derivative;
      x -= change;
      if (Math.abs(change) < 1e-15) break;
    }
    nodes[i] = x;
    weights[i] = 2 / ((1 - x * x) * slope * slope);
  }
  const rule = { nodes, weights };
  RULES.set(count, rule);
  return rule;
}

function legendreAt(degree: number, x: number): { value: number; derivative: number } {
  let [before, value] = [1, x];
  for (let n = 2; n <= degree; n++)
    [before, value] = [value, ((2 * n - 1) * x * value - (n - 1) * before) / n];
  return { value, derivative: (degree * (x * value - before)) / (x * x - 1) };
}

/** Writes P0 to P(count-1) at x into `out`. */
export function legendre(count: number, x: number, out: Float64Array): void {
  out[0] = 1;
  if (count > 1) out[1] = x;
  for (let n = 2; n < count; n++) out[n] = ((2 * n - 1) * x * out[n - 1]! - (n - 1) * out[n - 2]!) / n;
}
