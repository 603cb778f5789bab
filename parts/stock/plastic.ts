import type { Constant, Sourced, Status } from './row.js';

export const PLASTIC_KEYS = [
  'acrylic-extruded',
  'acrylic-cast',
  'polycarbonate',
  'pvc',
  'borosilicate-glass',
  'ptfe',
  'uhmw-pe',
  'nylon',
  'pom',
  'abs',
  'asa',
  'petg',
  'pla',
  'pa12',
  'tpu',
] as const;
export type PlasticKey = (typeof PLASTIC_KEYS)[number];

/** Resistance to tracking: material group of IEC 60664-1 and the comparative tracking index (V) it follows from. */
export interface Tracking extends Sourced {
  readonly group: 'I' | 'II' | 'IIIa' | 'IIIb';
  /** Lowest index believed or printed; undefined where makers publish none and the group is an assumption. */
  readonly index: number | undefined;
}

/** What an insulating material is known to do. A property that is absent is missing from stock: say so, assume nothing. */
export interface Plastic {
  readonly key: PlasticKey;
  readonly name: string;
  /** g/cm3 */
  readonly density: Constant;
  /** MPa, of moulded or extruded stock at room temperature, short time. */
  readonly youngsModulus: Constant;
  /** MPa, tensile: yield, or break where there is no yield. */
  readonly strength: Constant;
  readonly poisson?: Constant;
  /** 1e-6/K */
  readonly thermalExpansion?: Constant;
  /** C; the meaning says which of glass transition, deflection or service temperature it is. */
  readonly softening?: Constant;
  /** MPa of tension that may stay for years. */
  readonly sustainedStress?: Constant;
  /** % of strain that may stay for months in a printed part bent across its layers. */
  readonly sustainedStrain?: Constant;
  /** % of strain that a part bears once while it is joined, along its layers. */
  readonly joiningStrain?: Constant;
  /** Dry, against metal unless the meaning says otherwise; the low end of what is printed. */
  readonly friction?: Constant;
  /** Relative, at the lowest frequency that is known. */
  readonly permittivity?: Constant;
  /** kV/mm, short time, of sheet or moulding without voids; the low end of what is printed. */
  readonly dielectricStrength?: Constant;
  readonly tracking?: Tracking;
  /** uC/m2 against mercury. */
  readonly triboelectric?: Constant;
}

type Properties = Omit<Plastic, 'key' | 'name' | 'tracking'>;
export type PropertyName = keyof Properties;

const UNITS: Readonly<Record<PropertyName, readonly [unit: string, meaning: string]>> = {
  density: ['g/cm3', 'density'],
  youngsModulus: ['MPa', "Young's modulus"],
  strength: ['MPa', 'tensile strength'],
  poisson: ['1', "Poisson's ratio"],
  thermalExpansion: ['1e-6/K', 'linear thermal expansion'],
  softening: ['C', 'softening temperature'],
  sustainedStress: ['MPa', 'tension that may stay'],
  sustainedStrain: ['%', 'strain that may stay in a printed part, across its layers'],
  joiningStrain: ['%', 'strain at a single joining'],
  friction: ['1', 'friction coefficient'],
  permittivity: ['1', 'relative permittivity'],
  dielectricStrength: ['kV/mm', 'dielectric strength'],
  triboelectric: ['uC/m2', 'triboelectric charge density against mercury'],
};

export const PROPERTY_NAMES = Object.keys(UNITS) as readonly PropertyName[];

/** A value with where it is from; the note narrows what was measured. */
export interface Value {
  readonly value: number;
  readonly source: string;
  readonly status: Status;
  readonly note?: string;
}

/** Values that share one origin. */
export function from(source: string, status: Status): (value: number, note?: string) => Value {
  return (value, note) => ({ value, source, status, ...(note !== undefined && { note }) });
}

type Values = { readonly [Name in keyof Properties]: Value };

/** Puts unit and meaning to the values of a material. */
export function plasticRow(key: PlasticKey, name: string, values: Values, tracking?: Tracking): Plastic {
  const constants = Object.entries(values).map(([property, { value, source, status, note }]) => {
    const [unit, meaning] = UNITS[property as PropertyName];
    return [
      property,
      { value, unit, meaning: note ? `${meaning}, ${note}` : meaning, source, status },
    ] as const;
  });
  const properties = Object.fromEntries(constants) as unknown as Properties;
  return { key, name, ...properties, ...(tracking && { tracking }) };
}

/** Origins that several materials share. */
export const memory = from('materials handbooks and makers’ data sheets', 'from-memory');
export const crawford = from('Crawford, Plastics Engineering, Table 1.8', 'verified');
export const practice = from('common practice, no source', 'common-practice');
export const openStax = from('OpenStax College Physics, Table 19.1', 'verified');
export const shackelford = from(
  'CRC Materials Science and Engineering Handbook (Shackelford), T.296',
  'verified',
);
export const polymerList = from('list of polymer dielectric constants, experimental column', 'verified');

export function trackingFromMemory(group: Tracking['group'], index: number): Tracking {
  return { group, index, source: 'resin makers’ data sheets, IEC 60112 solution A', status: 'from-memory' };
}
