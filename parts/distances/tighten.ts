import type { Vec3 } from '../solid/vector.js';
import { OFF } from './bridges.js';
import type { Scene } from './scene.js';
import type { Leg, Way } from './way.js';

/** mm: first and last step by which a bend is moved. */
const STEPS = { first: 4, last: 0.02 };
const PASSES = 60;

/**
 * A way through air as a string pulled tight: bends are left out where what lies before and behind sees one another, moved
 * where that makes the way shorter, and both ends slide on their conductors. Stretches over surfaces are parts of the string.
 */
export function tightened(scene: Scene, way: Way): Way {
  const legs: Leg[] = [];
  let from = way.from;
  for (let i = 0; i < way.legs.length; ) {
    const leg = way.legs[i]!;
    if (leg.kind === 'metal') {
      legs.push(leg);
      from = leg.on;
      i++;
      continue;
    }
    let run = i;
    while (run < way.legs.length && way.legs[run]!.kind !== 'metal') run++;
    const to = run === way.legs.length ? way.to : way.legs[run]!.on;
    legs.push(...tightRun(scene, from, to, way.legs.slice(i, run)));
    i = run;
  }
  return { ...way, legs, length: legs.reduce((sum, { length }) => sum + length, 0) };
}

function tightRun(scene: Scene, from: string, to: string, legs: readonly Leg[]): Leg[] {
  const start = scene.body(from);
  const end = scene.body(to);
  let line: Vec3[] = [];
  for (const { points, outward } of legs) {
    for (const [i, point] of points.entries()) {
      const at = lifted(point, outward?.[i]);
      if (!same(line.at(-1), at)) line.push(at);
    }
  }
  const sees = (a: Vec3, b: Vec3) => scene.sees(a, b);
  /** The place on a conductor nearest to a bend, a little off its surface. */
  const onto = (body: typeof start, point: Vec3): Vec3 | undefined => {
    const found = body.nearest(point, Number.POSITIVE_INFINITY);
    if (!found || found.distance < 2 * OFF) return undefined;
    const share = OFF / found.distance;
    const off = found.at.map((value, axis) => value + share * (point[axis]! - value)) as unknown as Vec3;
    // What stands on an insulator is nearest to what lies beyond it through the insulator.
    return scene.isInside(off) ? undefined : off;
  };
  let before = Number.POSITIVE_INFINITY;
  let step = STEPS.first;
  for (let pass = 0; pass < PASSES; pass++) {
    line = shortcut(line, sees);
    line = fromConductor(line, (point) => onto(start, point), sees);
    line = fromConductor(line.reverse(), (point) => onto(end, point), sees).reverse();
    for (let i = 1; i + 1 < line.length; i++) line[i] = moved(line[i - 1]!, line[i]!, line[i + 1]!, step, sees);
    const length = lengthOf(line);
    if (length > before - 1e-3 * step) {
      if (step <= STEPS.last) break;
      step = Math.max(STEPS.last, step / 2);
    }
    before = length;
  }
  return [{ kind: 'air', on: to, length: lengthOf(line), points: line }];
}

/** The line from the nearest place on its first conductor to the furthest bend that this is free and shorter for. */
function fromConductor(
  line: Vec3[],
  onto: (point: Vec3) => Vec3 | undefined,
  sees: (a: Vec3, b: Vec3) => boolean,
): Vec3[] {
  for (let i = line.length - 1; i > 0; i--) {
    const first = onto(line[i]!);
    if (!first || apart(first, line[i]!) > lengthOf(line.slice(0, i + 1)) - 1e-9) continue;
    if (sees(first, line[i]!)) return [first, ...line.slice(i)];
  }
  return line;
}

/** On an edge twice as far off the surface as on a face, so that lines between both do not touch it. */
const lifted = (at: Vec3, outward: Vec3 | undefined): Vec3 =>
  outward ? [at[0] + 2 * OFF * outward[0], at[1] + 2 * OFF * outward[1], at[2] + 2 * OFF * outward[2]] : at;

/** Leaves out bends that are passed by in a straight line. */
function shortcut(line: readonly Vec3[], sees: (a: Vec3, b: Vec3) => boolean): Vec3[] {
  const kept: Vec3[] = [line[0]!];
  for (let i = 1; i + 1 < line.length; i++) {
    if (!sees(kept.at(-1)!, line[i + 1]!)) kept.push(line[i]!);
  }
  kept.push(line.at(-1)!);
  return kept;
}

/** A bend moved, by steps along and across the way, to where the way over it is shorter and free. */
function moved(a: Vec3, at: Vec3, b: Vec3, step: number, sees: (a: Vec3, b: Vec3) => boolean): Vec3 {
  const along = unit(minus(b, a));
  const middle: Vec3 = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];
  const inwards = unit(minus(middle, at));
  const across = unit(cross(along, inwards));
  const up = unit(cross(across, along));
  // Towards both neighbours too: on a line that only just passes an edge nothing else is free.
  const directions = [unit(minus(a, at)), unit(minus(b, at)), inwards, across, negative(across), along, negative(along), up, negative(up)];
  let best = at;
  let length = apart(a, at) + apart(at, b);
  for (const [x, y, z] of directions) {
    const tried: Vec3 = [best[0] + step * x, best[1] + step * y, best[2] + step * z];
    const over = apart(a, tried) + apart(tried, b);
    if (over >= length - 1e-9 || !sees(a, tried) || !sees(tried, b)) continue;
    best = tried;
    length = over;
  }
  return best;
}

const same = (a: Vec3 | undefined, b: Vec3) => a !== undefined && apart(a, b) < 1e-9;
const apart = (a: Vec3, b: Vec3) =>
  Math.sqrt((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2 + (a[2] - b[2]) ** 2);
const lengthOf = (line: readonly Vec3[]) =>
  line.slice(1).reduce((sum, point, i) => sum + apart(line[i]!, point), 0);
const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const negative = ([x, y, z]: Vec3): Vec3 => [-x, -y, -z];
const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
function unit(a: Vec3): Vec3 {
  const size = Math.hypot(...a);
  return size > 0 ? [a[0] / size, a[1] / size, a[2] / size] : [0, 0, 0];
}
