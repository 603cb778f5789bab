import type { Mesh } from './kernel.js';
import type { RayIndex } from './rays.js';
import { type SurfacePoint, surfacePoints } from './samples.js';
import { radians, type Vec3 } from './vector.js';
import { PointIndex } from './weld.js';

/** How a printer lays plastic over air. */
export interface Overhanging {
  /** mm */
  readonly layer: number;
  /** Degrees from upright that a face may lean out. */
  readonly angle: number;
  /** mm; the widest gap that a line is laid across. */
  readonly bridge: number;
}

export interface Overhang {
  /** mm2 of faces that lean out further and lie on nothing. */
  readonly unsupported: number;
  /** Where most of it is: its lowest point. */
  readonly at: Vec3 | undefined;
  /** The widest gap that is bridged, mm, and where; undefined without any. A gap too wide counts as unsupported and is given here too. */
  readonly widest: { readonly span: number; readonly at: Vec3 } | undefined;
}

/** mm2 of overhanging slivers, at facets and where threads begin, that no printer shows. */
export const SLIVERS = 1;

/** Degrees that a facet may lean out more than the surface that it stands for. */
const FACET = 1;
/** Directions in which support is looked for, over a half turn. */
const DIRECTIONS = 12;
/** Directions in which a patch is tried to be bridged, over a half turn: octagons and twice as many sides are met exactly. */
const BRIDGES = 24;
/** mm2 for which there is one point, and how many at most */
const EACH = 0.25;
const MOST = 4000;
/** mm; a face no higher than this lies on the bed */
const ON_BED = 0.01;
/** mm; a line that sags comes to lie on the bed from no higher than about its own width: what is engraved there. Common practice. */
const NEAR_BED = 0.45;
/** mm; nothing is looked for beyond */
const FURTHEST = 100;
/** mm; how close to where a line lies down there must be something to be laid. */
const JUST_BEFORE = 0.05;

/** A point that hangs, with the part of the surface that it speaks for. */
interface Hanging {
  readonly at: Vec3;
  /** mm2 */
  readonly area: number;
}

/**
 * Which faces of a mesh that stands on the bed (z = 0) hang over. A point of a face that leans out further than `angle` is held
 * when, one layer below it, there is plastic within the slope of that angle: a ledge no wider than a layer is high; or when
 * it is bridged: along the one direction that suits its whole patch best there is plastic on both sides half a layer below,
 * no more than `bridge` apart, and the layer above it reaches there. A hole in a roof counts to its span. What hangs
 * no higher over the bed than a line is wide comes to lie on it. Found at points spread over the faces: areas to a few percent, spans to 1/cos of
 * half the step between directions (1 %).
 */
export function overhangOf(index: RayIndex, how: Overhanging): Overhang {
  const { layer, angle, bridge } = how;
  const { mesh, normals } = index;
  const steep = -Math.sin(radians(angle + FACET));
  const highest = (t: number) =>
    Math.max(...[0, 1, 2].map((i) => mesh.positions[3 * mesh.triangles[3 * t + i]! + 2]!));
  const hangs = (t: number) => normals[3 * t + 2]! < steep && highest(t) > ON_BED;
  const patchOf = patches(mesh, hangs);
  const hanging = new Map<number, Hanging[]>();
  for (const point of surfacePoints(index, hangs, EACH, MOST)) {
    if (point.at[2] <= Math.max(layer, NEAR_BED) || isHeld(index, point, how)) continue;
    const patch = patchOf(point.triangle);
    hanging.set(patch, [...(hanging.get(patch) ?? []), point]);
  }
  let unsupported = 0;
  let lowest: Vec3 | undefined;
  const spans: Span[] = [];
  for (const points of hanging.values()) {
    for (const each of bestSpans(index, points, layer, bridge)) {
      if (each.span !== undefined) spans.push({ ...each, span: each.span });
      if (each.span !== undefined && each.span <= bridge) continue;
      unsupported += each.area;
      if (lowest === undefined || each.at[2] < lowest[2]) lowest = each.at;
    }
  }
  return { unsupported, at: lowest, widest: widestOf(spans) };
}

interface Span extends Hanging {
  /** mm */
  readonly span: number;
}

/** The span that more than slivers of the surface have, or a wider one. */
function widestOf(spans: Span[]): Overhang['widest'] {
  spans.sort((a, b) => b.span - a.span);
  let area = 0;
  for (const { span, at, area: own } of spans) {
    area += own;
    if (area >= SLIVERS) return { span, at };
  }
  return undefined;
}

