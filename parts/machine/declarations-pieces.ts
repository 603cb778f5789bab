import { BELT_MATERIALS } from '../stock/belts.js';
import { PLATE_MATERIALS, TERMINAL_MATERIALS } from '../stock/metals.js';
import { ROLLER_MATERIALS, TUBE_MATERIALS } from '../stock/plastics.js';
import {
  bearing,
  byDefault,
  choice,
  defaultBy,
  group,
  length,
  number,
  onlyWhen,
  optional,
  quantity,
  range,
  reading,
  required,
} from './declare.js';

/** How a belt can be charged. */
export const BELT_CHARGINGS = ['friction', 'sprayed'] as const;

export const TERMINAL = group('the high-voltage electrode at the top', {
  shape: choice('a sphere, or a spun shell with a height of its own', ['sphere', 'shell'], required),
  diameter: reading(
    'outside diameter',
    range(50, 2000, 'from a ball to what still passes a door frame in halves'),
    required,
  ),
  height: reading(
    'outside height of a spun shell, lip to top',
    range(30, 2000, 'as for the diameter'),
    onlyWhen('shape', 'shell'),
  ),
  material: choice(
    'what the sheet is made of',
    TERMINAL_MATERIALS,
    byDefault('aluminium', 'spun spheres and shells are mostly aluminium, common practice, no source'),
  ),
  shell: length(
    'thickness of the sheet',
    range(0.2, 30, 'from foil to castings'),
    byDefault(1, 'spun spheres are sold about this thick, common practice, no source'),
  ),
  opening: group('the hole in the underside that the column enters', {
    diameter: reading(
      'free diameter; with a ring its inner one',
      range(20, 1500, 'a tube must pass, within the terminal'),
      required,
    ),
    edge: choice(
      'what makes its edge round: the sheet itself, raw or rolled, or a closed ring of rod under the cut edge',
      ['sheet', 'ring'],
      byDefault('sheet', 'as shells are sold'),
    ),
    lip: length(
      'radius of the bead around the opening, or of the ring’s rod',
      range(0.2, 100, 'from a raw edge to a rolled bead'),
      byDefault(0.5, 'the raw edge of a sheet'),
    ),
  }),
  insertion: length(
    'how far the lip lies below the tube’s upper rim',
    range(0, 1500, 'the lip lies at or below the rim, within the terminal'),
    required,
  ),
});

export const COLUMN = group('the insulating column', {
  tube: group('the tube, measured before cutting', {
    material: choice('what the tube is made of', TUBE_MATERIALS, required),
    outer: reading(
      'outside diameter',
      range(20, 400, 'a belt must fit inside, a hand around the mount'),
      required,
    ),
    wall: reading('wall thickness', range(0.5, 40, 'from film to bar'), required),
    length: length('length as cut', range(50, 3000, 'from a model to what still stands in a room'), required),
  }),
});

export const BELT = group('the charging belt', {
  material: choice('what the belt is made of', BELT_MATERIALS, required),
  width: length('width', range(5, 350, 'must pass a tube'), required),
  thickness: length('thickness', range(0.2, 8, 'from film to sheet rubber'), required),
  stretch: quantity(
    'fitted minus free over free length',
    '%',
    range(0, 40, 'beyond it rubber sets at once'),
    byDefault(8, 'neoprene, common practice, no source'),
  ),
  resistance: quantity(
    'end-to-end resistance, measured',
    'ohm',
    range(1e3, 1e18, 'from carbon-filled rubber to the best insulators'),
    optional('not judged'),
  ),
  charging: choice(
    'what the lower comb’s charge comes from: friction on the lower roller, or a supply that the comb is fed by',
    BELT_CHARGINGS,
    byDefault('friction', 'a machine that excites itself'),
  ),
});

const SIZES = range(8, 150, 'from a pencil to what no column of this kind takes');

function roller<const Kind extends 'live' | 'dead'>(end: string, kind: Kind, why: string) {
  return group(`the ${end} roller`, {
    material: choice('what the shell is made of', ROLLER_MATERIALS, required),
    outer: reading('outside diameter of the shell', SIZES, required),
    inner: reading('bore of the shell', range(3, 140, 'less than the largest outside'), required),
    length: length(
      'length of the shell',
      range(10, 400, 'wider than the belt, shorter than a column is wide'),
      required,
    ),
    axle: group('its axle', {
      kind: choice(
        'live turns with the roller, dead stands still',
        ['live', 'dead'],
        byDefault<'live' | 'dead'>(kind, why),
      ),
      diameter: length('diameter', range(2, 30, 'rod that is sold as axle'), required),
      flat: length(
        'depth of the flat filed on it',
        range(0, 10, 'less than the axle’s radius'),
        byDefault(0.5, 'a few strokes of a file, common practice, no source'),
      ),
    }),
    bearing: bearing('name of its ball bearings, as on the box'),
    bearing_outer: reading(
      'outside diameter of the bearings as measured',
      range(5, 70, 'the bearings in stock'),
      optional('the catalogue’s size and tolerance'),
    ),
    crown: length(
      'how much larger its middle’s radius is',
      range(0, 5, 'a belt climbs no more'),
      byDefault(0, 'a plain roller'),
    ),
    sleeve: length(
      'wall of a printed sleeve around the shell, at its ends; it has the crown',
      range(1.2, 20, 'from three lines of a nozzle to what is still a sleeve'),
      optional('the belt runs on the shell'),
    ),
  });
}

export const ROLLERS = group('what the belt runs on', {
  lower: roller('lower', 'live', 'the lower roller is driven'),
  upper: roller('upper', 'dead', 'the upper roller idles'),
});

