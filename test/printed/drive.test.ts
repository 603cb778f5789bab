import { describe, expect, it } from 'vitest';
import type { Machine } from '../../parts/machine/machine.js';
import { ordersFor } from '../../parts/printed/catalog.js';
import { complaintsOf } from '../../parts/sheets/proof.js';
import { meshFacts, soupOf } from '../../parts/solid/facts.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { overlaps, wrongOverlaps } from '../helpers/mating.js';
import { variant } from '../helpers/variants.js';

// What the starters do not have: toothed belts, other motors, pulleys narrower than their hubs.

const kernel = await loadKernel();

const toothed = (pitch: number, motor: number, roller: number, width: number): Machine =>
  variant('travelling-demonstrator', {
    drive: {
      kind: 'toothed',
      pitch,
      belt_width: width,
      pulleys: { motor: (motor * pitch) / Math.PI, roller: (roller * pitch) / Math.PI },
    },
  });

const MACHINES: readonly (readonly [string, Machine])[] = [
  ['2 mm pitch, 24 and 36 teeth', toothed(2, 24, 36, 6)],
  ['3 mm pitch, 20 and 30 teeth', toothed(3, 20, 30, 9)],
  ['5 mm pitch, 14 and 20 teeth', toothed(5, 14, 20, 9)],
  [
    'a large motor with four screws and a thin cord',
    variant('lecture-hall', {
      drive: {
        belt_diameter: 3,
        pulleys: { motor: 17, roller: 20 },
        motor: {
          face: {
            pilot: 22,
            bolts: { circle: 44, count: 4, thread: 'M4' },
            shaft: { diameter: 8, length: 24 },
          },
        },
      },
    }),
  ],
  ['a long bought belt', variant('travelling-demonstrator', { drive: { belt_length: 320 } })],
  ['a tight printer', variant('travelling-demonstrator', { print: { calibration: { hole: 0.4 } } })],
];

describe.each(MACHINES)('%s', (_name, machine) => {
  it('builds every part of the drive as it states', () => {
    const drive = ordersFor(machine).filter(({ part }) => /^(drive|motor|foot)/.test(part.id));
    expect(drive.map(({ part }) => part.id)).toEqual([
      'motor-bracket',
      'drive-pulley-motor',
      'drive-pulley-roller',
      'foot',
    ]);
    for (const { part, dimensions, stated } of drive) {
      const { positions, triangles } = kernel.scope(() => kernel.mesh(part.build(dimensions, kernel)));
      expect(complaintsOf(meshFacts(soupOf(positions, triangles)), stated), part.id).toEqual([]);
      const bare = kernel.scope(() => kernel.volume(part.bare(dimensions, kernel)));
      expect(Math.abs(bare / stated.bareVolume - 1), part.id).toBeLessThan(0.001);
    }
  });

  it('puts them together by what their fits declare', () => {
    const found = kernel.scope(() => overlaps(machine, kernel));
    const own = found.filter(({ a, b }) => [a, b].some((kind) => /^(drive|motor|foot)/.test(kind)));
    expect(wrongOverlaps(own)).toEqual([]);
  });

  it('runs belt and pulleys in one plane, at the length the belt has', () => {
    const { place, pulley, belt, motor } = machine.drive;
    expect(place.roller + pulley.roller.beltAt).toBeCloseTo(place.belt, 2);
    expect(place.motor - pulley.motor.beltAt).toBeCloseTo(place.belt, 2);
    expect(-motor.at[0]).toBeCloseTo(belt.centreDistance, 2);
    if (belt.pitch > 0) expect((belt.fittedLength / belt.pitch) % 1).toBeCloseTo(0, 9);
  });
});

it('draws a pulley whose bore is too narrow into its shaft', () => {
  const sound = variant('travelling-demonstrator');
  const { motor } = sound.drive.pulley;
  const narrow = { ...motor, boreFit: { ...motor.boreFit, drawn: motor.boreFit.drawn - 1 } };
  const spoilt = { ...sound, drive: { ...sound.drive, pulley: { ...sound.drive.pulley, motor: narrow } } };
  const shared = (machine: Machine) =>
    kernel.scope(() =>
      overlaps(machine, kernel, ['drive-pulley-motor', 'motor']).reduce((sum, { found }) => sum + found, 0),
    );
  expect(shared(spoilt)).toBeGreaterThan(shared(sound) + 1);
});
