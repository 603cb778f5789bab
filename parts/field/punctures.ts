import type { Machine } from '../machine/machine.js';
import { STREAMER_GRADIENT } from '../stock/air.js';
import { fastener } from '../stock/fasteners.js';
import { PRINTED_WALL_STRENGTH, plastic } from '../stock/plastics.js';
import type { Status } from '../stock/row.js';
import { outerColumn } from './columns.js';
import { PEAK_OVER_MEAN } from './gradients.js';
import { lowerMetalOutside } from './metal.js';
import { type LimitWay, type PathPoint, wayOf } from './way.js';

/**
 * Voltage across a wall along the column per volt of the terminal: its two sides are taken to belong to places along the
 * column that are `reach` (mm) apart, where the gradient is the mean one.
 */
export function acrossWall(machine: Machine, reach: number): number {
  return reach / outerColumn(machine).length;
}

/** Through the tube's wall: what the belt carries inside may come from as far up or down as the wall is from the axis. */
export function tubeWall(machine: Machine): LimitWay {
  const { tube, terminal } = machine;
  const strength = plastic(tube.material).dielectricStrength;
  if (!strength) throw new RangeError(`no dielectric strength of ${tube.material} in stock`);
  const reach = tube.inner.likely / 2;
  const outside = tube.outer.mean / 2;
  return puncture(machine, {
    id: 'way/tube-wall',
    title: 'through the tube’s wall',
    kilovolts: strength.value * tube.wall.low,
    holds: `${strength.value} kV/mm in a short test (${strength.source}) over ${tube.wall.low.toFixed(2)} mm of tube`,
    wall: tube.wall.low,
    reach,
    path: [
      [outside, 0, terminal.lipZ],
      [outside - tube.wall.mean, 0, terminal.lipZ],
    ],
    surface: 'tube',
    status: strength.status,
  });
}

/**
 * Through the mount's foot between bore and collar screws. The field runs along its layers; what is thicker than the
 * design strength of a printed wall is stated for counts as no better than air.
 */
export function printedFoot(machine: Machine): LimitWay {
  const { grip, base } = machine;
  const { along, upTo } = PRINTED_WALL_STRENGTH;
  const outside = base.boltRadius - fastener(base.screw).headDiameter / 2;
  const wall = outside - grip.mount.stopRadius;
  const counted = Math.min(wall, upTo.value);
  const air = STREAMER_GRADIENT.positive.low.value / 10;
  const reach = Math.max(...lowerMetalOutside(machine).map(({ z }) => z));
  return puncture(machine, {
    id: 'way/printed-foot',
    title: 'through the printed foot, bore to collar screws',
    kilovolts: counted * along.value + (wall - counted) * air,
    holds: `${along.value} kV/mm along the layers of a print for ${upTo.value} mm and ${air} kV/mm, as air, for the rest of ${wall.toFixed(0)} mm`,
    wall,
    reach,
    path: [
      [grip.mount.stopRadius, 0, reach],
      [outside, 0, reach],
    ],
    surface: 'tube-mount',
    status: along.status,
  });
}

interface Wall {
  readonly id: string;
  readonly title: string;
  /** kV that the wall holds, and by what rule. */
  readonly kilovolts: number;
  readonly holds: string;
  /** mm */
  readonly wall: number;
  readonly reach: number;
  readonly path: readonly PathPoint[];
  readonly surface: string;
  readonly status: Status;
}

function puncture(machine: Machine, wall: Wall): LimitWay {
  const across = acrossWall(machine, wall.reach);
  return wayOf(machine, {
    id: wall.id,
    title: wall.title,
    kind: 'puncture',
    // Of the wall's strength only the low end of what is printed is known: nothing better than likely is claimed.
    at: (values) => (wall.kilovolts * 1000) / (across * values.acrossWall),
    length: wall.wall,
    path: wall.path,
    surfaces: [wall.surface],
    basis: `${wall.holds}; the column’s mean gradient over ${wall.reach.toFixed(0)} mm is assumed to lie across the wall, ${PEAK_OVER_MEAN.value.toFixed(1)} times as much in the worst case`,
    status: wall.status,
  });
}
