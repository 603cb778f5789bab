import type { Body } from './scene.js';

/** mm between the places that are looked at on the first body. */
const SPACING = 5;

/**
 * Least straight distance (mm) between two bodies, from places on the first to the nearest of the second, so that it may be
 * a few percent too long; undefined when it is not below `within`.
 */
export function surfacesApart(a: Body, b: Body, within: number): number | undefined {
  if (!a.isNear(b.min, b.max, within)) return undefined;
  const nodes = a.shape.nodes(SPACING);
  let least = within;
  let found = false;
  for (let node = 0; node < nodes.count; node++) {
    const nearest = b.nearest(a.toScene(nodes.at(node)), least);
    if (!nearest || nearest.distance >= least) continue;
    least = nearest.distance;
    found = true;
  }
  return found ? least : undefined;
}
