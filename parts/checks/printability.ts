import type { Machine } from '../machine/machine.js';
import type { PartOrder } from '../printed/catalog.js';
import { PRINT_LIMITS } from '../printed/print-limits.js';
import { type PrintEstimate, printEstimate } from '../printed/print-time.js';
import type { Mesh } from '../solid/kernel.js';
import { type Overhang, overhangOf } from '../solid/overhang.js';
import { RayIndex } from '../solid/rays.js';
import { type Stance, stanceOf } from '../solid/stance.js';
import { type Thickness, thicknessOf } from '../solid/thickness.js';
import { plastic } from '../stock/plastics.js';
import type { Finding } from './finding.js';
import { overhangFinding, standFinding, wallAndGapFindings } from './printability-findings.js';

/** What was measured on the mesh of a part as it is printed: on the bed at z = 0, lengths in mm. */
export interface PrintMeasures {
  readonly overhang: Overhang;
  readonly thickness: Thickness;
  readonly stance: Stance;
  /** mm2 */
  readonly area: number;
}

/** How a part prints: what was measured, what that means, and what one copy takes. */
export interface Printability {
  /** Id of the part. */
  readonly part: string;
  readonly measures: PrintMeasures;
  /** One copy. */
  readonly estimate: PrintEstimate;
  readonly findings: readonly Finding[];
}

/** Measures the mesh of a part as it lies on the bed. Exact where an area is summed, else as said at each measure. */
export function measurePrint(mesh: Mesh, layer: number): PrintMeasures {
  const index = new RayIndex(mesh);
  return {
    overhang: overhangOf(index, {
      layer,
      angle: PRINT_LIMITS.overhang.value,
      bridge: PRINT_LIMITS.bridge.value,
    }),
    thickness: thicknessOf(index),
    stance: stanceOf(mesh),
    area: index.areas.reduce((sum, each) => sum + each, 0),
  };
}

/** @param mesh of the part in print orientation: as built, or as read back from its file */
export function printability(
  machine: Machine,
  order: Pick<PartOrder, 'part' | 'dimensions' | 'code'>,
  mesh: Mesh,
): Printability {
  const { part } = order;
  const measures = measurePrint(mesh, machine.print.layer);
  return {
    part: part.id,
    measures,
    estimate: estimatePart(machine, part, measures.stance.volume, measures.area),
    findings: [
      overhangFinding(machine, order, measures),
      ...wallAndGapFindings(machine, order, measures),
      standFinding(machine, order, measures),
    ],
  };
}

/** What one copy of a part takes with the machine's printer and plastic. Volume in mm3, area of its whole surface in mm2. */
export function estimatePart(
  { print }: Machine,
  { print: advice }: Pick<PartOrder['part'], 'print'>,
  volume: number,
  area: number,
): PrintEstimate {
  return printEstimate({
    volume,
    area,
    layer: print.layer,
    nozzle: print.nozzle,
    walls: advice.walls,
    infill: advice.infill,
    density: plastic(print.material).density?.value,
  });
}
