/** A place in the meridian plane, m: distance from the axis and height. */
export type Place = readonly [r: number, z: number];

/** A straight piece of a profile. */
export interface Line {
  readonly kind: 'line';
  readonly from: Place;
  readonly to: Place;
}

/** A piece of an ellipse whose axes lie along r and z; a circle where both are equal. Angles in radians from +r towards +z. */
export interface Arc {
  readonly kind: 'arc';
  readonly centre: Place;
  readonly radii: Place;
  readonly start: number;
  readonly end: number;
}

export type Segment = Line | Arc;

export const line = (from: Place, to: Place): Line => ({ kind: 'line', from, to });
export const arc = (centre: Place, radius: number | Place, start: number, end: number): Arc => ({
  kind: 'arc',
  centre,
  radii: typeof radius === 'number' ? [radius, radius] : radius,
  start,
  end,
});

/** Position and derivative on a segment, written over by each call of `trace`. */
export interface Trace {
  r: number;
  z: number;
  dr: number;
  dz: number;
}

/** Place and its derivative with respect to t, which runs from 0 to 1 along the segment. */
export function trace(segment: Segment, t: number, out: Trace): void {
  if (segment.kind === 'line') {
    const { from, to } = segment;
    out.dr = to[0] - from[0];
    out.dz = to[1] - from[1];
    // Exact at both ends.
    out.r = t <= 0.5 ? from[0] + t * out.dr : to[0] - (1 - t) * out.dr;
    out.z = t <= 0.5 ? from[1] + t * out.dz : to[1] - (1 - t) * out.dz;
    return;
  }
  const { centre, radii, start, end } = segment;
  const span = end - start;
  const angle = start + t * span;
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  out.r = centre[0] + radii[0] * cos;
  out.z = centre[1] + radii[1] * sin;
  out.dr = -radii[0] * sin * span;
  out.dz = radii[1] * cos * span;
}

/** A place on a segment, t from 0 to 1. */
export function placeOn(segment: Segment, t: number): Place {
  const out = { r: 0, z: 0, dr: 0, dz: 0 };
  trace(segment, t, out);
  return [out.r, out.z];
}

/** Unit vector along a segment at t. */
export function directionOn(segment: Segment, t: number): Place {
  const out = { r: 0, z: 0, dr: 0, dz: 0 };
  trace(segment, t, out);
  const size = Math.hypot(out.dr, out.dz);
  return [out.dr / size, out.dz / size];
}

export const startOf = (segment: Segment): Place => placeOn(segment, 0);
export const endOf = (segment: Segment): Place => placeOn(segment, 1);

/** The part of a segment from one t to another. */
export function between(segment: Segment, from: number, to: number): Segment {
  if (segment.kind === 'line') return { ...segment, from: placeOn(segment, from), to: placeOn(segment, to) };
  const span = segment.end - segment.start;
  return { ...segment, start: segment.start + from * span, end: segment.start + to * span };
}

/** Length (m); of an arc by 16 chords a quarter turn, to 1e-4. */
export function lengthOf(segment: Segment): number {
  if (segment.kind === 'line')
    return Math.hypot(segment.to[0] - segment.from[0], segment.to[1] - segment.from[1]);
  const { radii, start, end } = segment;
  if (radii[0] === radii[1]) return radii[0] * Math.abs(end - start);
  const points = chords(segment);
  return points
    .slice(1)
    .reduce((sum, [r, z], i) => sum + Math.hypot(r - points[i]![0], z - points[i]![1]), 0);
}

/** Places along a segment, both ends among them: 2 on a line, 16 a quarter turn on an arc. */
export function chords(segment: Segment): Place[] {
  if (segment.kind === 'line') return [segment.from, segment.to];
  const count = Math.max(2, Math.ceil((16 * Math.abs(segment.end - segment.start)) / (Math.PI / 2)));
  return Array.from({ length: count + 1 }, (_, i) => placeOn(segment, i / count));
}

/** t of the place on a segment that is closest to a place, 0 to 1. */
export function closestT(segment: Segment, r: number, z: number): number {
  if (segment.kind === 'line') {
    const [fr, fz] = segment.from;
    const dr = segment.to[0] - fr;
    const dz = segment.to[1] - fz;
    return clamp(((r - fr) * dr + (z - fz) * dz) / (dr * dr + dz * dz));
  }
  const { centre, radii, start, end } = segment;
  const span = end - start;
  if (radii[0] === radii[1]) {
    const middle = (start + end) / 2;
    let off = Math.atan2(z - centre[1], r - centre[0]) - middle;
    off -= 2 * Math.PI * Math.round(off / (2 * Math.PI));
    return clamp(0.5 + off / span);
  }
  return closestOnEllipse(segment, r, z);
}

const clamp = (t: number) => Math.min(1, Math.max(0, t));
const here = { r: 0, z: 0, dr: 0, dz: 0 };
/** Places on an arc among which the closest is looked for first. */
const SAMPLES = 16;

function closestOnEllipse(segment: Arc, r: number, z: number): number {
  const distance = (t: number) => {
    trace(segment, t, here);
    return (here.r - r) ** 2 + (here.z - z) ** 2;
  };
  let best = 0;
  let least = Infinity;
  for (let i = 0; i <= SAMPLES; i++) {
    const so = distance(i / SAMPLES);
    if (so < least) [best, least] = [i / SAMPLES, so];
  }
  // The derivative of the distance changes sign once between the samples beside the best one: Newton's method, halving
  // where it would leave them.
  const { radii, start, end } = segment;
  const span = end - start;
  let [low, high] = [clamp(best - 1 / SAMPLES), clamp(best + 1 / SAMPLES)];
  let t = best;
  for (let step = 0; step < 60; step++) {
    trace(segment, t, here);
    const [offR, offZ] = [here.r - r, here.z - z];
    const slope = offR * here.dr + offZ * here.dz;
    if (slope > 0) high = t;
    else low = t;
    const angle = start + t * span;
    const bend = -(offR * radii[0] * Math.cos(angle) + offZ * radii[1] * Math.sin(angle)) * span * span;
    const curvature = here.dr * here.dr + here.dz * here.dz + bend;
    let next = t - slope / curvature;
    if (!(next >= low && next <= high)) next = (low + high) / 2;
    if (Math.abs(next - t) <= 1e-15) return next;
    t = next;
  }
  return t;
}
