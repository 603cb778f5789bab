import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Calibrated,
  calibrate,
  calibrationValues,
  type Measured,
} from '../../parts/machine/calibrate.js';
import { type CouponKind, couponFeatures, couponSizes } from '../../parts/machine/coupon.js';
import { couponListText, holdsReadings, readCouponList } from '../../parts/machine/coupon-list.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';

const FEATURES = couponFeatures(couponSizes(starterMachine('travelling-demonstrator')));
const CALIPER = 0.03;

interface Printer {
  readonly hole: number;
  readonly holeScale: number;
  readonly outside: number;
  readonly outsideScale: number;
}

/** What a caliper would say of a coupon from this printer; `noise` gives the error of each reading, mm. */
function printed(printer: Printer, noise: () => number = () => 0, times = 2): Measured[] {
  return FEATURES.map((feature) => {
    const inner = feature.kind === 'holes' || feature.kind === 'slot';
    const [constant, scale] = inner
      ? [printer.hole, printer.holeScale]
      : [printer.outside, printer.outsideScale];
    const size = feature.drawn + constant + (scale / 100) * feature.drawn;
    return { ...feature, readings: Array.from({ length: times }, () => size + noise()) };
  });
}

/** Even numbers between 0 and 1, neither included: a Lehmer generator (Park and Miller). */
function uniform(start: number): () => number {
  let state = start;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}

const USUAL: Printer = { hole: -0.2, holeScale: -0.6, outside: 0.1, outsideScale: -0.5 };

function calibrated(measured: readonly Measured[]): Calibrated {
  const result = calibrate(measured, CALIPER);
  if (!('calibration' in result)) throw new Error(`${result.kind} ${result.label}: ${result.found}`);
  return result;
}

function refusal(measured: readonly Measured[]) {
  const result = calibrate(measured, CALIPER);
  if ('calibration' in result) throw new Error('it was taken');
  return result;
}

const changed = (
  measured: readonly Measured[],
  kind: CouponKind,
  label: string,
  change: (readings: readonly number[]) => readonly number[],
) =>
  measured.map((each) =>
    each.kind === kind && each.label === label ? { ...each, readings: change(each.readings) } : each,
  );

describe('calibrate', () => {
  it('finds a printer without noise, to the step it is written in', () => {
    expect(calibrated(printed(USUAL)).calibration).toEqual({
      hole: -0.2,
      holeScale: -0.6,
      outside: 0.1,
      outsideScale: -0.5,
      scatter: CALIPER,
    });
  });

  it('uses no growth with the size where there is none to see', () => {
    const { calibration } = calibrated(printed({ ...USUAL, holeScale: 0.05, outsideScale: 0 }));
    expect(calibration.holeScale).toBe(0);
    expect(calibration.outsideScale).toBe(0);
    expect(calibration.outside).toBeCloseTo(0.1, 9);
  });

  it('recovers random printers within the error it states, nearly as often as it says, seed 20261126', () => {
    const size = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
    const printer = fc.record({
      hole: size(0.4),
      holeScale: size(1),
      outside: size(0.4),
      outsideScale: size(1),
    });
    let [asked, held] = [0, 0];
    fc.assert(
      fc.property(printer, fc.integer({ min: 1, max: 2 ** 30 }), (truth, start) => {
        const next = uniform(start);
        // Box and Muller: normal noise of 0.03 mm.
        const normal = () => 0.03 * Math.sqrt(-2 * Math.log(next())) * Math.cos(2 * Math.PI * next());
        const { hole, outside, calibration } = calibrated(printed(truth, normal));
        expect(calibration.scatter).toBeLessThan(0.2);
        const sides = [
          [hole, truth.hole, truth.holeScale],
          [outside, truth.outside, truth.outsideScale],
        ] as const;
        for (const [side, constant, scale] of sides) {
          // The middle of the coupon, where both parts are judged at once.
          const off = side.constant - constant + ((side.scale - scale) / 100) * 20;
          expect(Math.abs(off)).toBeLessThan(0.15);
          asked += 1;
          if (Math.abs(side.scale - scale) <= side.scaleError + 0.005) held += 1;
        }
      }),
      { seed: 20261126, numRuns: 400 },
    );
    expect(asked).toBe(800);
    expect(held / asked).toBeGreaterThan(0.92);
  });

  it('states a scatter that covers the noise it was given, not less than the caliper sees', () => {
    let i = 0;
    // Up and down by 0.1 mm from reading to reading: s = 0.1 sqrt(2) within each pair.
    const { calibration } = calibrated(printed(USUAL, () => (i++ % 2 === 0 ? 0.1 : -0.1)));
    expect(calibration.scatter).toBeCloseTo(2 * 0.1 * Math.SQRT2, 1);
    expect(calibrated(printed(USUAL)).calibration.scatter).toBe(CALIPER);
  });

  it('holds slot and wall against what it found, and takes them for nothing else', () => {
    const wide = changed(printed(USUAL), 'slot', 'F', (readings) => readings.map((value) => value + 0.2));
    const { calibration, controls, notes } = calibrated(wide);
    expect(calibration).toEqual(calibrated(printed(USUAL)).calibration);
    expect(controls.map(({ kind, off }) => [kind, Number(off.toFixed(2))])).toEqual([
      ['slot', 0.2],
      ['wall', 0],
    ]);
    expect(notes.join()).toContain('the slot F is +0.20 mm off');
  });

  it('asks whether the caliper is at zero, and whether holes and outsides changed places', () => {
    const told = (printer: Partial<Printer>) =>
      calibrated(printed({ hole: 0, holeScale: 0, outside: 0, outsideScale: 0, ...printer })).notes.join();
    expect(told({ hole: 0.2, outside: 0.2 })).toContain('is the caliper at zero');
    expect(told({ hole: 0.2, outside: -0.15 })).toContain('changed places');
    expect(told({ hole: -0.2, outside: 0.1 })).toBe('');
  });
});

