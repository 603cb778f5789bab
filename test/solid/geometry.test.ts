import jscad from '@jscad/modeling';
import { describe, expect, it } from 'vitest';
import { CODE_ALPHABET } from '../../parts/printed/identity.js';
import { convexOverlap } from '../../parts/solid/clip.js';
import {
  circumscribed,
  holeLoop,
  polygon,
  polygonFactor,
  rectangle,
  shaftLoop,
  sidesFor,
  slotLoop,
} from '../../parts/solid/facets.js';
import { loadKernel } from '../../parts/solid/manifold-kernel.js';
import { strokeLength } from '../../parts/solid/marks.js';
import { filleted, teardrop } from '../../parts/solid/outline.js';
import {
  integrate,
  lensArea,
  loopArea,
  revolvedVolume,
  segmentArea,
  slotFromFlat,
  slotThroughRing,
} from '../../parts/solid/sections.js';

const kernel = await loadKernel();

describe('circles as polygons', () => {
  it.each([1.5, 5, 25, 80])('a hole of radius %d lets its pin pass, a shaft stays inside', (radius) => {
    const flats = holeLoop(radius).map(([x, y], i, all) => {
      const [u, v] = all[(i + 1) % all.length]!;
      return Math.hypot((x + u) / 2, (y + v) / 2);
    });
    expect(Math.min(...flats)).toBeGreaterThanOrEqual(radius - 1e-9);
    for (const [x, y] of shaftLoop(radius)) expect(Math.hypot(x, y)).toBeLessThanOrEqual(radius + 1e-9);
  });

  // n >= pi / acos(1 - e/r): the number of sides for a chord error, arithmetic.
  it('takes enough sides for the chord tolerance', () => {
    expect(sidesFor(25, 0.01)).toBe(112);
    expect(sidesFor(10, 0.05)).toBe(32);
    expect(() => sidesFor(Number.NaN)).toThrow(RangeError);
  });

  // 64-gon over circle: sin(2 pi/n) n/(2 pi) = 0.998394, arithmetic.
  it('knows how much a polygon lacks of its circle', () => {
    expect(polygonFactor(64)).toBeCloseTo(0.998394, 6);
    expect(circumscribed(5, 6)).toBeCloseTo(11.547 / 2, 4);
  });
});

describe('areas and volumes in closed form', () => {
  // Frustum r 20/10, h 40: 29 321.5314 mm3; cap R 50, h 10: 14 660.7657 mm3. Mathematics.
  it('turns profiles', () => {
    const frustum = revolvedVolume(
      [
        [0, 0],
        [20, 0],
        [10, 40],
        [0, 40],
      ],
      1e6,
    );
    expect(frustum).toBeCloseTo(29321.5314, 3);
    const exact = kernel.volume(
      kernel.revolve(
        [
          [4, 0],
          [20, 0],
          [10, 40],
          [4, 40],
        ],
        48,
      ),
    );
    expect(
      exact /
        revolvedVolume(
          [
            [4, 0],
            [20, 0],
            [10, 40],
            [4, 40],
          ],
          48,
        ),
    ).toBeCloseTo(1, 5);
  });

  it('integrates section areas', () => {
    const cap = integrate((z) => Math.PI * (50 ** 2 - (40 + z) ** 2), 0, 10);
    expect(cap).toBeCloseTo(14660.7657, 3);
  });

  it('agrees with counted cells for slots, segments and lenses', () => {
    const count = (inside: (x: number, y: number) => boolean) => {
      const n = 1500;
      const half = 12;
      let hits = 0;
      for (let i = 0; i < n; i++) {
        for (let j = 0; j < n; j++) {
          if (inside(-half + ((i + 0.5) * 2 * half) / n, -half + ((j + 0.5) * 2 * half) / n)) hits++;
        }
      }
      return (hits * (2 * half) ** 2) / n ** 2;
    };
    const r = Math.hypot;
    expect(slotThroughRing(5, 10, 3)).toBeCloseTo(
      count((x, y) => x > 0 && Math.abs(y) < 1.5 && r(x, y) > 5 && r(x, y) < 10),
      0.9,
    );
    expect(slotFromFlat(6, 10, 8)).toBeCloseTo(
      count((x, y) => x > 6 && Math.abs(y) < 4 && r(x, y) < 10),
      0.9,
    );
    expect(segmentArea(10, 6)).toBeCloseTo(
      count((x, y) => x > 6 && r(x, y) < 10),
      0.9,
    );
    expect(lensArea(10, 4, 8)).toBeCloseTo(
      count((x, y) => r(x, y) < 10 && r(x - 8, y) < 4),
      0.9,
    );
  });

  it('clips convex polygons', () => {
    const square = rectangle(0, 0, 2, 2);
    expect(convexOverlap(square, rectangle(1, 1, 5, 5))).toBeCloseTo(1, 12);
    expect(convexOverlap(square, rectangle(3, 3, 5, 5))).toBe(0);
    expect(convexOverlap(polygon(1, 60), polygon(5, 8))).toBeCloseTo(loopArea(polygon(1, 60)), 12);
  });
});

