import { practice } from './allowances.js';

/** A strip of foil between a piece of metal and the plastic that it lies in, by which a wire reaches it. Lengths in mm. */
export interface BondFoil {
  readonly width: number;
  /** Along the metal, and the end that stands out for the wire. */
  readonly length: number;
}

export const FOIL_THICKNESS = practice(0.06, 'mm', 'thickness of adhesive copper foil, 0.05 to 0.08');
/** mm; what stands out of the plastic, for a wire to be soldered or clamped to. */
const FREE_END = 15;
/** mm; how much narrower a strip is than the place in which it lies. */
const SIDE_PLAY = 0.5;

/** A strip that lies under an axle's flat, in a slot, and stands out of the slot's end. */
export function foilInSlot(slot: { readonly width: number; readonly length: number }): BondFoil {
  return foil(slot.width, slot.length + FREE_END);
}

/** A strip over the upper half of a bearing in a pocket that is open below, with an end to either side. */
export function foilOverBearing(bearing: { readonly outer: number; readonly width: number }): BondFoil {
  return foil(bearing.width, (Math.PI / 2) * bearing.outer + 2 * FREE_END);
}

/** Scissors cut to half a millimetre. */
const foil = (width: number, length: number): BondFoil => ({
  width: Math.floor(2 * (width - SIDE_PLAY)) / 2,
  length: Math.ceil(length),
});
