import { describe, expect, it } from 'vitest';
import { readMachineFile } from '../../parts/machine/read.js';
import { RULES } from '../../parts/machine/rules.js';
import { SKETCH, sketchWith } from './sketch.js';

type Changes = Readonly<Record<string, unknown>>;

/** Problems of one rule in the changed sketch, as `key: found; expected`. */
function told(rule: string, changes: Changes): string[] {
  const read = readMachineFile(sketchWith(changes), 'machine.json');
  return read.ok
    ? []
    : read.problems
        .filter((each) => each.rule === rule)
        .map(({ key, found, expected }) => `${key}: ${found}; ${expected}`);
}

/** 30 and 45 teeth of 2 mm. */
const TOOTHED = {
  'drive.kind': 'toothed',
  'drive.pitch': 2,
  'drive.belt_width': 6,
  'drive.pulleys.motor': 19.1,
  'drive.pulleys.roller': 28.65,
} as const;

/**
 * What breaks a rule, by how much, and what just keeps it. The sketch's tube is 79.57 to 80.33 mm outside (readings and
 * 0.03 mm of caliper), its wall up to 3.08, its bore 73.41 at least; its terminal 249.37 mm at least.
 */
const CASES: readonly (readonly [rule: string, broken: Changes, key: string, miss: string, kept: Changes])[] =
  [
    [
      'wallLeavesBore',
      { 'column.tube.wall': 39.9 },
      'column.tube.wall',
      '0.29 mm too much',
      { 'column.tube.wall': 39 },
    ],
    // sqrt((60 + 4)^2 + (28.13 + 2.4 + 1.6)^2) = 71.612 against 73.41 - 2.
    [
      'beltPassesTube',
      { 'belt.width': 60 },
      'belt.width',
      'at most 71.41 mm, the tube’s inner diameter of 73.41 mm',
      { 'belt.width': 59 },
    ],
    ['beltPassesTube', { 'belt.width': 60 }, 'belt.width', '(0.202 mm too much)', { 'belt.width': 59 }],
    [
      'beltPassesTube',
      { 'assume.belt_wander': 10 },
      'belt.width',
      '(1.097 mm too much)',
      { 'assume.belt_wander': 9 },
    ],
    [
      'beltPassesTube',
      { 'assume.belt_crown': 5, 'belt.width': 58 },
      'belt.width',
      'too much',
      { 'belt.width': 58 },
    ],
    [
      'beltPassesTube',
      { 'rollers.upper.outer': 50 },
      'belt.width',
      'needs 72.94 mm',
      { 'rollers.upper.outer': 45 },
    ],
    [
      'openingSmallerThanTerminal',
      { 'terminal.opening.diameter': 250 },
      'terminal.opening.diameter',
      '0.66 mm too much',
      { 'terminal.opening.diameter': 249 },
    ],
    [
      'lipFitsOpening',
      { 'terminal.opening.lip': 39 },
      'terminal.opening.lip',
      '2.66 mm too much',
      { 'terminal.opening.lip': 38 },
    ],
    [
      'ringTakesClips',
      { 'terminal.opening.edge': 'ring', 'terminal.opening.lip': 2 },
      'terminal.opening.lip',
      'mm short',
      { 'terminal.opening.edge': 'ring', 'terminal.opening.lip': 4 },
    ],
    [
      'terminalShellThinnerThanRadius',
      { 'terminal.diameter': 50, 'terminal.shell': 25 },
      'terminal.shell',
      '0.015 mm too much',
      { 'terminal.diameter': 50, 'terminal.shell': 24 },
    ],
    [
      'tubePassesOpening',
      { 'terminal.opening.diameter': 80 },
      'terminal.opening.diameter',
      '0.36 mm too much',
      { 'terminal.opening.diameter': 80.4 },
    ],
    [
      'insertionWithinTerminal',
      { 'terminal.insertion': 250 },
      'terminal.insertion',
      'the terminal’s height 249.37 mm (0.63 mm too much)',
      { 'terminal.insertion': 249 },
    ],
    [
      'insertionWithinTerminal',
      { 'terminal.shape': 'shell', 'terminal.height': 49 },
      'terminal.insertion',
      '1.03 mm too much',
      { 'terminal.shape': 'shell', 'terminal.height': 51 },
    ],
    [
      'insertionWithinTerminal',
      { 'column.tube.length': 50 },
      'terminal.insertion',
      'the tube’s length 50 mm (equal is too much)',
      { 'column.tube.length': 51 },
    ],
    [
      'shellWallTakesDogs',
      { 'rollers.lower.inner': 23 },
      'rollers.lower.inner',
      '0.06 mm short',
      { 'rollers.lower.inner': 22.9 },
    ],
    [
      'shellWallTakesDogs',
      { 'rollers.upper.inner': 23 },
      'rollers.upper.inner',
      '0.06 mm short',
      { 'rollers.upper.inner': 22.9 },
    ],
    [
      'shellTakesAxle',
      { 'rollers.lower.inner': 10 },
      'rollers.lower.inner',
      '0.03 mm short',
      { 'rollers.lower.inner': 10.1 },
    ],
    [
      'shellTakesNut',
      { 'rollers.lower.outer': 20.8, 'rollers.lower.inner': 12 },
      'rollers.lower.outer',
      '0.08 mm short',
      { 'rollers.lower.outer': 20.9, 'rollers.lower.inner': 12 },
    ],
    [
      'flatShallowerThanAxleRadius',
      { 'rollers.upper.axle.flat': 3.2 },
      'rollers.upper.axle.flat',
      '0.2 mm too much',
      { 'rollers.upper.axle.flat': 2.9 },
    ],
    [
      'axleFitsBearing',
      { 'rollers.lower.axle.diameter': 6.2 },
      'rollers.lower.axle.diameter',
      'bearing 696, 6 mm, within 0.1 mm (0.2 mm apart)',
      { 'rollers.lower.axle.diameter': 6.1 },
    ],
    [
      'axleFitsBearing',
      { 'rollers.upper.bearing': '608' },
      'rollers.upper.axle.diameter',
      '2 mm apart',
      { 'rollers.upper.bearing': '686' },
    ],
    [
      'bearingAsNamed',
      { 'rollers.upper.bearing_outer': 14.7 },
      'rollers.upper.bearing_outer',
      'bearing 696, 15 mm, within 0.2 mm (0.3 mm apart)',
      { 'rollers.upper.bearing_outer': 14.95 },
    ],
    [
      'shellTakesBearing',
      { 'rollers.upper.inner': 18.9 },
      'rollers.upper.inner',
      '0.13 mm short',
      { 'rollers.upper.inner': 19.1 },
    ],
    [
      'beltNarrowerThanRoller',
      { 'rollers.lower.length': 44 },
      'belt.width',
      '1 mm too much',
      { 'rollers.lower.length': 45.1 },
    ],
    [
      'beltNarrowerThanRoller',
      { 'rollers.upper.length': 45 },
      'belt.width',
      'equal is too much',
      { 'rollers.upper.length': 45.1 },
    ],
    [
      'combNarrowerThanBelt',
      { 'combs.lower.width': 46 },
      'combs.lower.width',
      '1 mm too much',
      { 'combs.lower.width': 45 },
    ],
    [
      'combNarrowerThanBelt',
      { 'combs.upper.width': 46 },
      'combs.upper.width',
      '1 mm too much',
      { 'combs.upper.width': 45 },
    ],
    [
      'beltKeepsCharge',
      { 'assume.belt_margin': 23 },
      'assume.belt_margin',
      '1 mm too much',
      { 'assume.belt_margin': 22 },
    ],
    [
      'lowerAxleLive',
      { 'rollers.lower.axle.kind': 'dead' },
      'rollers.lower.axle.kind',
      'driven through its axle',
      { 'rollers.lower.axle.kind': undefined },
    ],
    [
      'upperAxleDead',
      { 'rollers.upper.axle.kind': 'live' },
      'rollers.upper.axle.kind',
      'idles',
      { 'rollers.upper.axle.kind': undefined },
    ],
    [
      'plateCoversOpening',
      { 'base.plate.diameter': 160 },
      'base.plate.diameter',
      '0.33 mm short',
      { 'base.plate.diameter': 160.5 },
    ],
    [
      'frictionOrdered',
      { 'assume.friction_low': 0.6 },
      'assume.friction_low',
      '0.1 too much',
      { 'assume.friction_low': 0.5 },
    ],
    [
      'frictionOrdered',
      { 'assume.friction_high': 0.1 },
      'assume.friction_high',
      '0.05 too much',
      { 'assume.friction_high': 0.15 },
    ],
    ['pitchInStock', { ...TOOTHED, 'drive.pitch': 2.5 }, 'drive.pitch', 'one of 2 mm, 3 mm, 5 mm', TOOTHED],
    [
      'motorPulleyWholeTeeth',
      { ...TOOTHED, 'drive.pulleys.motor': 20 },
      'drive.pulleys.motor',
      '19.735 mm for 31 teeth or 20.372 mm for 32 teeth',
      TOOTHED,
    ],
    [
      'rollerPulleyWholeTeeth',
      { ...TOOTHED, 'drive.pulleys.roller': 30 },
      'drive.pulleys.roller',
      '29.921 mm for 47 teeth or 30.558 mm for 48 teeth',
      TOOTHED,
    ],
    // Bore 5 + 0.45, two walls of 2, and 0.6 of a 4 mm belt on either side.
    [
      'motorPulleyTakesShaft',
      { 'drive.pulleys.motor': 14 },
      'drive.pulleys.motor',
      '14.25 mm (0.25 mm short)',
      { 'drive.pulleys.motor': 14.26 },
    ],
    [
      'rollerPulleyTakesAxle',
      { 'drive.pulleys.roller': 15 },
      'drive.pulleys.roller',
      '15.25 mm (0.25 mm short)',
      { 'drive.pulleys.roller': 15.26 },
    ],
    [
      'motorFlatShallowerThanRadius',
      { 'drive.motor.face.shaft.flat': 2.5 },
      'drive.motor.face.shaft.flat',
      'equal is too much',
      { 'drive.motor.face.shaft.flat': 2.4 },
    ],
    [
      'shaftWithinPilot',
      { 'drive.motor.face.pilot': 4.5 },
      'drive.motor.face.shaft.diameter',
      '0.5 mm too much',
      { 'drive.motor.face.pilot': 5.5 },
    ],
    [
      'pilotWithinBracket',
      { 'drive.motor.face.pilot_height': 7 },
      'drive.motor.face.pilot_height',
      '1 mm too much',
      { 'drive.motor.face.pilot_height': 6 },
    ],
    // A countersunk M3 head is 6.72 mm across.
    [
      'boltsOutsidePilot',
      { 'drive.motor.face.bolts.circle': 21 },
      'drive.motor.face.bolts.circle',
      '0.72 mm short',
      { 'drive.motor.face.bolts.circle': 21.73 },
    ],
    [
      'boltsWithinBody',
      { 'drive.motor.face.bolts.circle': 34 },
      'drive.motor.face.bolts.circle',
      '0.72 mm too much',
      { 'drive.motor.face.bolts.circle': 33.2 },
    ],
    [
      'boltsBesideOneAnother',
      { 'drive.motor.face.bolts.count': 8, 'drive.motor.face.bolts.circle': 20 },
      'drive.motor.face.bolts.count',
      '0.066 mm short',
      { 'drive.motor.face.bolts.count': 8, 'drive.motor.face.bolts.circle': 22 },
    ],
    [
      'boltsBesideOneAnother',
      { 'drive.motor.face.bolts.count': 2.5 },
      'drive.motor.face.bolts.count',
      'a whole number',
      { 'drive.motor.face.bolts.count': 3 },
    ],
    // Face 6, air 1.5, half a hub 5, half a screw hole 1.7.
    [
      'shaftReachesSetScrew',
      { 'drive.motor.face.shaft.length': 14 },
      'drive.motor.face.shaft.length',
      '14.2 mm (0.2 mm short)',
      { 'drive.motor.face.shaft.length': 14.3 },
    ],
    [
      'driveBeltGoesAround',
      { 'drive.belt_length': 145 },
      'drive.belt_length',
      'short',
      { 'drive.belt_length': 146 },
    ],
    [
      'driveBeltWholeTeeth',
      { ...TOOTHED, 'drive.belt_length': 301 },
      'drive.belt_length',
      '302 mm has 151',
      { ...TOOTHED, 'drive.belt_length': 300 },
    ],
    [
      'layerThinnerThanNozzle',
      { 'print.layer': 0.5 },
      'print.layer',
      '0.1 mm too much',
      { 'print.layer': 0.39 },
    ],
  ];