describe('what is not taken', () => {
  it('one reading a millimetre off, by its number', () => {
    expect(refusal(changed(printed(USUAL), 'holes', 'C', ([a]) => [a!, a! + 1.4]))).toMatchObject({
      kind: 'holes',
      label: 'C',
      reading: 1,
    });
  });

  it('one among readings that agree', () => {
    expect(refusal(changed(printed(USUAL), 'outsides', 'B', ([a]) => [a!, a! + 0.7, a!]))).toMatchObject({
      kind: 'outsides',
      label: 'B',
      reading: 1,
      expected: expect.stringContaining('at most 0.5 mm apart'),
    });
  });

  it.each(['A', 'B', 'C', 'D', 'E'])('a feature that does not fit the others: hole %s', (label) => {
    const off = changed(printed(USUAL), 'holes', label, (readings) => readings.map((value) => value - 0.6));
    expect(refusal(off)).toMatchObject({ kind: 'holes', label });
  });

  it('a decimal point that slipped, and a reading of another feature, with the hint', () => {
    expect(refusal(changed(printed(USUAL), 'outsides', 'D', ([a]) => [a! / 10])).found).toContain(
      'the decimal point seems to have slipped',
    );
    expect(refusal(changed(printed(USUAL), 'outsides', 'D', () => [39.9])).found).toContain(
      'it would fit E of outsides',
    );
  });

  it('too few features', () => {
    const few = printed(USUAL).filter(({ kind, label }) => kind !== 'holes' || 'ABC'.includes(label));
    expect(refusal(few)).toMatchObject({ kind: 'holes', found: 'readings of 3 only' });
    expect(refusal(few.filter(({ kind }) => kind !== 'holes')).found).toBe('no readings');
  });

  it('a printer that needs repair', () => {
    const shrinking = { hole: 0.5, holeScale: -4, outside: 0.5, outsideScale: -1 };
    expect(refusal(printed(shrinking)).expected).toContain('needs repair, not calibration');
  });

  it('readings that scatter beyond any fit', () => {
    const rough = printed(USUAL).map((each, i) => ({
      ...each,
      readings: each.readings.map((value) => value + (i % 2 === 0 ? 0.35 : -0.35)),
    }));
    expect(refusal(rough).found).toMatch(/scatter by 0\.\d\d mm to either side/);
  });
});

