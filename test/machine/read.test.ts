import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { formatProblem } from '../../parts/machine/problem.js';
import { readMachineFile } from '../../parts/machine/read.js';
import { SKETCH, sketchWith } from './sketch.js';

const STARTERS = new URL('../../cli/starters/', import.meta.url);

function good(text: string) {
  const read = readMachineFile(text, 'machine.yaml');
  if (!read.ok) throw new Error(read.problems.map(formatProblem).join('\n'));
  return read;
}
function bad(text: string) {
  const read = readMachineFile(text, 'machine.yaml');
  if (read.ok) throw new Error('the file was accepted');
  return read.problems;
}
const messages = (text: string) => bad(text).map(formatProblem);
const change = (from: string, to: string) => {
  if (!SKETCH.includes(from)) throw new Error(`the sketch has no ${from}`);
  return SKETCH.replace(from, to);
};

describe('the sketch', () => {
  const { values, assumed, lines } = good(SKETCH);

  it('means what it says', () => {
    expect(values.machine).toBe('Travelling demonstrator');
    expect(values.site).toEqual({
      altitude: 350,
      temperature: 20,
      humidity: 45,
      pressure: undefined,
      cleanliness: 'clean',
      room: 50,
    });
    expect(values.target.voltage).toBe(170_000);
    expect(values.terminal).toMatchObject({ shape: 'sphere', shell: 0.9, insertion: 50, height: undefined });
    expect(values.terminal.opening.lip).toBe(6);
    expect(values.column.tube).toMatchObject({ material: 'acrylic-extruded', length: 640 });
    expect(values.belt).toEqual({
      material: 'neoprene',
      width: 45,
      thickness: 1.2,
      stretch: 8,
      resistance: undefined,
      charging: 'friction',
    });
    expect(values.rollers.lower.axle).toEqual({ kind: 'live', diameter: 6, flat: 0.5 });
    expect(values.rollers.upper).toMatchObject({ material: 'nylon', length: 56, bearing: '696', crown: 0 });
    expect(values.drive).toEqual({
      kind: 'round',
      motor: {
        speed: 5500,
        power: 25,
        supply: 12,
        body: { diameter: 40, length: 60 },
        face: {
          pilot: 13,
          pilot_height: 4,
          bolts: { circle: 25, count: 2, thread: 'M3' },
          shaft: { diameter: 5, length: 17, flat: 0.5 },
        },
      },
      pitch: undefined,
      belt_width: undefined,
      belt_diameter: 4,
      belt_length: undefined,
      pulleys: { motor: 20, roller: 30 },
    });
    expect(values.combs.upper).toEqual({ style: 'mesh', width: 38, gap: 3 });
    expect(values.base).toEqual({
      plate: { material: 'aluminium', diameter: 300, thickness: 4 },
      feet: 90,
      bench: 750,
    });
    expect(values.print.bed).toEqual({ x: 220, y: 220, z: 250 });
    expect(values.print.calibration).toEqual({
      hole: -0.15,
      hole_scale: 0,
      outside: 0.06,
      outside_scale: 0,
      scatter: 0.1,
    });
    expect(values.fits).toEqual({
      pilot: 'snug',
      rim: 'snug',
      shell: 'snug',
      bearing: 'press',
      axle: 'slide',
      sleeve: 'snug',
    });
    expect(values.assume.side_push).toBeUndefined();
  });

  it('widens readings by the caliper’s error', () => {
    const { outer, wall } = values.column.tube;
    expect(outer.readings).toEqual([79.6, 80.3, 79.8, 80.2]);
    expect(outer.mean).toBeCloseTo(79.975, 9);
    expect(outer.spread).toBeCloseTo(0.7, 9);
    expect(outer.low).toBeCloseTo(79.57, 9);
    expect(outer.high).toBeCloseTo(80.33, 9);
    expect(wall.low).toBeCloseTo(2.82, 9);
    expect(wall.high).toBeCloseTo(3.08, 9);
  });

  it('lists what was assumed', () => {
    expect(assumed.map(({ key }) => key)).toEqual([
      'site.cleanliness',
      'site.room',
      'target.ball',
      'terminal.material',
      'terminal.opening.edge',
      'belt.charging',
      'rollers.lower.crown',
      'rollers.upper.crown',
      'drive.kind',
      'drive.motor.body.diameter',
      'drive.motor.body.length',
      'drive.motor.face.pilot',
      'drive.motor.face.pilot_height',
      'drive.motor.face.bolts.circle',
      'drive.motor.face.bolts.count',
      'drive.motor.face.bolts.thread',
      'drive.motor.face.shaft.diameter',
      'drive.motor.face.shaft.length',
      'drive.motor.face.shaft.flat',
      'drive.belt_diameter',
      'wand.ball',
      'print.calibration.hole_scale',
      'print.calibration.outside_scale',
      'print.calibration.scatter',
      'print.conductive',
      'measuring.caliper_error',
      'fits.pilot',
      'fits.rim',
      'fits.shell',
      'fits.sleeve',
      'fits.bearing',
      'fits.axle',
    ]);
    const body = assumed.find(({ key }) => key === 'drive.motor.body.diameter');
    expect(body).toMatchObject({ value: 40, unit: 'mm' });
    expect(assumed.every(({ why }) => why.length > 3)).toBe(true);
  });

  it('knows the line of every key it states', () => {
    expect(lines.get('machine')).toBe(1);
    expect(lines.get('column')).toBe(6);
    expect(lines.get('column.tube.outer')).toBe(7);
    expect(lines.get('rollers.upper.bearing')).toBe(11);
    expect(lines.has('site.room')).toBe(false);
  });

  it('is the same in JSON', () => expect(good(sketchWith({})).values).toEqual(values));
});

