import type { Sourced } from './row.js';

/** How the electrodes shape the field: A inhomogeneous (point to plane, the worst), B homogeneous. */
export type FieldCase = 'A' | 'B';
export type Pollution = 1 | 2 | 3;

export const CLEARANCE_SOURCE: Sourced = {
  source: 'IEC 60664-1:2020, Tables F.2, F.8 and A.2, each read in two open transcriptions that agree',
  status: 'verified',
};

/** Table F.2: clearance (mm) for a transient voltage (kV, impulse), pollution degrees 1 to 3, up to 2000 m. */
export const IMPULSE_CLEARANCES = [
  { kilovolts: 0.33, a: [0.01, 0.2, 0.8], b: [0.01, 0.2, 0.8] },
  { kilovolts: 0.4, a: [0.02, 0.2, 0.8], b: [0.02, 0.2, 0.8] },
  { kilovolts: 0.5, a: [0.04, 0.2, 0.8], b: [0.04, 0.2, 0.8] },
  { kilovolts: 0.6, a: [0.06, 0.2, 0.8], b: [0.06, 0.2, 0.8] },
  { kilovolts: 0.8, a: [0.1, 0.2, 0.8], b: [0.1, 0.2, 0.8] },
  { kilovolts: 1, a: [0.15, 0.2, 0.8], b: [0.15, 0.2, 0.8] },
  { kilovolts: 1.2, a: [0.25, 0.25, 0.8], b: [0.2, 0.2, 0.8] },
  { kilovolts: 1.5, a: [0.5, 0.5, 0.8], b: [0.3, 0.3, 0.8] },
  { kilovolts: 2, a: [1, 1, 1], b: [0.45, 0.45, 0.8] },
  { kilovolts: 2.5, a: [1.5, 1.5, 1.5], b: [0.6, 0.6, 0.8] },
  { kilovolts: 3, a: [2, 2, 2], b: [0.8, 0.8, 0.8] },
  { kilovolts: 4, a: [3, 3, 3], b: [1.2, 1.2, 1.2] },
  { kilovolts: 5, a: [4, 4, 4], b: [1.5, 1.5, 1.5] },
  { kilovolts: 6, a: [5.5, 5.5, 5.5], b: [2, 2, 2] },
  { kilovolts: 8, a: [8, 8, 8], b: [3, 3, 3] },
  { kilovolts: 10, a: [11, 11, 11], b: [3.5, 3.5, 3.5] },
  { kilovolts: 12, a: [14, 14, 14], b: [4.5, 4.5, 4.5] },
  { kilovolts: 15, a: [18, 18, 18], b: [5.5, 5.5, 5.5] },
  { kilovolts: 20, a: [25, 25, 25], b: [8, 8, 8] },
  { kilovolts: 25, a: [33, 33, 33], b: [10, 10, 10] },
  { kilovolts: 30, a: [40, 40, 40], b: [12.5, 12.5, 12.5] },
  { kilovolts: 40, a: [60, 60, 60], b: [17, 17, 17] },
  { kilovolts: 50, a: [75, 75, 75], b: [22, 22, 22] },
  { kilovolts: 60, a: [90, 90, 90], b: [27, 27, 27] },
  { kilovolts: 80, a: [130, 130, 130], b: [35, 35, 35] },
  { kilovolts: 100, a: [170, 170, 170], b: [45, 45, 45] },
] as const;

/** Table F.8: clearance (mm) for a steady, temporary or recurring peak voltage (kV), up to 2000 m. Case A ends first. */
export const STEADY_CLEARANCES = [
  { kilovolts: 0.04, a: 0.001, b: 0.001 },
  { kilovolts: 0.06, a: 0.002, b: 0.002 },
  { kilovolts: 0.1, a: 0.003, b: 0.003 },
  { kilovolts: 0.12, a: 0.004, b: 0.004 },
  { kilovolts: 0.15, a: 0.005, b: 0.005 },
  { kilovolts: 0.2, a: 0.006, b: 0.006 },
  { kilovolts: 0.25, a: 0.008, b: 0.008 },
  { kilovolts: 0.33, a: 0.01, b: 0.01 },
  { kilovolts: 0.4, a: 0.02, b: 0.02 },
  { kilovolts: 0.5, a: 0.04, b: 0.04 },
  { kilovolts: 0.6, a: 0.06, b: 0.06 },
  { kilovolts: 0.8, a: 0.13, b: 0.1 },
  { kilovolts: 1, a: 0.26, b: 0.15 },
  { kilovolts: 1.2, a: 0.42, b: 0.2 },
  { kilovolts: 1.5, a: 0.76, b: 0.3 },
  { kilovolts: 2, a: 1.27, b: 0.45 },
  { kilovolts: 2.5, a: 1.8, b: 0.6 },
  { kilovolts: 3, a: 2.4, b: 0.8 },
  { kilovolts: 4, a: 3.8, b: 1.2 },
  { kilovolts: 5, a: 5.7, b: 1.5 },
  { kilovolts: 6, a: 7.9, b: 2 },
  { kilovolts: 8, a: 11, b: 3 },
  { kilovolts: 10, a: 15.2, b: 3.5 },
  { kilovolts: 12, a: 19, b: 4.5 },
  { kilovolts: 15, a: 25, b: 5.5 },
  { kilovolts: 20, a: 34, b: 8 },
  { kilovolts: 25, a: 44, b: 10 },
  { kilovolts: 30, a: 55, b: 12.5 },
  { kilovolts: 40, a: 77, b: 17 },
  { kilovolts: 50, a: 100, b: 22 },
  { kilovolts: 60, a: undefined, b: 27 },
  { kilovolts: 80, a: undefined, b: 35 },
  { kilovolts: 100, a: undefined, b: 45 },
] as const;

/** Table A.2: what a clearance is multiplied by at an altitude (m). */
export const ALTITUDE_FACTORS = [
  { altitude: 2000, factor: 1 },
  { altitude: 3000, factor: 1.14 },
  { altitude: 4000, factor: 1.29 },
  { altitude: 5000, factor: 1.48 },
  { altitude: 6000, factor: 1.7 },
  { altitude: 7000, factor: 1.95 },
  { altitude: 8000, factor: 2.25 },
  { altitude: 9000, factor: 2.62 },
  { altitude: 10000, factor: 3.02 },
  { altitude: 15000, factor: 6.67 },
  { altitude: 20000, factor: 14.5 },
] as const;