describe.each(CASES)('%s with %j', (rule, broken, key, miss, kept) => {
  it('is told once, with the key and by how much it misses', () => {
    const problems = told(rule, broken);
    expect(problems).toHaveLength(1);
    expect(problems[0]).toMatch(new RegExp(`^${key.replaceAll('.', '\\.')}: `));
    expect(problems[0]).toContain(miss);
  });

  it(`is silent with ${JSON.stringify(kept)}`, () => expect(told(rule, kept)).toEqual([]));
});

it('has a case for every rule', () => {
  const tested = new Set(CASES.map(([rule]) => rule));
  expect([...new Set(RULES.map(({ name }) => name))].filter((name) => !tested.has(name))).toEqual([]);
});

it('breaks no rule in the sketch', () => expect(readMachineFile(SKETCH, 'm.yaml').ok).toBe(true));

it('points at the first key concerned, or at the group it is left out of', () => {
  const lines = (text: string) => {
    const read = readMachineFile(text, 'm.yaml');
    return read.ok ? [] : read.problems.map(({ line, key }) => [line, key]);
  };
  expect(
    lines(
      SKETCH.replace('width: 45', 'width: 60')
        .replace('56, axle: { kind: dead', '66, axle: { kind: dead')
        .replace('56, axle: { kind: live', '66, axle: { kind: live'),
    ),
  ).toEqual([[8, 'belt.width']]);
  // The flat is left at its default, the axle is too thin for it and for its bearing.
  const thin = SKETCH.replace('kind: live, diameter: 6, flat: 0.5', 'kind: live, diameter: 0.8 cm');
  expect(lines(thin)).toEqual([[10, 'rollers.lower.axle.diameter']]);
});

it('does not judge what could not be read', () => {
  const read = readMachineFile(sketchWith({ 'belt.width': '60', 'combs.lower.width': 46 }), 'm.json');
  expect(read.ok ? [] : read.problems.map(({ key }) => key)).toEqual(['belt.width']);
});
