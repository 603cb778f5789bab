import type { Machine } from '../machine/machine.js';
import { ordersFor, type PartOrder } from '../printed/catalog.js';
import type { Check } from './check.js';
import { type Finding, marginOf, type Point } from './finding.js';
import { judge } from './judge.js';
import { practice } from './practice.js';

/** A wall of fewer lines has gaps that no slicer closes. */
export const WALL_LINES = practice(4, '', 'lines of the nozzle’s width that make a wall');

export const checkPrint: Check = (machine) => [
  ...ordersFor(machine).map((order) => fitsBed(machine, order)),
  thinWalls(machine),
];

/** A part's stated size against the bed, lying either way round. The tightest direction is reported. */
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
  const fits = measured <= required;
  const where = part.place(machine)[0];
  return {
    id: `print/bed-${part.id}`,
    severity: fits ? 'ok' : 'danger',
    title: `Size of ${part.id} on the printer’s bed`,
    measured,
    required,
    unit: 'mm',
    sense: 'max',
    margin: marginOf(measured, required, 'max'),
    basis: `${x.toFixed(1)} x ${y.toFixed(1)} x ${z.toFixed(1)} mm as the part states, bed ${bed.x} x ${bed.y} x ${bed.z} mm`,
    status: 'computed',
    remedy: fits
      ? ''
      : `a printer that takes ${Math.ceil(x)} x ${Math.ceil(y)} x ${Math.ceil(z)} mm, or a thinner tube`,
    ...(where && { at: { point: where.placement.move as Point } }),
  };
}

/** The thinnest wall drawn against what a nozzle can close. */
export function thinWalls({ print, grip, rim, tube }: Machine): Finding {
  const walls = [
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
  ] as const;
  const thinnest = walls.reduce((thin, each) => (each.wall < thin.wall ? each : thin));
  return judge({
    id: 'print/walls',
    title: `Thinnest printed wall, of the ${thinnest.what}`,
    measured: thinnest.wall,
    required: WALL_LINES.value * print.nozzle,
    unit: 'mm',
    sense: 'min',
    basis: `${WALL_LINES.value} lines of a ${print.nozzle} mm nozzle; ${WALL_LINES.source}`,
    status: WALL_LINES.status,
    remedy: () => `a nozzle of at most ${(thinnest.wall / WALL_LINES.value).toFixed(2)} mm`,
    at: { point: thinnest.at },
  });
}
