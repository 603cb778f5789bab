import { ASSUME, MEASURING, PRINT } from './declarations-making.js';
import { BASE, BELT, COLUMN, COMBS, DRIVE, ROLLERS, TERMINAL, WAND } from './declarations-pieces.js';
import type { ValuesOf } from './declare.js';
import { byDefault, choice, group, length, optional, quantity, range, text } from './declare.js';
import { FIT_CLASSES, type FitClass } from './fits.js';
import { LENGTH_UNITS } from './units.js';

const SITE = group('where the machine stands', {
  altitude: quantity(
    'height over the sea',
    'm',
    range(-430, 6000, 'the lowest shore and the highest towns'),
    byDefault(0, 'sea level'),
  ),
  temperature: quantity(
    'air temperature',
    'C',
    range(-20, 60, 'where printed parts and belts still work'),
    byDefault(20, 'the reference atmosphere of high-voltage tests'),
  ),
  humidity: quantity(
    'relative humidity',
    '%',
    range(0, 100, 'air holds no more'),
    byDefault(45, 'a heated room, common practice, no source'),
  ),
  pressure: quantity(
    'air pressure at the place, not reduced to the sea',
    'kPa',
    range(40, 110, 'from the highest towns to the strongest highs'),
    optional('follows from the altitude'),
  ),
  cleanliness: choice(
    'dust and damp on the column; either halves the gradients it holds',
    ['clean', 'dusty', 'damp'],
    byDefault('clean', 'wiped before use'),
  ),
  room: quantity(
    'volume of the room, for ozone',
    'm3',
    range(5, 100_000, 'from a closet to a hall'),
    byDefault(50, 'a small classroom, common practice, no source'),
  ),
});

function fitClass(meaning: string, taken: FitClass, why: string) {
  return choice(meaning, FIT_CLASSES, byDefault(taken, `${why}, common practice, no source`));
}

const FITS = group('how tightly printed parts sit on bought ones', {
  pilot: fitClass(
    'the mount’s pilot bore over the tube',
    'snug',
    'it takes the moment of a push at the terminal',
  ),
  rim: fitClass('the rim ring’s spigot in the tube', 'snug', 'the ring carries the upper comb without play'),
  shell: fitClass('a hub’s spigot in the roller’s shell', 'snug', 'the shell runs true on it'),
  sleeve: fitClass('a printed sleeve on the roller’s shell', 'snug', 'the dogs take the torque, not the fit'),
  bearing: fitClass('a bearing in its hub', 'press', 'the outer ring must not creep'),
  axle: fitClass('the live axle in its hub', 'slide', 'the flat takes the torque, not the fit'),
});

/** Every value of a machine file, declared once. */
export const MACHINE_FILE = group('one belt-charged electrostatic machine', {
  machine: text('name of the machine, as it stands on its papers', 60),
  units: choice('unit of the machine’s bare lengths', LENGTH_UNITS, byDefault('mm', 'what calipers show')),
  site: SITE,
  target: group('what is wanted of the machine', {
    voltage: quantity(
      'terminal voltage wanted',
      'V',
      range(10_000, 2_000_000, 'below it no spark is worth a column, above it no room holds the machine'),
      optional('the checks go by the voltage at which the terminal itself discharges'),
      'kV',
    ),
    ball: length(
      'diameter of the grounded ball that sparks are drawn to',
      range(2, 1000, 'from a bead to a terminal of its own'),
      byDefault(50, 'a discharge wand’s ball, common practice, no source'),
    ),
  }),
  terminal: TERMINAL,
  column: COLUMN,
  belt: BELT,
  rollers: ROLLERS,
  drive: DRIVE,
  combs: COMBS,
  base: BASE,
  wand: WAND,
  print: PRINT,
  measuring: MEASURING,
  fits: FITS,
  assume: ASSUME,
});

/** A checked machine file: lengths in mm, everything else in the unit of its declaration, voltages in V. */
export type MachineValues = ValuesOf<typeof MACHINE_FILE>;
