import { describe, expect, it } from 'vitest';
import {
  bulgeAt,
  combWidth,
  ringRoom,
  rollerFace,
  room,
  speed,
  stretch,
  waveSpeed,
} from '../../parts/checks/belt.js';
import { beltGrip, dogPressure, hubDogs, slipTorque } from '../../parts/checks/drive.js';
import { starterMachine } from '../helpers/machines.js';
import { readings, variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');

describe('room in the tube', () => {
  it('is enough for the demonstrator’s belt and not for a wide one', () => {
    expect(room(A).severity).toBe('ok');
    const wide = variant('travelling-demonstrator', { belt: { width: 55 } });
    expect(room(wide).severity).toBe('caution');
    const width = Number(/at most ([\d.]+) mm/.exec(room(wide).remedy)![1]);
    expect(room(variant('travelling-demonstrator', { belt: { width } })).severity).toBe('ok');
    expect(room(variant('travelling-demonstrator', { belt: { width: width + 1 } })).severity).toBe('caution');
  });

  it('is a danger when the belt would fill the bore', () => {
    expect(room(variant('travelling-demonstrator', { belt: { width: 75 } })).severity).toBe('danger');
  });
});

describe('room in the printed rings', () => {
  // sqrt((45 + 4)^2 + (28.13 + 2.4 + 1.6 + 2 x bulge)^2), bulge a parabola with its height in the middle.
  it('counts the belt as it is there', () => {
    const { lower, upper } = A.rollers;
    expect(bulgeAt(A, (lower.axisZ + upper.axisZ) / 2)).toBeCloseTo(A.belt.bulge, 9);
    expect(bulgeAt(A, upper.axisZ)).toBeCloseTo(0, 9);
    const bulge = bulgeAt(A, A.tube.rimZ - 12);
    const needed = Math.hypot(49, 28.13 + 2.4 + 1.6 + 2 * bulge);
    expect(ringRoom(A, 'rim-ring')).toMatchObject({ severity: 'ok' });
    expect(ringRoom(A, 'rim-ring').measured).toBeCloseTo(needed, 6);
  });

  it.each(['rim-ring', 'base-skirt'] as const)(
    'is a caution in a %s that the belt rubs, a danger in one that it fills',
    (ring) => {
      const narrow = (radius: number) => ({
        ...A,
        rim: { ...A.rim, spigotInnerRadius: radius },
        base: { ...A.base, skirt: { ...A.base.skirt, innerRadius: radius } },
      });
      expect(ringRoom(narrow(30), ring).severity).toBe('caution');
      expect(ringRoom(narrow(27), ring).severity).toBe('danger');
      const width = Number(/at most ([\d.]+) mm/.exec(ringRoom(narrow(30), ring).remedy)![1]);
      const narrower = narrow(30);
      expect(ringRoom({ ...narrower, belt: { ...narrower.belt, width } }, ring).severity).toBe('ok');
    },
  );
});

describe('speed', () => {
  it('stays below half the wave speed', () => {
    expect(speed(A).severity).toBe('ok');
    expect(speed(variant('travelling-demonstrator', { drive: { motor: { speed: 8_000 } } })).severity).toBe(
      'caution',
    );
    expect(speed(variant('travelling-demonstrator', { belt: { stretch: 0.2 } })).severity).toBe('danger');
  });

  it('its remedy clears it', () => {
    const fast = variant('travelling-demonstrator', { drive: { motor: { speed: 8_000 } } });
    const rpm = Number(/at most (\d+) rpm/.exec(speed(fast).remedy)![1]);
    expect(speed(variant('travelling-demonstrator', { drive: { motor: { speed: rpm } } })).severity).toBe(
      'ok',
    );
  });

  it('knows the wave speed of a taut string', () => {
    // 10.6 N over 66.4 g/m.
    expect(waveSpeed(A)).toBeCloseTo(Math.sqrt(A.belt.tension / (1230 * 0.045 * 0.0012)), 9);
  });

  it('without tension, still has a finite room to tell', () => {
    const slack = variant('travelling-demonstrator', { belt: { stretch: 0 } });
    expect(Number.isFinite(room(slack).measured)).toBe(true);
    expect(room(slack).basis).toContain('belt/speed');
    expect(speed(slack).severity).toBe('danger');
  });
});

it.each([
  [8, 'ok'],
  [3, 'caution'],
  [20, 'caution'],
] as const)('a neoprene belt stretched by %d %%: %s', (percent, severity) => {
  expect(stretch(variant('travelling-demonstrator', { belt: { stretch: percent } })).severity).toBe(severity);
});

it('asks a roller 10 mm wider than the belt, and a comb 6 mm narrower', () => {
  expect(rollerFace(A, 'upper').severity).toBe('ok');
  expect(
    rollerFace(variant('travelling-demonstrator', { rollers: { upper: { length: 54 } } }), 'upper').severity,
  ).toBe('caution');
  expect(combWidth(A, 'lower').severity).toBe('ok');
  expect(
    combWidth(variant('travelling-demonstrator', { combs: { lower: { width: 44 } } }), 'lower').severity,
  ).toBe('caution');
});

describe('drive', () => {
  it('slips before the hubs give', () => {
    expect(beltGrip(A).severity).toBe('ok');
    expect(slipTorque(A)).toBeLessThan(0.25);
    expect(beltGrip(variant('travelling-demonstrator', { belt: { stretch: 2 } })).severity).toBe('caution');
  });

  it('loads the dogs less with a thicker shell', () => {
    const thick = variant('travelling-demonstrator', { rollers: { lower: { outer: readings(34) } } });
    expect(dogPressure(thick, 'lower')).toBeLessThan(dogPressure(A, 'lower'));
    expect(hubDogs(A, 'lower').severity).toBe('ok');
    const thin = variant('travelling-demonstrator', { rollers: { lower: { outer: readings(21.5) } } });
    expect(hubDogs(thin, 'lower').severity).toBe('caution');
  });
});
