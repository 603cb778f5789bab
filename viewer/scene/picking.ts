import { type Plane, Ray, type Raycaster, type Vector3 } from 'three';
import type { CutFaces } from './cut-faces.js';
import type { DrawnPiece, Solids } from './solids.js';

/** A place on the machine that was pointed at. */
export interface Hit {
  readonly piece: string;
  /** Number of the surface on the piece's mesh; undefined on the face of the cut, which is no surface of the piece. */
  readonly surface: number | undefined;
  readonly point: Vector3;
}

/** What a ray meets first of what is shown: pieces, less what is cut away, and the faces of the cut. */
export function hitBy(
  caster: Raycaster,
  solids: Solids,
  faces: CutFaces,
  plane: Plane | undefined,
  passes: (drawn: DrawnPiece) => boolean = () => false,
): Hit | undefined {
  let nearest: { readonly hit: Hit; readonly distance: number } | undefined;
  const consider = (hit: Hit) => {
    const distance = hit.point.distanceTo(caster.ray.origin);
    if (!nearest || distance < nearest.distance) nearest = { hit, distance };
  };
  for (const drawn of solids.all) {
    if (!drawn.faces.visible || passes(drawn)) continue;
    const hit = hitPiece(caster, drawn, solids, plane);
    if (hit) consider(hit);
  }
  for (const { object, point } of caster.intersectObjects(faces.group.children, false)) {
    const piece: unknown = object.userData.piece;
    if (typeof piece === 'string') consider({ piece, surface: undefined, point });
  }
  return nearest?.hit;
}

function hitPiece(
  caster: Raycaster,
  drawn: DrawnPiece,
  solids: Solids,
  plane: Plane | undefined,
): Hit | undefined {
  const inverse = drawn.faces.matrix.clone().invert();
  const ray = new Ray().copy(caster.ray).applyMatrix4(inverse);
  const { of } = drawn.geometry.dressed.surfaces;
  const hits = solids
    .treeOf(drawn)
    .raycast(ray, drawn.faces.material)
    .sort((a, b) => a.distance - b.distance);
  for (const { point, faceIndex } of hits) {
    if (faceIndex === undefined || faceIndex === null) continue;
    const there = point.clone().applyMatrix4(drawn.faces.matrix);
    if (plane && plane.distanceToPoint(there) < 0) continue;
    return { piece: drawn.piece.id, surface: of[faceIndex]!, point: there };
  }
  return undefined;
}
