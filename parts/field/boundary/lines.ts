import { chords, type Place, type Segment } from './curve.js';

/** A field line as far as it was followed. */
export interface Traced {
  /** m along the line, from 0. */
  readonly s: readonly number[];
  readonly places: readonly Place[];
}

export interface Course {
  /** Field at a place; only its direction counts. */
  field(r: number, z: number): Place;
  /** Whether the line ends here; asked at every step. */
  ends(place: Place, s: number): boolean;
  /** m, of the first step; later ones follow the field's own scale between these shares of the way gone. */
  readonly first: number;
  /** A step is at most `first` and this share of the way gone, so that few reach far; 0.18 if left out. */
  readonly growth?: number;
  /** Most steps. */
  readonly steps: number;
}

const GROWTH = 0.18;

/**
 * Follows a field line from a place on a surface, outwards along `normal` first. Two-step Adams and Bashforth: one field a
 * step; the path's error is of second order in the steps.
 */
export function traceLine(start: Place, normal: Place, course: Course): Traced {
  const s = [0];
  const places: Place[] = [start];
  let [r, z] = start;
  let way = 0;
  let before: { readonly direction: Place; readonly step: number } | undefined;
  let direction = normal;
  let sign = 0;
  for (let i = 0; i < course.steps; i++) {
    const step = course.first + (course.growth ?? GROWTH) * way;
    const share = before ? step / (2 * before.step) : 0;
    const [dr, dz] = before
      ? [
          (1 + share) * direction[0] - share * before.direction[0],
          (1 + share) * direction[1] - share * before.direction[1],
        ]
      : direction;
    r = Math.max(0, r + step * dr);
    z += step * dz;
    way += step;
    if (course.ends([r, z], way)) break;
    places.push([r, z]);
    s.push(way);
    before = { direction, step };
    const [er, ez] = course.field(r, z);
    const size = Math.hypot(er, ez);
    if (!(size > 0)) break;
    sign ||= er * normal[0] + ez * normal[1] >= 0 ? 1 : -1;
    direction = [(sign * er) / size, (sign * ez) / size];
  }
  return { s, places };
}

/** Whether a place lies within a profile, closed along the axis where it is open. Arcs count as their chords. */
export function isWithin(profile: readonly Segment[], [r, z]: Place): boolean {
  let within = false;
  const corners = profile.flatMap(chords);
  for (let i = 0, j = corners.length - 1; i < corners.length; j = i++) {
    const [ar, az] = corners[i]!;
    const [br, bz] = corners[j]!;
    if (az > z !== bz > z && r < ar + ((z - az) / (bz - az)) * (br - ar)) within = !within;
  }
  return within;
}
