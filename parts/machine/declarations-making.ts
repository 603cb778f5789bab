import { PRINT_MATERIALS } from '../stock/plastics.js';
import {
  BELT_CHARGE,
  BELT_CROWN,
  BELT_WANDER,
  FRICTION_HIGH,
  FRICTION_LOW,
  HAND_TORQUE,
  SIDE_PUSH,
} from './allowances.js';
import { byDefault, choice, group, number, optional, quantity, range, yesNo } from './declare.js';

type RigidMaterial = Exclude<(typeof PRINT_MATERIALS)[number], 'tpu'>;
/** TPU is for liners: a part of it would not hold its shape. */
export const RIGID_MATERIALS = PRINT_MATERIALS.filter((key): key is RigidMaterial => key !== 'tpu');

const BED_RANGE = range(80, 1000, 'printers from palm-sized to cabinet-sized');
const bed = (axis: string, size: number) =>
  quantity(
    `bed size along ${axis}`,
    'mm',
    BED_RANGE,
    byDefault(size, 'a usual printer, common practice, no source'),
  );
const CALIBRATION_RANGE = range(-1, 1, 'beyond a millimetre the printer needs repair, not calibration');
const SCALE_RANGE = range(-3, 3, 'no filament shrinks more, the printer’s steps per mm are wrong');
const UNCALIBRATED = 'an uncalibrated printer';
const ONE_SIZE = 'the same error at every size';

export const PRINT = group('the printer and what it prints with', {
  material: choice(
    'what the parts are printed in',
    RIGID_MATERIALS,
    byDefault('petg', 'tough, prints without a chamber, common practice, no source'),
  ),
  nozzle: quantity(
    'nozzle diameter',
    'mm',
    range(0.15, 1.2, 'nozzles that are sold'),
    byDefault(0.4, 'the usual nozzle'),
  ),
  layer: quantity(
    'layer height',
    'mm',
    range(0.04, 0.8, 'what nozzles can lay'),
    byDefault(0.2, 'the usual layer'),
  ),
  bed: group('the largest part the printer takes', { x: bed('x', 220), y: bed('y', 220), z: bed('z', 250) }),
  calibration: group('printed minus drawn, measured on the diameter', {
    hole: quantity(
      'printed minus drawn diameter of a hole, the constant part',
      'mm',
      CALIBRATION_RANGE,
      byDefault(0, UNCALIBRATED),
    ),
    hole_scale: quantity(
      'what is added to it in proportion to the hole’s drawn diameter',
      '%',
      SCALE_RANGE,
      byDefault(0, ONE_SIZE),
    ),
    outside: quantity(
      'printed minus drawn diameter of an outside, the constant part',
      'mm',
      CALIBRATION_RANGE,
      byDefault(0, UNCALIBRATED),
    ),
    outside_scale: quantity(
      'what is added to it in proportion to the outside’s drawn diameter',
      '%',
      SCALE_RANGE,
      byDefault(0, ONE_SIZE),
    ),
    scatter: quantity(
      'how much a printed diameter varies, to either side',
      'mm',
      range(0, 0.5, 'no fit can be promised beyond'),
      byDefault(0.1, 'common practice, no source'),
    ),
  }),
  conductive: yesNo(
    'whether the filament conducts (carbon-filled)',
    byDefault(false, 'an insulating filament'),
  ),
});

export const MEASURING = group('what the stock was measured with', {
  caliper_error: quantity(
    'permissible error of the caliper, to either side',
    'mm',
    range(0, 0.5, 'a ruler does better'),
    byDefault(0.03, 'a usual digital caliper, common practice, no source'),
  ),
});

const TABLES = 'the tables’ range applies';
const taken = (constant: { value: number; unit: string }) =>
  `${constant.value}${constant.unit && ` ${constant.unit}`} is taken`;

