import type { Loop, Vec2 } from './vector.js';

/** mm; how far a facet may stand off the true circle. Below what a 0.4 mm nozzle can show; common practice. */
export const CHORD_TOLERANCE = 0.02;

/** Every circle gets a multiple of this many sides, so that it keeps its extreme points on x and y. */
const SIDES_STEP = 4;
const SIDES_LEAST = 16;

/**
 * Number of sides of a circle so that no chord stands off by more than the tolerance: n >= pi / acos(1 - e/r).
 * @param radius mm, > 0
 */
export function sidesFor(radius: number, tolerance: number = CHORD_TOLERANCE): number {
  if (!(radius > 0)) throw new RangeError(`a circle needs a radius above 0 mm, got ${radius}`);
  const exact = tolerance < radius ? Math.PI / Math.acos(1 - tolerance / radius) : SIDES_LEAST;
  return Math.max(SIDES_LEAST, Math.ceil(exact / SIDES_STEP) * SIDES_STEP);
}

/** Vertex radius of a polygon whose flats touch a circle: what a hole is drawn with, so that its pin still passes. */
export function circumscribed(radius: number, sides: number): number {
  return radius / Math.cos(Math.PI / sides);
}

/** Area of a regular polygon over that of the circle through its vertices. */
export function polygonFactor(sides: number): number {
  return (sides / (2 * Math.PI)) * Math.sin((2 * Math.PI) / sides);
}

/** A regular polygon through its vertices, counter-clockwise, first vertex on +x. */
export function polygon(vertexRadius: number, sides: number, centre: Vec2 = [0, 0]): Loop {
  return Array.from({ length: sides }, (_, i): Vec2 => {
    const angle = (2 * Math.PI * i) / sides;
    return [centre[0] + vertexRadius * Math.cos(angle), centre[1] + vertexRadius * Math.sin(angle)];
  });
}

/** A round shaft as drawn: vertices on the circle. */
export function shaftLoop(radius: number, centre: Vec2 = [0, 0]): Loop {
  return polygon(radius, sidesFor(radius), centre);
}

/** A round hole as drawn: flats on the circle. Counter-clockwise; reverse it to use it as a hole of a region. */
export function holeLoop(radius: number, centre: Vec2 = [0, 0]): Loop {
  const sides = sidesFor(radius);
  return polygon(circumscribed(radius, sides), sides, centre);
}

/** An axis-aligned rectangle, counter-clockwise. */
export function rectangle(xMin: number, yMin: number, xMax: number, yMax: number): Loop {
  return [
    [xMin, yMin],
    [xMax, yMin],
    [xMax, yMax],
    [xMin, yMax],
  ];
}

/** The same loop run the other way round, which turns material into hole. */
export function reversed(loop: Loop): Loop {
  return [...loop].reverse();
}

/** The straight slot swept by a hole moved from one point to another: flats circumscribed at both ends. */
export function slotLoop(radius: number, from: Vec2, to: Vec2): Loop {
  const sides = sidesFor(radius);
  const vertexRadius = circumscribed(radius, sides);
  const heading = Math.atan2(to[1] - from[1], to[0] - from[0]);
  const half = sides / 2;
  const arc = (centre: Vec2, start: number): Vec2[] =>
    Array.from({ length: half + 1 }, (_, i): Vec2 => {
      const angle = start + (Math.PI * i) / half;
      return [centre[0] + vertexRadius * Math.cos(angle), centre[1] + vertexRadius * Math.sin(angle)];
    });
  return [...arc(to, heading - Math.PI / 2), ...arc(from, heading + Math.PI / 2)];
}
