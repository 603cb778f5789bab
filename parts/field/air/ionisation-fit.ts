import { REFERENCE_PRESSURE } from '../../stock/air.js';
import type { Sourced } from '../../stock/row.js';
import { rootBetween } from './root.js';

/** A published fit of the effective ionisation coefficient of air: ionisation less attachment. */
export interface IonisationFit extends Sourced {
  readonly id: string;
  readonly title: string;
  /** Field (V/m) above which there is more ionisation than attachment, at relative density 1. */
  readonly criticalField: number;
  /** Fields (V/m, at relative density 1) between which the source gives the fit, where known. */
  readonly stated: { readonly from: number; readonly to: number } | undefined;
  /**
   * Effective ionisation coefficient, 1/m; negative below the critical field. Never falls as the field rises above the
   * critical one.
   *
   * @param field V/m, 0 or more
   * @param density relative to 20 C and 101.3 kPa, above 0
   * @throws RangeError for anything else
   */
  alpha(field: number, density: number): number;
}

/** Pressure of the reference atmosphere, for fits written over pressure at 20 C. */
export const REFERENCE_BAR = REFERENCE_PRESSURE.value / 100;
const KILOPASCAL_PER_TORR = 101.325 / 760;
export const REFERENCE_TORR = REFERENCE_PRESSURE.value / KILOPASCAL_PER_TORR;

interface Described extends Sourced {
  readonly id: string;
  readonly title: string;
  readonly stated?: { readonly from: number; readonly to: number };
}

/** Every fit's critical field at density 1 lies between these (V/m): measured ones are 24 to 27 kV/cm. */
const LEAST_CRITICAL = 2e6;
const GREATEST_CRITICAL = 4e6;

/** Puts the door's checks before a coefficient (1/m, of V/m and relative density) and finds its critical field. */
export function ionisationFit(
  described: Described,
  coefficient: (field: number, density: number) => number,
): IonisationFit {
  return {
    ...described,
    stated: described.stated,
    criticalField: rootBetween((field) => coefficient(field, 1), LEAST_CRITICAL, GREATEST_CRITICAL),
    alpha(field, density) {
      if (!(field >= 0 && field < Number.POSITIVE_INFINITY)) {
        throw new RangeError(`no ionisation coefficient for a field of ${field} V/m: 0 or more is expected`);
      }
      if (!(density > 0 && density < Number.POSITIVE_INFINITY)) {
        throw new RangeError(
          `no ionisation coefficient for a relative density of ${density}: above 0 is expected`,
        );
      }
      return coefficient(field, density);
    },
  };
}
