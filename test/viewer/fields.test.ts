import { describe, expect, it } from 'vitest';
import {
  type Leaf,
  leavesOf,
  MACHINE_FILE,
  type Problem,
  type QuantityLeaf,
  readMachineFile,
  withWritten,
  writtenValues,
} from '../../parts/index.js';
import {
  canBeLeftOut,
  fieldId,
  foldsOf,
  isQuantity,
  isWanted,
  labelOf,
  mended,
  NOTES,
  unitShown,
  unitsOf,
  unstated,
} from '../../viewer/session/fields.js';
import { nudged, shifted, stepOf, summaryOf } from '../../viewer/session/nudge.js';
import { stated } from '../../viewer/session/typing.js';
import { starterText } from '../helpers/machines.js';

const LEAVES = new Map(leavesOf(MACHINE_FILE));
const leaf = (key: string): Leaf => LEAVES.get(key)!;
const quantity = (key: string): QuantityLeaf => leaf(key) as QuantityLeaf;
const tube = quantity('column.tube.outer');

describe('a step up or down', () => {
  it('keeps unit, blank and decimals as they are written', () => {
    const up = (item: string, units: 'mm' | 'in' = 'mm') => nudged(item, tube, units, 1);
    expect(up('79.6')).toBe('79.7');
    expect(up('79.9')).toBe('80.0');
    expect(up('80')).toBe('80.1');
    expect(up('79.80')).toBe('79.90');
    expect(up('79.6 mm')).toBe('79.7 mm');
    expect(up('79.6mm')).toBe('79.7mm');
    expect(up('7.96 cm')).toBe('7.97 cm');
    expect(up('3.13', 'in')).toBe('3.135');
    expect(up('3.13 in')).toBe('3.135 in');
    expect(up('3.13"')).toBe('3.135"');
    expect(up('0.08 m')).toBe('0.0801 m');
    expect(nudged('80.0', tube, 'mm', -1)).toBe('79.9');
    expect(nudged('80', tube, 'mm', -3)).toBe('79.7');
  });

  it('makes a decimal of a fraction, and of feet and inches', () => {
    expect(nudged('3 1/2 in', tube, 'mm', 1)).toBe('3.505 in');
    expect(nudged('1-1/8"', tube, 'mm', -1)).toBe('1.120"');
    expect(nudged('5 ft 2 in', tube, 'mm', 1)).toBe('62.005 in');
    expect(nudged('1/3 in', tube, 'mm', 1)).toBe('0.338333 in');
  });

  it('is one of the last decimal for what is no length of the machine', () => {
    expect(nudged('5500', quantity('drive.motor.speed'), 'mm', 1)).toBe('5501');
    expect(nudged('170 kV', quantity('target.voltage'), 'mm', -1)).toBe('169 kV');
    expect(nudged('-0.15', quantity('print.calibration.hole'), 'in', 1)).toBe('-0.14');
    expect(nudged('-0.01', quantity('print.calibration.hole'), 'in', 1)).toBe('0.00');
    expect(nudged('0.03', quantity('measuring.caliper_error'), 'in', 1)).toBe('0.04');
    expect(nudged('50 m3', quantity('site.room'), 'mm', 1)).toBe('51 m3');
    expect(nudged('0.7', quantity('assume.surface_factor'), 'mm', 1)).toBe('0.8');
    expect(nudged('1.5e2 Gohm', quantity('belt.resistance'), 'mm', 1)).toBe('1.6e2 Gohm');
    expect(nudged('8e1', tube, 'mm', 1)).toBe('80.1');
    expect(nudged('2e11', quantity('belt.resistance'), 'mm', 1)).toBe('3e11');
  });

  it('leaves alone what is no number', () => {
    for (const item of ['', 'eighty', '7l mm', '79,6', '1/0 in', '3 1/2', '80 furlongs'])
      expect(nudged(item, tube, 'mm', 1), item).toBeUndefined();
  });

  it('up and down again is the same size', () => {
    for (let tenths = 500; tenths < 3000; tenths += 7) {
      const item = (tenths / 10).toFixed(1);
      expect(nudged(nudged(item, tube, 'mm', 1)!, tube, 'mm', -1)).toBe(item);
    }
  });

  it('shifts all readings by the same, whatever unit each is in', () => {
    expect(shifted(['79.6', '80.3'], tube, 'mm', -1)).toEqual(['79.5', '80.2']);
    expect(shifted(['79.6', '3.15 in'], tube, 'mm', 1)).toEqual(['79.7', '3.153937 in']);
    expect(shifted(['79.6', 'x'], tube, 'mm', 1)).toBeUndefined();
    expect(shifted([], tube, 'mm', 1)).toBeUndefined();
    expect(stepOf('3 1/8 in', tube, 'mm')).toEqual({ amount: 0.005, unit: 'in' });
  });

  it('is read back by the machine file as what it says', () => {
    const text = withWritten(starterText('inch-built'), 'column.tube.outer', ['3 1/2 in']);
    const before = readMachineFile(text, 'a.yaml');
    const after = readMachineFile(
      withWritten(text, 'column.tube.outer', [nudged('3 1/2 in', tube, 'in', 1)!]),
      'a.yaml',
    );
    if (!before.ok || !after.ok) throw new Error('no machine');
    expect(after.values.column.tube.outer.mean - before.values.column.tube.outer.mean).toBeCloseTo(0.127, 9);
  });
});

