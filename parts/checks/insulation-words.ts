import type { Leg, Way } from '../distances/way.js';
import type { Vec3 } from '../solid/vector.js';
import type { Placed } from './insulation-scene.js';

/** Cosine from which on a surface of the tube faces along its axis: its rim. */
const FACES_ALONG = 0.7;
/** mm; a stretch that short over a side of the tube is not told. */
const LEAST_TOLD = 0.5;

/** Names of what a way runs along, from one conductor to the other; what follows on itself is told once. */
export function surfacesAlong(way: Way, pieces: ReadonlyMap<string, Placed>): string[] {
  const names = [
    titleOf(way.from, pieces),
    ...way.legs.flatMap((leg) => namesOf(leg, pieces)),
    titleOf(way.to, pieces),
  ];
  return names.filter((name, i) => name !== names[i - 1]);
}

/** The points that a way leads through, without those that lie on one another. */
export function pathOf(way: Way): Vec3[] {
  const points = way.legs.flatMap((leg) => leg.points);
  return points.filter((point, i) => i === 0 || apart(points[i - 1]!, point) > 1e-6);
}

export const titleOf = (name: string, pieces: ReadonlyMap<string, Placed>): string =>
  pieces.get(name)?.title ?? name;

function namesOf(leg: Leg, pieces: ReadonlyMap<string, Placed>): string[] {
  const title = titleOf(leg.on, pieces);
  if (leg.kind === 'gap') return [];
  if (leg.kind === 'air') return ['air'];
  if (leg.kind === 'wall') return [`through ${title}`];
  if (leg.kind === 'surface' && leg.on === 'tube') return sidesOfTube(leg);
  return [title];
}

/** Bore, outside and rims of the tube, as the way comes to them. */
function sidesOfTube({ points, outward = [] }: Leg): string[] {
  const sides: { name: string; length: number }[] = [];
  for (let i = 1; i < points.length; i++) {
    const [a, b] = [points[i - 1]!, points[i]!];
    const name = sideOfTube([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, 0], between(outward[i - 1], outward[i]));
    const last = sides.at(-1);
    if (last?.name === name) last.length += apart(a, b);
    else sides.push({ name, length: apart(a, b) });
  }
  const told = sides.filter(({ length }) => length >= LEAST_TOLD).map(({ name }) => name);
  return told.length > 0 ? told.filter((name, i) => name !== told[i - 1]) : ['tube'];
}

function sideOfTube([x, y]: Vec3, [nx, ny, nz]: Vec3): string {
  if (Math.abs(nz) > FACES_ALONG) return nz > 0 ? 'tube’s upper rim' : 'tube’s lower rim';
  return x * nx + y * ny > 0 ? 'tube’s outside' : 'tube’s bore';
}

/** Direction away from a stretch, by those at both its ends. */
function between(a: Vec3 = [0, 0, 0], b: Vec3 = a): Vec3 {
  const sum: Vec3 = [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
  const size = Math.hypot(...sum);
  return size > 0 ? [sum[0] / size, sum[1] / size, sum[2] / size] : sum;
}

const apart = (a: Vec3, b: Vec3) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
