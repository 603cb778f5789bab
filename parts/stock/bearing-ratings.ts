import type { Sourced } from './row.js';

/** Load ratings, kN. They belong to a maker's bearing; where makers print different ones, the lowest stands here. */
export interface LoadRatings extends Sourced {
  /** Basic dynamic rating C. */
  readonly dynamic: number;
  /** Basic static rating C0. */
  readonly static: number;
}

const OPEN_TABLE = "open bearing table with the columns of a maker's catalogue";
const NSK = 'NSK rolling bearings general catalogue, bearing tables';
const ZEN = 'ZEN bearing catalogue';

const ratings = (dynamic: number, static_: number, ...sources: string[]): LoadRatings => ({
  dynamic,
  static: static_,
  source: sources.join('; '),
  status: 'verified',
});

/** By designation; a bearing that is not here has no rating in stock. */
export const LOAD_RATINGS: Readonly<Record<string, LoadRatings>> = {
  '608': ratings(3.293, 1.37, ZEN, OPEN_TABLE, NSK),
  '623': ratings(0.54, 0.18, OPEN_TABLE),
  '625': ratings(1.14, 0.38, OPEN_TABLE),
  '626': ratings(2.34, 0.885, OPEN_TABLE, NSK),
  '688': ratings(1.252, 0.592, ZEN),
  '6000': ratings(4.55, 1.96, NSK, OPEN_TABLE),
  '6001': ratings(5.1, 2.37, NSK),
  '6200': ratings(5.1, 2.36, NSK, OPEN_TABLE),
  '6204': ratings(12.8, 6.6, NSK),
  '6800': ratings(1.72, 0.83, NSK, OPEN_TABLE),
  '6900': ratings(2.7, 1.27, NSK),
  MR128: ratings(0.545, 0.274, NSK, ZEN, 'FBJ bearing catalogue'),
};
