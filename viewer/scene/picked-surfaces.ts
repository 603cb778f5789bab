import { BufferAttribute, BufferGeometry, Group, Mesh, MeshBasicMaterial, type Plane } from 'three';
import { type Gap, shortestBetween, surfaceSoup } from './distance.js';
import type { DrawnPiece, Solids } from './solids.js';

/** A surface that was picked for measuring. */
export interface Pick {
  readonly piece: string;
  /** Of the mesh: with another mesh surfaces are numbered anew. */
  readonly key: string;
  readonly surface: number;
}

/** Surfaces that were picked for measuring, as they are shown. */
export class PickedSurfaces {
  readonly group = new Group();
  private readonly drawn: Mesh<BufferGeometry, MeshBasicMaterial>[] = [];

  show(picks: readonly Pick[], solids: Solids, plane: Plane | undefined, colour: number): void {
    this.clear();
    for (const { piece, surface } of picks) {
      const drawn = solids.get(piece);
      if (!drawn) continue;
      const mesh = highlight(drawn, surface, colour);
      mesh.material.clippingPlanes = plane ? [plane] : null;
      this.drawn.push(mesh);
      this.group.add(mesh);
    }
  }

  clear(): void {
    for (const mesh of this.drawn.splice(0)) {
      mesh.geometry.dispose();
      mesh.material.dispose();
      this.group.remove(mesh);
    }
  }
}

/** The shortest way between two picked surfaces; undefined as long as there are not two. */
export function gapBetween(picks: readonly Pick[], solids: Solids): Gap | undefined {
  const [a, b] = picks.map(({ piece, surface }) => {
    const drawn = solids.get(piece);
    return drawn && surfaceSoup(drawn.geometry.dressed, surface, drawn.placement);
  });
  return a && b && a.length > 0 && b.length > 0 ? shortestBetween(a, b) : undefined;
}

/** A surface laid over its piece in another colour, to show that it was picked. */
function highlight(
  drawn: DrawnPiece,
  surface: number,
  colour: number,
): Mesh<BufferGeometry, MeshBasicMaterial> {
  const geometry = new BufferGeometry();
  const soup = surfaceSoup(drawn.geometry.dressed, surface, drawn.placement);
  geometry.setAttribute('position', new BufferAttribute(soup, 3));
  const material = new MeshBasicMaterial({
    color: colour,
    transparent: true,
    opacity: 0.75,
    side: 2,
    polygonOffset: true,
    polygonOffsetFactor: -2,
    polygonOffsetUnits: -2,
  });
  return new Mesh(geometry, material);
}
