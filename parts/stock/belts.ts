import type { Constant, Sourced } from './row.js';
import { youngsFromShore } from './shore.js';
import { triboelectric } from './triboelectric.js';

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
  /** Relative, at the lowest frequency that is known. */
  readonly permittivity: Constant;
  /** What makes some belts of this material conduct. */
  readonly carbon: string;
}

const PRACTICE: Sourced = { source: 'common practice, no source', status: 'common-practice' };
const HANDBOOK: Sourced = { source: 'materials handbooks', status: 'from-memory' };

const CARBON_FILLED =
  'black sheet is often filled with carbon black and then conducts: measure it before use';
const CARBON_RARE = 'usually unfilled; black sheet may hold carbon black: measure it before use';

const density = (value: number): Constant => ({ value, unit: 'g/cm3', meaning: 'density', ...HANDBOOK });
function permittivity(value: number, { source, status }: Sourced = HANDBOOK): Constant {
  return { value, unit: '1', meaning: 'relative permittivity', source, status };
}
const OPENSTAX: Sourced = { source: 'OpenStax College Physics, Table 19.1', status: 'verified' };
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

const BELTS: readonly BeltMaterial[] = [
  {
    key: 'neoprene',
    density: density(1.23),
    ...rubber(50),
    stretch: stretch(5, 12),
    triboelectric: undefined,
    permittivity: permittivity(6.7, OPENSTAX),
    carbon: CARBON_FILLED,
  },
  {
    key: 'natural-latex',
    density: density(0.95),
    ...rubber(40),
    stretch: stretch(15, 20),
    triboelectric: triboelectric('natural-rubber'),
    permittivity: permittivity(2.5),
    carbon: CARBON_RARE,
  },
  {
    key: 'silicone',
    density: density(1.15),
    ...rubber(60),
    stretch: stretch(5, 8),
    triboelectric: triboelectric('silicone'),
    permittivity: permittivity(3.2),
    carbon: CARBON_RARE,
  },
  {
    key: 'polyurethane',
    density: density(1.2),
    ...rubber(80),
    stretch: stretch(4, 8),
    triboelectric: triboelectric('polyurethane'),
    permittivity: permittivity(6.5),
    carbon: CARBON_RARE,
  },
  {
    key: 'nitrile',
    density: density(1.2),
    ...rubber(60),
    stretch: stretch(5, 10),
    triboelectric: triboelectric('nitrile'),
    permittivity: permittivity(13),
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
    permittivity: permittivity(3),
    carbon: 'unfilled; conducts when damp',
  },
];

export function beltMaterial(key: BeltKey): BeltMaterial {
  return BELTS.find((each) => each.key === key)!;
}
