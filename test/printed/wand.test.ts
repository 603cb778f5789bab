import { describe, expect, it } from 'vitest';
import type { Machine } from '../../parts/machine/machine.js';
import { wandJoints, wandLengthFor, wandVoltage } from '../../parts/machine/wand.js';
import { ordersFor } from '../../parts/printed/catalog.js';
import { printTotal } from '../../parts/sheets/print-table.js';
import { shaftLoop } from '../../parts/solid/facets.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { fastener } from '../../parts/stock/fasteners.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { variant } from '../helpers/variants.js';
import { moved, shared, type WandPiece, wandTogether } from '../helpers/wand.js';

const kernel = await loadKernel();
const A = starterMachine('travelling-demonstrator');
const WAND = /^wand-/;

/** Pairs of pieces that share more than rounding, and how much (mm3). */
function clashes(pieces: readonly WandPiece[]): string[] {
  return pieces.flatMap((one, i) =>
    pieces.slice(i + 1).flatMap((other) => {
      const volume = shared(one.solid, other.solid, kernel);
      return volume > 0.01 ? [`${one.id} ${other.id} ${volume.toFixed(2)}`] : [];
    }),
  );
}

const clashing = (machine: Machine, one: string, other: string) =>
  kernel.scope(() => {
    const pieces = wandTogether(machine, kernel);
    const of = (id: string) => pieces.filter((piece) => piece.id === id);
    return of(one).reduce(
      (sum, a) => sum + of(other).reduce((so, b) => so + shared(a.solid, b.solid, kernel), 0),
      0,
    );
  });

const spoiled = (over: Partial<Machine['wand']>): Machine => ({ ...A, wand: { ...A.wand, ...over } });

describe('the wand put together', () => {
  it.each(STARTERS)('%s: its pieces touch, and none runs into another', (starter) => {
    expect(kernel.scope(() => clashes(wandTogether(starterMachine(starter), kernel)))).toEqual([]);
  });

  it('does so on a printer whose holes come out small and outsides large', () => {
    const calibration = { hole: -0.3, outside: 0.2, hole_scale: -0.5, outside_scale: 0.5, scatter: 0.1 };
    const machine = variant('travelling-demonstrator', { print: { calibration } });
    // Drawn wider by just what the printer takes away.
    expect(machine.wand.mortise - machine.wand.plug).toBeCloseTo(0.25 + 0.5 + 0.01 * 23, 1);
    expect(kernel.scope(() => clashes(wandTogether(machine, kernel)))).toEqual([]);
  });

  it.each([
    ['a mortise too narrow', 'wand-plug', 'wand-segment', spoiled({ mortise: A.wand.plug - 0.4 })],
    ['a mortise too narrow', 'wand-plug', 'wand-guard', spoiled({ mortise: A.wand.plug - 0.4 })],
    ['a plug too long', 'wand-plug', 'wand-segment', spoiled({ plugLength: 2 * A.wand.depth + 1 })],
    [
      'a pin too thick',
      'wand-pin',
      'wand-plug',
      spoiled({ pin: { ...A.wand.pin, thickness: A.wand.pin.holeThickness + 0.4 } }),
    ],
    [
      'a pin too broad',
      'wand-pin',
      'wand-grip',
      spoiled({ pin: { ...A.wand.pin, breadth: A.wand.pin.holeBreadth + 0.4 } }),
    ],
    ['pins not in line', 'wand-pin', 'wand-grip', spoiled({ grip: { ...A.wand.grip, pinAt: 20 } })],
    [
      'no room for the screw',
      'wand-plug',
      'screw',
      spoiled({ head: { ...A.wand.head, depth: A.wand.depth + 2 } }),
    ],
  ])('%s: %s and %s run into each other', (_name, one, other, machine) => {
    expect(clashing(machine, one, other)).toBeGreaterThan(clashing(A, one, other) + 1);
  });
});

describe('a joint', () => {
  /** What a piece of the wand shares with the others when it is moved, the pins left out or not. */
  const blocked = (id: string, move: readonly [number, number, number], pins: boolean) =>
    kernel.scope(() => {
      const pieces = wandTogether(A, kernel);
      const piece = pieces.filter((each) => each.id === id).at(-1)!;
      return pieces
        .filter((each) => each !== piece && each.id !== 'screw' && (pins || each.id !== 'wand-pin'))
        .reduce((sum, each) => sum + shared(moved(piece.solid, move, kernel), each.solid, kernel), 0);
    });

  it('is pulled apart only once its pin is out', () => {
    expect(blocked('wand-head', [2, 0, 0], false)).toBeLessThan(0.01);
    expect(blocked('wand-head', [2, 0, 0], true)).toBeGreaterThan(10);
  });

  it('keeps its pin by barbs that stand out beyond the hole and can close', () => {
    const { pin } = A.wand;
    expect(blocked('wand-pin', [0, 0, 1.5], true)).toBeGreaterThan(0.5);
    const play = pin.holeBreadth - pin.breadth;
    expect(2 * pin.barb).toBeGreaterThan(play + 0.5);
    expect(pin.slit).toBeGreaterThan(2 * pin.barb);
  });

  it('does not turn', () => {
    const turned = kernel.scope(() => {
      const pieces = wandTogether(A, kernel);
      const head = pieces.find(({ id }) => id === 'wand-head')!;
      const plug = pieces.filter(({ id }) => id === 'wand-plug').at(-1)!;
      return shared(kernel.place(head.solid, { turn: [10, 0, 0], move: [0, 0, 0] }), plug.solid, kernel);
    });
    expect(turned).toBeGreaterThan(10);
  });
});

