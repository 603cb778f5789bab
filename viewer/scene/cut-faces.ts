import {
  BufferAttribute,
  BufferGeometry,
  CanvasTexture,
  Group,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  Plane,
  RepeatWrapping,
  ShapeUtils,
  SRGBColorSpace,
  Vector2,
  Vector3,
} from 'three';
import { cutDirections, type Loop, loopArea } from '../../parts/index.js';
import type { PieceView, Section } from '../worker/messages.js';
import { layerOf } from './layers.js';
import { lookOf, type Palette } from './look.js';

/** mm between the lines that fill a cut face. */
const HATCH = 3.2;

/** The filled faces of a cut, one for each piece, and the plane that takes the half in front of them away. */
export class CutFaces {
  readonly group = new Group();
  private readonly textures = [1, -1].map(hatching);

  /** Draws the faces of a section; nothing when there is none. */
  show(
    section: Section | undefined,
    pieces: ReadonlyMap<string, PieceView>,
    hidden: ReadonlySet<string>,
    palette: Palette,
  ): Plane | undefined {
    this.clear();
    if (!section) return undefined;
    const { along, normal } = cutDirections(section.angle);
    const at = ([x, z]: readonly [number, number]) => [x * along[0], x * along[1], z] as const;
    let number = 0;
    for (const { piece: id, loops } of section.faces) {
      const piece = pieces.get(id);
      number++;
      if (!piece || loops.length === 0 || hidden.has(layerOf(piece))) continue;
      const face = faceOf(loops, at);
      const material = new MeshBasicMaterial({
        color: lookOf(piece).colour,
        map: this.textures[number % 2]!,
        side: 2,
        polygonOffset: true,
        polygonOffsetFactor: -1,
        polygonOffsetUnits: -1,
      });
      const mesh = new Mesh(face, material);
      mesh.userData.piece = id;
      this.group.add(mesh, outlineOf(loops, at, palette.edge));
    }
    // Kept is what lies behind the plane, seen from the side that looks at the section.
    return new Plane(new Vector3(-normal[0], -normal[1], -normal[2]), 0);
  }

  /** The pieces whose faces are drawn. */
  get filled(): readonly string[] {
    return this.group.children.flatMap(({ userData }) =>
      typeof userData.piece === 'string' ? [userData.piece] : [],
    );
  }

  clear(): void {
    for (const child of [...this.group.children]) {
      const drawn = child as Mesh<BufferGeometry, MeshBasicMaterial>;
      drawn.geometry.dispose();
      drawn.material.dispose();
      this.group.remove(child);
    }
  }

  dispose(): void {
    this.clear();
    for (const texture of this.textures) texture.dispose();
  }
}

type Placed = (point: readonly [number, number]) => readonly [number, number, number];

function faceOf(loops: readonly Loop[], at: Placed): BufferGeometry {
  const points: number[] = [];
  const hatch: number[] = [];
  for (const { outline, holes } of nested(loops)) {
    const rings = [outline, ...holes].map((loop) => loop.map(([x, z]) => new Vector2(x, z)));
    const corners = rings.flat();
    for (const triangle of ShapeUtils.triangulateShape(rings[0]!, rings.slice(1))) {
      for (const corner of triangle) {
        const { x, y } = corners[corner]!;
        points.push(...at([x, y]));
        hatch.push(x / HATCH, y / HATCH);
      }
    }
  }
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(points), 3));
  geometry.setAttribute('uv', new BufferAttribute(Float32Array.from(hatch), 2));
  return geometry;
}

function outlineOf(loops: readonly Loop[], at: Placed, colour: number): LineSegments {
  const ends = loops.flatMap((loop) =>
    loop.flatMap((point, i) => [...at(point), ...at(loop[(i + 1) % loop.length]!)]),
  );
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(ends), 3));
  return new LineSegments(geometry, new LineBasicMaterial({ color: colour }));
}

/** Outlines (counter-clockwise) each with the holes that lie directly in it. */
export function nested(loops: readonly Loop[]): { readonly outline: Loop; readonly holes: Loop[] }[] {
  const areas = new Map(loops.map((loop) => [loop, loopArea(loop)]));
  const faces = loops
    .filter((loop) => areas.get(loop)! > 0)
    .sort((a, b) => areas.get(a)! - areas.get(b)!)
    .map((outline) => ({ outline, holes: [] as Loop[] }));
  for (const hole of loops.filter((loop) => areas.get(loop)! < 0)) {
    // The smallest outline around it is its own.
    faces.find(({ outline }) => contains(outline, hole[0]!))?.holes.push(hole);
  }
  return faces;
}

function contains(loop: Loop, [x, z]: readonly [number, number]): boolean {
  let inside = false;
  loop.forEach(([ax, az], i) => {
    const [bx, bz] = loop[(i + 1) % loop.length]!;
    if (az > z !== bz > z && x < ax + ((z - az) / (bz - az)) * (bx - ax)) inside = !inside;
  });
  return inside;
}

/** A tile of slanting lines, light on the piece's own colour. */
function hatching(slant: number): CanvasTexture {
  const size = 32;
  const canvas = document.createElement('canvas');
  canvas.width = canvas.height = size;
  const pen = canvas.getContext('2d')!;
  pen.fillStyle = '#ffffff';
  pen.fillRect(0, 0, size, size);
  pen.strokeStyle = 'rgba(20, 20, 20, 0.34)';
  pen.lineWidth = 4;
  // Each line goes on beyond the tile, so that tiles join without a gap.
  for (const shift of [-size, 0, size]) {
    pen.beginPath();
    pen.moveTo(shift - size, slant > 0 ? 2 * size : -size);
    pen.lineTo(shift + 2 * size, slant > 0 ? -size : 2 * size);
    pen.stroke();
  }
  const texture = new CanvasTexture(canvas);
  texture.wrapS = texture.wrapT = RepeatWrapping;
  texture.colorSpace = SRGBColorSpace;
  texture.anisotropy = 4;
  return texture;
}
