import type { Vec3 } from '../solid/vector.js';
import { type Costs, costOf } from './costs.js';
import type { SurfacePoint } from './nodes.js';
import { type Crossing, crossingOf, type Route } from './route.js';
import type { Body } from './scene.js';
import { pulledTight, type SurfaceLine } from './strip.js';
import type { SurfaceGraph } from './surface-graph.js';

/** A crossing is exchanged for others within so many spacings, and the lines over surfaces tried with each. */
const NEAR = 2.5;
/** Passes over all crossings. */
const PASSES = 8;
/** Others that are tried for each crossing, the nearest first. */
const MOST = 40;
/** What is gained by less is rounding. */
const GAIN = 1e-7;

/**
 * The same route with its crossings where the way is shortest: a graph’s links only nearly tell lengths, so that it may pass
 * a gap a little beside the best place. Here every line is a geodesic.
 */
export function slid(graph: SurfaceGraph, costs: Costs, route: Route): Route {
  const crossings = [...route.crossings];
  const lines = [...route.lines];
  const spacing = graph.grain.spacing;
  const surface = (line: SurfaceLine | undefined) => (line ? costOf(graph, costs, line.length, -1) : 0);
  for (let pass = 0; pass < PASSES; pass++) {
    let gained = false;
    for (const [i, first] of crossings.entries()) {
      let held = first;
      for (const other of alternatives(graph, first, spacing)) {
        const [before, behind] = [lines[i - 1], lines[i]];
        const price = (crossing: Crossing) => costOf(graph, costs, crossing.length, crossing.over);
        const newBefore = before && movedEnd(held.from, before, other.start, spacing);
        const newBehind = behind && movedStart(held.to, behind, other.end, spacing);
        if ((before && !newBefore) || (behind && !newBehind)) continue;
        const now = surface(before) + price(held) + surface(behind);
        if (surface(newBefore) + price(other) + surface(newBehind) > now - GAIN) continue;
        if (newBefore) lines[i - 1] = newBefore;
        if (newBehind) lines[i] = newBehind;
        held = other;
        gained = true;
      }
      crossings[i] = held;
    }
    if (!gained) break;
  }
  return { crossings, lines };
}

/** Other crossings between the same bodies near by. */
function alternatives(graph: SurfaceGraph, crossing: Crossing, spacing: number): Crossing[] {
  const { over, from, to, start } = crossing;
  const here = from.toScene(start.at);
  const count = graph.bridges.length;
  const numbers = over < count ? graph.bridgesOf(from, to) : graph.wallsOf(from).map((i) => count + i);
  return numbers
    .filter((number) => number !== over)
    .flatMap((number) => {
      const found = crossingOf(graph, number, true);
      const turned = found.from === from && found.to === to;
      // What starts and ends on one body may be passed either way.
      const both = from === to ? [found, crossingOf(graph, number, false)] : [];
      return both.length > 0 ? both : [turned ? found : crossingOf(graph, number, false)];
    })
    .map((other) => ({ other, distance: apart(other.from.toScene(other.start.at), here) }))
    .filter(({ distance }) => distance <= NEAR * spacing)
    .sort((a, b) => a.distance - b.distance)
    .slice(0, MOST)
    .map(({ other }) => other);
}

/** How much further than straight a way over the surface to the new end may be. */
const DETOUR = 2;

function movedEnd(
  { shape }: Body,
  line: SurfaceLine,
  to: SurfacePoint,
  spacing: number,
): SurfaceLine | undefined {
  const on = shape.unfolding.straight(line.to, to, DETOUR * NEAR * spacing);
  return on && pulledTight(shape, { from: line.from, to, crossed: [...line.crossed, ...on.crossed] });
}

function movedStart(
  { shape }: Body,
  line: SurfaceLine,
  from: SurfacePoint,
  spacing: number,
): SurfaceLine | undefined {
  const on = shape.unfolding.straight(from, line.from, DETOUR * NEAR * spacing);
  return on && pulledTight(shape, { from, to: line.to, crossed: [...on.crossed, ...line.crossed] });
}

const apart = (a: Vec3, b: Vec3) => Math.hypot(a[0] - b[0], a[1] - b[1], a[2] - b[2]);
