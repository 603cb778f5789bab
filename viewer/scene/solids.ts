import {
  Box3,
  BufferAttribute,
  BufferGeometry,
  Group,
  LineBasicMaterial,
  LineSegments,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  MeshStandardMaterial,
  type Plane,
  Vector3,
} from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { type Finding, type Placement, placementMatrix } from '../../parts/index.js';
import { boundsAt } from '../session/take-apart.js';
import type { DressedMesh, PieceView } from '../worker/messages.js';
import { layerOf } from './layers.js';
import { lookOf, type Palette } from './look.js';

/** What is left of a piece that is not the one looked at. */
const FADED = 0.1;
const EDGES = 0.55;

/** mm around a piece that a finding is still about. */
const BESIDE = 2;
/** Where a finding is. */
type Place = NonNullable<Finding['at']>;

/** Pieces that are seen through, from the inside out. */
const ORDER: Readonly<Record<string, number>> = { tube: 1, terminal: 2 };

/** Lines on an edge are not to sink into the faces beside it. */
const BEHIND_EDGES = { polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1 };

/** What a mesh is on the graphics card; shared by all copies of a part. */
interface Geometry {
  readonly dressed: DressedMesh;
  readonly faces: BufferGeometry;
  readonly edges: BufferGeometry;
  tree: MeshBVH | undefined;
}

/** One piece as it is drawn. */
export interface DrawnPiece {
  readonly piece: PieceView;
  readonly geometry: Geometry;
  readonly faces: Mesh<BufferGeometry, MeshStandardMaterial>;
  readonly edges: LineSegments<BufferGeometry, LineBasicMaterial>;
  /** Writes the depth of what is seen through before its colour comes: of its surfaces only the nearest is painted. */
  readonly veil: Mesh<BufferGeometry, MeshBasicMaterial>;
  placement: Placement;
}

/** The pieces of the machine in the scene. Keeps what did not change, frees what is gone. */
export class Solids {
  readonly group = new Group();
  private readonly geometries = new Map<string, Geometry>();
  private readonly drawn = new Map<string, DrawnPiece>();
  private clipping: Plane[] | null = null;

  constructor(private palette: Palette) {}

  get all(): readonly DrawnPiece[] {
    return [...this.drawn.values()];
  }
  get(id: string): DrawnPiece | undefined {
    return this.drawn.get(id);
  }

  /** Shows these pieces and no others. */
  show(pieces: readonly PieceView[], meshes: ReadonlyMap<string, DressedMesh>): void {
    const wanted = new Map(pieces.map((piece) => [piece.id, piece]));
    for (const [id, drawn] of this.drawn) {
      if (wanted.get(id)?.key !== drawn.piece.key) this.remove(id);
    }
    for (const [key, geometry] of this.geometries) {
      if (pieces.some((piece) => piece.key === key)) continue;
      geometry.faces.dispose();
      geometry.edges.dispose();
      this.geometries.delete(key);
    }
    for (const piece of pieces) {
      const before = this.drawn.get(piece.id);
      const drawn = before ? { ...before, piece } : this.add(piece, meshes.get(piece.key)!);
      this.drawn.set(piece.id, drawn);
      this.place(drawn, piece.placement);
    }
  }

  move(placements: ReadonlyMap<string, Placement>): void {
    for (const drawn of this.drawn.values()) {
      this.place(drawn, placements.get(drawn.piece.id) ?? drawn.piece.placement);
    }
  }

  /** Layers that are not shown, and the pieces that stay clear while the others fade. */
  emphasise(
    hidden: ReadonlySet<string>,
    clear: ReadonlySet<string> | undefined,
    hover: string | undefined,
  ): void {
    for (const { piece, faces, edges, veil } of this.drawn.values()) {
      const shown = !hidden.has(layerOf(piece));
      faces.visible = edges.visible = shown;
      const faded = clear !== undefined && !clear.has(piece.id);
      const look = lookOf(piece);
      const opacity = faded ? Math.min(FADED, look.opacity) : look.opacity;
      this.paint(faces.material, opacity);
      veil.visible = shown && opacity < 1;
      edges.material.opacity = faded ? EDGES * 0.35 : EDGES;
      faces.material.emissive.set(piece.id === hover ? this.palette.accent : 0x000000);
      faces.material.emissiveIntensity = piece.id === hover ? 0.32 : 0;
      // What is seen through throws no shadow.
      faces.castShadow = opacity > 0.5;
    }
  }

