/** A square matrix, row after row, factored in place with its row order. */
export interface Factored {
  readonly size: number;
  readonly matrix: Float64Array;
  readonly order: Int32Array;
}

/** Columns that are eliminated together, so that each row below is read and written once for all of them. */
const BLOCK = 4;

/** LU factors with partial pivoting; the matrix is written over. @throws RangeError when it is singular */
export function factor(matrix: Float64Array, size: number): Factored {
  const order = Int32Array.from({ length: size }, (_, i) => i);
  for (let first = 0; first < size; first += BLOCK) {
    const last = Math.min(size, first + BLOCK);
    for (let k = first; k < last; k++) eliminate(matrix, order, size, k, last);
    finishRows(matrix, size, first, last);
    if (last - first === BLOCK) updateBelow(matrix, size, first);
  }
  return { size, matrix, order };
}

/** Brings column k's largest value into row k and takes it out of the rows below, within the block's columns only. */
function eliminate(matrix: Float64Array, order: Int32Array, size: number, k: number, last: number): void {
  let pivot = k;
  let most = Math.abs(matrix[k * size + k]!);
  for (let i = k + 1; i < size; i++) {
    const value = Math.abs(matrix[i * size + k]!);
    if (value > most) {
      pivot = i;
      most = value;
    }
  }
  if (!(most > 0 && Number.isFinite(most))) throw new RangeError(`singular at unknown ${k + 1} of ${size}`);
  if (pivot !== k) swapRows(matrix, order, size, k, pivot);
  const top = k * size;
  const inverse = 1 / matrix[top + k]!;
  for (let i = k + 1; i < size; i++) {
    const row = i * size;
    const share = matrix[row + k]! * inverse;
    matrix[row + k] = share;
    for (let j = k + 1; j < last; j++) matrix[row + j]! -= share * matrix[top + j]!;
  }
}

/** The block's own rows to the right of its columns. */
function finishRows(matrix: Float64Array, size: number, first: number, last: number): void {
  for (let i = first + 1; i < last; i++) {
    for (let k = first; k < i; k++) {
      const share = matrix[i * size + k]!;
      const [row, top] = [i * size, k * size];
      for (let j = last; j < size; j++) matrix[row + j]! -= share * matrix[top + j]!;
    }
  }
}

/** All rows below a whole block, two at a time. */
function updateBelow(matrix: Float64Array, size: number, first: number): void {
  const from = first + BLOCK;
  const top0 = first * size;
  const top1 = top0 + size;
  const top2 = top1 + size;
  const top3 = top2 + size;
  for (let i = from; i < size; i += 2) {
    const a = i * size;
    const b = i + 1 < size ? a + size : a;
    const a0 = matrix[a + first]!;
    const a1 = matrix[a + first + 1]!;
    const a2 = matrix[a + first + 2]!;
    const a3 = matrix[a + first + 3]!;
    if (a === b) {
      for (let j = from; j < size; j++)
        matrix[a + j]! -=
          a0 * matrix[top0 + j]! + a1 * matrix[top1 + j]! + a2 * matrix[top2 + j]! + a3 * matrix[top3 + j]!;
      return;
    }
    const b0 = matrix[b + first]!;
    const b1 = matrix[b + first + 1]!;
    const b2 = matrix[b + first + 2]!;
    const b3 = matrix[b + first + 3]!;
    for (let j = from; j < size; j++) {
      const t0 = matrix[top0 + j]!;
      const t1 = matrix[top1 + j]!;
      const t2 = matrix[top2 + j]!;
      const t3 = matrix[top3 + j]!;
      matrix[a + j]! -= a0 * t0 + a1 * t1 + a2 * t2 + a3 * t3;
      matrix[b + j]! -= b0 * t0 + b1 * t1 + b2 * t2 + b3 * t3;
    }
  }
}

function swapRows(matrix: Float64Array, order: Int32Array, size: number, a: number, b: number): void {
  const row = matrix.slice(a * size, (a + 1) * size);
  matrix.copyWithin(a * size, b * size, (b + 1) * size);
  matrix.set(row, b * size);
  [order[a], order[b]] = [order[b]!, order[a]!];
}

/** Solution for one right-hand side. */
export function solveWith({ size, matrix, order }: Factored, right: ArrayLike<number>): Float64Array {
  const x = new Float64Array(size);
  for (let i = 0; i < size; i++) {
    let sum = right[order[i]!]!;
    const from = i * size;
    for (let j = 0; j < i; j++) sum -= matrix[from + j]! * x[j]!;
    x[i] = sum;
  }
  for (let i = size - 1; i >= 0; i--) {
    let sum = x[i]!;
    const from = i * size;
    for (let j = i + 1; j < size; j++) sum -= matrix[from + j]! * x[j]!;
    x[i] = sum / matrix[from + i]!;
  }
  return x;
}
