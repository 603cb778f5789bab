import type { Plastic, PlasticKey } from './plastic.js';
import { PRINTED_PLASTICS } from './plastics-printed.js';
import { STOCK_PLASTICS } from './plastics-stock.js';

export { PLASTIC_KEYS, type Plastic, type PlasticKey, type Tracking } from './plastic.js';
export { PRINTED_WALL_STRENGTH } from './plastics-printed.js';

/** What a column's tube may be made of. */
export const TUBE_MATERIALS = [
  'acrylic-extruded',
  'acrylic-cast',
  'polycarbonate',
  'pvc',
  'borosilicate-glass',
] as const satisfies readonly PlasticKey[];
export type TubeKey = (typeof TUBE_MATERIALS)[number];

/** What a roller's shell may be made of. */
export const ROLLER_MATERIALS = [
  'ptfe',
  'nylon',
  'uhmw-pe',
  'pom',
  'acrylic-cast',
  'acrylic-extruded',
  'polycarbonate',
  'pvc',
] as const satisfies readonly PlasticKey[];

/** What parts may be printed in. */
export const PRINT_MATERIALS = [
  'petg',
  'pla',
  'abs',
  'asa',
  'pa12',
  'polycarbonate',
  'tpu',
] as const satisfies readonly PlasticKey[];

export const PLASTICS: readonly Plastic[] = [...STOCK_PLASTICS, ...PRINTED_PLASTICS];

export function plastic(key: PlasticKey): Plastic {
  return PLASTICS.find((each) => each.key === key)!;
}
