import { describe, expect, it } from 'vitest';
import {
  contourLines,
  type Grid,
  highestOf,
  onBothSides,
  type PlaneLine,
} from '../../viewer/field/contours.js';

/** Values in cells from 0 to 100 mm outwards and from -50 to 150 mm upwards. */
function gridOf(columns: number, rows: number, valueAt: (r: number, z: number) => number): Grid {
  const [radius, bottom, top] = [100, -50, 150];
  const share = Float32Array.from({ length: columns * rows }, (_, cell) =>
    valueAt(
      (radius * ((cell % columns) + 0.5)) / columns,
      bottom + ((top - bottom) * (Math.floor(cell / columns) + 0.5)) / rows,
    ),
  );
  return { radius, bottom, top, columns, rows, share };
}

const pointsOf = (line: PlaneLine) =>
  Array.from({ length: line.length / 2 }, (_, i) => [line[2 * i]!, line[2 * i + 1]!] as const);
const isClosed = (line: PlaneLine) => line[0] === line.at(-2) && line[1] === line.at(-1);

describe('contour lines', () => {
  it('follow a circle about a point on the axis, once round on both sides of it', () => {
    const lines = contourLines(
      gridOf(100, 200, (r, z) => -Math.hypot(r, z - 50)),
      -40,
    );
    expect(lines).toHaveLength(1);
    expect(isClosed(lines[0]!)).toBe(true);
    const points = pointsOf(lines[0]!);
    expect(points.length).toBeGreaterThan(300);
    for (const [x, z] of points) expect(Math.abs(Math.hypot(x, z - 50) - 40)).toBeLessThan(0.05);
    expect(Math.min(...points.map(([x]) => x))).toBeCloseTo(-40, 1);
    expect(Math.max(...points.map(([x]) => x))).toBeCloseTo(40, 1);
  });

  it('follow a ring off the axis, once on either side', () => {
    const lines = contourLines(
      gridOf(50, 100, (r, z) => -Math.hypot(r - 50, z - 50)),
      -30,
    );
    expect(lines).toHaveLength(2);
    expect(lines.every(isClosed)).toBe(true);
    for (const [x, z] of lines.flatMap(pointsOf)) {
      expect(Math.abs(Math.hypot(Math.abs(x) - 50, z - 50) - 30)).toBeLessThan(0.1);
    }
  });

  it('have higher values to their left', () => {
    const lines = contourLines(
      gridOf(10, 20, (r) => r),
      42,
    );
    // From the middle of the lowest to that of the highest cells: the near line down, the far one up.
    const ends = lines.map((line) => [pointsOf(line)[0]!, pointsOf(line).at(-1)!]);
    expect(ends.map((both) => both.map((point) => point.map((value) => Math.round(value))))).toEqual(
      expect.arrayContaining([
        [
          [42, 145],
          [42, -45],
        ],
        [
          [-42, -45],
          [-42, 145],
        ],
      ]),
    );
    expect(lines).toHaveLength(2);
  });

  it('stop before metal, and go on behind it', () => {
    const grid = gridOf(50, 100, (r, z) => (Math.abs(z - 50) < 20 ? Number.NaN : r));
    const lines = contourLines(grid, 31);
    expect(lines).toHaveLength(4);
    for (const [, z] of lines.flatMap(pointsOf)) expect(Math.abs(z - 50)).toBeGreaterThanOrEqual(20);
    expect(lines.flatMap((line) => [...line]).every(Number.isFinite)).toBe(true);
  });

  it.each([
    [0.4, 'joined'],
    [0.6, 'apart'],
  ])('at a saddle of 0.5 leave what is above %f %s', (level, how) => {
    const share = Float32Array.from([0, 1, 0, 0, 0, 1]);
    const lines = contourLines({ radius: 3, bottom: 0, top: 2, columns: 3, rows: 2, share }, level);
    // Between the second and the third column, on the near side: each piece cuts a corner off the square.
    const inSquare = lines
      .flatMap((line) =>
        pointsOf(line)
          .slice(1)
          .map((to, i) => [pointsOf(line)[i]!, to] as const),
      )
      .map(([a, b]) => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2] as const)
      .filter(([x]) => x > 1.5 && x < 2.5);
    const corners = inSquare.map(([x, z]) => `${x < 2 ? 'inner' : 'outer'} ${z < 1 ? 'lower' : 'upper'}`);
    // A low corner where the high ones are joined, else a high one.
    expect(corners.sort()).toEqual(
      how === 'joined' ? ['inner upper', 'outer lower'] : ['inner lower', 'outer upper'],
    );
  });

  it('are none where a level is not reached, and none in a grid that is all metal', () => {
    expect(
      contourLines(
        gridOf(5, 5, () => 0.3),
        0.5,
      ),
    ).toEqual([]);
    expect(
      contourLines(
        gridOf(5, 5, () => Number.NaN),
        0.5,
      ),
    ).toEqual([]);
  });
});

describe('the highest value', () => {
  it('is found with its place, metal left out', () => {
    const grid = gridOf(10, 21, (r, z) => (r < 10 ? Number.NaN : 1 / (r + Math.abs(z - 50))));
    const { share, at } = highestOf(grid)!;
    expect(share).toBeCloseTo(1 / 15);
    expect(at[0]).toBeCloseTo(15);
    expect(at[1]).toBeCloseTo(50);
    expect(highestOf(gridOf(3, 3, () => Number.NaN))).toBeUndefined();
  });
});

it('lines of the meridian plane are drawn on both sides', () => {
  const [line, mirrored, ...others] = onBothSides([Float32Array.from([1, 2, 3, 4])]);
  expect([...line!]).toEqual([1, 2, 3, 4]);
  expect([...mirrored!]).toEqual([-1, 2, -3, 4]);
  expect(others).toEqual([]);
});
