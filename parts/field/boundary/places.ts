import { type Arc, chords, directionOn, endOf, type Place, placeOn, type Segment, startOf } from './curve.js';
import type { Body } from './problem.js';

/** Share of the whole problem's size within which two places are the same. */
export const SAME = 1e-9;

/** Largest extent of a problem's bodies, m. */
export function sizeOf(bodies: readonly Body[]): number {
  const places = bodies.flatMap((body) =>
    body.kind === 'ring-charge' ? [body.at] : body.profile.flatMap(chords),
  );
  const heights = places.map(([, z]) => z);
  const greatest = (values: readonly number[]) => values.reduce((so, each) => Math.max(so, each), -Infinity);
  return Math.max(greatest(heights) + greatest(heights.map((z) => -z)), greatest(places.map(([r]) => r)));
}

export const apart = (a: Place, b: Place): number => Math.hypot(a[0] - b[0], a[1] - b[1]);

/** A place as a message tells it, to the nanometre. */
export const told = ([r, z]: Place): string => `r ${inMillimetres(r)} mm, z ${inMillimetres(z)} mm`;
const inMillimetres = (metres: number) => Number((metres * 1000).toFixed(6)) + 0;

/** Whether a profile ends where it starts. */
export function isClosed(profile: readonly Segment[], size: number): boolean {
  return apart(startOf(profile[0]!), endOf(profile.at(-1)!)) <= SAME * size;
}

/** Angle (radians, -pi to pi) by which a profile turns left from one segment to the next. */
export function turnBetween(segment: Segment, next: Segment): number {
  const [ar, az] = directionOn(segment, 1);
  const [br, bz] = directionOn(next, 0);
  return Math.atan2(ar * bz - az * br, ar * br + az * bz);
}

/** Ends of a segment, and the places where an arc is farthest in or out, up or down. */
export function extremesOf(segment: Segment): Place[] {
  if (segment.kind === 'line') return [segment.from, segment.to];
  return [startOf(segment), endOf(segment), ...turningPoints(segment)];
}

function turningPoints(segment: Arc): Place[] {
  const { start, end } = segment;
  const [low, high] = [Math.min(start, end), Math.max(start, end)];
  const quarter = Math.PI / 2;
  const places: Place[] = [];
  for (let n = Math.ceil(low / quarter); n * quarter <= high; n++)
    places.push(placeOn(segment, (n * quarter - start) / (end - start)));
  return places;
}

/** Closed outline of a body's profile by chords: what is open is closed along the axis and the floor. */
export function outlineOf(profile: readonly Segment[], floor: number | undefined, size: number): Place[] {
  const places = profile.flatMap(chords);
  const isOnFloor = ([, z]: Place) => floor !== undefined && Math.abs(z - floor) <= SAME * size;
  return isOnFloor(places[0]!) !== isOnFloor(places.at(-1)!) ? [...places, [0, floor!]] : places;
}

/** Twice the area within a closed outline that runs counter-clockwise; negative where it runs the other way. */
export function areaWithin(outline: readonly Place[]): number {
  return outline.reduce((sum, [r, z], i) => {
    const [nextR, nextZ] = outline[(i + 1) % outline.length]!;
    return sum + r * nextZ - nextR * z;
  }, 0);
}
