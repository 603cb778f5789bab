export type { MachineValues } from './declarations.js';
/** A default that was taken because the file does not say. */
export interface Assumed {
  readonly key: string;
  readonly value: number | string | boolean;
  readonly unit: string;
  readonly why: string;
}