const PULLEY = range(4, 300, 'pulleys that are sold');
const SMALL_MOTOR = 'a small motor, common practice, no source';

export const DRIVE = group('what turns the lower roller', {
  kind: choice(
    'round belt, or toothed belt',
    ['round', 'toothed'],
    byDefault('round', 'runs quietly and slips when something jams'),
  ),
  motor: group('the motor', {
    speed: quantity(
      'speed under load',
      'rpm',
      range(50, 30_000, 'from geared to universal motors'),
      required,
    ),
    power: quantity('rated power', 'W', range(0.5, 2000, 'from a toy to a mains drill'), required),
    supply: quantity(
      'voltage it is fed with',
      'V',
      range(1, 400, 'from a cell to rectified mains'),
      required,
    ),
    body: group('its body, for its clearance', {
      diameter: length(
        'diameter',
        range(10, 200, 'motors of this power'),
        byDefault(40, 'a small motor, common practice, no source'),
      ),
      length: length(
        'length',
        range(10, 400, 'motors of this power'),
        byDefault(60, 'a small motor, common practice, no source'),
      ),
    }),
    face: group('its face on the shaft’s side', {
      pilot: length(
        'diameter of the collar around the shaft',
        range(4, 120, 'wider than the shaft, within the body'),
        byDefault(13, SMALL_MOTOR),
      ),
      pilot_height: length(
        'how far that collar stands out of the face',
        range(0, 30, 'no deeper than the bracket'),
        byDefault(4, SMALL_MOTOR),
      ),
      bolts: group('threaded holes in the face', {
        circle: length(
          'diameter of the circle they stand on',
          range(6, 180, 'between collar and body'),
          byDefault(25, SMALL_MOTOR),
        ),
        count: number(
          'how many, evenly around from the side',
          range(2, 8, 'two hold, more than eight are not drilled'),
          byDefault(2, SMALL_MOTOR),
        ),
        thread: choice(
          'their thread',
          ['M2', 'M2.5', 'M3', 'M4', 'M5', 'M6'],
          byDefault<'M2' | 'M2.5' | 'M3' | 'M4' | 'M5' | 'M6'>('M3', SMALL_MOTOR),
        ),
      }),
      shaft: group('its shaft', {
        diameter: length('diameter', range(1.5, 30, 'shafts that carry a pulley'), byDefault(5, SMALL_MOTOR)),
        length: length(
          'how far it stands out of the face, collar and all',
          range(5, 120, 'through the bracket and the pulley'),
          byDefault(17, SMALL_MOTOR),
        ),
        flat: length(
          'depth of the flat on it',
          range(0, 10, 'less than the shaft’s radius'),
          byDefault(0.5, SMALL_MOTOR),
        ),
      }),
    }),
  }),
  pitch: length(
    'pitch of a toothed belt: 2, 3 or 5 mm',
    range(2, 5, 'the belts in stock'),
    onlyWhen('kind', 'toothed'),
  ),
  belt_width: length(
    'width of a toothed belt',
    range(3, 40, 'belts that are sold'),
    onlyWhen('kind', 'toothed'),
  ),
  belt_diameter: length(
    'diameter of a round belt',
    range(1.5, 15, 'cords that are sold'),
    byDefault(4, 'a usual cord, common practice, no source'),
  ),
  belt_length: length(
    'length of the drive belt as bought: a toothed one’s on the pitch line, a round one’s as it lies free',
    range(50, 5000, 'belts that are sold'),
    optional('the shortest that fits is told'),
  ),
  pulleys: group('pitch diameters', {
    motor: length('on the motor', PULLEY, required),
    roller: length('on the lower roller’s axle', PULLEY, required),
  }),
});

function comb(end: string) {
  return group(`the ${end} comb`, {
    style: choice(
      'edge of a mesh, or a row of needles',
      ['mesh', 'needles'],
      byDefault('mesh', 'cut with scissors, nothing to stab a hand'),
    ),
    width: length('width along the roller', range(3, 350, 'no wider than the belt'), required),
    gap: length(
      'distance from its edge to the belt',
      range(0.5, 20, 'closer it touches, farther it does nothing'),
      defaultBy('style', { mesh: 3, needles: 4 }, 'common practice, no source'),
    ),
  });
}

export const COMBS = group('what puts charge on the belt and takes it off', {
  lower: comb('lower'),
  upper: comb('upper'),
});

export const BASE = group('what the column stands on', {
  plate: group('the base plate', {
    material: choice('what the plate is made of', PLATE_MATERIALS, required),
    diameter: length(
      'diameter, or shorter side of a board',
      range(60, 3000, 'wider than the collar, narrower than a room'),
      required,
    ),
    thickness: length('thickness', range(1, 60, 'from sheet to board'), required),
  }),
  feet: length(
    'height of the feet, from the plate’s underside',
    range(20, 1000, 'the lower roller needs room, the machine a stand'),
    required,
  ),
  bench: length(
    'height of the table under the feet over the floor, 0 for the floor',
    range(0, 1500, 'tables that people reach over'),
    byDefault(750, 'a usual table, common practice, no source'),
  ),
});

export const WAND = group('the discharge wand', {
  ball: length(
    'diameter of its ball',
    range(15, 150, 'from a drawer’s knob to a terminal of its own'),
    byDefault(50, 'as the ball that sparks are drawn to; 40 to 50, common practice, no source'),
  ),
  length: length(
    'insulated length from the guard to the ball’s screw',
    range(100, 5000, 'longer than a hand, no longer than a room is wide'),
    optional(
      'follows at 3 kV/cm from the target, without one from 30 kV for each centimetre of the terminal’s radius',
    ),
  ),
});
