import { expect, it } from 'vitest';
import { fillGrid } from '../../../parts/field/boundary/grid.js';

const smooth = (column: number, row: number) => 10 + 0.1 * column + 0.05 * row;

it('interpolates what is smooth, from a quarter of the cells', () => {
  let asked = 0;
  const { values } = fillGrid(41, 61, (column, row) => {
    asked++;
    return smooth(column, row);
  });
  expect(asked).toBeLessThan(0.3 * 41 * 61);
  for (const [i, value] of values.entries()) expect(value).toBeCloseTo(smooth(i % 41, Math.floor(i / 41)), 5);
});

it('works out what is not: a jump and a hole stay where they are', () => {
  const at = (column: number, row: number) => {
    if (Math.hypot(column - 20, row - 20) < 7) return Number.NaN;
    return column < 10 ? 1 : 5;
  };
  const { values } = fillGrid(40, 40, at);
  for (const [i, value] of values.entries()) expect(value).toEqual(at(i % 40, Math.floor(i / 40)));
});
