import { type BondFoil, FOIL_THICKNESS } from '../machine/bond-foil.js';
import type { Fastener } from './part.js';

/** Strips of foil among what is to be bought. */
export const bondStrip = ({ width, length }: BondFoil, count: number, use: string): Fastener => ({
  what: `strip of copper foil with adhesive, ${FOIL_THICKNESS.value} thick`,
  size: `${width} wide`,
  length,
  count,
  use,
});