describe('the ball’s screw', () => {
  it('goes in through the mortise, a key after it, before the plug is in', () => {
    const { fasteners } = ordersFor(A).find(({ part }) => part.id === 'wand-head')!.part;
    const [screw] = fasteners(A);
    const { headDiameter } = fastener(A.wand.head.screw);
    const found = kernel.scope(() => {
      const head = wandTogether(A, kernel).find(({ id }) => id === 'wand-head')!;
      const from = A.wand.segment.count * A.wand.segment.length;
      const way = (radius: number, to: number) =>
        kernel.place(kernel.extrude([shaftLoop(radius)], from - 100, from + to), {
          turn: [0, 90, 0],
          move: [0, 0, 0],
        });
      const { depth, length } = A.wand.head;
      return {
        headIn: shared(head.solid, way(headDiameter / 2, depth), kernel),
        shankOut: shared(head.solid, way(2.5, length + 50), kernel),
        headOut: shared(head.solid, way(headDiameter / 2, depth + 1), kernel),
      };
    });
    expect(found.headIn).toBeLessThan(0.01);
    expect(found.shankOut).toBeLessThan(0.01);
    // The head does not follow through its hole.
    expect(found.headOut).toBeGreaterThan(20);
    expect(screw).toMatchObject({ size: 'M5', length: A.wand.head.screwLength, count: 1 });
    expect(A.wand.head.engaged).toBeGreaterThanOrEqual(8);
  });
});

describe('its length', () => {
  it('is 1 cm for each 3 kV of the target', () => {
    expect(wandLengthFor(270_000)).toBeCloseTo(900, 9);
    const unsaid = { wand: { length: undefined } };
    expect(variant('lecture-hall', unsaid).wand.wanted).toBeCloseTo(900, 9);
    expect(variant('travelling-demonstrator', unsaid).wand.wanted).toBeCloseTo(170 / 0.3, 2);
  });

  it('goes by 30 kV for each centimetre of radius without a target', () => {
    expect(wandVoltage(undefined, 250)).toBe(375_000);
    const machine = variant('travelling-demonstrator', {
      target: { voltage: undefined },
      wand: { length: undefined },
    });
    expect(machine.wand.wanted).toBeCloseTo((30 * 25.01) / 2 / 0.3, 0);
  });

  it('is what the file says where it says so', () => {
    const machine = variant('travelling-demonstrator', { wand: { length: 1200 } });
    expect(machine.wand.wanted).toBe(1200);
    expect(machine.wand.segment.count).toBeGreaterThan(A.wand.segment.count);
  });

  it('is there, from the guard to the metal that lies nearest', () => {
    for (const length of [120, 300, 566.7, 1000, 2400]) {
      const machine = variant('travelling-demonstrator', { wand: { length } });
      const { wand } = machine;
      const metal = kernel.scope(() =>
        kernel.bounds(wandTogether(machine, kernel).find(({ id }) => id === 'screw')!.solid),
      );
      expect(metal.min[0]).toBeCloseTo(wand.insulated, 2);
      expect(wand.insulated).toBeGreaterThanOrEqual(length);
    }
  });

  it('is made of as many segments as the bed asks for', () => {
    for (const size of [100, 150, 220, 300]) {
      const machine = variant('lecture-hall', { print: { bed: { x: size, y: 90, z: 100 } } });
      const { count, length } = machine.wand.segment;
      expect(length).toBeLessThanOrEqual(size);
      // One segment fewer would not fit.
      if (length > 2 * machine.wand.depth + 4) {
        expect((count * length) / Math.max(1, count - 1)).toBeGreaterThan(size - 4);
      }
      const copies = Object.fromEntries(ordersFor(machine).map((order) => [order.part.id, order.copies]));
      expect(copies).toMatchObject({
        'wand-segment': count,
        'wand-plug': count + 1,
        'wand-pin': 2 * (count + 1),
        'wand-grip': 1,
        foot: 4,
      });
      expect(wandJoints(machine.wand)).toBe(count + 1);
    }
  });

  it('changes no plug, pin, guard, grip or head', () => {
    const codes = (machine: Machine) =>
      ordersFor(machine)
        .filter(({ part }) => WAND.test(part.id))
        .map(({ code }) => code);
    const longer = codes(variant('travelling-demonstrator', { wand: { length: 700 } }));
    const changed = codes(A).filter((code, i) => code !== longer[i]);
    expect(changed).toHaveLength(1);
  });
});

it('its copies are counted in what printing takes', () => {
  const orders = ordersFor(A).filter(({ part }) => part.id === 'wand-pin');
  const seconds = { low: 1, likely: 1, high: 1 };
  const prints = [{ part: 'wand-pin', estimate: { deposited: 1, seconds, filament: 1, mass: 1 } }];
  expect(printTotal(orders, prints).filament).toBe(2 * wandJoints(A.wand));
});

it('has no place in the machine and is listed as a tool', () => {
  const parts = ordersFor(A).filter(({ part }) => WAND.test(part.id));
  expect(parts).toHaveLength(6);
  for (const { part } of parts) {
    expect(part.role).toBe('tool');
    expect(part.place(A)).toEqual([]);
  }
});
