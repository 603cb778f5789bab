import { describe, expect, it } from 'vitest';
import { holeLoop, rectangle, reversed, shaftLoop } from '../../parts/solid/facets.js';
import { meshFacts, soupOf } from '../../parts/solid/facts.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';

// The mesh oracle is what every written part is judged by, so it is itself held against meshes that are broken on purpose.

const kernel = await loadKernel();
const soup = (solid: Parameters<typeof kernel.mesh>[0]) => {
  const { positions, triangles } = kernel.mesh(solid);
  return Array.from(soupOf(positions, triangles));
};
const box = (size: number, at = 0) =>
  soup(kernel.extrude([rectangle(at, at, at + size, at + size)], at, at + size));
const tube = soup(kernel.extrude([shaftLoop(10), reversed(holeLoop(5))], 0, 8));

describe('meshFacts on sound meshes', () => {
  it('measures a box', () => {
    const facts = meshFacts(box(10));
    expect(facts).toMatchObject({
      triangles: 12,
      degenerate: 0,
      openEdges: 0,
      closed: true,
      pieces: 1,
      genus: 0,
    });
    expect(facts.volume).toBeCloseTo(1000, 6);
    expect(facts.area).toBeCloseTo(600, 6);
    expect(facts.bounds).toEqual({ min: [0, 0, 0], max: [10, 10, 10] });
  });

  it('counts tunnels and pieces', () => {
    expect(meshFacts(tube)).toMatchObject({ closed: true, pieces: 1, genus: 1 });
    expect(meshFacts([...box(1), ...box(1, 5)])).toMatchObject({ closed: true, pieces: 2, genus: 0 });
    expect(meshFacts([...tube, ...box(1, 50)])).toMatchObject({ closed: true, pieces: 2, genus: 1 });
  });

  it('counts two boxes that only share a corner as two', () => {
    expect(meshFacts([...box(1), ...box(1, 1)])).toMatchObject({ closed: true, pieces: 2, genus: 0 });
  });
});

describe('meshFacts on broken meshes', () => {
  it('sees a missing triangle', () => {
    const facts = meshFacts(box(10).slice(9));
    expect(facts.closed).toBe(false);
    expect(facts.openEdges).toBe(3);
  });

  it('sees a doubled triangle', () => {
    const whole = box(10);
    expect(meshFacts([...whole, ...whole.slice(0, 9)]).closed).toBe(false);
  });

  it('sees one triangle turned over', () => {
    const whole = box(10);
    const turned = [...whole.slice(0, 3), ...whole.slice(6, 9), ...whole.slice(3, 6), ...whole.slice(9)];
    expect(meshFacts(turned).closed).toBe(false);
  });

  it('sees a mesh that is inside out', () => {
    const whole = box(10);
    const inside: number[] = [];
    for (let t = 0; t < whole.length; t += 9) {
      inside.push(...whole.slice(t, t + 3), ...whole.slice(t + 6, t + 9), ...whole.slice(t + 3, t + 6));
    }
    const facts = meshFacts(inside);
    expect(facts.closed).toBe(true);
    expect(facts.volume).toBeCloseTo(-1000, 6);
  });

  it('sees a T-junction: a vertex on an edge that only one side knows', () => {
    const whole = box(10);
    const corner = (i: number) => whole.slice(3 * i, 3 * i + 3);
    const middle = corner(0).map((value, axis) => (value + corner(1)[axis]!) / 2);
    const split = [...corner(0), ...middle, ...corner(2), ...middle, ...corner(1), ...corner(2)];
    expect(meshFacts([...split, ...whole.slice(9)]).closed).toBe(false);
  });

  it('sees a vertex moved by the last bit', () => {
    const whole = box(10);
    whole[0] = whole[0]! + 1e-6;
    expect(meshFacts(whole).closed).toBe(false);
  });

  it('counts triangles without area and finds nothing in an empty file', () => {
    expect(meshFacts([...box(10), 0, 0, 0, 0, 0, 0, 1, 1, 1]).degenerate).toBe(1);
    expect(meshFacts([]).closed).toBe(false);
  });
});
