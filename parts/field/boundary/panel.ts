import type { Boundary } from './boundaries.js';
import { between, closestT, type Segment, type Trace, trace } from './curve.js';
import { gaussRule, legendre } from './gauss.js';

/** What a panel needs to know of the surface it lies on. */
export type Surface = Pick<Boundary, 'segment' | 'freeStart' | 'freeEnd'>;

/** Places along a panel with what charge there counts for: weight of the rule times meridian length. */
export interface Points {
  readonly count: number;
  readonly r: Float64Array;
  readonly z: Float64Array;
  readonly measure: Float64Array;
  /** P_k at each place, `order` of them one after another. */
  readonly basis: Float64Array;
}

const spot: Trace = { r: 0, z: 0, dr: 0, dz: 0 };

/**
 * A piece of a surface on which the charge is a polynomial. The polynomial runs over u, which goes from 0 to 1 along the
 * whole segment: u is the segment's own parameter, but at the free edge of a sheet u^2 (or sin^2) is, which takes up the
 * root that the charge has there. xi runs from -1 to 1 along the panel.
 */
export class Panel {
  /** For places beyond `FAR`, and for those between it and `NEAR`. */
  readonly sparse: Points;
  readonly dense: Points;
  /** What the panel covers of its segment. */
  private readonly part: Segment;
  private readonly isEdged: boolean;
  private readonly edgedMeasure: number;
  /** Middle, half of the extent, and length along the surface; m. */
  readonly r: number;
  readonly z: number;
  readonly reach: number;
  readonly length: number;
  /** Collocation places: xi, place and unit normal to the segment's right. */
  readonly nodes: {
    readonly xi: Float64Array;
    readonly r: Float64Array;
    readonly z: Float64Array;
    readonly nr: Float64Array;
    readonly nz: Float64Array;
  };

  constructor(
    readonly surface: Surface,
    readonly from: number,
    readonly to: number,
    readonly order: number,
  ) {
    this.isEdged = surface.freeStart || surface.freeEnd;
    this.edgedMeasure = ((to - from) / 2) * segmentScale(surface.segment);
    this.part = between(surface.segment, parameterAt(surface, from), parameterAt(surface, to));
    this.dense = this.points(order + 8);
    this.sparse = this.points(order + 1);
    this.trace(0);
    this.r = spot.r;
    this.z = spot.z;
    let reach = 0;
    for (const xi of [-1, -0.5, 0.5, 1]) {
      this.trace(xi);
      reach = Math.max(reach, Math.hypot(spot.r - this.r, spot.z - this.z));
    }
    this.reach = reach;
    this.length = this.lengthBetween(-1, 1);
    const { nodes: xi } = gaussRule(order);
    const [r, z, nr, nz] = Array.from({ length: 4 }, () => new Float64Array(order)) as [
      Float64Array,
      Float64Array,
      Float64Array,
      Float64Array,
    ];
    for (let i = 0; i < order; i++) {
      this.trace(xi[i]!);
      const size = Math.hypot(spot.dr, spot.dz);
      r[i] = spot.r;
      z[i] = spot.z;
      nr[i] = spot.dz / size;
      nz[i] = -spot.dr / size;
    }
    this.nodes = { xi, r, z, nr, nz };
  }

  /** Place and derivative by xi, left in `spot`; returned for reading at once. */
  trace(xi: number): Trace {
    const half = (this.to - this.from) / 2;
    const u = xi <= 0 ? this.from + (1 + xi) * half : this.to - (1 - xi) * half;
    if (!this.isEdged) {
      trace(this.surface.segment, u, spot);
      spot.dr *= half;
      spot.dz *= half;
      return spot;
    }
    trace(this.surface.segment, parameterAt(this.surface, u), spot);
    const slope = slopeAt(this.surface, u) * half;
    spot.dr *= slope;
    spot.dz *= slope;
    return spot;
  }

  /** Meridian length per xi that the polynomial is a density over: at free edges a constant, so that the charge per area has its root. */
  measureOf({ dr, dz }: Trace): number {
    return this.isEdged ? this.edgedMeasure : Math.sqrt(dr * dr + dz * dz);
  }

