import jscad from '@jscad/modeling';
import type { Section } from './kernel.js';
import type { Loop, Region, Vec2 } from './vector.js';
import { PointIndex } from './weld.js';

const { extrudeFromSlices, extrudeLinear, extrudeRotate, slice } = jscad.extrusions;
const { geom2, geom3 } = jscad.geometries;

type Geom3 = ReturnType<typeof geom3.create>;
type Point = [number, number];

/** mm */
const AXIS_SNAP = 1e-9;

/** A flat region as JSCAD's own geometry. */
function flat(region: Region): ReturnType<typeof geom2.create> {
  const sides: [Point, Point][] = [];
  for (const loop of region) {
    if (loop.length < 3) throw new RangeError('a loop needs at least three points');
    for (let i = 0; i < loop.length; i++) {
      const [ax, ay] = loop[i]!;
      const [bx, by] = loop[(i + 1) % loop.length]!;
      if (!Number.isFinite(ax + ay)) throw new RangeError('every point of a loop must be finite');
      sides.push([
        [ax, ay],
        [bx, by],
      ]);
    }
  }
  return geom2.create(sides);
}

/** @throws RangeError when the height is not above 0 mm: JSCAD itself accepts any without a word */
function heightOf(bottom: number, top: number): number {
  if (!(top > bottom)) throw new RangeError(`an extrusion must rise: bottom ${bottom} mm, top ${top} mm`);
  return top - bottom;
}

export function extruded(region: Region, bottom: number, top: number): Geom3 {
  const shape = extrudeLinear({ height: heightOf(bottom, top) }, flat(region));
  return jscad.transforms.translateZ(bottom, shape);
}

/** @throws RangeError when a section does not lie over the one before it or has another number of points */
export function lofted(sections: readonly Section[]): Geom3 {
  const slices = sections.map(({ z, loop }, i) => {
    const below = sections[i - 1];
    if (below && !(z > below.z))
      throw new RangeError(`section ${i} at ${z} mm does not lie over the one before it`);
    if (below && loop.length !== below.loop.length)
      throw new RangeError(`section ${i} has another number of points`);
    if (loop.some(([x, y]) => !Number.isFinite(x + y)))
      throw new RangeError('every point of a loop must be finite');
    return slice.fromPoints(loop.map(([x, y]): [number, number, number] => [x, y, z]));
  });
  if (slices.length < 2) throw new RangeError('a loft needs two sections or more');
  const options = {
    numberOfSlices: slices.length,
    callback: (_progress: number, i: number) => slices[i]!,
  };
  return extrudeFromSlices(options, slices[0]!) as Geom3;
}

export function revolved(profile: Loop, sides: number): Geom3 {
  if (!Number.isInteger(sides) || sides < 3)
    throw new RangeError(`a revolution needs 3 or more sides, got ${sides}`);
  if (profile.some(([radius]) => radius < 0)) throw new RangeError('a profile may not cross the axis');
  // A point a rounding error off the axis would open a pinhole there.
  const snapped = profile.map(([radius, z]): Vec2 => [radius < AXIS_SNAP ? 0 : radius, z]);
  return extrudeRotate({ segments: sides }, flat([snapped])) as Geom3;
}

/** Triangles of a JSCAD solid: vertices rounded to float32 first, then made one where they are the same. */
export function trianglesOf(shape: Geom3): { positions: Float32Array; triangles: Uint32Array } {
  const faces = geom3.toPolygons(shape);
  const index = new PointIndex(faces.length);
  const triangles: number[] = [];
  for (const face of faces) {
    const corners = face.vertices.map(([x, y, z]) => index.of(x, y, z));
    for (let i = 2; i < corners.length; i++) {
      const [a, b, c] = [corners[0]!, corners[i - 1]!, corners[i]!];
      if (a !== b && b !== c && c !== a) triangles.push(a, b, c);
    }
  }
  return { positions: index.positions(), triangles: Uint32Array.from(triangles) };
}

/** A mesh as JSCAD's own geometry, which its serializers read. */
export function asGeom3(positions: ArrayLike<number>, triangles: ArrayLike<number>): Geom3 {
  const faces = [];
  const corner = (i: number): [number, number, number] => {
    const at = triangles[i]! * 3;
    return [positions[at]!, positions[at + 1]!, positions[at + 2]!];
  };
  for (let i = 0; i < triangles.length; i += 3) {
    faces.push(jscad.geometries.poly3.create([corner(i), corner(i + 1), corner(i + 2)]));
  }
  return geom3.create(faces);
}