export const ASSUME = group('physical assumptions, to be replaced by what was measured', {
  surface_factor: number(
    'share of the ideal inception voltage that the terminal’s surface reaches',
    range(0.05, 1, 'a perfect surface is 1'),
    optional(TABLES),
  ),
  belt_fraction: number(
    'share of the ideal charge density that the belt carries',
    range(0.01, 2, 'two runs of opposite charge carry twice the single sheet’s at most'),
    optional(TABLES),
  ),
  body_capacitance: quantity(
    'capacitance of a person who touches the machine',
    'pF',
    range(1, 1000, 'people are 100 to 300 pF'),
    optional(TABLES),
  ),
  friction_low: number(
    'friction that a grip may count on',
    range(0.01, 2, 'rubber on rubber is about 1'),
    optional(taken(FRICTION_LOW)),
  ),
  friction_high: number(
    'friction that a hand has to overcome',
    range(0.01, 2, 'rubber on rubber is about 1'),
    optional(taken(FRICTION_HIGH)),
  ),
  side_push: quantity(
    'sideways push at the terminal that the mount has to stand',
    'N',
    range(0, 200, 'the table would tip before'),
    optional(taken(SIDE_PUSH)),
  ),
  hand_torque: quantity(
    'torque that a hand puts on the lock ring',
    'N m',
    range(0.1, 20, 'hands do not do more'),
    optional(taken(HAND_TORQUE)),
  ),
  belt_wander: quantity(
    'how far the belt wanders to either side',
    'mm',
    range(0, 20, 'a belt that wanders more does not track'),
    optional(taken(BELT_WANDER)),
  ),
  belt_crown: quantity(
    'how far a crown lifts the belt',
    'mm',
    range(0, 5, 'no crown is higher'),
    optional(taken(BELT_CROWN)),
  ),
  belt_charge: quantity(
    'charge density that pushes the runs apart',
    'uC/m2',
    range(0, 60, 'air breaks down before'),
    optional(taken(BELT_CHARGE)),
  ),
  column_gradient: quantity(
    'mean gradient at which the column flashes over',
    'kV/cm',
    range(0.5, 30, 'air itself breaks down at 30'),
    optional(TABLES),
  ),
  streamer_gradient: quantity(
    'mean gradient at which a streamer crosses open air',
    'kV/cm',
    range(1, 30, 'air itself breaks down at 30'),
    optional(TABLES),
  ),
  ln_n: number(
    'logarithm of the number of electrons at which an avalanche becomes a streamer',
    range(5, 25, 'published values are 9 to 20'),
    optional(TABLES),
  ),
  belt_margin: quantity(
    'strip on each edge of the belt that carries no charge',
    'mm',
    range(0, 50, 'a belt all edge carries nothing'),
    optional(TABLES),
  ),
  roller_charge: quantity(
    'charge density that friction puts on the lower roller, whichever sign',
    'uC/m2',
    range(0.01, 60, 'air breaks down before'),
    optional(TABLES),
  ),
  comb_onset: quantity(
    'voltage between comb and roller at which the comb starts to spray',
    'V',
    range(500, 30_000, 'points start at some kilovolts'),
    optional(TABLES),
    'kV',
  ),
  surface_resistivity: quantity(
    'surface resistivity of the column as it stands, ohm per square',
    'ohm',
    range(1e6, 1e19, 'from a wet tube to the best insulators'),
    optional(TABLES),
  ),
  corona_mobility: quantity(
    'mobility of the ions that carry a corona’s current',
    'cm2/Vs',
    range(0.5, 5, 'ions in air are 1 to 3'),
    optional(TABLES),
  ),
  spark_share: number(
    'share of the terminal’s charge that one spark takes',
    range(0.01, 1, 'a spark takes no more than there is'),
    optional(TABLES),
  ),
  ozone_yield: quantity(
    'ozone that corona makes for the energy it takes',
    'g/kWh',
    range(0.1, 500, 'generators built for it reach 200'),
    optional(TABLES),
  ),
  ozone_decay: quantity(
    'share of the room’s ozone that walls and people take up in an hour',
    '1/h',
    range(0, 50, 'walls do not take it up faster'),
    optional(TABLES),
  ),
  air_changes: quantity(
    'how often the room’s air is changed in an hour',
    '1/h',
    range(0.01, 100, 'from a closed room to a fume hood'),
    optional(TABLES),
  ),
});