describe('mean and spread', () => {
  it('are in the unit of the file', () => {
    expect(summaryOf(['79.6', '80.3', '79.8', '80.2'], tube, 'mm')).toEqual({
      mean: '79.98',
      spread: '0.7',
      unit: 'mm',
    });
    expect(summaryOf(['3.125', '79.6 mm'], tube, 'in')).toEqual({
      mean: '3.1294',
      spread: '0.0089',
      unit: 'in',
    });
    expect(summaryOf(['79.6', ''], tube, 'mm')).toBeUndefined();
    expect(summaryOf([], tube, 'mm')).toBeUndefined();
  });
});

describe('fields', () => {
  it('stand for every key of the machine file once, the measured pieces first', () => {
    const folds = foldsOf();
    const keys = folds.flatMap(({ group, prefix }) => leavesOf(group).map(([key]) => `${prefix}${key}`));
    expect([...keys].sort()).toEqual([...LEAVES.keys()].sort());
    expect(folds.filter(({ open }) => open).map(({ name }) => name)).toEqual([
      'terminal',
      'column',
      'belt',
      'rollers',
      'combs',
      'base',
    ]);
    expect(folds.findLastIndex(({ open }) => open)).toBe(5);
    expect(new Set(keys.map((key) => fieldId(key))).size).toBe(keys.length);
    for (const key of keys) expect(NOTES.get(key)!.meaning, key).toBe(leaf(key).meaning);
  });

  it('are labelled in words', () => {
    expect(labelOf('rollers.lower.bearing_outer')).toBe('bearing outer');
    expect(labelOf('machine')).toBe('machine');
    expect(fieldId('column.tube.outer', 2)).toBe('value-column-tube-outer-2');
  });

  it('show the unit of a bare number only', () => {
    expect(unitShown(tube, '79.6', 'mm')).toBe('mm');
    expect(unitShown(tube, '3.1', 'in')).toBe('in');
    expect(unitShown(tube, '79.6 mm', 'in')).toBe('');
    expect(unitShown(tube, '3 1/2"', 'in')).toBe('');
    expect(unitShown(leaf('site.altitude'), '350', 'in')).toBe('m');
    expect(unitShown(leaf('belt.material'), 'neoprene', 'in')).toBe('');
    expect(unitsOf(writtenValues(starterText('inch-built')))).toBe('in');
    expect(unitsOf(writtenValues('units: furlong'))).toBe('mm');
  });

  it('that are not stated show what is taken, in the unit of the file', () => {
    const written = writtenValues('units: in\nterminal: { shape: sphere }');
    const shell = unstated('terminal.shell', leaf('terminal.shell'), written);
    expect(shell).toMatchObject({ item: '0.0393701', value: 1 });
    expect(unstated('print.material', leaf('print.material'), written)).toMatchObject({ item: 'petg' });
    expect(unstated('target.voltage', leaf('target.voltage'), written).item).toBeUndefined();
    const gap = (style: string) =>
      unstated(
        'combs.upper.gap',
        leaf('combs.upper.gap'),
        writtenValues(`combs: { upper: { style: ${style} } }`),
      );
    expect([gap('mesh').value, gap('needles').value, gap('spoon').value]).toEqual([3, 4, undefined]);
    const bare = writtenValues('machine: A');
    expect(unstated('combs.upper.gap', leaf('combs.upper.gap'), bare).value).toBe(3);
  });

  it('show the same default as the reader takes', () => {
    const text = starterText('inch-built');
    const read = readMachineFile(text, 'a.yaml');
    if (!read.ok) throw new Error('no machine');
    expect(read.assumed.length).toBeGreaterThan(5);
    for (const { key, value } of read.assumed)
      expect(unstated(key, leaf(key), writtenValues(text)).value, key).toBe(value);
  });

  it('have a place only where the choice beside them gives them one', () => {
    const height = (text: string) => {
      const written = writtenValues(text);
      const key = 'terminal.height';
      return [isWanted(key, leaf(key), written), canBeLeftOut(key, leaf(key), written)];
    };
    expect(height('terminal: { shape: shell }')).toEqual([true, false]);
    expect(height('terminal: { shape: sphere }')).toEqual([false, true]);
    expect(canBeLeftOut('belt.width', leaf('belt.width'), new Map())).toBe(false);
    expect(canBeLeftOut('belt.stretch', leaf('belt.stretch'), new Map())).toBe(true);
  });

  it('take in what was probably meant, where it can be put in', () => {
    const problem = (nearest: string | undefined): Problem => ({
      file: 'a.yaml',
      line: 1,
      column: 1,
      key: '',
      found: '',
      expected: '',
      ...(nearest !== undefined && { nearest }),
    });
    expect(mended(leaf('belt.material'), ['neopren'], problem('neoprene'))).toBe('neoprene');
    expect(mended(leaf('belt.width'), ['45 mn'], problem('mm'))).toBe('45 mm');
    expect(mended(leaf('belt.width'), ['45 mn'], problem(undefined))).toBeUndefined();
    expect(mended(tube, ['79 mn', '80'], problem('mm'))).toBeUndefined();
    expect(mended(leaf('machine'), ['A'], problem('B'))).toBeUndefined();
  });

  it('do not write a reading that was added and is empty', () => {
    expect(stated(['79.6', ''], 1)).toEqual(['79.6']);
    expect(stated(['79.6', ''], 2)).toEqual(['79.6', '']);
    expect(stated([''], 0)).toEqual([]);
  });

  it('of quantities all have a range that is told', () => {
    for (const [key, each] of LEAVES)
      if (isQuantity(each)) expect(NOTES.get(key)!.bounds, key).toMatch(/ to /);
  });
});
