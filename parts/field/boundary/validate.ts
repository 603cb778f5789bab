import { chords, directionOn, endOf, lengthOf, type Place, type Segment, startOf } from './curve.js';
import { type Body, type Problem, ProblemError } from './problem.js';

/** Share of the whole problem's size within which two places are the same. */
export const SAME = 1e-9;

/** Largest extent of a problem's bodies, m. */
export function sizeOf(bodies: readonly Body[]): number {
  const places = bodies.flatMap((body) =>
    body.kind === 'ring-charge' ? [body.at] : body.profile.flatMap(chords),
  );
  const span = (values: readonly number[]) => Math.max(...values) - Math.min(...values);
  return Math.max(span(places.map(([, z]) => z)), Math.max(...places.map(([r]) => r)));
}

export const apart = (a: Place, b: Place): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
const told = ([r, z]: Place) =>
  `r ${Number((r * 1000).toPrecision(6))} mm, z ${Number((z * 1000).toPrecision(6))} mm`;

/** Whether a profile ends where it starts. */
export function isClosed(profile: readonly Segment[], size: number): boolean {
  return apart(startOf(profile[0]!), endOf(profile.at(-1)!)) <= SAME * size;
}

/** Twice the area to the left of a profile, closed along the axis where it is open. */
function leftArea(profile: readonly Segment[]): number {
  const places = profile.flatMap(chords);
  return places.reduce((sum, [r, z], i) => {
    const [nextR, nextZ] = places[(i + 1) % places.length]!;
    return sum + r * nextZ - nextR * z;
  }, 0);
}

/**
 * Refuses what has no solution or is put in the wrong way round.
 * @throws ProblemError
 */
export function validate({ bodies, floor, uniformField }: Problem): void {
  const whole = 'the problem';
  if (bodies.length === 0) throw new ProblemError(whole, 'no bodies');
  if (floor !== undefined && !Number.isFinite(floor))
    throw new ProblemError(whole, `the floor lies at ${floor} m`);
  if (uniformField !== undefined && !Number.isFinite(uniformField))
    throw new ProblemError(whole, `the applied field is ${uniformField} V/m`);
  const names = new Set<string>();
  for (const { name } of bodies) {
    if (names.has(name)) throw new ProblemError(name, 'two bodies of this name');
    names.add(name);
  }
  for (const body of bodies) validateOne(body);
  const size = sizeOf(bodies);
  for (const body of bodies) validateShape(body, size, floor);
  const solid = bodies.filter((body) => body.kind !== 'ring-charge');
  for (const [i, body] of solid.entries()) {
    refuseCrossing(body, body, size);
    for (const other of solid.slice(i + 1)) refuseCrossing(body, other, size);
  }
}

function validateOne(body: Body): void {
  const refuse = (what: string): never => {
    throw new ProblemError(body.name, what);
  };
  if (body.kind === 'ring-charge') {
    const { at, charge } = body;
    if (!(at[0] >= 0 && Number.isFinite(at[0]) && Number.isFinite(at[1])))
      refuse(`its place is r ${at[0]}, z ${at[1]}`);
    if (!Number.isFinite(charge)) refuse(`its charge is ${charge} C`);
    return;
  }
  const { profile } = body;
  if (profile.length === 0) refuse('its profile is empty');
  for (const segment of profile) {
    if (segment.kind === 'arc' && !(segment.radii[0] > 0 && segment.radii[1] > 0))
      refuse(`an arc of radius ${Math.min(...segment.radii)} m; a radius must be above 0`);
    const places = chords(segment);
    if (!places.flat().every(Number.isFinite)) refuse('a coordinate is not a number');
    const inside = places.find(([r]) => r < 0 && r < -1e-12);
    if (inside) refuse(`its profile crosses the axis: ${told(inside)}`);
    if (!(lengthOf(segment) > 0)) refuse(`a piece of no length at ${told(places[0]!)}`);
  }
  if (body.kind === 'dielectric' && !(body.permittivity >= 1 && Number.isFinite(body.permittivity)))
    refuse(`a relative permittivity of ${body.permittivity}; it is at least 1`);
  if (
    (body.kind === 'conductor' || body.kind === 'sheet') &&
    typeof body.potential === 'number' &&
    !Number.isFinite(body.potential)
  )
    refuse(`its potential is ${body.potential} V`);
}

