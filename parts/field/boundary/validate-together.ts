import { chords, type Place, placeOn, type Segment } from './curve.js';
import { distanceTo, liesWithin, type Meeting, meetings, runsThrough } from './meeting.js';
import { outlineOf, SAME, told } from './places.js';
import { type Body, type Problem, ProblemError } from './problem.js';

type Shaped = Exclude<Body, { kind: 'ring-charge' }>;

/**
 * Refuses bodies that cut into each other, lie within each other, or touch where they may not. Dielectrics may touch
 * anything, in full contact along equal lines and arcs; a sheet may end on a conductor of its potential, and a graded
 * surface on anything.
 * @param size of the whole problem, m
 * @throws ProblemError
 */
export function validateTogether({ bodies, floor }: Problem, size: number): void {
  const shaped = bodies.filter((body): body is Shaped => body.kind !== 'ring-charge');
  for (const [i, body] of shaped.entries()) {
    for (const other of shaped.slice(i + 1)) {
      refuseMeeting(body, other, size);
      refuseWithin(body, other, size, floor);
      refuseWithin(other, body, size, floor);
    }
  }
  for (const body of bodies) {
    if (body.kind !== 'ring-charge') continue;
    for (const other of shaped) refuseCharge(body.name, body.at, other, size, floor);
  }
}

function refuseMeeting(one: Shaped, other: Shaped, size: number): void {
  const near = SAME * size;
  for (const a of one.profile) {
    for (const b of other.profile) {
      for (const meeting of meetings(a, b, near)) {
        const at = told(meeting.place);
        if (runsThrough(a, b, meeting, near))
          throw new ProblemError(one.name, `it cuts into ${other.name} at ${at}`);
        const why = whyApart(one, other, meeting, size);
        if (why !== undefined) throw new ProblemError(one.name, `it touches ${other.name} at ${at}: ${why}`);
      }
    }
  }
}

const isConductor = (body: Body) => body.kind === 'conductor' || body.kind === 'sheet';

/** Why two bodies that touch may not, if they may not. */
function whyApart(one: Shaped, other: Shaped, { place }: Meeting, size: number): string | undefined {
  if (one.kind === 'surface-charge' || other.kind === 'surface-charge')
    return 'prescribed charge stays clear of all bodies';
  if (!isConductor(one) || !isConductor(other)) return undefined;
  if (place[0] <= SAME * size && one.kind !== other.kind) return undefined;
  const endsThere = [one, other].some((body) => body.kind === 'sheet' && isEndOf(body.profile, place, size));
  if (!endsThere) return 'make them one profile, or leave a gap';
  return samePotential(one, other) ? undefined : 'conductors that touch have one potential';
}

function samePotential(one: Shaped, other: Shaped): boolean {
  const [a, b] = [one, other].map((body) =>
    body.kind === 'conductor' || body.kind === 'sheet' ? body.potential : undefined,
  );
  return typeof a === 'object' && typeof b === 'object' ? a.net === b.net : a === b;
}

function isEndOf(profile: readonly Segment[], [r, z]: Place, size: number): boolean {
  const ends = [placeOn(profile[0]!, 0), placeOn(profile.at(-1)!, 1)];
  return ends.some(([endR, endZ]) => Math.hypot(endR - r, endZ - z) <= 4 * SAME * size);
}

/** Share of the problem's size that a place must be off a surface for chords to tell on which side it lies. */
const CLEARLY = 1e-6;
/** Share of an arc's radius by which its chords, 16 a quarter turn, lie within it. */
const SAGITTA = 0.0013;

/** Places of a body that lie within another one's outline. */
function refuseWithin(inner: Shaped, outer: Shaped, size: number, floor: number | undefined): void {
  if (outer.kind !== 'conductor' && outer.kind !== 'dielectric') return;
  const outline = outlineOf(outer.profile, floor, size);
  const radius = outer.profile.reduce(
    (so, segment) => (segment.kind === 'arc' ? Math.max(so, ...segment.radii) : so),
    0,
  );
  const clear = CLEARLY * size + SAGITTA * radius;
  const inside = inner.profile
    .flatMap((segment) => [...chords(segment), placeOn(segment, 0.5)])
    .find((place) => liesWithin(place, outline) && distanceTo(outer.profile, place) > clear);
  if (!inside) return;
  const remedy = outer.kind === 'dielectric' ? '; leave it room in that profile' : '';
  throw new ProblemError(inner.name, `it lies within ${outer.name}, at ${told(inside)}${remedy}`);
}

function refuseCharge(name: string, at: Place, other: Shaped, size: number, floor: number | undefined): void {
  const apart = distanceTo(other.profile, at);
  if (apart <= SAME * size) throw new ProblemError(name, `it lies on ${other.name}: ${told(at)}`);
  if (other.kind !== 'conductor' && other.kind !== 'dielectric') return;
  if (liesWithin(at, outlineOf(other.profile, floor, size)))
    throw new ProblemError(name, `it lies within ${other.name}: ${told(at)}`);
}
