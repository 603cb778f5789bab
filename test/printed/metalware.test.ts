import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { threadDiameter } from '../../parts/machine/drive.js';
import type { Machine } from '../../parts/machine/machine.js';
import { assembly } from '../../parts/printed/assembly.js';
import { type MetalPiece, metalware } from '../../parts/printed/metalware.js';
import { standing } from '../../parts/printed/screw.js';
import { screwsOf } from '../../parts/printed/screws.js';
import { polygonFactor, shaftLoop, sidesFor } from '../../parts/solid/facets.js';
import { meshFacts, soupOf } from '../../parts/solid/facts.js';
import type { Solid } from '../../parts/solid/kernel.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { type FastenerSize, fastener } from '../../parts/stock/fasteners.js';
import { type InsertSize, insert } from '../../parts/stock/inserts.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { collisions, shared, stand, TOUCH } from '../helpers/metal.js';
import { randomMachine } from '../helpers/random-machine.js';
import { variant } from '../helpers/variants.js';

const kernel = await loadKernel();

/** mm2 of a circle as it is drawn */
const circle = (radius: number) => Math.PI * radius ** 2 * polygonFactor(sidesFor(radius));
const onScrew = (size: FastenerSize, outer: number, length: number) =>
  (circle(outer) - circle(threadDiameter(size) / 2)) * length;
const cap = (size: FastenerSize, length: number) =>
  circle(fastener(size).headDiameter / 2) * fastener(size).headHeight +
  circle(threadDiameter(size) / 2) * length;
const washer = (size: FastenerSize) =>
  onScrew(size, fastener(size).washer.outer / 2, fastener(size).washer.thickness);
const nut = (size: FastenerSize, height = fastener(size).nutHeight) =>
  ((Math.sqrt(3) / 2) * fastener(size).nutFlats ** 2 - circle(threadDiameter(size) / 2)) * height;
/** @param inside how much of the screw is in it, mm */
const brass = (size: InsertSize, inside: number) =>
  circle(insert(size).outerDiameter / 2) * insert(size).length.value -
  circle(threadDiameter(size) / 2) * Math.min(insert(size).length.value, inside);

/** Volumes (mm3) by closed form, of kinds whose lengths the machine's design decides. */
function volumes({ base, plate, feet, carriers, combs, drive, hubs }: Machine): Record<string, number> {
  const m3 = fastener('M3');
  const m5 = fastener(base.stud.size);
  const { upper, lower } = carriers;
  const { thread } = drive.motor.face.bolts;
  const sunk = fastener(thread).countersink;
  const clamp = (end: 'lower' | 'upper') =>
    cap('M3', 10) + brass('M3', 10 - 0.4 - combs[end].bracket.barHeight);
  const lock = cap('M3', 10) + washer('M3') + brass('M3', 10 - m3.washer.thickness - 5);
  const [low, high] = [threadDiameter(thread) / 2, sunk.diameter / 2];
  const cone =
    (polygonFactor(sidesFor(high)) * Math.PI * sunk.depth * (low ** 2 + low * high + high ** 2)) / 3;
  return {
    'collar-screw': cap('M4', base.screwLength) + nut('M4'),
    'skirt-screw': cap('M4', base.skirtScrewLength) + washer('M4') + nut('M4'),
    'ground-stud':
      cap('M5', base.stud.length) +
      3 * washer('M5') +
      2 * onScrew('M5', m5.washer.outer / 2, 1) +
      nut('M5', m5.thinNutHeight) +
      nut('M5'),
    'foot-screw':
      cap('M5', feet.screwLength) +
      washer('M5') +
      brass('M5', feet.screwLength - m5.washer.thickness - plate.thickness),
    'comb-lock-lower': lock,
    'comb-lock-upper': lock,
    'comb-clamp-lower': clamp('lower'),
    'comb-clamp-upper': clamp('upper'),
    'lower-carrier-screw':
      cap('M3', lower.screwLength) +
      washer('M3') +
      brass('M3', lower.screwLength - m3.washer.thickness - lower.footThickness),
    'cheek-screw': cap('M3', upper.screwLength) + brass('M3', upper.screwLength - 4),
    'jack-insert': Math.PI * (insert('M3').outerDiameter ** 2 / 4 - 1.5 ** 2) * insert('M3').length.value,
    'jack-washer': (Math.PI * (m3.washer.outer ** 2 - m3.washer.inner ** 2) * m3.washer.thickness) / 4,
    'foil-upper': 0.06 * upper.foil.width * upper.foil.length,
    'foil-lower': 0.06 * lower.foil.width * lower.foil.length,
    'bracket-screw': cap('M4', drive.bracket.screwLength) + washer('M4') + nut('M4'),
    'motor-screw': cone + circle(low) * (drive.bracket.motorScrewLength - sunk.depth),
    'hub-set-screw':
      nut('M3') + circle(1.5) * setScrew(hubs.lower.flangeRadius - hubs.lower.live!.flatDistance),
  };
}

