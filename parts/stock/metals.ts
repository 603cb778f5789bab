import type { Constant, Sourced } from './row.js';

export const PLATE_MATERIALS = ['aluminium', 'steel', 'brass', 'plywood', 'acrylic-cast'] as const;
export type PlateKey = (typeof PLATE_MATERIALS)[number];

/** Those of them that a terminal is spun, pressed or cast from. */
export const TERMINAL_MATERIALS = ['aluminium', 'steel', 'brass'] as const satisfies readonly PlateKey[];
export type TerminalKey = (typeof TERMINAL_MATERIALS)[number];

/** What a base plate or a terminal's shell is made of. */
export interface PlateMaterial {
  readonly key: PlateKey;
  /** Whether the plate itself is the ground electrode; an insulating one needs a ground electrode under it. */
  readonly conductive: boolean;
  /** g/cm3 */
  readonly density: Constant;
  /** MPa */
  readonly youngsModulus: Constant;
}

const HANDBOOK: Sourced = { source: 'materials handbooks', status: 'from-memory' };
const MAKER: Sourced = {
  source: "maker's data for cast acrylic as printed by a dealer; ASTM sheet",
  status: 'verified',
};

const material = (
  key: PlateKey,
  conductive: boolean,
  density: number,
  modulus: number,
  origin: Sourced = HANDBOOK,
): PlateMaterial => ({
  key,
  conductive,
  density: { value: density, unit: 'g/cm3', meaning: `density of ${key}`, ...origin },
  youngsModulus: { value: modulus, unit: 'MPa', meaning: `Young's modulus of ${key}`, ...origin },
});

const PLATES: readonly PlateMaterial[] = [
  material('aluminium', true, 2.7, 70000),
  material('steel', true, 7.85, 205000),
  material('brass', true, 8.5, 100000),
  material('plywood', false, 0.68, 9000),
  material('acrylic-cast', false, 1.19, 3300, MAKER),
];

export function plateMaterial(key: PlateKey): PlateMaterial {
  return PLATES.find((each) => each.key === key)!;
}
