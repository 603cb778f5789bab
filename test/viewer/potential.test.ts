import { describe, expect, it } from 'vitest';
import { heightOf, legible, potentialAt, steepest } from '../../viewer/rail/potential.js';

/** Flat, steep for 20 mm, flat again, and a little down before the end. */
const points = [
  { z: 0, kilovolts: 0 },
  { z: 100, kilovolts: 10 },
  { z: 120, kilovolts: 70 },
  { z: 300, kilovolts: 100 },
  { z: 310, kilovolts: 98 },
  { z: 340, kilovolts: 110 },
];

describe('the line of the potential', () => {
  it('is read at a height, and beyond its ends', () => {
    expect(potentialAt(points, 50)).toBeCloseTo(5);
    expect(potentialAt(points, 110)).toBeCloseTo(40);
    expect(potentialAt(points, -20)).toBe(0);
    expect(potentialAt(points, 500)).toBe(110);
  });

  it('is read at a potential: where it is first reached from below', () => {
    expect(heightOf(points, 40)).toBeCloseTo(110);
    expect(heightOf(points, 99)).toBeCloseTo(294);
    expect(heightOf(points, 0)).toBe(0);
    expect(heightOf(points, 111)).toBeUndefined();
  });

  it('is steepest where it rises most over a centimetre', () => {
    const { z, gradient } = steepest(points)!;
    // 60 kV in 2 cm.
    expect(gradient).toBeCloseTo(30);
    expect(z).toBeGreaterThanOrEqual(105);
    expect(z).toBeLessThanOrEqual(115);
    // A step that is shorter than that is told as what it adds up to.
    const jump = [
      { z: 0, kilovolts: 0 },
      { z: 50, kilovolts: 0 },
      { z: 50, kilovolts: 20 },
      { z: 100, kilovolts: 20 },
    ];
    expect(steepest(jump)!.gradient).toBeCloseTo(20);
    expect(steepest([{ z: 0, kilovolts: 0 }])).toBeUndefined();
  });
});

describe('labels', () => {
  it('are kept where they have room, the first before the others', () => {
    const at = (...places: number[]) => places.map((y) => ({ y }));
    expect(legible(at(100, 105, 120, 80, 86), 15)).toEqual(at(100, 120, 80));
    expect(legible([], 15)).toEqual([]);
  });
});
