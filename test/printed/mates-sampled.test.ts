import { describe, expect, it } from 'vitest';
import type { Machine } from '../../parts/machine/machine.js';
import { assembly, type Piece } from '../../parts/printed/assembly.js';
import { declaredOverlaps } from '../../parts/printed/mates.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { insideOf, pointsIn, shared } from '../helpers/inside.js';
import { starterMachine } from '../helpers/machines.js';
import { overlaps } from '../helpers/mating.js';

// What mating pieces share, a second time: by points counted in both meshes instead of by booleans.

const kernel = await loadKernel();
const SEED = 20261126;
const POINTS = 60_000;

interface Sampled {
  /** mm3 */
  readonly volume: number;
  /** mm3, one standard deviation if the points were random: evenly spread ones do better */
  readonly error: number;
  /** mm3 for which there is one point */
  readonly each: number;
}

function piecesOf(machine: Machine, kind: string): Piece[] {
  return assembly(machine).filter((piece) => piece.of.replace(/-(left|right)$/, '') === kind);
}

/** What all copies of two kinds share, by points in the boxes that they share. */
function sampled(machine: Machine, [a, b]: readonly [string, string]): Sampled {
  const meshes = new Map<string, ReturnType<typeof kernel.mesh>>();
  const inside = (piece: Piece) => {
    const mesh = meshes.get(piece.key) ?? kernel.scope(() => kernel.mesh(piece.build(kernel)));
    meshes.set(piece.key, mesh);
    return insideOf(mesh, piece.placement);
  };
  let [volume, variance, each] = [0, 0, 0];
  for (const first of piecesOf(machine, a).map(inside)) {
    for (const second of piecesOf(machine, b).map(inside)) {
      const box = shared(first.bounds, second.bounds);
      if (!box) continue;
      const size = box.max.reduce((product, max, i) => product * (max - box.min[i]!), 1);
      let hits = 0;
      for (const point of pointsIn(box, POINTS, SEED)) if (first.holds(point) && second.holds(point)) hits++;
      const share = hits / POINTS;
      volume += share * size;
      variance += (size ** 2 * share * (1 - share)) / POINTS;
      each = Math.max(each, size / POINTS);
    }
  }
  return { volume, error: Math.sqrt(variance), each };
}

const byKernel = (machine: Machine, pair: readonly [string, string]) =>
  kernel.scope(() => overlaps(machine, kernel, pair))[0]?.found ?? 0;
const declared = (machine: Machine, [a, b]: readonly [string, string]) =>
  declaredOverlaps(machine)
    .filter((each) => [each.a, each.b].sort().join() === [a, b].sort().join())
    .reduce((sum, { volume, pairs }) => sum + volume * pairs, 0);

const machine = starterMachine('travelling-demonstrator');

describe('pieces in their places', () => {
  it.each([
    ['base-collar', 'tube-mount'],
    ['axle-block', 'bearing-carrier-upper'],
    ['rim-ring', 'terminal'],
    ['roller-hub-lower', 'roller-shell-lower'],
    ['comb-bracket-lower', 'base-skirt'],
    ['terminal-seat-leg', 'bearing-carrier-upper'],
  ] as const)('%s and %s share no point', (a, b) => {
    const found = sampled(machine, [a, b]);
    // Their boxes meet, so there was something to look at.
    expect(found.each).toBeGreaterThan(0);
    expect(found.volume).toBe(0);
    expect(byKernel(machine, [a, b])).toBeLessThan(0.1);
  });

  it.each([
    ['travelling-demonstrator', 'lock-ring', 'tube-mount'],
    ['lecture-hall', 'roller-hub-upper', 'bearing-upper'],
    ['inch-built', 'roller-hub-upper', 'bearing-upper'],
  ] as const)('of %s %s and %s share what their fit declares', (starter, a, b) => {
    const machine = starterMachine(starter);
    const wanted = declared(machine, [a, b]);
    expect(wanted).toBeGreaterThan(1);
    const { volume, error } = sampled(machine, [a, b]);
    expect(error).toBeLessThan(0.15 * wanted);
    expect(Math.abs(volume - wanted)).toBeLessThan(3 * error);
  });
});

describe('a machine with a piece drawn too large', () => {
  const spoiled = (m: Machine): Machine => ({
    ...m,
    grip: { ...m.grip, mount: { ...m.grip.mount, footRadius: m.base.collar.seatRadius + 0.3 } },
  });

  it('shares points where it runs into its mate, as many as the booleans say', () => {
    const pair = ['base-collar', 'tube-mount'] as const;
    const { volume, error } = sampled(spoiled(machine), pair);
    expect(volume).toBeGreaterThan(5 * error);
    expect(Math.abs(volume - byKernel(spoiled(machine), pair))).toBeLessThan(3 * error);
  });
});