/** The longest usual set screw that does not stand out of so much room, mm. */
const setScrew = (room: number) => [20, 16, 12, 10, 8, 6, 5, 4].find((length) => length <= room - 0.3)!;

/** Rings and foils have facets on both sides and folds: their closed forms are of true circles and straight strips. */
const LOOSE = ['jack-insert', 'jack-washer', 'foil-lower'];

function complaints(machine: Machine): string[] {
  return metalware(machine).flatMap((piece) => {
    const { positions, triangles } = kernel.mesh(piece.build(kernel));
    const { closed, pieces, volume } = meshFacts(soupOf(positions, triangles));
    return closed && pieces === 1 && volume > 0 ? [] : [`${piece.id}: ${closed} ${pieces} ${volume}`];
  });
}

const kinds = (pieces: readonly MetalPiece[]) => [
  ...new Map(pieces.map((piece) => [piece.of, piece])).values(),
];

describe.each(STARTERS)('the metalware of %s', (starter) => {
  const machine = starterMachine(starter);
  const all = metalware(machine);

  it('is closed, each of one piece', () => expect(kernel.scope(() => complaints(machine))).toEqual([]));

  it('has the volumes of its screws, washers, nuts and inserts', () => {
    kernel.scope(() => {
      const wanted = volumes(machine);
      const found = kinds(all).filter(({ of }) => of in wanted);
      expect(found).toHaveLength(Object.keys(wanted).length);
      for (const piece of found) {
        const share = kernel.volume(piece.build(kernel)) / wanted[piece.of]!;
        expect(Math.abs(share - 1), `${piece.of}: ${share}`).toBeLessThan(
          LOOSE.includes(piece.of) ? 0.05 : 0.01,
        );
      }
    });
  });

  it('has each id once, and one solid for a key', () => {
    expect(new Set(all.map(({ id }) => id)).size).toBe(all.length);
    kernel.scope(() => {
      const volume = new Map<string, number>();
      for (const piece of all) {
        const found = kernel.volume(piece.build(kernel));
        expect(found, piece.id).toBeCloseTo(volume.get(piece.key) ?? found, 6);
        volume.set(piece.key, found);
      }
    });
  });

  it('has one piece for every screw that a tool turns, its head where the tool takes hold', () => {
    kernel.scope(() => {
      const there = stand(all, kernel);
      const free = screwsOf(machine).filter(({ what }) => !what.startsWith('jack screw'));
      const found = free.map((screw) => {
        const head = standing(screw.heads[0]!);
        const volumeIn = (from: number, solid: Solid) =>
          kernel.volume(
            kernel.intersect(kernel.place(kernel.extrude([shaftLoop(1)], from, from + 0.2), head), solid),
          );
        const under = there.filter(({ solid }) => volumeIn(-0.2, solid) > 0.99 * 0.2 * circle(1));
        expect(under, screw.what).toHaveLength(1);
        // A stud stands out of its nut.
        const over = screw.drive.kind === 'nut' ? 0.2 * circle(1) : 0;
        expect(volumeIn(0, under[0]!.solid), screw.what).toBeCloseTo(over, 2);
        return under[0]!.piece.id;
      });
      expect(new Set(found).size).toBe(free.length);
      // What is not turned in the machine: two inserts and washers of jack screws, three foils, the frame's ground screw.
      expect(all.length - free.length).toBe(8);
    });
  });

  it('runs into nothing but what it is pressed into', () =>
    expect(kernel.scope(() => collisions(machine, kernel))).toEqual([]));

  it('comes as near as a clearance to all that it says it meets, and bites where it says so', () => {
    kernel.scope(() => {
      const pieces = stand(assembly(machine), kernel);
      const near = 0.5;
      for (const metal of stand(all, kernel)) {
        for (const of of metal.piece.meets) {
          const others = pieces.filter(({ piece }) => piece.of === of);
          const touched = others.some((other) =>
            [0, 1, 2].some((axis) =>
              [-near, near].some((by) => {
                const move = [0, 0, 0].map((_, i) => (i === axis ? by : 0)) as [number, number, number];
                const solid = kernel.place(metal.solid, { turn: [0, 0, 0], move });
                return shared({ piece: 0, solid, bounds: kernel.bounds(solid) }, other, kernel) > TOUCH;
              }),
            ),
          );
          expect(touched, `${metal.piece.id} and ${of}`).toBe(true);
        }
        for (const bite of metal.piece.bites) {
          expect(metal.piece.meets).toContain(bite.of);
          if (!bite.why.startsWith('insert') && !bite.why.startsWith('in the motor')) continue;
          const found = pieces
            .filter(({ piece }) => piece.of === bite.of)
            .map((other) => shared(metal, other, kernel));
          expect(Math.max(...found) / bite.volume, `${metal.piece.id} in ${bite.of}`).toBeCloseTo(1, 2);
        }
      }
    });
  });

  it('has screws that stand out of their nuts', () => {
    kernel.scope(() => {
      const { plate, base, drive } = machine;
      const m4 = fastener('M4').nutHeight;
      const inSkirt = -(plate.thickness + base.skirt.thickness) + base.skirt.nutDepth - m4;
      const below: Record<string, number> = {
        'collar-screw': inSkirt,
        'skirt-screw': inSkirt,
        'bracket-screw': -(plate.thickness + drive.bracket.flangeThickness - 3.4) - m4,
      };
      for (const { piece, bounds } of stand(all, kernel)) {
        const face = below[piece.of];
        if (face === undefined) continue;
        expect(face - bounds.min[2], piece.id).toBeGreaterThan(0.5);
      }
    });
  });
});

