import type { Machine } from '../machine/machine.js';
import { baseMetalware } from './metalware-base.js';
import { carrierMetalware } from './metalware-carriers.js';
import { combMetalware } from './metalware-combs.js';
import { driveMetalware } from './metalware-drive.js';
import { type MetalPiece, numbered } from './metalware-piece.js';
import { terminalMetalware } from './metalware-terminal.js';

export type { Bite, Bond, MetalPiece } from './metalware-piece.js';

/**
 * Every piece of metal that `assembly` leaves out, each a conductor in its place: screws with their nuts, washers and inserts,
 * the ground stud, set screws, bond foils and the contact spring. Wires and the lugs' shanks have no decided place and are not
 * among them; nor are jack screws, axles, bearings and combs, which are pieces of the assembly.
 */
export function metalware(machine: Machine): MetalPiece[] {
  return numbered([
    ...baseMetalware(machine),
    ...combMetalware(machine),
    ...carrierMetalware(machine),
    ...driveMetalware(machine),
    ...terminalMetalware(machine),
  ]);
}
