import type { Place } from './curve.js';
import { addField, OFF_PANEL } from './influence.js';
import type { Panel } from './panel.js';
import type { Problem } from './problem.js';
import type { Sources } from './sources.js';

const radial = new Float64Array(32);
const axial = new Float64Array(32);

/** Panels with the charge on them: a solution, or one with something brought to it. */
export interface ChargedPanels {
  readonly system: {
    readonly placed: readonly { readonly panel: Panel; readonly at: number }[];
    readonly problem: Pick<Problem, 'floor'>;
    readonly sources: Sources;
  };
  readonly coefficients: Float64Array;
  readonly sources: number;
}

/**
 * Fields (V/m) of several solutions of one system at one place off all surfaces: what the panels do there is worked out
 * once for all of them.
 */
export function fieldsTogether(solutions: readonly ChargedPanels[], r: number, z: number): Place[] {
  const { system } = solutions[0]!;
  const { floor } = system.problem;
  const [sourceR, sourceZ] = system.sources.field(r, z);
  const sums = solutions.map(({ sources }) => [sources * sourceR, sources * sourceZ] as [number, number]);
  for (const { panel, at } of system.placed) {
    radial.fill(0, 0, panel.order);
    axial.fill(0, 0, panel.order);
    addField(panel, r, z, OFF_PANEL, 1, 0, radial, 0);
    addField(panel, r, z, OFF_PANEL, 0, 1, axial, 0);
    if (floor !== undefined) {
      addField(panel, r, 2 * floor - z, OFF_PANEL, -1, 0, radial, 0);
      addField(panel, r, 2 * floor - z, OFF_PANEL, 0, 1, axial, 0);
    }
    for (const [i, { coefficients }] of solutions.entries()) {
      const sum = sums[i]!;
      for (let k = 0; k < panel.order; k++) {
        sum[0] += radial[k]! * coefficients[at + k]!;
        sum[1] += axial[k]! * coefficients[at + k]!;
      }
    }
  }
  return sums;
}
