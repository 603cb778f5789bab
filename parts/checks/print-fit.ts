import type { Machine } from '../machine/machine.js';
import { isTool, ordersFor, type PartOrder } from '../printed/catalog.js';
import { attempt, type Changes, lengthDown } from './change.js';
import type { Check } from './check.js';
import { type Finding, marginOf, type Point, told } from './finding.js';
import { judge, meets } from './judge.js';
import { practice } from './practice.js';

/** A wall of fewer lines has gaps that no slicer closes. */
export const WALL_LINES = practice(4, '', 'lines of the nozzle’s width that make a wall');

export const checkPrint: Check = (machine) => [
  ...ordersFor(machine).map((order) => fitsBed(machine, order)),
  thinWalls(machine),
];

/**
 * A part's stated size against the bed, lying either way round. The tightest direction is reported. A machine can be built
 * without a tool that does not fit, so that is no danger.
 */
export function fitsBed(machine: Machine, { part, stated }: Pick<PartOrder, 'part' | 'stated'>): Finding {
  const { bed } = machine.print;
  const [x, y, z] = stated.bounds.max.map((max, axis) => max - stated.bounds.min[axis]!) as [
    number,
    number,
    number,
  ];
  const tightest = (sizes: readonly (readonly [number, number])[]) =>
    sizes.reduce((worst, pair) => (pair[0] / pair[1] > worst[0] / worst[1] ? pair : worst));
  const along = tightest([
    [x, bed.x],
    [y, bed.y],
    [z, bed.z],
  ]);
  const across = tightest([
    [x, bed.y],
    [y, bed.x],
    [z, bed.z],
  ]);
  const [measured, required] = along[0] / along[1] <= across[0] / across[1] ? along : across;
  const severity = measured <= required ? 'ok' : isTool(part) ? 'caution' : 'danger';
  const where = part.place(machine)[0];
  return {
    id: `print/bed-${part.id}`,
    severity,
    title: `Size of ${part.id} on the printer’s bed`,
    measured,
    required,
    unit: 'mm',
    sense: 'max',
    margin: marginOf(measured, required, 'max'),
    basis: `${x.toFixed(1)} x ${y.toFixed(1)} x ${z.toFixed(1)} mm as the part states, bed ${bed.x} x ${bed.y} x ${bed.z} mm`,
    status: 'computed',
    ...told(severity, () => {
      const size = [x, y, z].map(Math.ceil) as [number, number, number];
      const printer = `a printer that takes ${size.join(' x ')} mm`;
      return {
        text: isTool(part) ? printer : `${printer}, or a thinner tube`,
        tries: attempt(machine, printer, largerBed(machine, size), ({ print }) =>
          size.every((each, axis) => each <= [print.bed.x, print.bed.y, print.bed.z][axis]!),
        ),
      };
    }),
    ...(where && { at: { point: where.placement.move as Point } }),
  };
}

/** A bed that takes this size, in no direction smaller than the printer's own. */
function largerBed({ print: { bed } }: Machine, [x, y, z]: readonly [number, number, number]): Changes {
  return {
    'print.bed.x': Math.max(x, bed.x),
    'print.bed.y': Math.max(y, bed.y),
    'print.bed.z': Math.max(z, bed.z),
  };
}

interface Wall {
  readonly what: string;
  /** mm */
  readonly wall: number;
  readonly at: Point;
}

function thinnestWall({ grip, rim, tube }: Machine): Wall {
  const walls: readonly Wall[] = [
    {
      what: 'fingers of the mount',
      wall: grip.mount.stemRadius - grip.mount.fingerRadius,
      at: [grip.mount.stemRadius, 0, grip.mount.slotBottom],
    },
    {
      what: 'spigot of the rim ring',
      wall: rim.spigotFit.drawn / 2 - rim.spigotInnerRadius,
      at: [rim.spigotInnerRadius, 0, tube.rimZ - rim.spigotLength],
    },
    {
      what: 'lock ring',
      wall: grip.ring.outerRadius - grip.ring.rootRadius,
      at: [grip.ring.outerRadius, 0, grip.ring.openAt],
    },
  ];
  return walls.reduce((thin, each) => (each.wall < thin.wall ? each : thin));
}

/** The thinnest wall drawn against what a nozzle can close. */
export function thinWalls(machine: Machine): Finding {
  const { print } = machine;
  const thinnest = thinnestWall(machine);
  return judge({
    id: 'print/walls',
    title: `Thinnest printed wall, of the ${thinnest.what}`,
    measured: thinnest.wall,
    required: WALL_LINES.value * print.nozzle,
    unit: 'mm',
    sense: 'min',
    basis: `${WALL_LINES.value} lines of a ${print.nozzle} mm nozzle; ${WALL_LINES.source}`,
    status: WALL_LINES.status,
    remedy: () => {
      const nozzle = lengthDown(thinnest.wall / WALL_LINES.value);
      return {
        text: `a nozzle of at most ${nozzle.toFixed(2)} mm`,
        tries: attempt(machine, `a nozzle of ${nozzle} mm`, { 'print.nozzle': nozzle }, (tried) =>
          meets(thinnestWall(tried).wall, WALL_LINES.value * tried.print.nozzle, 'min'),
        ),
      };
    },
    at: { point: thinnest.at },
  });
}