describe('machines thrown by dice', () => {
  it('have closed metalware that runs into nothing, seed 20261127', { timeout: 600_000 }, () => {
    fc.assert(
      fc.property(randomMachine, ({ machine }) => {
        kernel.scope(() => {
          expect([...complaints(machine), ...collisions(machine, kernel)]).toEqual([]);
        });
      }),
      { seed: 20261127, numRuns: 20, endOnFailure: true },
    );
  });
});

describe('the ground screw of the motor’s frame', () => {
  it.each([28, 36, 42, 60, 90])('has room for lug and nut beside a motor of %d mm', (diameter) => {
    const { drive } = variant('travelling-demonstrator', { drive: { motor: { body: { diameter } } } });
    expect(drive.motor.bodyDiameter).toBe(diameter);
    const { groundAt, innerHalf, down } = drive.bracket;
    const lug = fastener('M3').washer.outer / 2;
    expect(Math.hypot(...groundAt)).toBeGreaterThan(diameter / 2 + lug);
    expect(groundAt[0] + lug).toBeLessThan(innerHalf);
    expect(groundAt[1] + lug).toBeLessThan(down);
  });
});

/** A machine with one size changed so that a screw does not fit any more. */
type Spoiler = readonly [name: string, metal: string, other: string, spoil: (machine: Machine) => Machine];

const lower = (m: Machine, by: Partial<Machine['carriers']['lower']>): Machine => ({
  ...m,
  carriers: { ...m.carriers, lower: { ...m.carriers.lower, ...by } },
});
const upper = (m: Machine, by: Partial<Machine['carriers']['upper']>): Machine => ({
  ...m,
  carriers: { ...m.carriers, upper: { ...m.carriers.upper, ...by } },
});

const spoilers: readonly Spoiler[] = [
  [
    'a lower carrier’s screw 20 mm too long',
    'lower-carrier-screw',
    'plate',
    (m) => lower(m, { screwLength: m.carriers.lower.screwLength + 20 }),
  ],
  [
    'a cheek’s screw 20 mm too long',
    'cheek-screw',
    'bearing-carrier-upper',
    (m) => upper(m, { screwLength: m.carriers.upper.screwLength + 20 }),
  ],
  [
    'a foot’s screw 20 mm too long',
    'foot-screw',
    'foot',
    (m) => ({ ...m, feet: { ...m.feet, screwLength: m.feet.screwLength + 20 } }),
  ],
  [
    'carriers’ holes narrower than their screws',
    'lower-carrier-screw',
    'bearing-carrier-lower',
    (m) => ({ ...m, rim: { ...m.rim, screwHole: 2.8 } }),
  ],
  [
    'the rim ring’s holes narrower than its screws',
    'cheek-screw',
    'rim-ring',
    (m) => ({ ...m, rim: { ...m.rim, screwHole: 2.8 } }),
  ],
  [
    'the plate’s holes narrower than their screws',
    'collar-screw',
    'plate',
    (m) => ({ ...m, base: { ...m.base, plate: { ...m.base.plate, boltHole: 3.8 } } }),
  ],
  [
    'a plate’s hole narrower than the ground stud',
    'ground-stud',
    'plate',
    (m) => ({ ...m, base: { ...m.base, plate: { ...m.base.plate, studHole: 4.8 } } }),
  ],
  [
    'a comb’s slot narrower than its screw',
    'comb-lock-upper',
    'comb-bracket-upper',
    (m) => ({
      ...m,
      combs: {
        ...m.combs,
        upper: { ...m.combs.upper, bracket: { ...m.combs.upper.bracket, slotRadius: 1.4 } },
      },
    }),
  ],
  [
    'a slot narrower than its nut',
    'hub-set-screw',
    'roller-hub-lower',
    (m) => ({
      ...m,
      hubs: {
        ...m.hubs,
        lower: { ...m.hubs.lower, live: { ...m.hubs.lower.live!, nutFlats: 5.2 } },
      },
    }),
  ],
];

describe('what does not fit is found', () => {
  it.each(spoilers)('%s', (_, metal, other, spoil) => {
    const found = kernel.scope(() => collisions(spoil(starterMachine('travelling-demonstrator')), kernel));
    expect(found.filter((each) => each.startsWith(metal) && each.includes(` in ${other}`))).not.toEqual([]);
  });
});