describe('the measuring list', () => {
  const CODE = '22334455';
  const text = couponListText(CODE, FEATURES);
  const read = (list: string) => readCouponList(list, 'list.yaml', CODE, FEATURES, CALIPER);
  const problems = (list: string) => {
    const result = read(list);
    if (result.ok) throw new Error('it was taken');
    return result.problems;
  };
  const fill = (list: string) => {
    let rest = list;
    for (const { readings } of printed(USUAL)) {
      rest = rest.replace('[]', `[ ${readings.map((value) => value.toFixed(2)).join(', ')} ]`);
    }
    return rest;
  };

  it('is empty as written, and comes back feature by feature when filled in', () => {
    expect(holdsReadings(text)).toBe(false);
    expect(holdsReadings(fill(text))).toBe(true);
    expect(read(text)).toMatchObject({ ok: true, measured: [] });
    const back = read(fill(text));
    if (!back.ok) throw new Error(JSON.stringify(back.problems));
    expect(back.measured).toHaveLength(FEATURES.length);
    expect(calibrated(back.measured).calibration.hole).toBeCloseTo(-0.2, 2);
  });

  it('may be in inches', () => {
    const inches = read(text.replace('units: mm', 'units: in').replace('A: []', 'A: [0.1654, "4.2 mm"]'));
    expect(inches).toMatchObject({ ok: true, measured: [{ label: 'A', readings: [4.20116, 4.2] }] });
  });

  it('is taken for a filled one where it cannot be read', () => {
    expect(holdsReadings('holes: [')).toBe(true);
    expect(holdsReadings('')).toBe(false);
  });

  it('tells everything that is wrong with it at once, each with its line', () => {
    const bad = text
      .replace(CODE, 'ABCDEFGH')
      .replace('units: mm', 'units: inch')
      .replace('outsides:', 'outside:')
      .replace('B: []', 'H: [6]')
      .replace('C: []', 'C: ["14,8 mm"]');
    expect(problems(bad).map(({ line, key, nearest }) => [line, key, nearest])).toEqual([
      [4, 'coupon', undefined],
      [5, 'units', undefined],
      [8, 'holes.H', undefined],
      [9, 'holes.C', undefined],
      [12, 'outside', 'outsides'],
    ]);
    expect(problems(bad)[0]!.found).toContain('the list belongs to another coupon');
  });

  it.each(['.nan', '.inf', '-20', '0', 'true', '[20]', '{ a: 1 }', '1e6'])(
    'refuses %s as a reading',
    (value) => {
      expect(problems(text.replace('D: []', `D: [20, ${value}]`))).toMatchObject([
        { key: 'holes.D', line: 10 },
      ]);
    },
  );

  it('says where a reading that is refused stands', () => {
    const list = fill(text).replace(/(D: \[ [\d.]+, )[\d.]+/, '$123.9');
    const back = read(list);
    if (!back.ok) throw new Error(JSON.stringify(back.problems));
    expect(back.placeOf(refusal(back.measured))).toMatchObject({ line: 10, column: 15 });
  });
});

describe.each(STARTERS)('the coupon of %s', (starter) => {
  it('has sizes that no calibration changes', () => {
    const after = variant(starter, {
      print: { calibration: { hole: 0.3, hole_scale: 1, outside: -0.2, outside_scale: -1 } },
    });
    expect(couponSizes(after)).toEqual(couponSizes(starterMachine(starter)));
  });

  it('has holes and outsides enough, small ones and large ones', () => {
    const features = couponFeatures(couponSizes(starterMachine(starter)));
    for (const kind of ['holes', 'outsides'] as const) {
      const drawn = features.filter((each) => each.kind === kind).map((each) => each.drawn);
      expect(new Set(drawn).size).toBeGreaterThanOrEqual(4);
      expect(Math.max(...drawn) / Math.min(...drawn)).toBeGreaterThan(3);
      expect(Math.min(...drawn)).toBeGreaterThanOrEqual(4.5);
    }
  });
});

it('writes only what changes', () => {
  const before = { hole: -0.2, outside: 0.1, holeScale: 0, outsideScale: 0, scatter: 0.1 };
  expect(calibrationValues(before, { ...before, outsideScale: -0.3, scatter: 0.06 })).toEqual([
    { key: 'print.calibration.outside_scale', unit: '%', from: 0, to: -0.3 },
    { key: 'print.calibration.scatter', unit: 'mm', from: 0.1, to: 0.06 },
  ]);
});