  /** The pieces that a finding’s place or way comes to. */
  at(place: Place): ReadonlySet<string> {
    const points = ('path' in place ? place.path : [place.point]).map((point) => new Vector3(...point));
    const near = this.all.filter(({ geometry, placement }) => {
      const { min, max } = boundsAt(geometry.dressed.mesh, placement);
      const box = new Box3(new Vector3(...min), new Vector3(...max)).expandByScalar(BESIDE);
      return points.some((point) => box.containsPoint(point));
    });
    return new Set(near.map(({ piece }) => piece.id));
  }

  clip(plane: Plane | undefined): void {
    this.clipping = plane ? [plane] : null;
    for (const { faces, edges, veil } of this.drawn.values()) {
      for (const { material } of [faces, edges, veil]) material.clippingPlanes = this.clipping;
    }
  }

  repaint(palette: Palette): void {
    this.palette = palette;
    for (const { edges } of this.drawn.values()) edges.material.color.set(palette.edge);
  }

  /** Search tree of a piece's mesh, made when it is first needed; its triangle numbers are those of the mesh. */
  treeOf({ geometry }: DrawnPiece): MeshBVH {
    geometry.tree ??= new MeshBVH(geometry.faces, { indirect: true });
    return geometry.tree;
  }

  dispose(): void {
    this.show([], new Map());
  }

  private add(piece: PieceView, dressed: DressedMesh): DrawnPiece {
    const geometry = this.geometries.get(piece.key) ?? geometryOf(dressed);
    this.geometries.set(piece.key, geometry);
    const { colour, metalness, roughness } = lookOf(piece);
    const material = new MeshStandardMaterial({
      color: colour,
      metalness,
      roughness,
      clippingPlanes: this.clipping,
      clipShadows: true,
      ...BEHIND_EDGES,
    });
    const faces = new Mesh(geometry.faces, material);
    faces.receiveShadow = true;
    // Of what is seen through, the outermost piece comes last.
    faces.renderOrder = ORDER[piece.id] ?? 0;
    const edges = new LineSegments(
      geometry.edges,
      new LineBasicMaterial({
        color: this.palette.edge,
        transparent: true,
        opacity: EDGES,
        clippingPlanes: this.clipping,
      }),
    );
    const veil = new Mesh(
      geometry.faces,
      new MeshBasicMaterial({
        colorWrite: false,
        transparent: true,
        clippingPlanes: this.clipping,
        ...BEHIND_EDGES,
      }),
    );
    veil.renderOrder = faces.renderOrder - 0.5;
    for (const object of [faces, edges, veil]) object.matrixAutoUpdate = false;
    this.group.add(faces, edges, veil);
    return { piece, geometry, faces, edges, veil, placement: piece.placement };
  }

  private remove(id: string): void {
    const { faces, edges, veil } = this.drawn.get(id)!;
    for (const object of [faces, edges, veil]) {
      this.group.remove(object);
      object.material.dispose();
    }
    this.drawn.delete(id);
  }

  private place(drawn: DrawnPiece, placement: Placement): void {
    drawn.placement = placement;
    const [a, b, c, d, e, f, g, h, i, j, k, l] = placementMatrix(placement);
    const matrix = new Matrix4().set(a, b, c, d, e, f, g, h, i, j, k, l, 0, 0, 0, 1);
    for (const object of [drawn.faces, drawn.edges, drawn.veil]) {
      object.matrix.copy(matrix);
      object.matrixWorldNeedsUpdate = true;
    }
  }

  private paint(material: MeshStandardMaterial, opacity: number): void {
    const seenThrough = opacity < 1;
    material.opacity = opacity;
    if (material.transparent !== seenThrough) {
      material.transparent = seenThrough;
      material.needsUpdate = true;
    }
  }
}

function geometryOf(dressed: DressedMesh): Geometry {
  const { positions, triangles } = dressed.mesh;
  const corners = new Float32Array(3 * triangles.length);
  for (let i = 0; i < triangles.length; i++) {
    const at = 3 * triangles[i]!;
    corners[3 * i] = positions[at]!;
    corners[3 * i + 1] = positions[at + 1]!;
    corners[3 * i + 2] = positions[at + 2]!;
  }
  const faces = new BufferGeometry();
  faces.setAttribute('position', new BufferAttribute(corners, 3));
  faces.setAttribute('normal', new BufferAttribute(dressed.surfaces.normals, 3));
  const edges = new BufferGeometry();
  edges.setAttribute('position', new BufferAttribute(dressed.surfaces.edges, 3));
  return { dressed, faces, edges, tree: undefined };
}
