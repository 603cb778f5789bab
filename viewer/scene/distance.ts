import { BufferAttribute, BufferGeometry, Matrix4, Vector3 } from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { type Placement, placementMatrix, type Vec3 } from '../../parts/index.js';
import type { DressedMesh } from '../worker/messages.js';

/** One surface of a piece where it stands: corners of its triangles, mm in the machine’s frame. */
export type SurfaceSoup = Float32Array;

/** The triangles of one surface of a mesh, placed. */
export function surfaceSoup(
  { mesh, surfaces }: DressedMesh,
  surface: number,
  placement: Placement,
): SurfaceSoup {
  const m = placementMatrix(placement);
  const points: number[] = [];
  for (let t = 0; t < surfaces.of.length; t++) {
    if (surfaces.of[t] !== surface) continue;
    for (let corner = 0; corner < 3; corner++) {
      const at = 3 * mesh.triangles[3 * t + corner]!;
      const [x, y, z] = [mesh.positions[at]!, mesh.positions[at + 1]!, mesh.positions[at + 2]!];
      for (let row = 0; row < 12; row += 4)
        points.push(m[row]! * x + m[row + 1]! * y + m[row + 2]! * z + m[row + 3]!);
    }
  }
  return Float32Array.from(points);
}

/** The shortest way between two surfaces, mm. */
export interface Gap {
  readonly distance: number;
  readonly from: Vec3;
  readonly to: Vec3;
}

/** @throws RangeError when a surface has no triangle */
export function shortestBetween(a: SurfaceSoup, b: SurfaceSoup): Gap {
  if (a.length === 0 || b.length === 0) throw new RangeError('a surface needs a triangle');
  const [first, second] = [treeOver(a), treeOver(b)];
  const from = { point: new Vector3(), distance: 0, faceIndex: 0 };
  const to = { point: new Vector3(), distance: 0, faceIndex: 0 };
  const found = first.closestPointToGeometry(second.geometry, new Matrix4(), from, to);
  if (!found) throw new RangeError('no shortest way was found');
  const [p, q] = [from.point, to.point];
  return { distance: p.distanceTo(q), from: [p.x, p.y, p.z], to: [q.x, q.y, q.z] };
}

function treeOver(soup: SurfaceSoup): MeshBVH {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(soup, 3));
  const tree = new MeshBVH(geometry);
  // With a tree of its own the other surface is walked down side by side with the first.
  (geometry as BufferGeometry & { boundsTree?: MeshBVH }).boundsTree = tree;
  return tree;
}
