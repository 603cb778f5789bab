import { serialize } from '@jscad/stl-serializer';
import type { Mesh } from '../solid/kernel.js';
import { asGeom3 } from '../solid/primitives.js';

/** One solid as a binary STL file (little endian, mm). The file has no unit and no time in it. */
export function writeStl(mesh: Mesh): Uint8Array {
  const chunks = serialize({ binary: true }, asGeom3(mesh.positions, mesh.triangles));
  const parts = chunks.map((chunk) => new Uint8Array(chunk));
  const bytes = new Uint8Array(parts.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of parts) {
    bytes.set(part, at);
    at += part.length;
  }
  return bytes;
}
