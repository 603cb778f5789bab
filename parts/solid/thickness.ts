import type { RayIndex } from './rays.js';
import { surfacePoints } from './samples.js';
import { radians, type Vec3 } from './vector.js';

/** The thinnest place of something, mm. */
export interface Thin {
  /** mm */
  readonly width: number;
  /** In its middle. */
  readonly at: Vec3;
}

export interface Thickness {
  /** Between two faces of the solid; undefined where none lie opposite each other. */
  readonly wall: Thin | undefined;
  /** Between two faces with air between them. */
  readonly gap: Thin | undefined;
}

/**
 * Two faces lie opposite each other when their directions differ by less than this from a half turn, degrees. Edges and grooves
 * of 45 degrees and blunter are thereby no thin places: they go to nothing at their tips, everywhere.
 */
export const OPPOSED = 40;
/** mm2 of surface that must be as thin as what is reported: less is a corner of a facet. */
export const THIN_AREA = 1;
/** mm; what is thin over less than this, in one direction along it, is a ridge or a groove on something thick. */
export const RIDGE = 1;
/** mm2 for which there is one ray */
const EACH = 2;
const MOST = 12_000;
/** mm; nothing is looked for beyond */
const FURTHEST = 12;
/** mm; how far from its own face a ray starts */
const OFF = 1e-3;
/** Steps in which the extent of a thin place is felt out, and directions over a half turn. */
const STEPS = 10;
const DIRECTIONS = 4;
/** Up to this many times as wide it is still the same thin place. */
const SAME = 1.5;

/** What lies between two faces: plastic or air. */
type Between = 'wall' | 'gap';

/** A width found between two faces, and where. */
interface Found extends Thin {
  readonly across: Vec3;
  /** mm2 of surface that it was found for */
  readonly area: number;
}

/**
 * Thinnest wall and thinnest gap of a closed mesh, by rays along the normals of points spread over it: the width for which
 * `THIN_AREA` of the surface lies no further from the face opposite, over at least `RIDGE` in every direction along it. Accuracy:
 * facets add up to twice their chord error; a thin place smaller than that is passed over, and of a sloping one (opposed by
 * up to `OPPOSED` degrees) the width is over by up to 1/cos.
 */
export function thicknessOf(index: RayIndex): Thickness {
  const found: Record<Between, Found[]> = { wall: [], gap: [] };
  for (const { at, normal, area } of surfacePoints(index, () => true, EACH, MOST)) {
    for (const between of ['wall', 'gap'] as const) {
      const across = between === 'wall' ? scaled(normal, -1) : normal;
      const width = widthFrom(index, at, across, between);
      if (width !== undefined) found[between].push({ width, at: moved(at, across, width / 2), across, area });
    }
  }
  return { wall: thinnest(index, found.wall, 'wall'), gap: thinnest(index, found.gap, 'gap') };
}

/** mm from a face to the one opposite. */
function widthFrom(index: RayIndex, at: Vec3, across: Vec3, between: Between): number | undefined {
  const hit = index.first(moved(at, across, OFF), across, FURTHEST);
  if (hit === undefined) return undefined;
  return opposes(hit.leaving, between) ? hit.distance + OFF : undefined;
}

/** A wall is left through the face opposite, a gap ends where the solid is entered. */
function opposes(leaving: number, between: Between): boolean {
  return (between === 'wall' ? leaving : -leaving) >= Math.cos(radians(OPPOSED));
}

function thinnest(index: RayIndex, found: Found[], between: Between): Thin | undefined {
  found.sort((a, b) => a.width - b.width);
  let area = 0;
  for (const each of found) {
    if (!isThinAllAlong(index, each, between)) continue;
    area += each.area;
    if (area >= THIN_AREA) return { width: each.width, at: each.at };
  }
  return undefined;
}

/** Whether a place stays thin over at least `RIDGE` in every direction along it. */
function isThinAllAlong(index: RayIndex, { at, across, width }: Found, between: Between): boolean {
  const [first, second] = alongFaces(across);
  const most = SAME * width + OFF;
  const goesOn = (along: Vec3, distance: number): boolean => {
    const middle = moved(at, along, distance);
    let whole = 0;
    for (const way of [1, -1]) {
      const hit = index.first(middle, scaled(across, way), most);
      // The middle itself has to be between two faces, not beyond one.
      if (hit === undefined || (between === 'wall' ? hit.leaving : -hit.leaving) <= 0) return false;
      whole += hit.distance;
    }
    return whole <= most;
  };
  for (let i = 0; i < DIRECTIONS; i++) {
    const turn = (Math.PI * i) / DIRECTIONS;
    const along = moved(scaled(first, Math.cos(turn)), second, Math.sin(turn));
    let extent = 0;
    for (const way of [1, -1]) {
      for (let step = 1; step <= STEPS; step++) {
        const distance = (step / STEPS) * RIDGE;
        if (!goesOn(along, way * distance)) break;
        extent = extent + RIDGE / STEPS;
      }
    }
    if (extent < RIDGE * (1 - 1e-9)) return false;
  }
  return true;
}

/** Two directions along a face, upright first: what is engraved or raised is low in that one. */
function alongFaces(normal: Vec3): [Vec3, Vec3] {
  const flat = Math.hypot(normal[0], normal[1]);
  const side: Vec3 = flat > 1e-6 ? [-normal[1] / flat, normal[0] / flat, 0] : [1, 0, 0];
  return [cross(normal, side), side];
}

const moved = (from: Vec3, along: Vec3, by: number): Vec3 => [
  from[0] + by * along[0],
  from[1] + by * along[1],
  from[2] + by * along[2],
];

const scaled = (v: Vec3, by: number): Vec3 => [by * v[0], by * v[1], by * v[2]];

const cross = (a: Vec3, b: Vec3): Vec3 => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
