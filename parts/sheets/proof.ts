import type { Stated } from '../printed/part.js';
import { CHORD_TOLERANCE } from '../solid/facets.js';
import { type MeshFacts, meshFacts } from '../solid/facts.js';
import { readStl } from './stl-read.js';

/** Stated and written volume may differ by this much of the stated one. */
export const VOLUME_TOLERANCE = 0.005;
/** The serializer snaps vertices to about 1e-5 of a part’s size. */
const SNAP = 2e-5;

/** What is wrong with a written file, in words; empty when it is what the part states. */
export interface Proof {
  readonly facts: MeshFacts;
  readonly complaints: readonly string[];
}

/** Reads an STL back and holds it against what its part states about itself. Lengths in mm. */
export function proveStl(bytes: Uint8Array, stated: Stated): Proof {
  const facts = meshFacts(readStl(bytes));
  return { facts, complaints: complaintsOf(facts, stated) };
}

/** The same for a mesh that was never written. */
export function complaintsOf(facts: MeshFacts, stated: Stated): string[] {
  const complaints: string[] = [];
  if (facts.triangles === 0) complaints.push('it holds no triangle');
  if (facts.openEdges > 0) complaints.push(`it is not closed: ${facts.openEdges} open edges`);
  if (!(facts.volume > 0)) complaints.push(`it is inside out: volume ${facts.volume.toFixed(1)} mm3`);
  if (facts.pieces !== stated.pieces)
    complaints.push(`it has ${facts.pieces} pieces, stated ${stated.pieces}`);
  if (facts.genus !== stated.genus) complaints.push(`it has ${facts.genus} tunnels, stated ${stated.genus}`);

  const off = Math.abs(facts.volume / stated.volume - 1);
  if (!(off <= VOLUME_TOLERANCE)) {
    complaints.push(`its volume is ${facts.volume.toFixed(0)} mm3, stated ${stated.volume.toFixed(0)} mm3`);
  }
  const size = Math.max(...stated.bounds.max.map((max, i) => max - stated.bounds.min[i]!));
  const slack = CHORD_TOLERANCE + SNAP * size;
  for (const [i, axis] of ['x', 'y', 'z'].entries()) {
    const [low, high] = [facts.bounds.min[i]!, facts.bounds.max[i]!];
    const [from, to] = [stated.bounds.min[i]!, stated.bounds.max[i]!];
    if (!(Math.abs(low - from) <= slack && Math.abs(high - to) <= slack)) {
      complaints.push(
        `it spans ${low.toFixed(2)} to ${high.toFixed(2)} mm in ${axis}, stated ${from.toFixed(2)} to ${to.toFixed(2)}`,
      );
    }
  }
  return complaints;
}
