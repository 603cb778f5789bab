import { type Printability, printability } from '../checks/printability.js';
import type { Machine } from '../machine/machine.js';
import type { PartOrder } from '../printed/catalog.js';
import { readStl } from './stl-read.js';

/**
 * How a part prints, measured on its file.
 * @throws RangeError when the bytes are not an STL
 */
export function printabilityOfStl(machine: Machine, order: PartOrder, bytes: Uint8Array): Printability {
  const positions = readStl(bytes);
  const triangles = Uint32Array.from({ length: positions.length / 3 }, (_, corner) => corner);
  return printability(machine, order, { positions, triangles });
}
