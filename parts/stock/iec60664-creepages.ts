import type { Sourced } from './row.js';

export const CREEPAGE_SOURCE: Sourced = {
  source: 'IEC 60664-1:2020, Table F.5, read in two or three open transcriptions that agree',
  status: 'verified',
};

/** One voltage of Table F.5: creepage distances in mm. */
export interface CreepageRow {
  /** V r.m.s. or d.c. */
  readonly volts: number;
  /** Pollution degree 1, any material. */
  readonly clean: number;
  /** Pollution degrees 2 and 3: material groups I, II, IIIa and IIIb (which share a column). */
  readonly normal: readonly [number, number, number];
  readonly dirty: readonly [number, number, number] | undefined;
}

type Groups = CreepageRow['normal'];
const row = (volts: number, clean: number, normal: Groups, dirty?: Groups): CreepageRow => {
  return { volts, clean, normal, dirty };
};

/** Pollution degree 3 ends at 10 kV, the others at 63 kV. The 600 mm of the last row is as printed. */
export const CREEPAGES: readonly CreepageRow[] = [
  row(10, 0.08, [0.4, 0.4, 0.4], [1, 1, 1]),
  row(12.5, 0.09, [0.42, 0.42, 0.42], [1.05, 1.05, 1.05]),
  row(16, 0.1, [0.45, 0.45, 0.45], [1.1, 1.1, 1.1]),
  row(20, 0.11, [0.48, 0.48, 0.48], [1.2, 1.2, 1.2]),
  row(25, 0.125, [0.5, 0.5, 0.5], [1.25, 1.25, 1.25]),
  row(32, 0.14, [0.53, 0.53, 0.53], [1.3, 1.3, 1.3]),
  row(40, 0.16, [0.56, 0.8, 1.1], [1.4, 1.6, 1.8]),
  row(50, 0.18, [0.6, 0.85, 1.2], [1.5, 1.7, 1.9]),
  row(63, 0.2, [0.63, 0.9, 1.25], [1.6, 1.8, 2]),
  row(80, 0.22, [0.67, 0.95, 1.3], [1.7, 1.9, 2.1]),
  row(100, 0.25, [0.71, 1, 1.4], [1.8, 2, 2.2]),
  row(125, 0.28, [0.75, 1.05, 1.5], [1.9, 2.1, 2.4]),
  row(160, 0.32, [0.8, 1.1, 1.6], [2, 2.2, 2.5]),
  row(200, 0.42, [1, 1.4, 2], [2.5, 2.8, 3.2]),
  row(250, 0.56, [1.25, 1.8, 2.5], [3.2, 3.6, 4]),
  row(320, 0.75, [1.6, 2.2, 3.2], [4, 4.5, 5]),
  row(400, 1, [2, 2.8, 4], [5, 5.6, 6.3]),
  row(500, 1.3, [2.5, 3.6, 5], [6.3, 7.1, 8]),
  row(630, 1.8, [3.2, 4.5, 6.3], [8, 9, 10]),
  row(800, 2.4, [4, 5.6, 8], [10, 11, 12.5]),
  row(1000, 3.2, [5, 7.1, 10], [12.5, 14, 16]),
  row(1250, 4.2, [6.3, 9, 12.5], [16, 18, 20]),
  row(1600, 5.6, [8, 11, 16], [20, 22, 25]),
  row(2000, 7.5, [10, 14, 20], [25, 28, 32]),
  row(2500, 10, [12.5, 18, 25], [32, 36, 40]),
  row(3200, 12.5, [16, 22, 32], [40, 45, 50]),
  row(4000, 16, [20, 28, 40], [50, 56, 63]),
  row(5000, 20, [25, 36, 50], [63, 71, 80]),
  row(6300, 25, [32, 45, 63], [80, 90, 100]),
  row(8000, 32, [40, 56, 80], [100, 110, 125]),
  row(10000, 40, [50, 71, 100], [125, 140, 160]),
  row(12500, 50, [63, 90, 125]),
  row(16000, 63, [80, 110, 160]),
  row(20000, 80, [100, 140, 200]),
  row(25000, 100, [125, 180, 250]),
  row(32000, 125, [160, 220, 320]),
  row(40000, 160, [200, 280, 400]),
  row(50000, 200, [250, 360, 500]),
  row(63000, 250, [320, 450, 600]),
];
