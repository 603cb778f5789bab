import type { IonisationFit } from './ionisation-fit.js';
import { MORROW_LOWKE_FIT } from './morrow-lowke-fit.js';
import { QUADRATIC_FIT } from './quadratic-fit.js';
import { SARMA_FIT } from './sarma-fit.js';

export type { IonisationFit } from './ionisation-fit.js';

export const IONISATION_FITS: readonly IonisationFit[] = [QUADRATIC_FIT, MORROW_LOWKE_FIT, SARMA_FIT];

/** The fit that everything is predicted with; the others show how far published ones differ. */
export const DEFAULT_FIT: IonisationFit = QUADRATIC_FIT;
