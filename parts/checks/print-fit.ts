import type { Machine } from '../machine/machine.js';
import { baseCollar } from '../printed/base-collar.js';
import { baseSkirt } from '../printed/base-skirt.js';
import { isTool, ordersFor, type PartOrder } from '../printed/catalog.js';
import { lockRing } from '../printed/lock-ring.js';
import type { PrintedPart } from '../printed/part.js';
import { rimRing } from '../printed/rim-ring.js';
import { terminalSeatLeg } from '../printed/terminal-seat-leg.js';
import { tubeMount } from '../printed/tube-mount.js';
import { attempt, type Changes, lengthDown, lengthText, nearestThatHolds, withValues } from './change.js';
import type { Check } from './check.js';
import { type Finding, marginOf, type Point, type Remedy, told } from './finding.js';
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
export function fitsBed(
  machine: Machine,
  { part, stated }: Pick<PartOrder, 'stated'> & { readonly part: Pick<PrintedPart, 'id' | 'role' | 'place'> },
): Finding {
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
      const larger = attempt(machine, printer, largerBed(machine, size), ({ print }) =>
        size.every((each, axis) => each <= [print.bed.x, print.bed.y, print.bed.z][axis]!),
      );
      const other = part.id === terminalSeatLeg.id ? shorterLegs(machine) : undefined;
      if (other) return { text: `${printer}, or ${other.text}`, tries: [...larger, ...other.tries] };
      return { text: BY_TUBE.includes(part.id) ? `${printer}, or a thinner tube` : printer, tries: larger };
    }),
    ...(where && { at: { point: where.placement.move as Point } }),
  };
}

/** Parts whose size is the tube's. */
const BY_TUBE: readonly string[] = [tubeMount, lockRing, baseCollar, baseSkirt, rimRing].map(({ id }) => id);

/** A column that reaches further into the terminal needs shorter legs to its dome; and so does a lower terminal. */
function shorterLegs(machine: Machine): Remedy {
  const key = 'terminal.insertion';
  const { insertion } = machine.values.terminal;
  const holds = (tried: Machine) => {
    const stated = terminalSeatLeg.stated(terminalSeatLeg.dimensions(tried));
    return fitsBed(tried, { part: terminalSeatLeg, stated }).severity === 'ok';
  };
  const deepest = insertion + machine.seat.leg.length;
  const found = nearestThatHolds(insertion, deepest, 1, (depth) =>
    holds(withValues(machine, { [key]: depth })),
  );
  const smaller = 'a smaller terminal';
  if (found === undefined) return { text: smaller, tries: [] };
  const deeper = `the lip ${lengthText(machine, found)} below the tube’s rim`;
  const tries = attempt(machine, deeper, { [key]: found }, holds);
  return { text: tries.length > 0 ? `${deeper}, or ${smaller}` : smaller, tries };
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
