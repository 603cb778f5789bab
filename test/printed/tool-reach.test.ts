import { describe, expect, it } from 'vitest';
import type { Machine } from '../../parts/machine/machine.js';
import { isTool, ordersFor } from '../../parts/printed/catalog.js';
import { screwsOf } from '../../parts/printed/screws.js';
import { type Reach, reachOf } from '../../parts/printed/tool-reach.js';
import { HEX_KEYS, toolsFor } from '../../parts/printed/tools.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { FASTENER_SIZES, fastener } from '../../parts/stock/fasteners.js';
import { STARTERS, starterMachine } from '../helpers/machines.js';

// A tool of an ordinary box gets to every screw past all that is there when it is turned, with room to turn.

const kernel = await loadKernel();
const reach = (machine: Machine, screws?: ReturnType<typeof screwsOf>): Reach[] =>
  kernel.scope(() => reachOf(machine, kernel, screws));
const unreached = (found: readonly Reach[]) =>
  found.filter(({ tool }) => tool === undefined).map(({ screw, blockedBy }) => `${screw.what}: ${blockedBy}`);

describe.each(STARTERS)('%s', (starter) => {
  const machine = starterMachine(starter);

  it('has a tool for every screw', () => expect(unreached(reach(machine))).toEqual([]));

  it('names as many screws as the parts ask for', () => {
    // A tool's own screws are turned on the bench, in its own tests.
    const pieces = ordersFor(machine).filter(({ part }) => !isTool(part));
    const asked = pieces.flatMap(({ part }) =>
      part
        .fasteners(machine)
        .filter(({ what }) => /^(socket head cap|set|countersunk) screw/.test(what))
        .flatMap(({ count }) => Array.from({ length: count }, () => part.id)),
    );
    const named = screwsOf(machine)
      .filter(({ drive }) => drive.kind === 'socket')
      .map(({ part }) => part);
    expect(named.sort()).toEqual(asked.sort());
  });
});

describe('what no tool gets to is found', () => {
  const machine = starterMachine('travelling-demonstrator');

  it('the ground stud’s nut in a notch that ends too near', () => {
    const { base } = machine;
    const narrow = { ...machine, base: { ...base, collar: { ...base.collar, studNotchIn: 4.5 } } };
    expect(unreached(reach(narrow))).toEqual(['nut of the ground stud: base-collar']);
  });

  it('jack screws under the legs of the seat', () => {
    const late = screwsOf(machine)
      .filter(({ what }) => what.startsWith('jack screw'))
      .map((screw) => ({ ...screw, step: 69 }));
    expect(late).toHaveLength(2);
    for (const said of unreached(reach(machine, late))) expect(said).toContain('terminal-seat-leg');
    expect(unreached(reach(machine, late))).toHaveLength(2);
  });

  it('collar screws whose heads lie under the tube’s mount', () => {
    const inward = screwsOf(machine)
      .filter(({ part }) => part === 'base-collar')
      .slice(0, 1)
      .map((screw) => ({
        ...screw,
        heads: screw.heads.map((head) => ({
          ...head,
          at: [machine.grip.mount.footRadius - 3, 0, 5] as const,
        })),
      }));
    expect(unreached(reach(machine, inward))[0]).toContain('tube-mount');
  });
});

describe('tools', () => {
  it('hexagon keys are there for every socket head in stock, each longer and thicker than the one before', () => {
    for (const size of FASTENER_SIZES) expect(HEX_KEYS.map((key) => key.size)).toContain(fastener(size).key);
    for (const [i, key] of HEX_KEYS.entries()) {
      expect(key.long).toBeGreaterThan(2 * key.short);
      if (i === 0) continue;
      expect(key.size).toBeGreaterThan(HEX_KEYS[i - 1]!.size);
      expect(key.long).toBeGreaterThan(HEX_KEYS[i - 1]!.long);
    }
  });

  it('a size without a key is refused', () => {
    expect(() => toolsFor({ kind: 'socket', key: 2.4 })).toThrow(
      /no hexagon key of 2.4 mm; known: 1.3,1.5,2,/,
    );
  });

  it('take the room of their arms: a key of 2.5 mm its long arm along the screw and its short one across', () => {
    const [driver, long, short] = toolsFor({ kind: 'socket', key: 2.5 });
    kernel.scope(() => {
      const bounds = (tool: typeof long) => kernel.bounds(tool!.stem(kernel));
      expect(bounds(long).max[2]).toBe(56);
      expect(bounds(short).max[2]).toBe(18);
      expect(bounds(driver).max[2]).toBe(175);
      expect(kernel.bounds(long!.sweep!(kernel)).max[0]).toBeCloseTo(18, 1);
      expect(kernel.bounds(short!.sweep!(kernel)).max[0]).toBeCloseTo(56, 1);
      // A sixth of a disc, and half the key's width to its sides.
      const sweep = kernel.volume(long!.sweep!(kernel)) / 2.5;
      const wanted = (Math.PI * 18 ** 2) / 6 + 2 * 18 * 1.25;
      expect(sweep / wanted).toBeCloseTo(1, 1);
    });
  });
});
