/**
 * Factorises a symmetric positive definite matrix in place: on exit the lower triangle holds L of L·Lᵀ.
 * @param matrix n × n in row order, only its lower triangle is read
 * @returns ln det of the matrix
 * @throws RangeError when it is not positive definite
 */
export function choleskyFactor(matrix: Float64Array, n: number): number {
  let logDeterminant = 0;
  for (let row = 0; row < n; row++) {
    const own = row * n;
    for (let column = 0; column <= row; column++) {
      const other = column * n;
      let sum = matrix[own + column]!;
      for (let k = 0; k < column; k++) sum -= matrix[own + k]! * matrix[other + k]!;
      if (column < row) matrix[own + column] = sum / matrix[other + column]!;
      else {
        if (!(sum > 0)) throw new RangeError(`not positive definite at unknown ${row}`);
        const pivot = Math.sqrt(sum);
        matrix[own + row] = pivot;
        logDeterminant += 2 * Math.log(pivot);
      }
    }
  }
  return logDeterminant;
}

/** Solves L·y = b in place. */
export function solveLower(factor: Float64Array, n: number, vector: Float64Array): void {
  for (let row = 0; row < n; row++) {
    let sum = vector[row]!;
    for (let k = 0; k < row; k++) sum -= factor[row * n + k]! * vector[k]!;
    vector[row] = sum / factor[row * n + row]!;
  }
}

/** Solves L·Lᵀ·x = b in place. */
export function choleskySolve(factor: Float64Array, n: number, vector: Float64Array): void {
  solveLower(factor, n, vector);
  for (let row = n - 1; row >= 0; row--) {
    const value = vector[row]! / factor[row * n + row]!;
    vector[row] = value;
    for (let k = 0; k < row; k++) vector[k]! -= factor[row * n + k]! * value;
  }
}

/** Σ a·b. */
export const dot = (a: Float64Array, b: Float64Array): number => {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i]! * b[i]!;
  return sum;
};
