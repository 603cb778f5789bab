import type { Vec3 } from '../solid/vector.js';
import { triangleOf } from './half-edges.js';
import type { Body } from './scene.js';
import { pulledTight } from './strip.js';
import type { SurfaceGraph } from './surface-graph.js';
import type { Leg } from './way.js';

/** A little more than any link is long, in spacings. */
const LONGEST_LINK = 2.7;

/** The geodesic that a way over nodes of one surface can be pulled to. @throws RangeError when they are not linked */
export function legOver(graph: SurfaceGraph, nodes: readonly number[]): Leg {
  const places = nodes.map((node) => graph.placeOf(node));
  const { body } = places[0]!;
  const { shape } = body;
  const reach = LONGEST_LINK * shape.spacing(graph.grain.spacing);
  const crossed: number[] = [];
  for (let i = 1; i < places.length; i++) {
    const line = shape.unfolding.straight(places[i - 1]!, places[i]!, reach);
    if (!line) throw new RangeError('a link that no straight line over the surface is');
    crossed.push(...line.crossed);
  }
  const [from, to] = [places[0]!, places.at(-1)!];
  const tight = pulledTight(shape, { from, to, crossed });
  return {
    kind: 'surface',
    on: body.name,
    length: tight.length,
    points: tight.points.map((at) => body.toScene(at)),
    outward: [
      body.normal(from.triangle),
      ...tight.crossed.map((edge) => between(body, triangleOf(edge), triangleOf(shape.edges.twins[edge]!))),
      body.normal(to.triangle),
    ],
  };
}

/** The direction away from two triangles at their common edge. */
function between(body: Body, a: number, b: number): Vec3 {
  const [p, q] = [body.normal(a), body.normal(b)];
  const sum: Vec3 = [p[0] + q[0], p[1] + q[1], p[2] + q[2]];
  const size = Math.hypot(...sum);
  // A sliver has no direction, and a fold back onto itself none that leads out of both.
  return size > 1e-6 ? [sum[0] / size, sum[1] / size, sum[2] / size] : p;
}
