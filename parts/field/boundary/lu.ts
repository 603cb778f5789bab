/** A square matrix, row after row, factored in place with its row order. */
export interface Factored {
  readonly size: number;
  readonly matrix: Float64Array;
  readonly order: Int32Array;
}

/** LU factors with partial pivoting; the matrix is written over. @throws RangeError when it is singular */
export function factor(matrix: Float64Array, size: number): Factored {
  const order = Int32Array.from({ length: size }, (_, i) => i);
  for (let k = 0; k < size; k++) {
    let pivot = k;
    let most = Math.abs(matrix[k * size + k]!);
    for (let i = k + 1; i < size; i++) {
      const value = Math.abs(matrix[i * size + k]!);
      if (value > most) [pivot, most] = [i, value];
    }
    if (!(most > 0 && Number.isFinite(most))) throw new RangeError(`singular at unknown ${k + 1} of ${size}`);
    if (pivot !== k) swapRows(matrix, order, size, k, pivot);
    const top = matrix.subarray(k * size, (k + 1) * size);
    const inverse = 1 / top[k]!;
    for (let i = k + 1; i < size; i++) {
      const row = matrix.subarray(i * size, (i + 1) * size);
      const factorOf = row[k]! * inverse;
      if (factorOf === 0) continue;
      row[k] = factorOf;
      for (let j = k + 1; j < size; j++) row[j]! -= factorOf * top[j]!;
    }
  }
  return { size, matrix, order };
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