  /** Charge per area over the polynomial's value. */
  densityFactor(xi: number): number {
    if (!this.isEdged) return 1;
    this.trace(xi);
    return this.edgedMeasure / Math.hypot(spot.dr, spot.dz);
  }

  /** xi of the place on the panel closest to a place. */
  closest(r: number, z: number): number {
    // Along the panel alone: on a wide arc the whole segment's closest place may lie beyond the panel's farther end.
    const part = closestT(this.part, r, z);
    if (!this.isEdged) return 2 * part - 1;
    const [low, high] = [parameterAt(this.surface, this.from), parameterAt(this.surface, this.to)];
    const u = stretchAt(this.surface, low + part * (high - low));
    const xi = (2 * (u - this.from)) / (this.to - this.from) - 1;
    return Math.min(1, Math.max(-1, xi));
  }

  /** Points for a place that is `distance` from the panel's middle, in halves of its extent: more the closer it is. */
  pointsFor(distance: number): Points {
    return distance > FAR ? this.sparse : this.dense;
  }

  private points(count: number): Points {
    const rule = gaussRule(count);
    const { order } = this;
    const points = {
      count,
      r: new Float64Array(count),
      z: new Float64Array(count),
      measure: new Float64Array(count),
      basis: new Float64Array(count * order),
    };
    const scratch = new Float64Array(order);
    for (let q = 0; q < count; q++) {
      const xi = rule.nodes[q]!;
      points.measure[q] = this.measureOf(this.trace(xi)) * rule.weights[q]!;
      points.r[q] = spot.r;
      points.z[q] = spot.z;
      legendre(order, xi, scratch);
      points.basis.set(scratch, q * order);
    }
    return points;
  }

  private lengthBetween(from: number, to: number): number {
    const { nodes, weights } = gaussRule(8);
    let sum = 0;
    for (let q = 0; q < 8; q++) {
      this.trace((from + to + (to - from) * nodes[q]!) / 2);
      sum += (Math.hypot(spot.dr, spot.dz) * weights[q]! * (to - from)) / 2;
    }
    return sum;
  }

  /** Sum of the basis with these coefficients at xi. */
  valueAt(coefficients: ArrayLike<number>, offset: number, xi: number): number {
    let [before, now] = [1, xi];
    let sum = coefficients[offset]!;
    if (this.order > 1) sum += coefficients[offset + 1]! * xi;
    for (let n = 2; n < this.order; n++) {
      [before, now] = [now, ((2 * n - 1) * xi * now - (n - 1) * before) / n];
      sum += coefficients[offset + n]! * now;
    }
    return sum;
  }

  halves(): [Panel, Panel] {
    const middle = (this.from + this.to) / 2;
    return [
      new Panel(this.surface, this.from, middle, this.order),
      new Panel(this.surface, middle, this.to, this.order),
    ];
  }
}

/** The segment's own parameter at u: at free edges u^2, (u - 2) u turned round, or sin^2 where both are free. */
function parameterAt({ freeStart, freeEnd }: Surface, u: number): number {
  if (freeStart && freeEnd) return Math.sin((Math.PI / 2) * u) ** 2;
  if (freeStart) return u * u;
  return freeEnd ? u * (2 - u) : u;
}

function slopeAt({ freeStart, freeEnd }: Surface, u: number): number {
  if (freeStart && freeEnd) return (Math.PI / 2) * Math.sin(Math.PI * u);
  if (freeStart) return 2 * u;
  return freeEnd ? 2 * (1 - u) : 1;
}

/** u at a parameter of the segment. */
function stretchAt({ freeStart, freeEnd }: Surface, t: number): number {
  if (freeStart && freeEnd) return (2 / Math.PI) * Math.asin(Math.sqrt(t));
  if (freeStart) return Math.sqrt(t);
  return freeEnd ? 1 - Math.sqrt(1 - t) : t;
}

/** Unknowns on a panel at most. */
export const MOST_ORDER = 16;

/** Distances from a panel's middle over half its extent: beyond `FAR` few points do, within `NEAR` the place is treated by itself. */
export const FAR = 4;
export const NEAR = 2;

function segmentScale(segment: Segment): number {
  return segment.kind === 'line'
    ? Math.hypot(segment.to[0] - segment.from[0], segment.to[1] - segment.from[1])
    : Math.max(...segment.radii) * Math.abs(segment.end - segment.start);
}
