import type { Constant, Sourced, Status } from './row.js';
import { youngsFromShore } from './shore.js';

export const BELT_MATERIALS = [
  'neoprene',
  'natural-latex',
  'silicone',
  'polyurethane',
  'nitrile',
  'silk',
] as const;
export type BeltKey = (typeof BELT_MATERIALS)[number];

/** What a charging belt is made of. */
export interface BeltMaterial {
  readonly key: BeltKey;
  /** g/cm3 */
  readonly density: Constant;
  /** MPa */
  readonly youngsModulus: Constant;
  /** Shore A the modulus is worked out for; undefined for a woven belt. */
  readonly shoreA: Constant | undefined;
  /** %, (fitted - free)/free, at which such a belt is usually fitted. */
  readonly stretch: Sourced & { readonly low: number; readonly high: number; readonly unit: '%' };
  /** uC/m2 against mercury; undefined where no value is known. */
  readonly triboelectric: Constant | undefined;
  /** What makes some belts of this material conduct. */
  readonly carbon: string;
}

const PRACTICE: Sourced = { source: 'common practice, no source', status: 'common-practice' };
const HANDBOOK: Sourced = { source: 'materials handbooks', status: 'from-memory' };
const ZOU = 'Zou et al., Nature Communications 10:1427 (2019)';

const CARBON_FILLED =
  'black sheet is often filled with carbon black and then conducts: measure it before use';
const CARBON_RARE = 'usually unfilled; black sheet may hold carbon black: measure it before use';

const density = (value: number): Constant => ({ value, unit: 'g/cm3', meaning: 'density', ...HANDBOOK });
const stretch = (low: number, high: number) => ({ low, high, unit: '%', ...PRACTICE }) as const;

/** A usual hardness, and the modulus that Gent's relation gives for it. */
function rubber(hardness: number): Pick<BeltMaterial, 'shoreA' | 'youngsModulus'> {
  return {
    shoreA: { value: hardness, unit: 'Shore A', meaning: 'usual hardness of belt sheet', ...PRACTICE },
    youngsModulus: {
      value: youngsFromShore(hardness),
      unit: 'MPa',
      meaning: "Young's modulus at small strain",
      source: `Gent 1958, for ${hardness} Shore A`,
      status: 'computed',
    },
  };
}

function charge(value: number, of: string, status: Status): Constant {
  const meaning = 'triboelectric charge density against mercury';
  return { value, unit: 'uC/m2', meaning, source: `${ZOU}: ${of}`, status };
}

const BELTS: readonly BeltMaterial[] = [
  {
    key: 'neoprene',
    density: density(1.23),
    ...rubber(50),
    stretch: stretch(5, 12),
    triboelectric: undefined,
    carbon: CARBON_FILLED,
  },
  {
    key: 'natural-latex',
    density: density(0.95),
    ...rubber(40),
    stretch: stretch(15, 20),
    triboelectric: charge(-10.61, 'natural rubber, stretchable', 'from-memory'),
    carbon: CARBON_RARE,
  },
  {
    key: 'silicone',
    density: density(1.15),
    ...rubber(60),
    stretch: stretch(5, 8),
    triboelectric: charge(-94.03, 'silicone rubber, food grade', 'from-memory'),
    carbon: CARBON_RARE,
  },
  {
    key: 'polyurethane',
    density: density(1.2),
    ...rubber(80),
    stretch: stretch(4, 8),
    triboelectric: charge(-109.22, 'polyurethane rubber, abrasion resistant', 'from-memory'),
    carbon: CARBON_RARE,
  },
  {
    key: 'nitrile',
    density: density(1.2),
    ...rubber(60),
    stretch: stretch(5, 10),
    triboelectric: charge(2.49, 'nitrile (Buna-N)', 'from-memory'),
    carbon: CARBON_FILLED,
  },
  {
    key: 'silk',
    density: density(1.3),
    shoreA: undefined,
    youngsModulus: {
      value: 500,
      unit: 'MPa',
      meaning: "Young's modulus of the woven belt along the warp, order of magnitude",
      ...HANDBOOK,
    },
    stretch: stretch(0.5, 1.5),
    triboelectric: undefined,
    carbon: 'unfilled; conducts when damp',
  },
];

export function beltMaterial(key: BeltKey): BeltMaterial {
  return BELTS.find((each) => each.key === key)!;
}
