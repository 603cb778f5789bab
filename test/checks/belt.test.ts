import { describe, expect, it } from 'vitest';
import { combWidth, rollerFace, speed, stretch, waveSpeed } from '../../parts/checks/belt.js';
import { liftingTorque, RUNNING_TORQUE } from '../../parts/checks/belt-load.js';
import { bulgeAt, ringRoom, room, roomContributions, roomLeft } from '../../parts/checks/belt-room.js';
import { beltGrip, dogPressure, hubDogs, slipTorque } from '../../parts/checks/drive.js';
import { beltCharge } from '../../parts/field/charge/belt.js';
import { BELT } from '../../parts/machine/declarations-pieces.js';
import type { Machine } from '../../parts/machine/machine.js';
import { BELT_MATERIALS, beltMaterial } from '../../parts/stock/belts.js';
import { starterMachine } from '../helpers/machines.js';
import { readings, variant } from '../helpers/variants.js';

const A = starterMachine('travelling-demonstrator');
const grip = (machine: Machine) => beltGrip(machine, { discharge: 170_000 });

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

describe('the stack of what takes room', () => {
  it('lists the largest first and leaves by chance more than at the worst', () => {
    const taken = roomContributions(A).map(({ by }) => by);
    expect(taken).toEqual([...taken].sort((a, b) => b - a));
    expect(taken[0]).toBeGreaterThan(0);
    const { worst, chance } = roomLeft(A);
    expect(chance).toBeGreaterThan(worst);
    expect(worst).toBeLessThanOrEqual(A.belt.room.available - A.belt.room.needed);
    // What is saved by chance is never more than all there is to save.
    expect(chance - worst).toBeLessThan(taken.reduce((sum, by) => sum + by, 0));
    expect(room(A).basis).toContain('by root of squares');
  });

  it('turns what is across the belt by the slope of the diagonal', () => {
    const { by } = roomContributions(A).find(({ what }) => what === 'wander')!;
    const across = A.belt.width + 2 * A.belt.wander;
    const without = Math.hypot(A.belt.width, Math.sqrt(A.belt.room.needed ** 2 - across ** 2));
    // A step of 4 mm on a curve: within a tenth.
    expect(Math.abs(by - (A.belt.room.needed - without))).toBeLessThan(0.1 * by);
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

  const fast = (speed: number, stretch = 8) =>
    variant('travelling-demonstrator', { drive: { motor: { speed } }, belt: { stretch } });

  it.each([
    [3_000, 0],
    [3_000, 0.2],
    [8_000, 2],
    [8_000, 8],
    [30_000, 8],
    [30_000, 40],
    [60, 0],
  ])('at %d rpm and %d %% of stretch asks only for what can be had, and that clears it', (rpm, percent) => {
    const { severity, remedy } = speed(fast(rpm, percent));
    expect(severity).not.toBe('ok');
    expect(remedy).not.toMatch(/NaN|Infinity|\b0 rpm|\b0(\.0)? %/);
    const slower = /at most (\d+) rpm/.exec(remedy)?.[1];
    const tighter = /([\d.]+) % of stretch/.exec(remedy)?.[1];
    expect(slower ?? tighter).toBeDefined();
    const together = remedy.includes('together');
    if (slower) expect(speed(fast(Number(slower), together ? Number(tighter) : percent)).severity).toBe('ok');
    if (tighter) {
      const mended = fast(together ? Number(slower) : rpm, Number(tighter));
      expect(speed(mended).severity).toBe('ok');
      expect(stretch(mended).severity).toBe('ok');
    }
  });

  it('without tension asks for the least usual stretch, not for a motor that stands still', () => {
    expect(speed(fast(3_000, 0)).remedy).toBe('5 % of stretch');
  });

  it('with a fast motor asks for no stretch beyond the usual', () => {
    expect(speed(fast(30_000)).remedy).toMatch(/^a motor of at most \d+ rpm with these pulleys, or pulleys/);
    expect(speed(fast(30_000)).remedy).not.toContain('%');
  });

  it('where neither does alone, asks for both', () => {
    expect(speed(fast(30_000, 0)).remedy).toMatch(
      /^12 % of stretch together with a motor of at most \d+ rpm/,
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
    expect(grip(A).severity).toBe('ok');
    expect(slipTorque(A)).toBeLessThan(0.25);
    expect(grip(variant('travelling-demonstrator', { belt: { stretch: 2 } })).severity).toBe('caution');
  });

  it('brings what the charge weighs besides, whatever the speed', () => {
    // W = V I, and the torque is W over the roller's rad/s: 170 kV and 10 uA at 300 rad/s are 5.7 mN m.
    const { current } = beltCharge(A);
    const turn = (A.belt.speed * 2000) / (A.rollers.lower.outer.mean + A.belt.thickness);
    expect(liftingTorque(A, 170_000)).toBeCloseTo((170_000 * current.high) / turn, 9);
    const slow = variant('travelling-demonstrator', { drive: { motor: { speed: 1000 } } });
    expect(liftingTorque(slow, 170_000)).toBeCloseTo(liftingTorque(A, 170_000), 9);
    expect(grip(A).required).toBeCloseTo(RUNNING_TORQUE.value + liftingTorque(A, 170_000), 12);
    // A voltage that no belt lifts its charge to.
    expect(beltGrip(A, { discharge: 1e8 }).severity).toBe('caution');
  });

  it.each([
    [3_000, 0],
    [3_000, 2],
    [8_000, 1],
    [30_000, 8],
    [30_000, 12],
  ])('at %d rpm and %d %% of stretch the remedy of a slipping belt clears it', (speed, percent) => {
    const at = (rpm: number, tension: number, thickness = A.belt.thickness) =>
      variant('travelling-demonstrator', {
        drive: { motor: { speed: rpm } },
        belt: { stretch: tension, thickness },
      });
    const { severity, remedy } = grip(at(speed, percent));
    expect(severity).toBe('caution');
    expect(remedy).not.toMatch(/NaN|Infinity/);
    const tighter = /([\d.]+) % of stretch/.exec(remedy)?.[1];
    const slower = /at most (\d+) rpm/.exec(remedy)?.[1];
    const thicker = /belt ([\d.]+) mm thick/.exec(remedy)?.[1];
    expect(tighter ?? slower ?? thicker).toBeDefined();
    if (tighter) {
      expect(grip(at(speed, Number(tighter))).severity).toBe('ok');
      expect(stretch(at(speed, Number(tighter))).severity).toBe('ok');
    }
    if (slower) expect(grip(at(Number(slower), percent)).severity).toBe('ok');
    if (thicker) {
      const thick = at(speed, percent, Number(thicker));
      expect(grip(thick).severity).toBe('ok');
      expect(room(thick).severity).toBe('ok');
    }
  });

  it('a narrow belt stretched as far as usual asks for a thicker one that still passes', () => {
    const narrow = (thickness: number) =>
      variant('travelling-demonstrator', { belt: { width: 10, thickness, stretch: 12 } });
    const { severity, remedy } = grip(narrow(0.6));
    expect(severity).toBe('caution');
    expect(remedy).not.toContain('%');
    const thicker = Number(/^a belt ([\d.]+) mm thick$/.exec(remedy)![1]);
    expect(grip(narrow(thicker)).severity).toBe('ok');
    expect(room(narrow(thicker)).severity).toBe('ok');
  });

  it('loads the dogs less with a thicker shell', () => {
    const thick = variant('travelling-demonstrator', { rollers: { lower: { outer: readings(34) } } });
    expect(dogPressure(thick, 'lower')).toBeLessThan(dogPressure(A, 'lower'));
    expect(hubDogs(A, 'lower').severity).toBe('ok');
    const thin = variant('travelling-demonstrator', { rollers: { lower: { outer: readings(21.5) } } });
    expect(hubDogs(thin, 'lower').severity).toBe('caution');
  });
});

it.each(BELT_MATERIALS)('%s is never fitted beyond what the key for stretch takes', (material) => {
  expect(beltMaterial(material).stretch.high).toBeLessThanOrEqual(BELT.keys.stretch.range.max);
});