describe('values', () => {
  it('follows `units` for bare lengths of the machine and for nothing else', () => {
    const inches = { units: 'in', 'column.tube.length': 25, 'terminal.insertion': 2, 'base.feet': 4 };
    const scaled = {
      'terminal.diameter': 10,
      'terminal.shell': 0.04,
      'terminal.opening': { diameter: 4, lip: 0.25 },
      'column.tube.outer': [3.15, '80.3 mm'],
      'column.tube.wall': 0.12,
      'belt.width': 1.75,
      'belt.thickness': 0.05,
      'base.plate.diameter': 12,
      'base.plate.thickness': 0.16,
      'base.bench': 30,
      'drive.pulleys': { motor: 1, roller: 1.5 },
      'combs.lower': { width: 1.5, gap: '3 mm' },
      'combs.upper': { width: 1.5 },
    };
    const roller = (end: string, kind: string) => ({
      [`rollers.${end}.outer`]: 1.125,
      [`rollers.${end}.inner`]: 0.8,
      [`rollers.${end}.length`]: 2.25,
      [`rollers.${end}.axle`]: { kind, diameter: '6 mm', flat: 0.02 },
    });
    const text = sketchWith({ ...inches, ...scaled, ...roller('lower', 'live'), ...roller('upper', 'dead') });
    const { values } = good(text);
    expect(values.column.tube.length).toBeCloseTo(635, 9);
    expect(values.column.tube.outer.readings[0]).toBeCloseTo(80.01, 9);
    expect(values.column.tube.outer.readings[1]).toBe(80.3);
    expect(values.combs.lower.gap).toBe(3);
    expect(values.combs.upper.gap).toBe(3);
    expect(values.print.layer).toBe(0.2);
    expect(values.site.altitude).toBe(350);
    expect(values.drive.pulleys.motor).toBeCloseTo(25.4, 9);
  });

  it('takes a bare target in kV, and a text with its unit', () => {
    expect(good(sketchWith({ 'target.voltage': 170 })).values.target.voltage).toBe(170_000);
    expect(good(sketchWith({ 'target.voltage': '170000 V' })).values.target.voltage).toBe(170_000);
  });

  it('takes heights in feet and temperatures in F', () => {
    const { site } = good(sketchWith({ 'site.altitude': '2500 ft', 'site.temperature': '68 F' })).values;
    expect(site.altitude).toBeCloseTo(762, 9);
    expect(site.temperature).toBeCloseTo(20, 9);
  });

  it('sets the comb’s gap by its style', () => {
    const text = sketchWith({ 'combs.upper': { style: 'needles', width: 38 }, 'combs.lower': { width: 38 } });
    const { values, assumed } = good(text);
    expect(values.combs.upper.gap).toBe(4);
    expect(values.combs.lower).toEqual({ style: 'mesh', width: 38, gap: 3 });
    expect(assumed.filter(({ key }) => key === 'combs.upper.gap')).toMatchObject([{ value: 4, unit: 'mm' }]);
  });

  it('uses the stated caliper error for every reading', () => {
    const { outer } = good(sketchWith({ measuring: { caliper_error: 0.1 } })).values.column.tube;
    expect(outer.low).toBeCloseTo(79.5, 9);
  });

  it('takes a bearing by any name on its box, quoted or not', () => {
    expect(good(change('bearing: "696"', 'bearing: 696')).values.rollers.lower.bearing).toBe('696');
    expect(good(sketchWith({ 'rollers.lower.bearing': '696ZZ' })).values.rollers.lower.bearing).toBe('696ZZ');
  });

  it('takes a heading without keys as said nothing', () => {
    expect(good(`${SKETCH}assume:\n  # friction_low: 0.2\n`).values.assume.friction_low).toBeUndefined();
    expect(good(`${SKETCH}assume: { friction_low: 0.2 }\n`).values.assume.friction_low).toBe(0.2);
  });

  it('asks a shell for its height and refuses one for a sphere', () => {
    expect(good(sketchWith({ 'terminal.shape': 'shell', 'terminal.height': [190, '7-1/2 in'] })).ok).toBe(
      true,
    );
    expect(messages(sketchWith({ 'terminal.shape': 'shell' })).join()).toContain(
      'terminal.height: found nothing',
    );
    expect(messages(sketchWith({ 'terminal.height': 200 })).join()).toContain('only with shape shell');
  });
});

