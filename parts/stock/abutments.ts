import type { Sourced } from './row.js';

/** Diameters (mm) between which a shoulder touches one ring of a bearing only. */
export interface Abutment extends Sourced {
  /** Least diameter of a shaft shoulder (da min). */
  readonly innerMin: number;
  /** Largest bore of a housing shoulder (Da max). */
  readonly outerMax: number;
  /** Largest fillet of shaft or housing (ra max). */
  readonly filletMax: number;
  /** Outside diameter of the inner ring's shoulder (d1). */
  readonly innerShoulder: number;
  /** Bore of the outer ring beside the raceway (D2, or D1 where the table gives that). */
  readonly outerRecess: number;
}

const SOURCE = "open bearing table with the columns of a maker's catalogue";

const abutment = (
  innerMin: number,
  outerMax: number,
  filletMax: number,
  innerShoulder: number,
  outerRecess: number,
): Abutment => ({
  innerMin,
  outerMax,
  filletMax,
  innerShoulder,
  outerRecess,
  source: SOURCE,
  status: 'verified',
});

/** By designation; bearings that are not here have no published abutment in stock. */
export const ABUTMENTS: Readonly<Record<string, Abutment>> = {
  '623': abutment(4.2, 8.8, 0.1, 5.2, 8.2),
  '624': abutment(5.8, 11.2, 0.2, 6.7, 11.2),
  '625': abutment(7.4, 13.6, 0.3, 8.4, 13.3),
  '626': abutment(8.4, 16.6, 0.3, 11.1, 16.5),
  '607': abutment(9.0, 17.0, 0.3, 11.1, 16.5),
  '608': abutment(10.0, 20.0, 0.3, 12.1, 19.2),
  '609': abutment(11.0, 22.0, 0.3, 14.4, 21.2),
  '629': abutment(11.4, 23.6, 0.3, 14.8, 22.6),
  '6800': abutment(12, 17, 0.3, 12.7, 16.3),
  '6900': abutment(12, 20, 0.3, 13.9, 18.2),
  '6000': abutment(12, 24, 0.3, 14.8, 22.6),
  '6200': abutment(14.2, 25.8, 0.6, 17.0, 24.8),
};