function validateShape(body: Body, size: number, floor: number | undefined): void {
  if (body.kind === 'ring-charge') return;
  const { name, profile } = body;
  for (const [i, segment] of profile.entries()) {
    const next = profile[i + 1];
    if (next && apart(endOf(segment), startOf(next)) > SAME * size)
      throw new ProblemError(name, `its profile has a gap at ${told(endOf(segment))}`);
  }
  if (floor !== undefined) {
    const under = profile.flatMap(chords).find(([, z]) => z < floor - SAME * size);
    if (under) throw new ProblemError(name, `it reaches below the floor: ${told(under)}`);
  }
  if (body.kind !== 'conductor' && body.kind !== 'dielectric') return;
  if (!isClosed(profile, size)) {
    const loose = [startOf(profile[0]!), endOf(profile.at(-1)!)].find(
      ([r, z]) => r > SAME * size && !(floor !== undefined && Math.abs(z - floor) <= SAME * size),
    );
    if (loose)
      throw new ProblemError(name, `its profile ends in the open, at ${told(loose)}, and encloses nothing`);
  }
  if (!(leftArea(profile) > 0))
    throw new ProblemError(
      name,
      'its profile runs the wrong way round (inside out): the body must lie on its left',
    );
}

interface Chord {
  readonly a: Place;
  readonly b: Place;
}

function chordsOf(profile: readonly Segment[]): Chord[] {
  return profile.flatMap((segment) => {
    const places = chords(segment);
    return places.slice(1).map((b, i) => ({ a: places[i]!, b }));
  });
}

/** Chords of arcs lie inside their arcs, so that bodies a hair apart are told from crossing ones by more than this. */
function refuseCrossing(one: Exclude<Body, { kind: 'ring-charge' }>, other: typeof one, size: number): void {
  const [first, second] = [chordsOf(one.profile), chordsOf(other.profile)];
  const same = one === other;
  for (const [i, p] of first.entries()) {
    for (const q of same ? second.slice(i + 2) : second) {
      if (!boxesMeet(p, q)) continue;
      if (crosses(p, q, size)) {
        throw new ProblemError(
          one.name,
          same
            ? `its profile crosses itself near ${told(q.a)}`
            : `it cuts into ${other.name} near ${told(q.a)}`,
        );
      }
    }
  }
}

function boxesMeet({ a, b }: Chord, { a: c, b: d }: Chord): boolean {
  return (
    Math.min(a[0], b[0]) <= Math.max(c[0], d[0]) &&
    Math.min(c[0], d[0]) <= Math.max(a[0], b[0]) &&
    Math.min(a[1], b[1]) <= Math.max(c[1], d[1]) &&
    Math.min(c[1], d[1]) <= Math.max(a[1], b[1])
  );
}

/** Whether two chords cross within both of them; meeting in an end or running along each other is not crossing. */
function crosses({ a, b }: Chord, { a: c, b: d }: Chord, size: number): boolean {
  const side = (p: Place, q: Place, x: Place) =>
    ((q[0] - p[0]) * (x[1] - p[1]) - (q[1] - p[1]) * (x[0] - p[0])) / Math.max(apart(p, q), Number.MIN_VALUE);
  const least = SAME * size;
  const [c1, d1, a1, b1] = [side(a, b, c), side(a, b, d), side(c, d, a), side(c, d, b)];
  const opposite = (x: number, y: number) => (x > least && y < -least) || (x < -least && y > least);
  return opposite(c1, d1) && opposite(a1, b1);
}

/** Angle (radians, -pi to pi) by which a profile turns left from one segment to the next. */
export function turnBetween(segment: Segment, next: Segment): number {
  const [ar, az] = directionOn(segment, 1);
  const [br, bz] = directionOn(next, 0);
  return Math.atan2(ar * bz - az * br, ar * br + az * bz);
}
