import type { Vec3 } from '../solid/vector.js';
import type { Body, Scene } from './scene.js';

/**
 * What is at least left of a way from a place to conductors of a net: straight to boxes around conductors, with those of
 * third nets as free length.
 * @param from net that ways start at: nothing leads back over it
 */
export function leastAhead(
  scene: Scene,
  from: string,
  to: string,
): {
  /** mm from a point of the scene */
  at(point: Vec3): number;
  /** mm from a conductor of a net */
  ofNet(net: string): number;
} {
  const byNet = new Map<string, Body[]>();
  for (const body of scene.bodies) {
    if (body.net === undefined || body.net === from) continue;
    byNet.set(body.net, [...(byNet.get(body.net) ?? []), body]);
  }
  const left = new Map<string, number>([...byNet.keys()].map((net) => [net, Number.POSITIVE_INFINITY]));
  left.set(to, 0);
  const open = new Set(byNet.keys());
  while (open.size > 0) {
    const nearest = [...open].reduce((best, net) => (left.get(net)! < left.get(best)! ? net : best));
    open.delete(nearest);
    for (const net of open) {
      const way = left.get(nearest)! + between(byNet.get(nearest)!, byNet.get(net)!);
      if (way < left.get(net)!) left.set(net, way);
    }
  }
  const boxes = [...byNet].flatMap(([net, bodies]) =>
    bodies.map(({ min, max }) => ({ min, max, on: left.get(net)! })),
  );
  return {
    at: ([x, y, z]) => {
      let least = Number.POSITIVE_INFINITY;
      for (const { min, max, on } of boxes) {
        const dx = Math.max(min[0] - x, 0, x - max[0]);
        const dy = Math.max(min[1] - y, 0, y - max[1]);
        const dz = Math.max(min[2] - z, 0, z - max[2]);
        const way = Math.sqrt(dx * dx + dy * dy + dz * dz) + on;
        if (way < least) least = way;
      }
      return least;
    },
    ofNet: (net) => left.get(net) ?? 0,
  };
}

/** Least distance between boxes around two sets of bodies. */
const between = (some: readonly Body[], others: readonly Body[]): number =>
  Math.min(
    ...some.flatMap((a) =>
      others.map((b) =>
        Math.hypot(...a.min.map((low, axis) => Math.max(b.min[axis]! - a.max[axis]!, 0, low - b.max[axis]!))),
      ),
    ),
  );
