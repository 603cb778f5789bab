/** Values on a grid of cells, row after row from low z to high z, at the middles of the cells. */
export interface Grid {
  readonly columns: number;
  readonly rows: number;
  readonly values: Float32Array;
}

/** Share by which neighbours on the coarse grid may differ for what lies between them to be interpolated. */
const SMOOTH = 0.12;

/**
 * A grid of a function of column and row, both counted in cells from 0. Every other cell is worked out; the ones between
 * are interpolated where the function is smooth, and worked out where it is not, as near edges and next to NaN.
 * @param at value at the middle of a cell, NaN where there is none
 */
export function fillGrid(columns: number, rows: number, at: (column: number, row: number) => number): Grid {
  const values = new Float32Array(columns * rows).fill(Number.NaN);
  const known = (column: number, row: number) => values[row * columns + column]!;
  for (let row = 0; row < rows; row += 2)
    for (let column = 0; column < columns; column += 2) values[row * columns + column] = at(column, row);
  for (let row = 0; row < rows; row++) {
    for (let column = 0; column < columns; column++) {
      if (row % 2 === 0 && column % 2 === 0) continue;
      const [left, low] = [column - (column % 2), row - (row % 2)];
      const [right, high] = [Math.min(left + 2, lastEven(columns)), Math.min(low + 2, lastEven(rows))];
      const corners = [known(left, low), known(right, low), known(left, high), known(right, high)];
      const [a, b, c, d] = corners as [number, number, number, number];
      const most = Math.max(...corners);
      const inside = right > left && high > low;
      if (inside && most - Math.min(...corners) <= SMOOTH * most) {
        const [x, y] = [(column % 2) / 2, (row % 2) / 2];
        values[row * columns + column] = (1 - y) * ((1 - x) * a + x * b) + y * ((1 - x) * c + x * d);
      } else values[row * columns + column] = at(column, row);
    }
  }
  return { columns, rows, values };
}

const lastEven = (count: number) => count - 1 - ((count - 1) % 2);
