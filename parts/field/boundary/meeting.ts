import {
  type Arc,
  closestT,
  directionOn,
  type Line,
  lengthOf,
  type Place,
  placeOn,
  type Segment,
} from './curve.js';

// Where two pieces of profiles meet: in closed form for lines and circles, by bisection for ellipses.

/** A place where two segments meet, with where it lies on each (0 to 1). */
export interface Meeting {
  readonly place: Place;
  readonly t: readonly [number, number];
}

/** Steps along an ellipse between which it is looked for where something meets it. */
const STEPS = 512;

/**
 * Places at which two segments meet or come within `near` (m) of each other by touching. Segments that run along each
 * other are told by their ends.
 */
export function meetings(a: Segment, b: Segment, near: number): Meeting[] {
  const ends = [0, 1];
  const places = [
    ...candidates(a, b, near),
    ...ends.map((t) => placeOn(a, t)),
    ...ends.map((t) => placeOn(b, t)),
  ];
  const found: Meeting[] = [];
  for (const place of places) {
    const t = [closestT(a, place[0], place[1]), closestT(b, place[0], place[1])] as const;
    const apart = [a, b].map((segment, i) => distance(placeOn(segment, t[i]!), place));
    if (Math.max(...apart) > near) continue;
    if (!found.some((each) => distance(each.place, place) <= 4 * near)) found.push({ place, t });
  }
  return found;
}

const distance = (p: Place, q: Place) => Math.hypot(p[0] - q[0], p[1] - q[1]);

/** Whether two segments run through each other where they meet, each from one side of the other to the other side. */
export function runsThrough(a: Segment, b: Segment, { t }: Meeting, near: number): boolean {
  const inside = (segment: Segment, at: number) => {
    const off = Math.min(at, 1 - at) * lengthOf(segment);
    return off > 4 * near;
  };
  if (!inside(a, t[0]) || !inside(b, t[1])) return false;
  const [ar, az] = directionOn(a, t[0]);
  const [br, bz] = directionOn(b, t[1]);
  return Math.abs(ar * bz - az * br) > PARALLEL;
}

/** rad between directions below which two segments touch rather than cross. */
const PARALLEL = 1e-4;

const isCircle = (segment: Segment): segment is Arc =>
  segment.kind === 'arc' && segment.radii[0] === segment.radii[1];

function candidates(a: Segment, b: Segment, near: number): Place[] {
  if (a.kind === 'line' && b.kind === 'line') return ofLines(a, b);
  if (a.kind === 'line' && isCircle(b)) return ofLineAndCircle(a, b, near);
  if (isCircle(a) && b.kind === 'line') return ofLineAndCircle(b, a, near);
  if (isCircle(a) && isCircle(b)) return ofCircles(a, b, near);
  return b.kind === 'arc' ? alongCurve(a, b) : alongCurve(b, a as Arc);
}

function ofLines(a: Line, b: Line): Place[] {
  const [ur, uz] = [a.to[0] - a.from[0], a.to[1] - a.from[1]];
  const [vr, vz] = [b.to[0] - b.from[0], b.to[1] - b.from[1]];
  const cross = ur * vz - uz * vr;
  if (Math.abs(cross) <= 1e-12 * Math.hypot(ur, uz) * Math.hypot(vr, vz)) return [];
  const t = ((b.from[0] - a.from[0]) * vz - (b.from[1] - a.from[1]) * vr) / cross;
  return [[a.from[0] + t * ur, a.from[1] + t * uz]];
}

function ofLineAndCircle({ from, to }: Line, { centre, radii }: Arc, near: number): Place[] {
  const length = distance(from, to);
  const [ur, uz] = [(to[0] - from[0]) / length, (to[1] - from[1]) / length];
  const along = (centre[0] - from[0]) * ur + (centre[1] - from[1]) * uz;
  const foot: Place = [from[0] + along * ur, from[1] + along * uz];
  return chordPlaces(foot, distance(foot, centre), radii[0], [ur, uz], near);
}

