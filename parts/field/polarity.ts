import type { BeltKey } from '../stock/belts.js';
import type { PlasticKey } from '../stock/plastics.js';

export type Polarity = 'positive' | 'negative' | 'unknown';

/**
 * Place in the qualitative series, positive end first. Materials whose place is not agreed on are not in it.
 * Source: qualitative triboelectric order and powder-coating table (Metal Finishing guide), verified: polyurethane foam,
 * nylon, glass, acrylic, ..., metals, ..., PE, PP, PVC, PTFE, silicone.
 */
const ROLLER_PLACE: Partial<Record<PlasticKey, number>> = {
  nylon: 1,
  'acrylic-cast': 3,
  'acrylic-extruded': 3,
  'uhmw-pe': 8,
  pvc: 10,
  ptfe: 11,
};

/** Rubbers and silk are taken to lie between the two ends (common practice, no source); silicone at the negative one. */
const BELT_PLACE: Record<BeltKey, number> = {
  neoprene: 6,
  'natural-latex': 6,
  nitrile: 6,
  polyurethane: 6,
  silk: 6,
  silicone: 12,
};

/** Closer places than this do not tell a sign. */
export const CLEAR_PLACES = 2;

/**
 * How far a roller's shell stands after a belt in the series, in places: positive is nearer the negative end. Undefined
 * where the shell's place is not agreed on.
 */
export function placesApart(roller: PlasticKey, belt: BeltKey): number | undefined {
  const place = ROLLER_PLACE[roller];
  return place === undefined ? undefined : place - BELT_PLACE[belt];
}
