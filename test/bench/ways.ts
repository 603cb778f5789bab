import { WayFinder } from '../../parts/checks/insulation.js';
import { placedPieces } from '../../parts/checks/insulation-scene.js';
import type { Machine } from '../../parts/machine/machine.js';
import type { Kernel } from '../../parts/solid/kernel.js';
import type { Report } from './field.js';

// Ways over the solids: from nothing, once more after one piece has moved, and how that grows with the machine.

interface Costs {
  /** ms */
  readonly build: number;
  readonly cold: number;
  readonly moved: number;
  readonly triangles: number;
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

async function costs(machine: Machine, kernel: Kernel): Promise<Costs> {
  const start = performance.now();
  const placed = placedPieces(machine, kernel);
  const build = performance.now() - start;
  const finder = new WayFinder(kernel);
  const cold = await timed(() => finder.waysAmong(machine, placed));
  const times: number[] = [];
  for (const by of [3, 6, 9]) {
    const other = placed.map((piece) => {
      if (piece.name !== 'ground-stud') return piece;
      const { turn, move } = piece.placement;
      return { ...piece, placement: { turn, move: [move[0], move[1], move[2] + by] as const } };
    });
    times.push(await timed(() => finder.waysAmong(machine, other)));
  }
  return {
    build,
    cold,
    moved: times.sort((a, b) => a - b)[1]!,
    triangles: placed.reduce((sum, { mesh }) => sum + mesh.triangles.length / 3, 0),
  };
}

/** @param smaller and @param larger demo machine: the smallest and the largest there are */
export async function benchWays(
  smaller: Machine,
  larger: Machine,
  kernel: Kernel,
  report: Report,
): Promise<void> {
  const own = await costs(smaller, kernel);
  const big = await costs(larger, kernel);
  const over = (time: number, base: number) => `${time.toFixed(0)} ms over ${base.toFixed(0)} ms`;
  report(
    'ways: all of them, from nothing, over building',
    own.cold / own.build,
    'none',
    over(own.cold, own.build),
  );
  report(
    'ways: after one piece moved, over from nothing',
    own.moved / own.cold,
    'none',
    over(own.moved, own.cold),
  );
  const grown = big.triangles / own.triangles;
  report(
    'growth: ways, per triangle, largest over smallest',
    big.cold / own.cold / grown,
    '<= 1.5',
    `${own.triangles.toFixed(0)} to ${big.triangles.toFixed(0)} triangles`,
  );
}