describe('refusals', () => {
  it('names file, line, column, key, what was found and what is expected', () => {
    expect(bad(change('stretch: 8', 'stretch: much'))).toEqual([
      {
        file: 'machine.yaml',
        line: 8,
        column: 65,
        key: 'belt.stretch',
        found: '"much"',
        expected: 'a percentage such as 8 or "8 %"',
      },
    ]);
  });

  it.each<[string, string, string, string]>([
    ['an unknown key', 'stretch: 8', 'strech: 8', 'belt.strech: found an unknown key'],
    ['with the nearest one', 'stretch: 8', 'strech: 8', 'did you mean stretch?'],
    [
      'a misplaced key with its place',
      'feet: 90,',
      'feet: 90, thickness: 3, layer: 1,',
      'did you mean print.layer?',
    ],
    ['a missing key', 'width: 45, ', '', 'belt.width: found nothing, expected width: a length'],
    ['a missing group', 'base: {', 'bases: {', 'base: found nothing, expected what the column stands on'],
    ['an unknown choice', 'ptfe', 'ptfa', 'did you mean ptfe?'],
    ['an unknown bearing', '"696"', '"697x"', 'did you mean 697?'],
    [
      'a list where one value belongs',
      'length: 640',
      'length: [640, 641]',
      'column.tube.length: found a list',
    ],
    ['a group where a value belongs', 'width: 45', 'width: { a: 1 }', 'belt.width: found a group of keys'],
    [
      'a value where a group belongs',
      'pulleys: { motor: 20, roller: 30 }',
      'pulleys: 20',
      'drive.pulleys: found 20',
    ],
    ['an empty list', '[79.6, 80.3, 79.8, 80.2]', '[]', 'column.tube.outer: found an empty list'],
    ['an empty reading', '[79.6, 80.3', '[~, 80.3', 'column.tube.outer: found nothing'],
    ['an empty value', 'thickness: 1.2', 'thickness:', 'belt.thickness: found nothing'],
    ['.inf', 'power: 25', 'power: .inf', 'drive.motor.power: found .inf'],
    ['.nan', 'power: 25', 'power: .nan', 'drive.motor.power: found .nan'],
    ['what overflows', 'power: 25', 'power: 1e999', 'drive.motor.power: found 1e999'],
    ['hexadecimal', 'power: 25', 'power: 0x19', 'drive.motor.power: found 0x19'],
    ['octal', 'power: 25', 'power: 0o31', 'drive.motor.power: found 0o31'],
    ['a truth for a number', 'power: 25', 'power: true', 'drive.motor.power: found true'],
    [
      'an absurd size with its bounds',
      'length: 640',
      'length: 64000',
      'found 64000 mm, expected 50 to 3000 mm',
    ],
    [
      'an absurd size in its own unit',
      'length: 640',
      'length: 640 in',
      'found "640 in" (16256 mm), expected 50 to',
    ],
    ['an absurd voltage', '170 kV', '170', 'NONE'],
    ['an absurd voltage in V', '170 kV', '170 V', 'found "170 V" (0.17 kV), expected 10 to 2000 kV'],
    ['a decimal comma', 'thickness: 1.2', 'thickness: "1,2 mm"', 'use a point: 1.2 mm'],
    ['a decimal comma between braces', 'thickness: 1.2', 'thickness: 1,2', 'use a point, not a comma'],
    ['a decimal comma in a list', '[79.6, 80.3', '[79,6, 80.3', 'decimals with a point, not a comma'],
    ['readings of different things', '[79.6, 80.3', '[40, 80.3', 'found readings that differ by 40.3 mm'],
    [
      'control characters',
      'Travelling demonstrator',
      '"a\\u0007b"',
      'without control or invisible characters',
    ],
    [
      'invisible characters',
      'Travelling demonstrator',
      '"a\\u202eb"',
      'without control or invisible characters',
    ],
    ['path parts', 'Travelling demonstrator', '../../etc', 'a name without parts of a path'],
    ['a backslash', 'Travelling demonstrator', 'a\\b', 'a name without parts of a path'],
    ['an empty name', 'Travelling demonstrator', '""', 'machine: found 0 characters'],
    ['a long name', 'Travelling demonstrator', 'x'.repeat(61), 'machine: found 61 characters'],
    ['a number for a name', 'Travelling demonstrator', '12', 'machine: found 12'],
    ['an unknown unit of length', 'units: mm', 'units: furlong', 'units: found "furlong"'],
  ])('%s', (_what, from, to, message) => {
    const text = change(from, to);
    if (message === 'NONE') expect(good(text).values.target.voltage).toBe(170_000);
    else expect(messages(text).join('\n')).toContain(message);
  });

  it('tells all errors in one run, by line, each once', () => {
    const text = SKETCH.replace('altitude: 350', 'altitude: high')
      .replace('shape: sphere', 'shape: cube')
      .replace('length: 640', 'length: 6400000')
      .replace('stretch: 8', 'strech: 8')
      .replace('supply: 12', 'supply: "12,5 V"')
      .replace('style: mesh, width: 38, gap: 3', 'style: mash, width: 38, gap: 0x3')
      .replace('width: 38, gap: 3', 'width: 60, gap: 3')
      .replace('layer: 0.2', 'layer: 0.5');
    const found = bad(text).map(({ line, key, rule }) => [line, key, rule]);
    expect(found).toEqual([
      [3, 'site.altitude', undefined],
      [5, 'terminal.shape', undefined],
      [7, 'column.tube.length', undefined],
      [8, 'belt.strech', undefined],
      [12, 'drive.motor.supply', undefined],
      [14, 'combs.lower.style', undefined],
      [14, 'combs.lower.gap', undefined],
      [15, 'combs.upper.width', 'combNarrowerThanBelt'],
      [17, 'print.layer', 'layerThinnerThanNozzle'],
    ]);
  });

  it('says nothing about bare lengths when their unit is unknown', () => {
    expect(bad(change('units: mm', 'units: inch')).map(({ key }) => key)).toEqual(['units']);
  });
});

it.each(readdirSync(STARTERS))('accepts the starter %s', (name) => {
  expect(good(readFileSync(new URL(name, STARTERS), 'utf8')).ok).toBe(true);
});

it('gives the demonstrator’s starter the meaning of the sketch', () => {
  const text = readFileSync(new URL('travelling-demonstrator.yaml', STARTERS), 'utf8');
  const { wand, ...values } = good(text).values;
  const { wand: unsaid, ...sketch } = good(SKETCH).values;
  expect(values).toEqual(sketch);
  // The sketch leaves the wand to the target, the starter goes by what the terminal may reach.
  expect(wand).toEqual({ ...unsaid, length: 950 });
});

it('differs between the inch-built starters in name and tube only', () => {
  const file = (name: string) => good(readFileSync(new URL(name, STARTERS), 'utf8')).values;
  const short = file('inch-built.yaml');
  const long = file('inch-built-longer-tube.yaml');
  expect(short.column.tube.length).toBeCloseTo(609.6, 9);
  expect(long.column.tube.length).toBeCloseTo(914.4, 9);
  expect({ ...long, machine: short.machine, column: short.column }).toEqual(short);
});
