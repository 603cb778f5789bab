import { describe, expect, it } from 'vitest';
import type { Machine } from '../../parts/machine/machine.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';
import { overlaps, wrongOverlaps } from '../helpers/mating.js';

const kernel = await loadKernel();

describe.each(STARTERS)('the pieces of %s in their places', (starter) => {
  it('overlap by what their fits declare, and nowhere else', () => {
    const found = kernel.scope(() => overlaps(starterMachine(starter), kernel));
    expect(wrongOverlaps(found)).toEqual([]);
    // The closed fingers are there to be seen.
    expect(found.find(({ a, b }) => a === 'lock-ring' && b === 'tube-mount')?.declared).toBeGreaterThan(100);
  });
});

/** A machine with one drawn size changed so that a clearance becomes an overlap. */
type Spoiler = readonly [
  name: string,
  pieces: readonly [string, string],
  spoil: (machine: Machine) => Machine,
];

type Upper = Machine['carriers']['upper'];
type Lower = Machine['carriers']['lower'];
type Head = Machine['seat']['head'];
const upperCarrier = (m: Machine, change: (was: Upper) => Partial<Upper>): Machine => ({
  ...m,
  carriers: { ...m.carriers, upper: { ...m.carriers.upper, ...change(m.carriers.upper) } },
});
const lowerCarrier = (m: Machine, change: (was: Lower) => Partial<Lower>): Machine => ({
  ...m,
  carriers: { ...m.carriers, lower: { ...m.carriers.lower, ...change(m.carriers.lower) } },
});
const head = (m: Machine, change: (was: Head) => Partial<Head>): Machine => ({
  ...m,
  seat: { ...m.seat, head: { ...m.seat.head, ...change(m.seat.head) } },
});