describe('outlines', () => {
  it('rounds corners: a square loses (4 - pi) r2', () => {
    const corners = rectangle(0, 0, 10, 10).map((at) => ({ at, radius: 2 }));
    expect(loopArea(filleted(corners))).toBeCloseTo(100 - (4 - Math.PI) * 4, 0);
    expect(() => filleted(rectangle(0, 0, 3, 3).map((at) => ({ at, radius: 2 })))).toThrow(RangeError);
  });

  // Apex of a 45 degree teardrop: r sqrt 2 above the centre, geometry.
  it('gives a lying hole a roof', () => {
    const loop = teardrop(5, [0, 0]);
    expect(Math.max(...loop.map(([, y]) => y))).toBeGreaterThanOrEqual(5 * Math.SQRT2);
    expect(loopArea(loop)).toBeCloseTo(25 * (0.75 * Math.PI + 1), 0);
  });

  it('draws a slot as long as its centres are apart', () => {
    expect(loopArea(slotLoop(2, [0, 0], [10, 0]))).toBeCloseTo(4 * 10 + Math.PI * 4, 0);
  });
});

describe('engraved characters', () => {
  it('has the stroke lengths of the font', () => {
    for (const character of CODE_ALPHABET) {
      const { segments } = jscad.text.vectorChar({ height: 10 / 1.5 }, character);
      const length = segments.reduce(
        (sum, line) =>
          sum +
          line
            .slice(1)
            .reduce((part, [x, y], i) => part + Math.hypot(x! - line[i]![0]!, y! - line[i]![1]!), 0),
        0,
      );
      expect(strokeLength(character, 10), character).toBeCloseTo(length, 1);
    }
  });

  it('reads the same from below when mirrored', () => {
    const mark = {
      text: '7K',
      height: 5,
      stroke: 0.7,
      depth: 0.4,
      layout: { kind: 'line', centre: [3, 0], heading: 0 },
    } as const;
    const seen = kernel
      .characters({ ...mark, mirrored: false })
      .flat()
      .map(([x]) => x);
    const below = kernel
      .characters({ ...mark, mirrored: true })
      .flat()
      .map(([x]) => -x);
    expect(Math.min(...below)).toBeCloseTo(Math.min(...seen), 4);
    expect(Math.max(...below)).toBeCloseTo(Math.max(...seen), 4);
  });
});

describe('the kernel’s door', () => {
  it('refuses what the modelling library accepts without a word', () => {
    expect(() => kernel.extrude([rectangle(0, 0, 1, 1)], 0, 0)).toThrow(RangeError);
    expect(() => kernel.extrude([rectangle(0, 0, 1, Number.NaN)], 0, 1)).toThrow(RangeError);
    expect(() =>
      kernel.loft([
        { z: 0, loop: rectangle(0, 0, 1, 1) },
        { z: 0, loop: rectangle(0, 0, 1, 1) },
      ]),
    ).toThrow(RangeError);
    expect(() =>
      kernel.revolve(
        [
          [-1, 0],
          [1, 0],
          [1, 1],
        ],
        32,
      ),
    ).toThrow(RangeError);
    expect(() =>
      kernel.revolve(
        [
          [1, 0],
          [2, 0],
          [2, 1],
        ],
        3.5,
      ),
    ).toThrow(RangeError);
  });
});
