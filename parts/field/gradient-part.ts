import type { Machine } from '../machine/machine.js';
import { innerColumn, outerColumn } from './columns.js';
import { printedFoot, tubeWall } from './punctures.js';
import type { LimitWay } from './way.js';
import { terminalToBench, terminalToPlateEdge } from './ways.js';

/** What a way’s limit owes to lengths and gradients alone, without the field; undefined for ways that rest on the field. */
export function gradientPart(machine: Machine, id: string): LimitWay | undefined {
  switch (id) {
    case 'way/column-outer':
      return outerColumn(machine);
    case 'way/column-inner':
      return innerColumn(machine);
    case 'way/terminal-to-plate':
      return terminalToPlateEdge(machine);
    case 'way/terminal-to-bench':
      return terminalToBench(machine);
    case 'way/tube-wall':
      return tubeWall(machine);
    case 'way/printed-foot':
      return printedFoot(machine);
    default:
      return undefined;
  }
}