const spoilers: readonly Spoiler[] = [
  [
    'a pilot too narrow',
    ['tube-mount', 'tube'],
    (m) => ({
      ...m,
      grip: { ...m.grip, mount: { ...m.grip.mount, pilotRadius: m.tube.outer.mean / 2 - 0.2 } },
    }),
  ],
  [
    'fingers too narrow',
    ['tube-mount', 'tube'],
    (m) => ({
      ...m,
      grip: { ...m.grip, mount: { ...m.grip.mount, fingerRadius: m.tube.outer.mean / 2 - 0.2 } },
    }),
  ],
  [
    'a foot too wide',
    ['tube-mount', 'base-collar'],
    (m) => ({
      ...m,
      grip: { ...m.grip, mount: { ...m.grip.mount, footRadius: m.base.collar.seatRadius + 0.3 } },
    }),
  ],
  [
    'keys too wide',
    ['tube-mount', 'base-collar'],
    (m) => ({ ...m, base: { ...m.base, collar: { ...m.base.collar, keyWidth: m.grip.key.width + 0.4 } } }),
  ],
  [
    'a thread too thick',
    ['tube-mount', 'lock-ring'],
    (m) => ({
      ...m,
      grip: { ...m.grip, mount: { ...m.grip.mount, threadRoot: m.grip.ring.crestRadius + 0.4 } },
    }),
  ],
  [
    'a spigot too wide for the tube',
    ['rim-ring', 'tube'],
    (m) => ({ ...m, rim: { ...m.rim, spigotFit: { ...m.rim.spigotFit, drawn: m.tube.inner.likely + 0.4 } } }),
  ],
  [
    'a spigot too wide for its shell',
    ['roller-hub-lower', 'roller-shell-lower'],
    (m) => ({
      ...m,
      hubs: {
        ...m.hubs,
        lower: {
          ...m.hubs.lower,
          spigotFit: { ...m.hubs.lower.spigotFit, drawn: m.rollers.lower.inner.mean + 0.4 },
        },
      },
    }),
  ],
  [
    'dogs too wide for their notches',
    ['roller-hub-upper', 'roller-shell-upper'],
    (m) => ({
      ...m,
      hubs: {
        ...m.hubs,
        upper: { ...m.hubs.upper, dogs: { ...m.hubs.upper.dogs, width: m.hubs.upper.notch.width + 0.4 } },
      },
    }),
  ],
  [
    'a bore too narrow for its axle',
    ['roller-hub-lower', 'axle-lower'],
    (m) => ({
      ...m,
      hubs: {
        ...m.hubs,
        lower: {
          ...m.hubs.lower,
          live: {
            ...m.hubs.lower.live!,
            boreFit: { ...m.hubs.lower.live!.boreFit, drawn: m.rollers.lower.axle.diameter - 0.4 },
          },
        },
      },
    }),
  ],
  [
    'a seat too shallow',
    ['roller-hub-upper', 'bearing-upper'],
    (m) => ({
      ...m,
      hubs: {
        ...m.hubs,
        upper: {
          ...m.hubs.upper,
          dead: {
            ...m.hubs.upper.dead!,
            seatFit: { ...m.hubs.upper.dead!.seatFit, drawn: m.rollers.upper.bearing.row.outer - 1 },
          },
        },
      },
    }),
  ],
  [
    'a comb pushed into the belt',
    ['comb-bracket-upper', 'belt'],
    (m) => ({
      ...m,
      combs: {
        ...m.combs,
        upper: {
          ...m.combs.upper,
          tip: m.combs.upper.tip - m.combs.upper.gap - m.combs.upper.bracket.protrusion - 0.5,
        },
      },
    }),
  ],
  [
    'a pocket too narrow for its bearing',
    ['bearing-carrier-lower', 'bearing-lower'],
    (m) =>
      lowerCarrier(m, (c) => ({
        pocketFit: { ...c.pocketFit, drawn: m.rollers.lower.bearing.row.outer - 0.6 },
      })),
  ],
  [
    'a spacer too narrow for its axle',
    ['axle-spacer', 'axle-lower'],
    (m) =>
      lowerCarrier(m, (c) => ({
        spacer: { ...c.spacer, boreRadius: m.rollers.lower.axle.diameter / 2 - 0.3 },
      })),
  ],
  [
    'a block too wide for its cheek',
    ['axle-block', 'bearing-carrier-upper'],
    (m) => upperCarrier(m, (c) => ({ block: { ...c.block, right: c.cheek.cavityRight + 0.4 } })),
  ],
  [
    'a slot too narrow for the axle’s flats',
    ['axle-block', 'axle-upper'],
    (m) => upperCarrier(m, (c) => ({ block: { ...c.block, slotHalf: c.block.slotHalf - 0.8 } })),
  ],
  [
    'legs too wide for their rails',
    ['terminal-seat-leg', 'bearing-carrier-upper'],
    (m) => ({ ...m, seat: { ...m.seat, leg: { ...m.seat.leg, left: m.seat.leg.left - 1 } } }),
  ],
  [
    'tenons too thick for their mortises',
    ['terminal-seat-leg', 'terminal-seat-head'],
    (m) => head(m, (h) => ({ mortiseThickness: h.mortiseThickness - 0.8 })),
  ],
  [
    'pads higher than the dome',
    ['terminal-seat-head', 'terminal'],
    (m) => head(m, (h) => ({ domeMiddle: h.domeMiddle + 0.6 })),
  ],
  [
    'guides too wide for the opening',
    ['rim-ring', 'terminal'],
    (m) => ({
      ...m,
      rim: { ...m.rim, guides: { ...m.rim.guides, outerRadius: m.rim.guides.outerRadius + 0.8 } },
    }),
  ],
  [
    'a hole too narrow for the motor’s pilot',
    ['motor-bracket', 'motor'],
    (m) => ({
      ...m,
      drive: {
        ...m.drive,
        bracket: {
          ...m.drive.bracket,
          pilotFit: { ...m.drive.bracket.pilotFit, drawn: m.drive.motor.face.pilot - 0.4 },
        },
      },
    }),
  ],
  [
    'a pulley too narrow for the motor’s shaft',
    ['drive-pulley-motor', 'motor'],
    (m) => ({
      ...m,
      drive: {
        ...m.drive,
        pulley: {
          ...m.drive.pulley,
          motor: {
            ...m.drive.pulley.motor,
            boreFit: { ...m.drive.pulley.motor.boreFit, drawn: m.drive.motor.face.shaft.diameter - 0.6 },
          },
        },
      },
    }),
  ],
];

describe('a clearance made negative', () => {
  it.each(spoilers)('%s: the pieces run into each other', (_name, [one, other], spoil) => {
    const sound = starterMachine('travelling-demonstrator');
    const between = (machine: Machine) =>
      kernel.scope(() => overlaps(machine, kernel, [one, other]).reduce((sum, { found }) => sum + found, 0));
    expect(between(spoil(sound))).toBeGreaterThan(between(sound) + 1);
  });
});