/** Both ends of the chord whose middle is `foot`, `off` from the centre; its middle where it all but touches. */
function chordPlaces(foot: Place, off: number, radius: number, [ur, uz]: Place, near: number): Place[] {
  if (off > radius + near) return [];
  const half = Math.sqrt(Math.max(0, radius * radius - off * off));
  const touch: Place[] = Math.abs(off - radius) <= near ? [foot] : [];
  return [...touch, [foot[0] - half * ur, foot[1] - half * uz], [foot[0] + half * ur, foot[1] + half * uz]];
}

function ofCircles(a: Arc, b: Arc, near: number): Place[] {
  const [dr, dz] = [b.centre[0] - a.centre[0], b.centre[1] - a.centre[1]];
  const between = Math.hypot(dr, dz);
  const [ra, rb] = [a.radii[0], b.radii[0]];
  if (between <= near || between > ra + rb + near || between < Math.abs(ra - rb) - near) return [];
  const along = (between * between + ra * ra - rb * rb) / (2 * between);
  // Where they just touch, rounding may put the chord's middle outside the circle.
  const kept = Math.max(-ra, Math.min(ra, along));
  const [ur, uz] = [dr / between, dz / between];
  const foot: Place = [a.centre[0] + kept * ur, a.centre[1] + kept * uz];
  return chordPlaces(foot, Math.abs(kept), ra, [-uz, ur], near);
}

/** Where a curve crosses an ellipse or comes closest to it, by how far off the ellipse it is. */
function alongCurve(curve: Segment, ellipse: Arc): Place[] {
  const { centre, radii } = ellipse;
  const off = (t: number) => {
    const [r, z] = placeOn(curve, t);
    return Math.hypot((r - centre[0]) / radii[0], (z - centre[1]) / radii[1]) - 1;
  };
  const values = Array.from({ length: STEPS + 1 }, (_, i) => off(i / STEPS));
  const found: Place[] = [];
  for (let i = 0; i < STEPS; i++) {
    const [low, high] = [i / STEPS, (i + 1) / STEPS];
    if (values[i]! * values[i + 1]! <= 0) found.push(placeOn(curve, bisected(off, low, high)));
    const beyond = values[i + 2];
    if (beyond === undefined) continue;
    const [before, middle] = [Math.abs(values[i]!), Math.abs(values[i + 1]!)];
    if (middle <= before && middle <= Math.abs(beyond))
      found.push(
        placeOn(
          curve,
          least((t) => Math.abs(off(t)), low, (i + 2) / STEPS),
        ),
      );
  }
  return found;
}

function bisected(of: (t: number) => number, from: number, to: number): number {
  let [low, high] = [from, to];
  const sign = Math.sign(of(low)) || 1;
  for (let step = 0; step < 60; step++) {
    const middle = (low + high) / 2;
    if (Math.sign(of(middle)) === sign) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Where a function is least between two places, by golden section. */
function least(of: (t: number) => number, from: number, to: number): number {
  const SHARE = (Math.sqrt(5) - 1) / 2;
  let [low, high] = [from, to];
  while (high - low > 1e-12) {
    const [a, b] = [high - SHARE * (high - low), low + SHARE * (high - low)];
    if (of(a) < of(b)) high = b;
    else low = a;
  }
  return (low + high) / 2;
}

/** Whether a place lies within the closed outline of a profile, told by its chords: not meant for places close to it. */
export function liesWithin([r, z]: Place, outline: readonly Place[]): boolean {
  let inside = false;
  for (const [i, [r1, z1]] of outline.entries()) {
    const [r2, z2] = outline[(i + 1) % outline.length]!;
    if (z1 > z !== z2 > z && r < r1 + ((z - z1) * (r2 - r1)) / (z2 - z1)) inside = !inside;
  }
  return inside;
}

/** Distance (m) of a place from the nearest of some segments. */
export function distanceTo(segments: readonly Segment[], [r, z]: Place): number {
  return segments.reduce((least, segment) => {
    const place = placeOn(segment, closestT(segment, r, z));
    return Math.min(least, distance(place, [r, z]));
  }, Number.POSITIVE_INFINITY);
}
