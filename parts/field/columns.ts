import type { Machine } from '../machine/machine.js';
import { columnGradient, isFoul } from './gradients.js';
import { closestPair, lowerMetalInside, lowerMetalOutside, type MetalEdge, upperMetal } from './metal.js';
import { type LimitWay, type PathPoint, wayOf } from './way.js';

const at = (edge: Pick<MetalEdge, 'radius' | 'z'>): PathPoint => [edge.radius, 0, edge.z];

const columnBasis = (machine: Machine, length: number) => {
  const { low, likely, high } = columnGradient(machine);
  const shown = [low, likely, high].map((value) => Number((value / 1e5).toFixed(2)));
  const foul = isFoul(machine) ? ' (halved for dust, damp or humidity)' : '';
  const measured = machine.assume.columnGradient === undefined ? '' : ', as the builder found';
  return `mean gradient metal to metal over ${length.toFixed(0)} mm: low ${shown[0]}, likely ${shown[1]}, high ${shown[2]} kV/cm${foul}; common practice, no source${measured}`;
};

/** Along the outside of the column, from the lip down to the highest grounded metal at its foot: by the gradient alone. */
export function outerColumn(machine: Machine): LimitWay {
  const { terminal, tube, grip } = machine;
  const lip = {
    what: 'lip',
    radius: terminal.openingDiameter.mean / 2 + terminal.lipRadius,
    z: terminal.lipZ,
  };
  const { to, distance } = closestPair([lip], lowerMetalOutside(machine));
  return wayOf(machine, {
    id: 'way/column-outer',
    title: `along the column outside, lip to ${to.what}`,
    kind: 'spark',
    at: ({ columnGradient: gradient }) => (gradient * distance) / 1000,
    length: distance,
    path: [
      at(lip),
      [tube.outer.mean / 2, 0, terminal.lipZ],
      [tube.outer.mean / 2, 0, grip.mount.headTop],
      at(to),
    ],
    surfaces: ['lip', 'tube', 'tube-mount', to.what],
    basis: columnBasis(machine, distance),
    status: 'common-practice',
  });
}

/** Along the bore and the belt in it, from the lowest metal above the rim to the highest grounded metal it leads to: by the gradient alone. */
export function innerColumn(machine: Machine): LimitWay {
  const { from, to, distance } = closestPair(upperMetal(machine), lowerMetalInside(machine));
  const bore = machine.tube.inner.likely / 2;
  return wayOf(machine, {
    id: 'way/column-inner',
    title: `along the bore, ${from.what} to ${to.what}`,
    kind: 'spark',
    at: ({ columnGradient: gradient }) => (gradient * distance) / 1000,
    length: distance,
    path: [at(from), [bore, 0, machine.tube.rimZ], [bore, 0, machine.tube.footZ], at(to)],
    surfaces: [from.what, 'tube', 'belt', to.what],
    basis: columnBasis(machine, distance),
    status: 'common-practice',
  });
}
