import type { Mesh } from './kernel.js';
import { type Loop, type Placement, placementMatrix, radians, type Vec2, type Vec3 } from './vector.js';

/**
 * A half plane's direction out of the machine's axis: `along` the plane to the right, `normal` towards whoever looks at
 * the section with z up. What lies on the normal's side is cut away.
 * @param angle degrees from +x, counter-clockwise from above
 */
export function cutDirections(angle: number): { readonly along: Vec3; readonly normal: Vec3 } {
  const turn = radians(angle);
  return { along: [Math.cos(turn), Math.sin(turn), 0], normal: [Math.sin(turn), -Math.cos(turn), 0] };
}

/**
 * Where the plane through the z axis at an angle cuts a closed mesh: loops of [along, z] in mm, material on the left, so
 * that outlines run counter-clockwise and holes clockwise. A vertex that lies in the plane counts as before it, which
 * keeps every loop closed whatever the plane meets.
 */
export function sliceMesh({ positions, triangles }: Mesh, placement: Placement, angle: number): Loop[] {
  const { along, normal } = cutDirections(angle);
  const m = placementMatrix(placement);
  const vertices = positions.length / 3;
  const [ahead, across, height] = [0, 1, 2].map(() => new Float64Array(vertices)) as [
    Float64Array,
    Float64Array,
    Float64Array,
  ];
  for (let v = 0; v < vertices; v++) {
    const [px, py, pz] = [positions[3 * v]!, positions[3 * v + 1]!, positions[3 * v + 2]!];
    const x = m[0] * px + m[1] * py + m[2] * pz + m[3];
    const y = m[4] * px + m[5] * py + m[6] * pz + m[7];
    ahead[v] = normal[0] * x + normal[1] * y;
    across[v] = along[0] * x + along[1] * y;
    height[v] = m[8] * px + m[9] * py + m[10] * pz + m[11];
  }

  // Each triangle that the plane crosses has one side going away from whoever looks and one coming back.
  const starts = new Map<number, { readonly point: Vec2; readonly next: number }>();
  for (let first = 0; first < triangles.length; first += 3) {
    let [away, back]: [number | undefined, number | undefined] = [undefined, undefined];
    let point: Vec2 | undefined;
    for (let side = 0; side < 3; side++) {
      const [from, to] = [triangles[first + side]!, triangles[first + ((side + 1) % 3)]!];
      const [before, after] = [ahead[from]! >= 0, ahead[to]! >= 0];
      if (before === after) continue;
      if (before) {
        away = edgeKey(from, to);
        const share = ahead[from]! / (ahead[from]! - ahead[to]!);
        const between = (values: Float64Array) => values[from]! + share * (values[to]! - values[from]!);
        point = [between(across), between(height)];
      } else back = edgeKey(from, to);
    }
    if (away !== undefined && back !== undefined && point) starts.set(away, { point, next: back });
  }
  return loopsOf(starts);
}

/** Two vertex numbers below this make one exact number. */
const EDGE_BASE = 2 ** 26;
const edgeKey = (a: number, b: number) => Math.min(a, b) * EDGE_BASE + Math.max(a, b);

function loopsOf(starts: Map<number, { readonly point: Vec2; readonly next: number }>): Loop[] {
  const loops: Loop[] = [];
  while (starts.size > 0) {
    const loop: Vec2[] = [];
    let at: number | undefined = starts.keys().next().value;
    for (let segment = starts.get(at!); segment; segment = starts.get(at!)) {
      starts.delete(at!);
      loop.push(segment.point);
      at = segment.next;
    }
    if (loop.length > 2) loops.push(loop);
  }
  return loops;
}