/** Numbers the patches of hanging triangles that share edges, found by where their corners are. */
function patches({ positions: p, triangles }: Mesh, hangs: (t: number) => boolean): (t: number) => number {
  const points = new PointIndex();
  const parent = new Map<number, number>();
  const root = (t: number): number => {
    let at = t;
    while (parent.get(at) !== at) at = parent.get(at)!;
    parent.set(t, at);
    return at;
  };
  const edges = new Map<string, number>();
  for (let t = 0; t < triangles.length / 3; t++) {
    if (!hangs(t)) continue;
    parent.set(t, t);
    const corners = [0, 1, 2].map((i) => {
      const at = 3 * triangles[3 * t + i]!;
      return points.of(p[at]!, p[at + 1]!, p[at + 2]!);
    });
    for (const [i, from] of corners.entries()) {
      const to = corners[(i + 1) % 3]!;
      const key = `${Math.min(from, to)} ${Math.max(from, to)}`;
      const beyond = edges.get(key);
      if (beyond === undefined) edges.set(key, t);
      else parent.set(root(t), root(beyond));
    }
  }
  return root;
}

/** Plastic one layer below, within the slope: straight below, or reached sideways. */
function isHeld(index: RayIndex, { at, normal }: SurfacePoint, { layer, angle }: Overhanging): boolean {
  // Just short of the layer's full height: where steps are one layer high, their faces are not met edgewise.
  const below: Vec3 = [at[0], at[1], at[2] - 0.98 * layer];
  if (index.holds(below)) return true;
  const reach = layer * Math.tan(radians(angle + FACET));
  return directions(normal).some((along) => enters(index, below, along, reach) !== undefined);
}

/**
 * mm between what a line through each point of a patch would lie on, all of them in the one direction that leaves the least area
 * on nothing, and then has the shortest spans; undefined where a line would lie on nothing.
 */
function bestSpans(
  index: RayIndex,
  points: readonly Hanging[],
  layer: number,
  bridge: number,
): (Hanging & { readonly span: number | undefined })[] {
  let best: { readonly over: number; readonly widest: number; readonly spans: (number | undefined)[] } = {
    over: Number.POSITIVE_INFINITY,
    widest: Number.POSITIVE_INFINITY,
    spans: [],
  };
  for (let i = 0; i < BRIDGES; i++) {
    const turn = (Math.PI * i) / BRIDGES;
    const along: Vec3 = [Math.cos(turn), Math.sin(turn), 0];
    const spans = points.map(({ at }) => spanAt(index, at, along, layer));
    let [over, widest] = [0, 0];
    for (const [n, span = Number.POSITIVE_INFINITY] of spans.entries()) {
      if (span > bridge) over += points[n]!.area;
      widest = Math.max(widest, span);
    }
    if (over < best.over || (over === best.over && widest < best.widest)) best = { over, widest, spans };
  }
  return points.map(({ at, area }, n) => ({ at, area, span: best.spans[n] }));
}

function spanAt(index: RayIndex, at: Vec3, along: Vec3, layer: number): number | undefined {
  const below: Vec3 = [at[0], at[1], at[2] - layer / 2];
  const ahead = rest(index, below, along, layer);
  if (ahead === undefined) return undefined;
  const behind = rest(index, below, [-along[0], -along[1], 0], layer);
  return behind === undefined ? undefined : ahead + behind;
}

/** mm to where a line laid above a point comes to rest in a direction, when it is there to be laid. */
function rest(index: RayIndex, below: Vec3, along: Vec3, layer: number): number | undefined {
  const distance = enters(index, below, along, FURTHEST);
  if (distance === undefined) return undefined;
  const back = Math.max(0, distance - JUST_BEFORE);
  const line: Vec3 = [below[0] + back * along[0], below[1] + back * along[1], below[2] + 0.75 * layer];
  return index.holds(line) ? distance : undefined;
}

function enters(index: RayIndex, from: Vec3, along: Vec3, most: number): number | undefined {
  const hit = index.first(from, along, most);
  return hit !== undefined && hit.leaving < 0 ? hit.distance : undefined;
}

/** All round, and first where the face itself leans back to. */
function directions(normal: Vec3): Vec3[] {
  const all = Array.from({ length: 2 * DIRECTIONS }, (_, i): Vec3 => {
    const turn = (Math.PI * i) / DIRECTIONS;
    return [Math.cos(turn), Math.sin(turn), 0];
  });
  const flat = Math.hypot(normal[0], normal[1]);
  return flat > 1e-6 ? [[-normal[0] / flat, -normal[1] / flat, 0], ...all] : all;
}
